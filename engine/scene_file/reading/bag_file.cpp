#include "scene_file/reading/bag_file.h"

#include "scene/set_words.h"
#include "scene_file/reading/lens_profile_file.h"
#include "scene_file/scene_keys.h"
#include "scene_file/toml/table_reader.h"

#include <fmt/format.h>

#include <cmath>
#include <filesystem>
#include <system_error>
#include <utility>

namespace backrow::scene_file {
namespace {

namespace fs = std::filesystem;

BagLens read_lens(TableReader table, const std::string& path) {
    BagLens lens;
    table.read("name", lens.name);
    table.read(keys::focal_length_mm, lens.focal_length_mm);
    table.read(keys::widest_f_number, lens.widest_f_number);
    if (table.read("profile", lens.profile) && !lens.profile.empty() &&
        !names_own_lens(lens.profile))
        lens.profile = (fs::path{path}.parent_path() / lens.profile).string();
    for (const std::string_view key : {keys::focal_length_mm.key, keys::widest_f_number.key})
        if (table.find(key) == nullptr)
            table.complain(table.place(), fmt::format("a lens lacks `{}`", key),
                           "write what is engraved on it");
    table.refuse_unknown_keys();
    return lens;
}

BagBody read_body(TableReader table) {
    BagBody body;
    table.read("name", body.name);
    table.read(keys::sensor_mm, body.sensor_mm);
    table.read(keys::pixels, body.pixels);
    table.refuse_unknown_keys();
    return body;
}

Bag usual_bag() {
    return {
        .lenses = {{.name = "", .focal_length_mm = 35, .widest_f_number = 1.8},
                   {.name = "", .focal_length_mm = 50, .widest_f_number = 1.8},
                   {.name = "", .focal_length_mm = 85, .widest_f_number = 1.8}},
        .bodies = {{.name = ""}, {.name = "", .sensor_mm = {23.5, 15.7}, .pixels = {6012, 4016}}}};
}

void name_all(Bag& bag) {
    for (BagLens& lens : bag.lenses)
        if (lens.name.empty())
            lens.name = usual_name(lens);
    for (BagBody& body : bag.bodies)
        if (body.name.empty())
            body.name = usual_name(body);
}

}  // namespace

std::string usual_name(const BagLens& lens) {
    return fmt::format("{:g} mm f/{:g}", lens.focal_length_mm, lens.widest_f_number);
}

std::string usual_name(const BagBody& body) {
    return fmt::format("{:g} × {:g} mm, {:.0f} megapixels", body.sensor_mm[0], body.sensor_mm[1],
                       std::round(body.pixels[0] * body.pixels[1] / 1e6));
}

Checked<Bag> read_bag(const std::string& path) {
    std::error_code none;
    Bag bag;
    if (!fs::exists(path, none)) {
        bag = usual_bag();
        name_all(bag);
        return bag;
    }
    Findings findings{path};
    const std::optional<toml::table> tree = parse_toml_file("bag", findings);
    if (!tree)
        return tl::unexpected(std::move(findings).in_order());
    TableReader table{*tree, "the bag", findings};
    for (TableReader& lens : table.tables("lens"))
        bag.lenses.push_back(read_lens(std::move(lens), path));
    for (TableReader& body : table.tables("body"))
        bag.bodies.push_back(read_body(std::move(body)));
    table.refuse_unknown_keys();
    if (!findings.empty())
        return tl::unexpected(std::move(findings).in_order());
    name_all(bag);
    return bag;
}

std::string bag_toml(const Bag& bag) {
    std::string text =
        "# What I carry. The window adds to it; it can be written by hand as well.\n";
    for (const BagLens& lens : bag.lenses) {
        text += fmt::format("\n[[lens]]\nname            = {}\nfocal_length_mm = {}\n"
                            "widest_f_number = {}\n",
                            scene::toml_string(lens.name), scene::toml_number(lens.focal_length_mm),
                            scene::toml_number(lens.widest_f_number));
        if (!lens.profile.empty())
            text += fmt::format("profile         = {}\n", scene::toml_string(lens.profile));
    }
    for (const BagBody& body : bag.bodies)
        text += fmt::format("\n[[body]]\nname            = {}\nsensor_mm       = [{}, {}]\n"
                            "pixels          = [{:.0f}, {:.0f}]\n",
                            scene::toml_string(body.name), scene::toml_number(body.sensor_mm[0]),
                            scene::toml_number(body.sensor_mm[1]), body.pixels[0], body.pixels[1]);
    return text;
}

}  // namespace backrow::scene_file
