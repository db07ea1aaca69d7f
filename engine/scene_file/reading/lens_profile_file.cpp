#include "scene_file/reading/lens_profile_file.h"

#include "scene_file/scene_keys.h"
#include "scene_file/toml/table_reader.h"

#include <fmt/format.h>

namespace backrow::scene_file {

Checked<NamedLensProfile> read_lens_profile(const std::string& path) {
    Findings findings{path};
    const std::optional<toml::table> tree = parse_toml_file("lens profile", findings);
    if (!tree)
        return tl::unexpected(std::move(findings).in_order());

    NamedLensProfile named;
    TableReader table{*tree, "the lens profile", findings};
    table.read("title", named.title);
    table.read(keys::widest_f_number, named.profile.widest_f_number);
    table.read(keys::spherical_dpt, named.profile.spherical_dpt);
    table.read(keys::field_curvature_dpt, named.profile.field_curvature_dpt);
    table.refuse_unknown_keys();
    // Without it the aberrations have no scale: they grow with the opening relative to this one.
    if (table.find(keys::widest_f_number.key) == nullptr)
        findings.add(findings.start_of_file(),
                     fmt::format("the lens profile lacks `{}`", keys::widest_f_number.key),
                     "write the f-number at which the lens was measured wide open");
    if (!findings.empty())
        return tl::unexpected(std::move(findings).in_order());
    return named;
}

}  // namespace backrow::scene_file
