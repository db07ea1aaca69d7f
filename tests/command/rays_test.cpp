#include "pictures.h"
#include "ray_tracer.h"
#include "running.h"

#include "base/colour.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace backrow::command {
namespace {

using nlohmann::json;

double shown(float light) {
    return static_cast<double>(srgb_from_linear(std::clamp(light, 0.0f, 1.0f)));
}

double psnr_db(const Image<Rgb>& picture, const std::vector<Pixel>& pixels,
               const std::vector<Rgb>& other) {
    double error = 0;
    for (std::size_t i = 0; i < pixels.size(); ++i) {
        const Rgb& a = picture.at(pixels[i].x, pixels[i].y);
        const Rgb& b = other[i];
        error += std::pow(shown(a.r) - shown(b.r), 2) + std::pow(shown(a.g) - shown(b.g), 2) +
                 std::pow(shown(a.b) - shown(b.b), 2);
    }
    return 10 * std::log10(3.0 * static_cast<double>(pixels.size()) / error);
}

// Somebody in front of the plane of focus, somebody in it, a wall behind it; the camera's few
// pixels keep the figures light. The wall's blur is some four of the picture's pixels wide.
const std::string scene_text = R"(
[camera]
focal_length_mm = 85.0
f_number = 1.2
distance_m = 3.0
pixels = [480, 320]
aim = [0.3, 1.3, 0.6]
[focus]
on = "Bram"
[[person]]
name = "Odile"
[[person]]
name = "Bram"
across_m = 0.55
back_m = 1.2
[[setting.backdrop]]
kind = "wall"
back_m = 5.0
)";

}  // namespace

// Two programs that share a file and the laws of optics. Tolerance: 38 dB are a root mean square
// error of 3.2 of 255 steps. Both sum 256 rays a pixel; where half the rays meet black and half
// white, chance alone gives 255·0.5/√256 = 8 steps, and few pixels are as bad as that. Without the
// lens's blur the same comparison must fail, or it would compare nothing.
TEST_CASE("rays through the exported model and camera make the same picture",
          "[command][measured]") {
    const Folder folder;
    const Ran ran = run(words("preview", folder.write("x.toml", scene_text),
                              {"-o", folder / "x.png", "--flat", "--samples", "256", "--width",
                               "120", "--linear", folder / "x.pfm", "--export", folder / "x.glb",
                               "--camera-json", folder / "x.json"}));
    CAPTURE(ran.err);
    REQUIRE(ran.exit_code == 0);
    const Image<Rgb> picture = picture_from_pfm(folder / "x.pfm");
    json camera = json::parse(text_of(folder / "x.json"));
    const std::string model = text_of(folder / "x.glb");
    const auto* first = reinterpret_cast<const std::byte*>(model.data());
    const stage::Glb glb = stage::glb_from({first, first + model.size()});
    REQUIRE(glb.broken.empty());
    REQUIRE_FALSE(glb.json.contains("textures"));
    const Boxes boxes{triangles_of(glb)};

    // Every fifth pixel, in every row and column.
    std::vector<Pixel> pixels;
    for (int y = 0; y < picture.height_px(); ++y)
        for (int x = 0; x < picture.width_px(); ++x)
            if ((x + 2 * y) % 5 == 0)
                pixels.push_back({x, y});
    const double through_lens_db = psnr_db(picture, pixels, traced(boxes, camera, pixels, 256));
    CAPTURE(through_lens_db);
    CHECK(through_lens_db >= 38);

    camera["f_number"] = 128;
    const double through_pinhole_db = psnr_db(picture, pixels, traced(boxes, camera, pixels, 64));
    CAPTURE(through_pinhole_db);
    CHECK(through_pinhole_db < 38);
}

}  // namespace backrow::command
