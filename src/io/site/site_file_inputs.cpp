#include "site/site_file_inputs.hpp"

#include <algorithm>
#include <array>
#include <iterator>
#include <set>
#include <tuple>
#include <utility>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/folding.hpp"

namespace roostward::io {

namespace {

using Names = std::vector<std::string_view>;

FieldSource field_source(const TomlEntry& entry) {
    FieldSource source;
    if (entry.is_text()) {
        source.column = entry.text();
        return source;
    }
    entry.allow_only(Names{"from", "unit", "girth", "values"});
    source.column = required(entry, "from").text();
    source.unit = entry.at("unit").text_or("");
    if (const TomlEntry girth = entry.at("girth"); girth.given()) source.girth = girth.truth();
    const TomlEntry values = entry.at("values");
    for (const std::string& theirs : values.members())
        source.values[theirs] = values.at(theirs).scalar();
    return source;
}

/// What every table of an input may say.
const Names source_names{"file", "layer", "only", "crs", "date_order", "fields"};
/// Those of which the table also says which animals count.
constexpr std::array<std::string_view, 4> layers_of_animals{"passes", "tracks", "tallies", "roosts"};

survey::AnimalFit answer_in(const TomlEntry& entry) {
    constexpr std::array<std::string_view, 3> words{"yes", "no", "noise"};
    const std::string word = entry.word(words);
    return word == "yes"  ? survey::AnimalFit::counted
           : word == "no" ? survey::AnimalFit::another
                          : survey::AnimalFit::noise;
}

/// A path, or a list of paths, which are read in the order of their names, however they stand here.
void take_files(const TomlEntry& entry, const std::filesystem::path& folder, InputSource& source) {
    std::vector<NamedFile> files;
    for (const std::string& name : entry.is_text() ? std::vector{entry.text()} : entry.texts())
        files.push_back({name, (folder / name).lexically_normal().string()});
    if (files.empty()) entry.fail(core::said("site_file.no_file_in_list"));
    std::ranges::sort(files, {}, &NamedFile::file);
    std::set<std::string_view> paths;
    for (const NamedFile& file : files)
        if (!paths.insert(file.path).second)
            entry.fail(core::said("site_file.file_twice", {{"file", file.file}}));
    source.file = files.front().file;
    source.path = files.front().path;
    source.further.assign(std::next(files.begin()), files.end());
}

InputSource table_source(const TomlEntry& entry, std::string role, const std::filesystem::path& folder) {
    InputSource source;
    source.role = std::move(role);
    take_files(required(entry, "file"), folder, source);
    source.layer = entry.at("layer").text_or("");
    source.only = entry.at("only").text_or("");
    source.crs = entry.at("crs").text_or("");
    if (const TomlEntry order = entry.at("date_order"); order.given())
        source.date_order = order.word(std::array<std::string_view, 2>{"dmy", "mdy"});
    const TomlEntry counts = entry.at("counts");
    for (const std::string& word : counts.members())
        source.counts[core::folded(word)] = answer_in(counts.at(word));
    const TomlEntry fields = entry.at("fields");
    for (const std::string& ours : fields.members())
        source.fields[ours] = field_source(fields.at(ours));
    return source;
}

/// A path, a list of paths, or a table.
InputSource input_source(const TomlEntry& entry, const std::string& role,
                         const std::filesystem::path& folder) {
    if (!entry.is_text() && !entry.is_list()) {
        Names names = source_names;
        if (std::ranges::find(layers_of_animals, role) != layers_of_animals.end()) names.push_back("counts");
        entry.allow_only(names);
        return table_source(entry, role, folder);
    }
    InputSource source;
    source.role = role;
    take_files(entry, folder, source);
    return source;
}

AvoidSource avoid_source(const TomlEntry& entry, const std::filesystem::path& folder) {
    entry.allow_only(Names{"file", "layer", "only", "crs", "within_m", "reason", "then", "who"});
    AvoidSource avoid;
    avoid.source = table_source(entry, entry.key(), folder);
    avoid.within = core::Metres(required(entry, "within_m").number({0.0, 10'000.0}));
    avoid.reason = required(entry, "reason").text();
    constexpr std::array<std::string_view, 2> outcomes{"ruled out", "settle first"};
    const TomlEntry then = entry.at("then");
    const TomlEntry who = entry.at("who");
    const bool settle = then.given() && then.word(outcomes) == "settle first";
    if (settle && !who.given()) then.fail(core::said("site_file.settle_needs_who"));
    if (!settle && who.given()) who.fail(core::said("site_file.who_needs_settle"));
    avoid.then = settle ? trees::State::settle_first : trees::State::ruled_out;
    avoid.who = who.text_or("");
    return avoid;
}

/// A layer that [inputs] can name.
struct Role {
    std::string_view name;
    std::optional<InputSource> SiteFile::*source;
    bool of_evenings = false;  ///< see leave_out_evenings
};
constexpr std::array roles{Role{"allowed_area", &SiteFile::allowed_area},
                           Role{"passes", &SiteFile::passes},
                           Role{"tracks", &SiteFile::tracks},
                           Role{"tallies", &SiteFile::tallies},
                           Role{"watches", &SiteFile::watches},
                           Role{"routes", &SiteFile::routes},
                           Role{"trees", &SiteFile::trees},
                           Role{"roosts", &SiteFile::roosts},
                           Role{"lamps", &SiteFile::lamps},
                           Role{"roads", &SiteFile::roads},
                           Role{"water", &SiteFile::water},
                           Role{"boxes", &SiteFile::boxes},
                           Role{"squares", &SiteFile::squares},
                           Role{"paths", &SiteFile::paths, true},
                           Role{"stations", &SiteFile::stations, true},
                           Role{"keep_out", &SiteFile::keep_out, true},
                           Role{"canopy", &SiteFile::canopy},
                           Role{"surface", &SiteFile::surface},
                           Role{"terrain", &SiteFile::terrain},
                           Role{"basemap", &SiteFile::basemap}};

void require_one_file(const TomlEntry& inputs, const SiteFile& site) {
    for (const auto& [name, source, of_evenings] : roles) {
        const bool picture = name == "canopy" || name == "surface" || name == "terrain" || name == "basemap";
        if (picture && site.*source && !(site.*source)->further.empty())
            inputs.at(name).fail(core::said("site_file.one_raster"));
    }
}

void require_one_canopy(const TomlEntry& inputs, const SiteFile& site) {
    if (site.canopy && (site.surface || site.terrain))
        inputs.at("canopy").fail(core::said("site_file.canopy_twice"));
    if (site.surface && !site.terrain) inputs.at("surface").fail(core::said("site_file.surface_alone"));
    if (site.terrain && !site.surface) inputs.at("terrain").fail(core::said("site_file.terrain_alone"));
}

}  // namespace

std::vector<std::string_view> input_roles() {
    std::vector<std::string_view> names;
    names.reserve(roles.size());
    for (const Role& role : roles)
        names.push_back(role.name);
    return names;
}

bool is_of_evenings(std::string_view role) {
    const auto* const found = std::ranges::find(roles, role, &Role::name);
    return found != roles.end() && found->of_evenings;
}

void leave_out_evenings(SiteFile& site) {
    for (const Role& role : roles)
        if (role.of_evenings) (site.*role.source).reset();
}

void read_input_sources(const TomlEntry& root, const std::filesystem::path& folder, SiteFile& site) {
    const TomlEntry inputs = root.at("inputs");
    for (const Role& role : roles)
        if (const TomlEntry entry = inputs.at(role.name); entry.given())
            site.*role.source = input_source(entry, std::string(role.name), folder);
    using survey::NotedIn;
    for (const auto& [layer, source] :
         {std::pair{NotedIn::passes, &site.passes}, std::pair{NotedIn::tracks, &site.tracks},
          std::pair{NotedIn::tallies, &site.tallies}})
        if (*source) site.settings.survey.answers[layer] = (*source)->counts;
    if (site.roosts) site.settings.survey.roost_answers = site.roosts->counts;
    if (!site.passes && !site.tracks && !site.tallies && !site.trees)
        inputs.fail(core::said("site_file.nothing_seen"));
    if (site.tallies && !site.watches)
        inputs.at("tallies").fail(core::said("site_file.tallies_need_watches"));
    require_one_canopy(inputs, site);
    require_one_file(inputs, site);
    for (const TomlEntry& entry : root.at("avoid").tables())
        site.avoid.push_back(avoid_source(entry, folder));
    const auto said_in_it = [](const AvoidSource& a) {
        return std::tie(a.reason, a.within, a.then, a.who, a.source.file, a.source.layer, a.source.only);
    };
    std::ranges::stable_sort(site.avoid, [&](const AvoidSource& a, const AvoidSource& b) {
        return said_in_it(a) < said_in_it(b);
    });
}

}  // namespace roostward::io
