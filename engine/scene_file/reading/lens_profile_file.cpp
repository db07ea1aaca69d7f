#include "scene_file/reading/lens_profile_file.h"

#include "scene_file/reading/lens_database.h"
#include "scene_file/reading/measured_lens.h"
#include "scene_file/scene_keys.h"
#include "scene_file/toml/near_miss.h"
#include "scene_file/toml/table_reader.h"

#include "base/assets.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <system_error>

namespace backrow::scene_file {
namespace {

namespace fs = std::filesystem;

std::string asset_of(std::string_view own_lens) {
    return fmt::format("scenes/lenses/{}.toml", own_lens);
}

/// A day, as TOML has it or as text.
void read_date(TableReader& table, std::string& date) {
    const toml::node* node = table.find("date");
    if (node == nullptr)
        return;
    const auto* day = node->as_date();
    if (day == nullptr) {
        table.complain(place_of(*node), "`date` is no day", "write it as in date = 2026-05-31");
        return;
    }
    const toml::date& on = day->get();
    date = fmt::format("{:04}-{:02}-{:02}", on.year, on.month, on.day);
}

void read_blades(TableReader& table, optics::LensProfile& profile) {
    table.read(keys::blades, profile.blades);
    table.read(keys::roundness, profile.roundness);
    if (profile.blades != 0 && profile.blades < 5)
        table.complain(
            table.place_at(keys::blades.key),
            fmt::format("an aperture of {} blades is none this program draws", profile.blades),
            "write 0 for a round opening, or 5 to 20");
    else if (profile.blades == 0 && table.find(keys::roundness.key) != nullptr)
        table.complain(table.place_at(keys::roundness.key),
                       "`roundness` tells how round blades make the opening, and there are none",
                       "write `blades` too");
}

void read_measured(TableReader& table, NamedLensProfile& named) {
    for (TableReader& point : table.tables("measured")) {
        MeasuredSharpness measured;
        point.read(keys::f_number, measured.f_number);
        point.read(keys::image_height, measured.image_height);
        point.read(keys::mtf50_cy_per_mm, measured.mtf50_cy_per_mm);
        for (const std::string_view key :
             {keys::f_number.key, keys::image_height.key, keys::mtf50_cy_per_mm.key})
            if (point.find(key) == nullptr)
                point.complain(point.place(), fmt::format("[[measured]] lacks `{}`", key),
                               "write aperture, image height and MTF50 of every measurement");
        if (measured.f_number > 0 && measured.f_number < named.profile.widest_f_number)
            point.complain(point.place_at(keys::f_number.key),
                           fmt::format("measured at f/{:g}, and the lens opens to f/{:g} only",
                                       measured.f_number, named.profile.widest_f_number),
                           "mend one of them");
        point.refuse_unknown_keys();
        named.measured.push_back(measured);
    }
}

constexpr std::array errors{keys::spherical_dpt, keys::field_curvature_dpt, keys::astigmatism_dpt,
                            keys::coma_dpt};

/// Of a profile that is right so far.
void fit_errors(TableReader& table, NamedLensProfile& named) {
    if (named.measured.empty() || std::ranges::any_of(errors, [&](const NumberKey& error) {
            return table.find(error.key) != nullptr;
        }))
        return;
    named.fit = fit_measured(named);
    if (!named.fit) {
        table.complain(table.place_at("measured"),
                       fmt::format("from {} measurement{} no errors of a lens can be told",
                                   named.measured.size(), named.measured.size() == 1 ? "" : "s"),
                       fmt::format("give {} or more, at several apertures and places, or write the "
                                   "errors, as in spherical_dpt = 0.02",
                                   fewest_measured));
        return;
    }
    named.profile.spherical_dpt = named.fit->profile.spherical_dpt;
    named.profile.field_curvature_dpt = named.fit->profile.field_curvature_dpt;
    named.profile.astigmatism_dpt = named.fit->profile.astigmatism_dpt;
    named.profile.coma_dpt = named.fit->profile.coma_dpt;
}

/// What the file does not say itself.
void fill_from_database(TableReader& table, NamedLensProfile& named) {
    if (!table.read("database", named.database) || named.database.empty())
        return;
    const auto found = find_in_database(named.database);
    if (!found) {
        table.complain(table.place_at("database"), found.error().what, found.error().mend);
        return;
    }
    optics::LensProfile& own = named.profile;
    const optics::LensProfile& theirs = *found;
    const auto fill = [&](const NumberKey& key, double optics::LensProfile::*value) {
        if (table.find(key.key) == nullptr)
            own.*value = theirs.*value;
    };
    fill(keys::focal_length_mm, &optics::LensProfile::focal_length_mm);
    fill(keys::widest_f_number, &optics::LensProfile::widest_f_number);
    fill(keys::smallest_f_number, &optics::LensProfile::smallest_f_number);
    // They were found together, from the same light.
    if (table.find(keys::vignetting.key) == nullptr &&
        table.find(keys::natural_falloff.key) == nullptr) {
        own.vignetting = theirs.vignetting;
        own.natural_falloff = theirs.natural_falloff;
    }
}

}  // namespace

Checked<NamedLensProfile> read_lens_profile(const std::string& path) {
    Findings findings{path};
    const std::optional<toml::table> tree = parse_toml_file("lens profile", findings);
    if (!tree)
        return tl::unexpected(std::move(findings).in_order());

    NamedLensProfile named;
    optics::LensProfile& profile = named.profile;
    TableReader table{*tree, "the lens profile", findings};
    table.read("title", named.title);
    table.read("origin", named.origin);
    read_date(table, named.date);
    table.read(keys::focal_length_mm, profile.focal_length_mm);
    table.read(keys::widest_f_number, profile.widest_f_number);
    table.read(keys::smallest_f_number, profile.smallest_f_number);
    table.read(keys::spherical_dpt, profile.spherical_dpt);
    table.read(keys::field_curvature_dpt, profile.field_curvature_dpt);
    table.read(keys::astigmatism_dpt, profile.astigmatism_dpt);
    table.read(keys::coma_dpt, profile.coma_dpt);
    table.read(keys::longitudinal_colour_dpt, profile.longitudinal_colour_dpt);
    table.read(keys::vignetting, profile.vignetting);
    table.read(keys::natural_falloff, profile.natural_falloff);
    table.read(keys::focus_offset_dpt, profile.focus_offset_dpt);
    read_blades(table, profile);
    fill_from_database(table, named);
    table.read(keys::measured_pixel_mm, named.measured_pixel_mm);
    read_measured(table, named);
    table.refuse_unknown_keys();
    // Without it the aberrations have no scale: they grow with the opening relative to this one.
    if (table.find(keys::widest_f_number.key) == nullptr &&
        (named.database.empty() || !(profile.widest_f_number > 0)))
        findings.add(findings.start_of_file(),
                     fmt::format("the lens profile lacks `{}`", keys::widest_f_number.key),
                     "write the f-number at which the lens was measured wide open");
    if (profile.smallest_f_number > 0 && profile.smallest_f_number < profile.widest_f_number)
        findings.add(table.place_at(keys::smallest_f_number.key),
                     fmt::format("the smallest opening, f/{:g}, is wider than the widest, f/{:g}",
                                 profile.smallest_f_number, profile.widest_f_number),
                     "mend one of them");
    if (findings.empty())
        fit_errors(table, named);
    if (!findings.empty())
        return tl::unexpected(std::move(findings).in_order());
    return named;
}

bool names_own_lens(std::string_view named) noexcept {
    return !named.empty() && named.find_first_of("/.") == std::string_view::npos;
}

std::vector<std::string> own_lenses() {
    std::vector<std::string> names;
    const auto one = find_asset(asset_of(usual_lens));
    if (!one)
        return names;
    std::error_code ignored;
    for (fs::directory_iterator it{fs::path{*one}.parent_path(), ignored}, end; it != end;
         it.increment(ignored))
        if (it->path().extension() == ".toml")
            names.push_back(it->path().stem().string());
    std::ranges::sort(names);
    return names;
}

Checked<NamedLensProfile> read_named_lens(const std::string& named, const std::string& folder) {
    if (!names_own_lens(named))
        return read_lens_profile((fs::path{folder} / named).string());
    if (const auto own = find_asset(asset_of(named)))
        return read_lens_profile(*own);
    const std::vector<std::string> names = own_lenses();
    return tl::make_unexpected(
        std::vector{Problem{.where = {.file = named},
                            .what = "the program has no lens of this name",
                            .mend = suggestion(named, {names.begin(), names.end()}, "it has")}});
}

}  // namespace backrow::scene_file
