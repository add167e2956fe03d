#include "recognise/recognise_word_lists.hpp"

#include <algorithm>
#include <iterator>

namespace roostward::io {

namespace {

void append(std::vector<FieldWords>& to, std::vector<FieldWords> from) {
    std::move(from.begin(), from.end(), std::back_inserter(to));
}

std::vector<FieldWords> pass_words() {
    return {
        words(
            "passes", "time", "time datetime timestamp =clock =when",
            "=uhrzeit =zeit =heure =horaire =tijd tijdstip =hora =ora =tid =klokkeslæt =klockslag =zeitpunkt",
            "start end begin sunset"),
        words("passes", "date", "=date =day =evening", "=datum =tag =jour =fecha =data =dato =dag =abend",
              ""),
        words("passes", "count", "=count =number =animals =bats =individuals =n",
              "=anzahl =nombre =effectif =aantal =cantidad =numero =antal =tiere =individuen =nb =quantità",
              ""),
        words("passes", "bearing_deg", "bearing heading direction =course =towards",
              "flugrichtung richtung =cap =direction richting =rumbo dirección direzione =rotta retning "
              "riktning =kurs",
              "street wind"),
        words("passes", "distance_m", "distance =dist",
              "entfernung =abstand afstand distanza distancia avstånd", ""),
        words("passes", "direction", "=direction",
              "=richtung =richting =dirección =direzione =retning =riktning", ""),
        words("passes", "square", "=square =gridsquare",
              "=quadrat =carré =vak =cuadrícula =quadrato =kvadrat", ""),
        words("passes", "near_tree", "neartree nearesttree =tree",
              "=baum =arbre =boom =árbol =albero =træ =träd", ""),
        words("passes", "watch", "=watch station watchpoint vantage =post",
              "beobachtungspunkt =standort =posten =punkt poste =puesto waarnemingspunt =stazione "
              "observationspunkt =estación =standplaats",
              ""),
        words("passes", "behaviour", "behaviour behavior activity",
              "verhalten comportement gedrag comportamiento comportamento adfærd beteende", ""),
        words("passes", "animal", "=animal =species =taxon",
              "tierart =art =espèce =soort =especie =specie =tier =fledermausart", ""),
        words(
            "passes", "height_m", "flightheight =height",
            "flughöhe hauteurvol =hauteur vlieghoogte =altura alturavuelo altezza flyvehøjde flyghöjd =höhe",
            ""),
        words("passes", "accuracy_m", "accuracy =precisionm",
              "genauigkeit précision nauwkeurigheid precisión precisione nøjagtighed noggrannhet", ""),
        words("tracks", "time", "=time =datetime =timestamp", "=uhrzeit =zeit =heure =tijd =hora =ora =tid",
              ""),
        words("tracks", "count", "=count =number =animals", "=anzahl =nombre =aantal =numero =antal", ""),
        words("tracks", "watch", "=watch =station", "=standort =posten =poste =post", ""),
        words("tracks", "animal", "=animal =species", "=art =espèce =soort =especie =specie", ""),
        words("passes", "place_of", "=placeof", "", ""),
    };
}

std::vector<FieldWords> watch_words() {
    return {
        words("watches", "watch", "=watch =station watchpoint vantage =name =post =id",
              "beobachtungspunkt =standort =posten =punkt =poste =puesto waarnemingspunt =stazione "
              "observationspunkt =estación =standplaats =nom =nombre",
              ""),
        words("watches", "date", "=date =day =evening", "=datum =tag =jour =fecha =data =dato =dag =abend",
              ""),
        words("watches", "start", "start =from begin",
              "beginn =von =début =debut =de aanvang =inicio =desde =inizio =dalle =fra =från =van", ""),
        words("watches", "end", "=end endtime =to finish =until =stop",
              "=ende =bis =fin =à =einde =tot =hasta =fine =alle =til =till =slut", ""),
        words("watches", "farthest_seen_m", "farthest howfar visibility",
              "sichtweite =weite distancemax portée zichtafstand alcance visibilità =sigt sigtbarhed =sikt "
              "synvidde",
              ""),
        words("watches", "observer", "observer =who surveyor",
              "beobachter observateur waarnemer observador osservatore observatør observatör", ""),
        words("watches", "temp_c", "temperature =temp =tempc",
              "temperatur température temperatuur temperatura", ""),
        words("watches", "wind_ms", "=wind windspeed windms",
              "windgeschwindigkeit =vent =viento =vento =vind", ""),
        words("watches", "rain", "=rain =wet", "=regen =niederschlag =pluie =lluvia =pioggia =regn =neerslag",
              ""),
        words("watches", "look_deg", "=look =looking =facing", "blickrichtung kijkrichting", ""),
        words("watches", "view_deg", "fieldofview =view =fov", "blickwinkel", ""),
    };
}

std::vector<FieldWords> neighbour_words() {
    return {
        words("lamps", "lumens", "lumen =lm",
              "lichtstrom fluxlumineux lichtstroom flujoluminoso flussoluminoso lysstrøm ljusflöde", ""),
        words("lamps", "height_m", "height",
              "lichtpunkthöhe masthöhe =höhe hauteur hoogte altura altezza højde höjd", "tree"),
        words("boxes", "box", "=box boxid boxno boxnumber",
              "kastennr =kasten nichoir nestkast =caja =cassetta =kasse =holk", ""),
        words("boxes", "tree", "=tree treeid treeno", "baumnr =baum =arbre =boom =árbol =albero =træ =träd",
              ""),
        words("boxes", "hung", "=hung hungon installed datehung",
              "aufgehängt =installé opgehangen instalada installata ophængt uppsatt", ""),
        words("roosts", "date", "=date =seen =found", "=datum =fecha =data =dato", ""),
        words("roosts", "count", "=count =animals =number",
              "=anzahl =nombre =effectif =aantal =antal =numero", ""),
    };
}

}  // namespace

std::vector<ListedWord> word_list(std::string_view words) {
    std::vector<ListedWord> list;
    while (!words.empty()) {
        const std::size_t space = std::min(words.find(' '), words.size());
        if (space > 0) list.emplace_back(words.substr(0, space));
        words.remove_prefix(std::min(space + 1, words.size()));
    }
    return list;
}

FieldWords words(std::string_view role, std::string_view field, std::string_view english,
                 std::string_view others, std::string_view never) {
    return {role, field, word_list(english), word_list(others), word_list(never)};
}

const std::vector<FieldWords>& field_words() {
    static const std::vector<FieldWords> all = [] {
        std::vector<FieldWords> list = tree_words();
        append(list, pass_words());
        append(list, watch_words());
        append(list, neighbour_words());
        for (auto&& word : {words("tallies", "along", "=along", "=entlang", ""),
                            words("tallies", "count", "=count =number", "=anzahl", ""),
                            words("tallies", "start", "=start", "=beginn", ""),
                            words("tallies", "end", "=end", "=ende", "")})
            list.push_back(word);
        for (const std::string_view role : {"trees", "passes", "watches", "lamps", "boxes", "roosts", "roads",
                                            "water", "allowed_area", "avoid"})
            append(list, place_words(role));
        return list;
    }();
    return all;
}

const std::vector<LayerWords>& layer_words() {
    static const std::vector<LayerWords> all{
        {"trees", word_list("tree inventory baum bäume kataster arbre boom bomen árbol arbol albero alberi "
                            "=træ træer =träd arvore árvore inventario stamm")},
        {"lamps", word_list("lamp streetlight =light =lights lighting leuchte laterne beleuchtung éclairage "
                            "luminaire lampadaire verlichting lantaarn farola alumbrado lampione "
                            "illuminazione gadelygte belysning ljus =lys lichtmast")},
        {"roads",
         word_list("road street carriageway highway straße strasse =weg wege =rue rues voirie route =routier "
                   "weg wegen carretera calle calzada strada strade viabilità =vej veje =väg vägar rua")},
        {"water", word_list("water river stream pond lake gewässer bach fluss =see teich =eau rivière cours "
                            "étang =plan beek rivier vijver =agua =río rio arroyo acqua fiume torrente lago "
                            "vandløb =vand =sø å vatten sjö bäck")},
        {"roosts", word_list("roost quartier gîte =gite verblijf kolonie refugio rifugio koloni")},
        {"boxes", word_list("=box boxes nestbox batbox kästen kasten nichoir nestkast caja cassetta nid "
                            "=kasser fuglekasse holk")},
        {"allowed_area",
         word_list(
             "area boundary outline perimeter extent allowed gebiet grenze umriss fläche périmètre emprise "
             "limite gebied begrenzing ámbito límite confine perimetro område grænse gräns =park")},
        {"avoid", word_list("power electric overhead freileitung stromleitung hochspannung leitung "
                            "électrique ligneaérienne hoogspanning bovengronds eléctrica tendido "
                            "elettrodotto elettrica luftledning højspænding kraftledning elnät")},
        {"passes",
         word_list("pass passes flight =flights sighting flüge überflüge =flug durchflug passages vols "
                   "passage vluchten vuelos pases passaggi voli overflyvning forbiflyvning flygningar")},
        {"watches",
         word_list("watch watches effort station observation beobachtung posten postes affût waarneming "
                   "vigilancia puestos postazioni poster observationsposter pass_watch standzeiten")},
        {"tracks", word_list("track tracks flightpath flugweg flugbahn trajectoire trajet vliegroute "
                             "trayectoria traiettoria")},
        {"tallies",
         word_list("tally tallies strichliste zählung comptage telling recuento conteggio tælling räkning")},
        {"routes", word_list("route routes leitlinie strecke itinéraire =route ruta percorso rute rutt")},
        {"squares", word_list("squares quadrate raster carrés vakken cuadrículas quadrati kvadrater rutor")},
        {"canopy", word_list("canopy =chm =ndsm =ndom =mnh =mhc baumhöhe vegetationshöhe hauteurvegetation "
                             "kroonhoogte chioma copas trädhöjd træhøjde =ahn")},
        {"surface", word_list("surface =dsm =dom =mns =mds oberfläche")},
        {"terrain", word_list("terrain =dtm =dgm =mnt =mdt =dem =dhm ground gelände bare")},
    };
    return all;
}

}  // namespace roostward::io
