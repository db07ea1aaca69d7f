// backrow lesson: its page says what the other verbs say of the same scene.

#include "papers.h"
#include "running.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <regex>
#include <string>
#include <vector>

namespace backrow::command {
namespace {

using Catch::Contains;
using nlohmann::json;

// Few people and not much round them: quick to draw. Bram is the least sharp, and soft.
const std::string three_people = R"(
title = "Three"
[camera]
pixels = [1500, 1000]
distance_m = 6.0
focal_length_mm = 85.0
f_number = 2.0
[focus]
on = "Odile"
[[row]]
people = ["Odile", "Bram", "Cleo"]
[[person]]
name = "Bram"
back_m = 0.9
[[person]]
name = "Cleo"
back_m = 0.3
)";

json json_of(const std::string& verb, const std::string& scene, const Words& more = {}) {
    Words all = words(verb, scene, {"--format", "json"});
    all.insert(all.end(), more.begin(), more.end());
    const Ran ran = run(all);
    REQUIRE(ran.exit_code == 0);
    return json::parse(ran.out);
}

Words set(const std::string& key, const std::string& value) {
    return {"--set", key + "=" + value};
}

json faces_at(const std::string& scene, double distance_m, double f_number) {
    Words more = set("camera.distance_m", fmt::format("{:.2f}", distance_m));
    const Words aperture = set("camera.f_number", fmt::format("{:g}", f_number));
    more.insert(more.end(), aperture.begin(), aperture.end());
    return json_of("faces", scene, more);
}

const json& face_of(const json& faces, const std::string& name) {
    return *std::ranges::find(faces["faces"], name,
                              [](const json& face) { return face["name"].get<std::string>(); });
}

/// The same group of words in every language.
struct Told {
    const Writing& writing;

    std::string operator()(const char* english, const char* german) const {
        return writing.is_german ? german : english;
    }
};

std::string text_of_lesson(const Folder& folder, const std::string& scene, const Writing& writing) {
    Words more = writing.options();
    more.insert(more.end(), {"-o", folder / "lesson.pdf"});
    const Ran ran = run(words("lesson", scene, more));
    CAPTURE(ran.err);
    REQUIRE(ran.exit_code == 0);
    CHECK(ran.err.empty());
    CHECK(ran.out.empty());
    return text_of_pdf(folder / "lesson.pdf");
}

// What is asked of each cell: who is fine, and the blur of Bram, who is the least sharp everywhere.
void check_cells(const std::string& lesson, const std::string& scene, const Writing& writing) {
    const Told told{writing};
    const std::regex measured{writing.is_german ? "([\\d,]+) Pixel, gemessen ([\\d,]+)"
                                                : "([\\d.]+) pixels, measured ([\\d.]+)"};
    for (const double distance_m : {4.24, 6.0, 8.49}) {
        CHECK_THAT(lesson,
                   Contains(writing.metres(distance_m)) && Contains(writing.paces(distance_m)));
        for (const double f_number : {2.0, 4.0, 8.0}) {
            CAPTURE(distance_m, f_number);
            const json faces = faces_at(scene, distance_m, f_number);
            const json& bram = face_of(faces, "Bram");
            const std::string blur = writing.number(bram["predicted_blur_px"], 1);
            CHECK_THAT(lesson,
                       Contains(" " + blur + told(" pixels, measured ", " Pixel, gemessen ")));
            const auto fine = std::ranges::count_if(faces["faces"], [](const json& face) {
                return face["verdict"] == "crisp" || face["verdict"] == "fine";
            });
            CHECK_THAT(lesson,
                       Contains(fine == 3 ? told("Fine: everybody.", "Scharf: alle.")
                                : fine == 2
                                    ? told("Fine: all but Bram.", "Scharf: alle außer Bram.")
                                    : told("Fine: only Odile.", "Scharf: nur Odile.")));
        }
    }
    std::size_t cells = 0;
    for (std::sregex_iterator at{lesson.begin(), lesson.end(), measured}, end; at != end; ++at) {
        ++cells;
        const auto px = [&](std::size_t i) {
            return std::stod(std::regex_replace((*at)[i].str(), std::regex{","}, "."));
        };
        // Tolerance: the design's quarter of a pixel, and what both lose by being printed.
        CHECK(std::abs(px(1) - px(2)) <= 0.25 + 0.1);
    }
    CHECK(cells == 9);
}

void check_theory(const std::string& lesson, const std::string& scene, const Writing& writing) {
    const Told told{writing};
    const auto blur = [&](double distance_m, double f_number) {
        return writing.number(
            face_of(faces_at(scene, distance_m, f_number), "Bram")["predicted_blur_px"], 1);
    };
    const auto tall = [&](double distance_m) {
        return writing.number(face_of(faces_at(scene, distance_m, 2), "Bram")["face_height_px"], 0);
    };
    CHECK_THAT(lesson, Contains(told("Bram goes from ", "Bram von ") + blur(6, 2) +
                                told(" to ", " auf ") + blur(6, 4)));
    CHECK_THAT(lesson, Contains(told("it goes from ", "geht sie von ") + blur(6, 2) +
                                told(" to ", " auf ") + blur(8.49, 2)));
    CHECK_THAT(lesson, Contains(told("the face from ", "das Gesicht von ") + tall(6) +
                                told(" to ", " auf ") + tall(8.49)));
    const json faces = json_of("faces", scene);
    double nearest_m = INFINITY, farthest_m = 0;
    for (const json& face : faces["faces"]) {
        nearest_m = std::min(nearest_m, face["axial_m"].get<double>());
        farthest_m = std::max(farthest_m, face["axial_m"].get<double>());
    }
    CHECK_THAT(lesson,
               Contains(writing.metres(faces["focus"]["near_limit_m"]) + told(" to ", " bis ") +
                        writing.metres(faces["focus"]["far_limit_m"])));
    CHECK_THAT(lesson, Contains(told("of the group from ", "der Gruppe reichen von ") +
                                writing.metres(nearest_m) + told(" to ", " bis ") +
                                writing.metres(farthest_m)));
}

void check_exercises(const std::string& lesson, const std::string& scene, const Writing& writing) {
    const Told told{writing};
    // The album's limit, 2.75 minutes of arc.
    const json as_set = json_of("faces", scene);
    const json& bram = face_of(as_set, "Bram");
    CHECK_THAT(lesson, Contains(writing.number(bram["view_arcmin"].get<double>() / 2.75, 2) +
                                told(" times", "-fache")));
    std::smatch first;
    REQUIRE(std::regex_search(
        lesson, first,
        std::regex{told(R"(At f/([\d.]+)\. It costs, in stops, \S+: 1/(\d+) s, ISO (\d+))",
                        R"(Bei f/([\d,]+)\. Es kostet, in Blenden, \S+: 1/(\d+) s, ISO (\d+))")}));
    const std::string f_number = std::regex_replace(first[1].str(), std::regex{","}, ".");
    const Words answer{"--set", "camera.f_number=" + f_number,
                       "--set", fmt::format("camera.shutter_s={}", 1 / std::stod(first[2])),
                       "--set", "camera.iso=" + first[3].str()};
    const json stopped_down = json_of("faces", scene, answer);
    CHECK(std::abs(stopped_down["exposure"]["stops_over"].get<double>()) <= 0.2);
    for (const json& face : stopped_down["faces"])
        CHECK((face["grade"] == "crisp" || face["grade"] == "fine"));
    const double wider = std::stod(f_number) / std::exp2(1.0 / 6) - 0.05;
    CHECK(std::ranges::any_of(
        json_of("faces", scene, set("camera.f_number", fmt::format("{}", wider)))["faces"],
        [](const json& face) { return face["grade"] == "soft"; }));

    const json balanced = json_of("faces", scene, set("focus.balanced", "true"));
    CHECK_THAT(lesson,
               Contains(told("On ", "Bei ") + writing.metres(balanced["focus"]["distance_m"])));
    CHECK_THAT(lesson,
               Contains(": " + writing.number(face_of(balanced, "Bram")["predicted_blur_px"], 1) +
                        told(" pixels.", " Pixel.")));

    const json odds = json_of("odds", scene, answer);
    const auto percent = [&](double share) { return writing.figures(100 * share, 3) + " %"; };
    CHECK_THAT(lesson, Contains(percent(odds["sharp"])));
    CHECK_THAT(lesson, Contains(percent(std::cbrt(odds["eyes_open"].get<double>()))));
    CHECK_THAT(lesson,
               Contains(told("All open in ", "Alle offen in ") + percent(odds["eyes_open"]) +
                        told(", both in ", ", beides in ") + percent(odds["both"])));
    CHECK_THAT(lesson, Contains(told("Frames: ", "Aufnahmen: ") +
                                std::to_string(odds["frames"]["p95"].get<long>())));
}

}  // namespace

