#include "running.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

// backrow tradeoff, from the command line to chart and table.

namespace backrow::command {
namespace {

using Catch::Contains;
using nlohmann::json;

Ran tradeoff(const std::string& scene, const std::string& chart, Words more = {}) {
    more.insert(more.end(), {"-o", chart});
    return run(words("tradeoff", scene, more));
}

}  // namespace

TEST_CASE("the ending decides what the chart is, and the same chart has the same bytes",
          "[command][property]") {
    const Folder folder;
    const std::vector<std::pair<std::string, std::string>> kinds{
        {"a.png", "\x89PNG"}, {"a.svg", "<?xml"}, {"a.PDF", "%PDF"}};
    for (const auto& [name, start] : kinds) {
        const Ran ran = tradeoff(demo("choir.toml"), folder / name);
        CAPTURE(name, ran.err);
        REQUIRE(ran.exit_code == 0);
        CHECK(ran.err.empty());
        const std::string chart = text_of(folder / name);
        CHECK(chart.starts_with(start));
        REQUIRE(tradeoff(demo("choir.toml"), folder / ("b" + name)).exit_code == 0);
        CHECK(text_of(folder / ("b" + name)) == chart);
    }
    CHECK(folder.entries().size() == 6);
}

TEST_CASE("the chart's table agrees with the table of faces", "[command][property]") {
    const Folder folder;
    const Ran ran = tradeoff(demo("choir.toml"), folder / "a.svg", {"--format", "json"});
    REQUIRE(ran.exit_code == 0);
    const json cell = json::parse(ran.out)["now"]["apertures"][0];
    const json faces =
        json::parse(run(words("faces", demo("choir.toml"), {"--format", "json"})).out)["faces"];
    double worst_um = 0;
    std::string worst;
    for (const json& face : faces)
        if (face["predicted_blur_um"] > worst_um) {
            worst_um = face["predicted_blur_um"];
            worst = face["name"];
        }
    CHECK(cell["worst_face"] == worst);
    CHECK(cell["worst_blur_um"].get<double>() == Approx(worst_um));
}

TEST_CASE("text and CSV say what the chart shows", "[command][property]") {
    const Folder folder;
    const Ran text = tradeoff(demo("choir.toml"), folder / "a.svg", {"--lens", "135"});
    CHECK(text.exit_code == 0);
    CHECK_THAT(text.out, Contains("At 9.4 m every face is fine from f/"));
    CHECK_THAT(text.out, Contains("Blur of the background, %"));
    CHECK_THAT(text.out, Contains("Lenses carried"));
    const Ran csv = tradeoff(demo("choir.toml"), folder / "a.svg", {"--format", "csv"});
    CHECK(csv.exit_code == 0);
    CHECK(csv.out.starts_with("distance_m,focus_m,f_number,worst_face,"));
}

TEST_CASE("a chart that cannot be is refused in a line and leaves nothing", "[command][property]") {
    const Folder folder;
    struct Wrong {
        std::string chart;
        Words words;
        std::string told;
    };
    for (const Wrong& wrong : {
             Wrong{"a.gif", {}, "must end in .png or .svg or .pdf"},
             Wrong{"a.svg", {"--distance-min", "12", "--distance-max", "8"}, "must be smaller"},
             Wrong{"a.svg", {"--distance-min", "0.2"}, "among the people"},
             Wrong{"a.svg", {"--widest", "8", "--narrowest", "4"}, "must be a smaller number"},
             Wrong{"a.svg", {"--lens", "0"}, "--lens"},
         }) {
        const Ran ran = tradeoff(demo("choir.toml"), folder / wrong.chart, wrong.words);
        CAPTURE(wrong.told, ran.err);
        CHECK(ran.exit_code == 2);
        CHECK_THAT(ran.err, Contains(wrong.told));
        CHECK(ran.out.empty());
    }
    CHECK(tradeoff(demo("choir.toml"), folder / "none/a.svg").exit_code != 0);
    CHECK(folder.entries().empty());
}

}  // namespace backrow::command
