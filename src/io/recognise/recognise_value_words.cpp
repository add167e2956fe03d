#include <utility>

#include "recognise/recognise_word_lists.hpp"

namespace roostward::io {

namespace {

/// Words parted by commas, each folded.
void add(std::vector<ValueWord>& to, std::string_view ours, std::string_view theirs) {
    while (!theirs.empty()) {
        const std::size_t comma = std::min(theirs.find(','), theirs.size());
        to.push_back({taken_apart(theirs.substr(0, comma)).joined, ours});
        theirs.remove_prefix(std::min(comma + 1, theirs.size()));
    }
}

std::vector<std::string> folded_list(std::string_view words) {
    std::vector<ValueWord> list;
    add(list, {}, words);
    std::vector<std::string> out;
    out.reserve(list.size());
    for (ValueWord& word : list)
        out.push_back(std::move(word.theirs));
    return out;
}

}  // namespace

const std::vector<ValueWord>& condition_words_of_the_world() {
    static const std::vector<ValueWord> list = [] {
        std::vector<ValueWord> all;
        add(all, "good", "good,very good,excellent,healthy,vigorous,ok,normal");
        add(all, "good",
            "gut,sehr gut,vital,gesund,ausgezeichnet,keine Schäden,ungeschädigt,bon,très "
            "bon,bonne,sain,excellent,bueno,buena,muy bueno,muy buena,sano,excelente,óptimo");
        add(all, "good",
            "goed,zeer goed,uitstekend,gezond,buono,ottimo,buona,ottima,sano,god,meget god,sund,mycket "
            "god,bra,mycket bra,frisk,bom,muito bom,boa");
        add(all, "fair", "fair,moderate,average,medium,satisfactory");
        add(all, "fair",
            "mittel,mäßig,befriedigend,ausreichend,leicht "
            "geschädigt,mittelmäßig,geschwächt,moyen,moyenne,assez "
            "bon,regular,aceptable,redelijk,voldoende,matig,normaal");
        add(all, "fair",
            "discreto,discreta,sufficiente,medio,media,middel,middelgod,nogenlunde,medel,någorlunda,razoável,"
            "acceptable");
        add(all, "poor", "poor,very poor,bad,declining,dying,critical,severe decline");
        add(all, "poor",
            "schlecht,sehr schlecht,geschädigt,stark "
            "geschädigt,absterbend,mangelhaft,ungenügend,mauvais,mauvaise,médiocre,dépérissant,très "
            "mauvais,malo,mala,muy malo,deficiente,decrépito");
        add(all, "poor",
            "slecht,zeer slecht,onvoldoende,kwijnend,cattivo,pessimo,scarso,mediocre,deperente,dårlig,meget "
            "dårlig,svækket,dålig,mycket dålig,svag,ruim,mau,péssimo");
        add(all, "dead",
            "dead,standing "
            "dead,snag,tot,abgestorben,mort,morte,sec,muerto,muerta,seco,dood,afgestorven,morto,morta,secco,"
            "død,udgået,gået ud,död,torr");
        return all;
    }();
    return list;
}

const std::vector<ValueWord>& yes_no_words_of_the_world() {
    static const std::vector<ValueWord> list = [] {
        std::vector<ValueWord> all;
        add(all, "yes",
            "yes,y,true,t,1,x,ja,j,oui,o,si,sí,s,vero,vrai,wahr,verdadero,waar,sand,sant,sim,present");
        add(all, "no",
            "no,n,false,f,0,nein,non,nee,nej,falso,faux,falsch,onwaar,falsk,falskt,não,none,absent,keine,"
            "kein,geen,aucun,ingen,nessuno,ninguno");
        return all;
    }();
    return list;
}

const std::vector<std::string>& genera() {
    static const std::vector<std::string> list = folded_list(
        "abies,acacia,acer,aesculus,ailanthus,alnus,betula,carpinus,castanea,catalpa,cedrus,celtis,cercis,"
        "corylus,crataegus,cupressus,eucalyptus,"
        "fagus,ficus,fraxinus,ginkgo,gleditsia,ilex,jacaranda,juglans,juniperus,larix,liquidambar,"
        "liriodendron,magnolia,malus,melia,morus,olea,"
        "phoenix,picea,pinus,platanus,populus,prunus,pseudotsuga,pyrus,quercus,robinia,salix,sambucus,"
        "sequoia,sophora,sorbus,styphnolobium,"
        "taxus,thuja,tilia,tipuana,ulmus,washingtonia,zelkova");
    return list;
}

const std::vector<ListedWord>& class_words() {
    static const std::vector<ListedWord> list = word_list(
        "range class klasse classe clase =cat category kategorie categorie categoría categoria stufe =code "
        "=id =idx band group gruppe groep grupo gruppo klass interval");
    return list;
}

}  // namespace roostward::io
