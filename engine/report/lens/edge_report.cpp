#include "report/lens/edge_report.h"

#include "report/text/csv.h"
#include "report/text/json.h"
#include "report/text/text_table.h"

#include "base/utf8.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <map>

namespace backrow::report {
namespace {

using measure::FrameEdge;

std::string box_words(const measure::PixelBox& box) {
    return fmt::format("{},{},{},{}", box.left, box.top, box.width_px, box.height_px);
}

const char* direction_of(const measure::EdgeSharpness& sharpness) {
    return sharpness.is_upright ? "upright" : "level";
}

/// Where in the picture, as photographers speak of it.
struct Zone {
    const char* word;
    double below;  ///< Image heights.
};
constexpr std::array<Zone, 3> zones{{{"middle", 1.0 / 3}, {"half-way", 2.0 / 3}, {"corners", 10}}};

std::string zone_words(const std::vector<FrameEdge>& edges, double from, const Zone& zone) {
    std::vector<double> found;
    for (const FrameEdge& edge : edges)
        if (edge.sharpness && edge.image_height >= from && edge.image_height < zone.below)
            found.push_back(edge.sharpness->mtf50_cy_per_px);
    if (found.empty())
        return fmt::format("{} –", zone.word);
    const auto middle = found.begin() + static_cast<std::ptrdiff_t>(found.size() / 2);
    std::ranges::nth_element(found, middle);
    return fmt::format("{} {:.3f}", zone.word, *middle);
}

std::string frame_line(const FrameEdges& frame) {
    std::string line = on_one_line(frame.image);
    if (frame.focal_length_mm)
        line += fmt::format(", {:g} mm", *frame.focal_length_mm);
    if (frame.f_number)
        line += fmt::format(", f/{:g}", *frame.f_number);
    std::vector<std::string> words;
    double from = 0;
    for (const Zone& zone : zones) {
        words.push_back(zone_words(frame.edges, from, zone));
        from = zone.below;
    }
    line += fmt::format(": {}", fmt::join(words, ", "));
    const std::string unfit = unfit_counts(frame.edges);
    return line + (unfit.empty() ? "\n" : fmt::format("; left out {}\n", unfit));
}

}  // namespace

std::string unfit_counts(const std::vector<FrameEdge>& edges) {
    std::map<std::string, int> counts;
    for (const FrameEdge& edge : edges)
        if (!edge.sharpness)
            ++counts[to_word(edge.sharpness.error())];
    std::vector<std::pair<std::string, int>> sorted(counts.begin(), counts.end());
    std::ranges::stable_sort(sorted, std::greater{}, &std::pair<std::string, int>::second);
    std::vector<std::string> words;
    for (const auto& [why, count] : sorted)
        words.push_back(fmt::format("{} {}", count, why));
    return fmt::format("{}", fmt::join(words, ", "));
}

std::string edges_text(const std::vector<FrameEdges>& frames) {
    std::vector<std::vector<std::string>> rows;
    for (const FrameEdges& frame : frames)
        for (const FrameEdge& edge : frame.edges) {
            if (!edge.sharpness)
                continue;
            const measure::EdgeSharpness& sharpness = *edge.sharpness;
            rows.push_back({on_one_line(frame.image), box_words(edge.box), direction_of(sharpness),
                            fmt::format("{:.1f}", sharpness.angle_deg),
                            fmt::format("{:.2f}", edge.image_height),
                            fmt::format("{:.1f}", sharpness.rise_px),
                            fmt::format("{:.4f}", sharpness.mtf50_cy_per_px),
                            fmt::format("{:.1f}", 200 * sharpness.mtf50_error_cy_per_px /
                                                      sharpness.mtf50_cy_per_px)});
        }
    std::string text = text_table({{"image", Align::left},
                                   {"box", Align::left},
                                   {"edge", Align::left},
                                   {"lean °"},
                                   {"height"},
                                   {"rise px"},
                                   {"MTF50 cy/px"},
                                   {"± %"}},
                                  rows);
    text +=
        "\nMTF50 in cycles a pixel, medians by image height; ± is two standard errors, from the "
        "pixels' noise:\n";
    for (const FrameEdges& frame : frames)
        text += frame_line(frame);
    return text;
}

std::string edges_json(const std::vector<FrameEdges>& frames) {
    Json json{{"edges", Json::array()}, {"refused", Json::array()}};
    for (const FrameEdges& frame : frames)
        for (const FrameEdge& edge : frame.edges) {
            const Json box{edge.box.left, edge.box.top, edge.box.width_px, edge.box.height_px};
            if (!edge.sharpness) {
                json["refused"].push_back({{"image", frame.image},
                                           {"box", box},
                                           {"why", to_word(edge.sharpness.error())}});
                continue;
            }
            const measure::EdgeSharpness& sharpness = *edge.sharpness;
            Json mtf = Json::array();
            for (const measure::MtfPoint& point : sharpness.mtf)
                mtf.push_back({point.cy_per_px, point.mtf});
            json["edges"].push_back({{"image", frame.image},
                                     {"box", box},
                                     {"direction", direction_of(sharpness)},
                                     {"angle_deg", sharpness.angle_deg},
                                     {"across_deg", sharpness.across_deg},
                                     {"image_height", edge.image_height},
                                     {"f_number", number_or_null(frame.f_number)},
                                     {"focal_length_mm", number_or_null(frame.focal_length_mm)},
                                     {"rise_px", sharpness.rise_px},
                                     {"mtf50_cy_per_px", sharpness.mtf50_cy_per_px},
                                     {"mtf50_standard_error", sharpness.mtf50_error_cy_per_px},
                                     {"mtf", std::move(mtf)}});
        }
    return json_text(json);
}

std::string edges_csv(const std::vector<FrameEdges>& frames) {
    std::string csv =
        csv_record({"image", "left_px", "top_px", "width_px", "height_px", "direction", "angle_deg",
                    "image_height", "f_number", "focal_length_mm", "rise_px", "mtf50_cy_per_px",
                    "mtf50_standard_error"});
    for (const FrameEdges& frame : frames)
        for (const FrameEdge& edge : frame.edges) {
            if (!edge.sharpness)
                continue;
            const measure::EdgeSharpness& sharpness = *edge.sharpness;
            csv += csv_record(
                {frame.image, fmt::format("{}", edge.box.left), fmt::format("{}", edge.box.top),
                 fmt::format("{}", edge.box.width_px), fmt::format("{}", edge.box.height_px),
                 direction_of(sharpness), number_field(sharpness.angle_deg),
                 number_field(edge.image_height), number_field(frame.f_number),
                 number_field(frame.focal_length_mm), number_field(sharpness.rise_px),
                 number_field(sharpness.mtf50_cy_per_px),
                 number_field(sharpness.mtf50_error_cy_per_px)});
        }
    return csv;
}

}  // namespace backrow::report
