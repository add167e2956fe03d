#include "recognise/recognise_word_lists.hpp"

namespace roostward::io {

namespace {

constexpr const char* crown = "crown canopy krone kronen couronne houppier kroon copa chioma krona =kr";
constexpr const char* not_a_trunk =
    "crown canopy krone kronen couronne houppier kroon copa chioma krona plot pit grate stump year =jahr "
    "root "
    "wurzel class klasse classe clase";

}  // namespace

std::vector<FieldWords> tree_words() {
    return {
        words("trees", "tree",
              "=tree =treeid =treeno =treenumber =treenr =treetag =tag =tagno =assetid =assetno =asset "
              "=treecode =id =number =no =objectid =uniqueid =fid =gid =globalid",
              "=baumnr =baumnummer =baumid =baumkennung =kennung =plakette =nummer =nr =lfdnr =numero =num "
              "=idarbre =numarbre =identifiant =matricule =codearbre "
              "=boomid =boomnr =boomnummer =boomcode =nummer =idarbol =codigo =codigoarbol =numarbol =codice "
              "=idalbero =codalbero =cartellino =numeroalbero =traenr =traeid =traenummer =tradid =tradnr "
              "=tradnummer =kod =codarvore =idarvore",
              "street civic house strasse rue street block species genus type parent"),
        words("trees", "dbh_cm", "=dbh dbh diameter =diam trunk =stem =dia",
              "bhd durchmesser stammdm =dm diametre =dhp stamdiameter diametro =dap =dn tronc =tronco "
              "stammdiameter stamdia grosor =stamm =diametre =stam",
              std::string(not_a_trunk) + " umfang girth circ omkrets omkreds omtrek perimet"),
        words("trees", girth_field, "girth circumference =circ =cbh =gbh",
              "umfang umfg circonf omtrek circunf =perim perimetro perimetre circonferenza omkreds omkrets "
              "omfång =stu =pap "
              "=cap =tourdetronc",
              std::string(not_a_trunk) + " area"),
        words("trees", "height_m", "height =ht =hgt =treeht",
              "höhe hauteur =haut hoogte altura =alt altezza =h højde =höjd höjd =hojd =hauteurm",
              std::string(crown) +
                  " ansatz base fût altitude elevation =nn niveau mount water trunk =dbh sea =brusthöhe"),
        words(
            "trees", "crown_radius_m", "crownradius crownrad =crownr canopyradius =radius",
            "kronenradius kronenr rayoncouronne rayonhouppier kroonstraal radiocopa raggiochioma kroneradius "
            "kronradie",
            "root"),
        words("trees", crown_width_field,
              "crowndiameter crownwidth crownspread canopyspread canopywidth =spread =crown",
              "kronendurchmesser kronenbreite kronendm diametrecouronne diametrehouppier envergure "
              "kroondiameter kroonbreedte diametrocopa diametrochioma kronediameter kronbredd",
              "radius base class condition height =r =rad"),
        words("trees", "condition", "condition =cond vigour vigor health =vitality treestate",
              "zustand =zust =vit vitalität schadstufe =vitalite etatsanitaire =etat =etatarbre conditie "
              "vitaliteit "
              "gezondheid =estado estadosanitario estadofitosanitario =stato statovegetativo =salute "
              "condizioni tilstand sundhed =vitalitet kondition =hälsa vigueur toestand",
              "verkehr water soil boden date datum road"),
        words("trees", "inspected", "inspected inspectiondate lastinspection lastinsp surveydate =surveyed",
              "kontrolldatum kontrolle controllo controle aufnahmedatum datecontrole datereleve datevisite "
              "inspectiedatum controledatum fechainspeccion fecharevision =revision datacontrollo "
              "dataispezione =dataverifica inspektion besigtigelse kontrolldatum besiktning",
              "next nächste prochain volgende"),
        words("trees", "has_hollow", "hollow cavity cavities",
              "höhle höhlung höhlen cavité holte =holtes hueco oquedad cavità =hulhed =hul hålighet =hål",
              ""),
        words("trees", "protected", "protected protection preservation =tpo heritage",
              "geschützt naturdenkmal schutzstatus =schutz protégé remarquable beschermd monumentaal "
              "protegido singular protetto =vincolo fredet beskyttet skyddad skyddsvärd =monumentale",
              "root"),
        words("trees", "owner", "owner ownership managedby",
              "eigentümer besitzer propriétaire eigenaar propietario titular proprietario =ejer ejerforhold "
              "ägare =proprietà",
              ""),
        words("trees", "permission", "permission consent",
              "genehmigung erlaubnis autorisation toestemming permiso permesso tilladelse tillstånd", ""),
        words("trees", "planned_work", "plannedwork =works =work maintenance recommendedwork",
              "maßnahme =arbeiten pflegemaßnahme travaux =intervention maatregel werkzaamheden =obras "
              "trabajos =intervento lavori tiltag åtgärd",
              "date datum due frist"),
        words("trees", "work_due", "workdue duedate",
              "=frist fällig échéance uitvoerdatum =plazo scadenza =deadline", ""),
        words("trees", "species",
              "species botanical scientific latin =taxon commonname treename =genus treetype",
              "baumart =gattung =art essence espèce =genre nomlatin boomsoort =soort soortnaam =especie "
              "nombrecientifico =specie nomescientifico træart trädart trädslag =espécie botanisch artlatein "
              "=nomcommun",
              "street street =protected owner rue"),
        words("trees", "zone", "=zone =compartment", "=abteilung =secteur =sector =settore =vak", ""),
    };
}

std::vector<FieldWords> place_words(std::string_view role) {
    return {
        words(role, "lon", "=lon =long =longitude =lng",
              "=längengrad =laenge =länge =longitud =longitudine =lengtegraad =længdegrad =wgslon", ""),
        words(role, "lat", "=lat =latitude",
              "=breitengrad =breite =latitud =latitudine =breedtegraad =breddegrad =wgslat", ""),
        words(role, "x", "=x =easting =eastings =xcoord =pointx =east",
              "=xkoord =xkoordinate =rechtswert =rw =ostwert =ost =coordx =xlambert =xl93 =utmx =este =est "
              "=xutm "
              "=coordenadax =xrd =xcoordinaat =xetrs =ykkj =øst =östlig =e =xcc =coorx",
              ""),
        words(role, "y", "=y =northing =northings =ycoord =pointy =north",
              "=ykoord =ykoordinate =hochwert =hw =nordwert =nord =coordy =ylambert =yl93 =utmy =norte =yutm "
              "=coordenaday =yrd =ycoordinaat =yetrs =nordlig =n =coory",
              ""),
    };
}

}  // namespace roostward::io