TEST_CASE("every number of a lesson is that of faces and odds, in any language and units",
          "[command][property]") {
    const Folder folder;
    const std::string scene = folder.write("three.toml", three_people);
    for (const Writing& writing : writings(1)) {
        const std::string lesson = text_of_lesson(folder, scene, writing);
        CAPTURE(lesson);
        check_cells(lesson, scene, writing);
        check_theory(lesson, scene, writing);
        check_exercises(lesson, scene, writing);
        const PageSize page = page_of_pdf(folder / "lesson.pdf");
        CHECK(page.width_pt == 595);
        CHECK(page.height_pt == 842);
    }
}

TEST_CASE("a lesson that cannot be made leaves nothing, and it is said why",
          "[command][property]") {
    const Folder folder;
    const auto refused = [&](const Words& more, int code, const std::string& why) {
        const Ran ran = run(words("lesson", demo("couple.toml"), more));
        CHECK(ran.exit_code == code);
        CHECK_THAT(ran.err, Contains(why));
        CHECK(ran.out.empty());
        CHECK(folder.entries().empty());
    };
    refused({}, 2, "--output");
    refused({"-o", folder / "a.jpg"}, 2, "must end in .pdf or .svg or .png");
    refused({"-o", folder / "a.pdf", "--paper", "a5"}, 2, "a5");
    refused({"-o", folder / "a.pdf", "--language", "xx"}, 2, "xx");
    refused({"-o", folder / "a.pdf", "--set", "camera.f_number=0"}, 1, "f_number");
    refused({"-o", folder / "a.pdf", "--set", "camera.aim=[20, 1, 0]"}, 1,
            "nobody's face lies whole");
    refused({"-o", folder / "no/a.pdf"}, 3, "no folder");
    const Ran ran = run(words("lesson", demo("couple.toml"), {"-o", folder / "a.pdf"}),
                        {.environment = {{"__EGL_VENDOR_LIBRARY_DIRS", "/nonexistent"},
                                         {"LIBGL_DRIVERS_PATH", "/nonexistent"}}});
    CHECK(ran.exit_code == 3);
    CHECK(folder.entries().empty());
}

}  // namespace backrow::command
