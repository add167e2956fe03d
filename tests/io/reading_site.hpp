#pragma once

#include <algorithm>
#include <filesystem>
#include <string>

#include "io/scratch_folder.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/io/read_inputs.hpp"

namespace roostward::testing {

/// An input of a site file, as the reader of site files would give it.
inline io::InputSource source_of(const std::string& role, const std::filesystem::path& file) {
    io::InputSource source;
    source.role = role;
    source.file = file.filename().string();
    source.path = file.string();
    return source;
}

/// Whether the catalogue has the kind of a finding, for itself or for any field.
inline bool kind_has_words(const std::string& kind) {
    return core::catalogue().contains(core::key_of("kind", kind)) || kind.starts_with("impossible ") ||
           kind.starts_with("unknown ") || kind.starts_with("no ");
}

/// A folder with one good pass and one good watch; tests replace what they are about.
struct ReadingSite {
    ReadingSite() {
        put_text(folder / "passes.csv", "time,lon,lat\n2026-06-09T21:36:16,-1.8956,52.2982\n");
        put_text(folder / "watches.csv",
                 "watch,lon,lat,date,start,end,farthest_seen_m\navenue,-1.8963,52.2979,2026-06-09,21:30,22:"
                 "50,70\n");
        file.timezone = "Europe/London";
        file.crs = "auto";
        file.passes = source_of("passes", folder / "passes.csv");
        file.watches = source_of("watches", folder / "watches.csv");
    }

    /// The records in the order of their rows, by which tests tell them; whatever it is, the program's own
    /// order is that of their content.
    [[nodiscard]] siting::Inputs read() {
        findings.clear();
        siting::Inputs inputs = io::read_inputs(file, {2}, findings);
        const auto by_row = [](auto& layer) {
            std::ranges::sort(layer.rows, {}, [](const auto& record) { return record.row; });
        };
        by_row(inputs.passes);
        by_row(inputs.tracks);
        by_row(inputs.tallies);
        by_row(inputs.watches);
        by_row(inputs.routes);
        by_row(inputs.trees);
        by_row(inputs.roosts);
        by_row(inputs.lamps);
        by_row(inputs.boxes);
        for (const core::Finding& finding : findings)
            EXPECT_TRUE(kind_has_words(finding.kind)) << finding.kind;
        return inputs;
    }

    void put(const std::string& name, std::string_view text) const { put_text(folder / name, text); }

    /// The sentence that reading stops with, and its fault.
    struct Stop {
        core::Fault fault = core::Fault::internal;
        std::string text;
    };
    [[nodiscard]] Stop stop() {
        try {
            (void)read();
        } catch (const core::Error& error) {
            return {error.fault(), error.what()};
        }
        ADD_FAILURE() << "reading did not stop";
        return {};
    }

    [[nodiscard]] bool found(const std::string& kind) const {
        return std::any_of(findings.begin(), findings.end(),
                           [&](const core::Finding& f) { return f.kind == kind; });
    }

    ScratchFolder folder;
    io::SiteFile file;
    core::Findings findings;
};

/// For every layer rows read = used + set aside + apart, each set-aside row has a finding, and what is apart
/// too.
inline void expect_nothing_lost(const siting::Inputs& inputs, const core::Findings& findings) {
    for (const core::RowCount& count : inputs.counts) {
        EXPECT_EQ(count.read, count.used + count.set_aside + count.apart) << count.layer;
        std::vector<std::size_t> rows;
        for (const core::Finding& finding : findings) {
            if (finding.severity == core::Severity::set_aside && finding.place.layer == count.layer &&
                finding.place.file == count.file) {
                rows.push_back(finding.place.row.value());
            }
        }
        std::sort(rows.begin(), rows.end());
        rows.erase(std::unique(rows.begin(), rows.end()), rows.end());
        EXPECT_EQ(rows.size(), count.set_aside) << count.layer;
        const bool apart_told = std::ranges::any_of(findings, [&](const core::Finding& finding) {
            return finding.severity == core::Severity::apart && finding.place.layer == count.layer &&
                   finding.place.file == count.file;
        });
        EXPECT_EQ(apart_told, count.apart > 0) << count.layer;
    }
}

}  // namespace roostward::testing
