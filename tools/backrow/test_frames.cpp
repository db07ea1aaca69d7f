#include "test_frames.h"

#include "box_argument.h"
#include "console.h"

#include "measure/edge_finding.h"
#include "measure/frame_edges.h"
#include "photographs/frame.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

using namespace backrow;

namespace {

constexpr std::size_t most_edges = 500;  // of a frame

/// Where the user has named the places, each must be fit; else some of those found.
std::vector<Problem> unfit(const photographs::Frame& frame,
                           const std::vector<measure::FrameEdge>& edges, bool were_named) {
    std::vector<Problem> problems;
    if (were_named) {
        for (const measure::FrameEdge& edge : edges)
            if (!edge.sharpness)
                problems.push_back({.where = {.file = frame.file},
                                    .what = fmt::format("the edge in box {} {}", to_words(edge.box),
                                                        to_words(edge.sharpness.error())),
                                    .mend = {}});
        return problems;
    }
    if (edges.empty())
        return {{.where = {.file = frame.file},
                 .what = "no straight edge that leans by 2° to 20° was found",
                 .mend = "photograph the chart of tools/make-chart, or name a place with --box"}};
    if (std::ranges::any_of(edges, [](const auto& edge) { return edge.sharpness.has_value(); }))
        return {};
    const auto& first = edges.front();
    return {
        {.where = {.file = frame.file},
         .what = fmt::format("of {} edges none can be measured ({}): the clearest {}", edges.size(),
                             report::unfit_counts(edges), to_words(first.sharpness.error())),
         .mend = {}}};
}

Checked<report::FrameEdges> edges_of(const std::string& image, const TestFrames& arguments) {
    const auto frame = photographs::read_frame(
        image, arguments.is_linear ? photographs::Encoding::linear : photographs::Encoding::srgb,
        photographs::Light::green);
    if (!frame)
        return tl::unexpected(frame.error());
    if (auto outside = boxes_outside(arguments.boxes, *frame); !outside.empty())
        return tl::unexpected(std::move(outside));
    const bool were_named = !arguments.boxes.empty();
    report::FrameEdges found{
        .image = image,
        .f_number = frame->f_number,
        .focal_length_mm = frame->focal_length_mm,
        .width_px = frame->light.width_px(),
        .height_px = frame->light.height_px(),
        .edges = measure::measure_edges(
            frame->light,
            were_named ? arguments.boxes : measure::find_edges(frame->light, most_edges))};
    if (auto problems = unfit(*frame, found.edges, were_named); !problems.empty())
        return tl::unexpected(std::move(problems));
    return found;
}

}  // namespace

void TestFrames::add_to(CLI::App& verb) {
    verb.add_option("IMAGE", images,
                    "Frames of the chart or of any straight edge, "
                    "PNG or JPEG")
        ->required();
    add_boxes(verb, boxes,
              "Where an edge is, in pixels of the upright picture, instead of looking for edges; "
              "repeatable");
    verb.add_flag("--linear", is_linear,
                  "Pixel values are linear light already; otherwise sRGB is undone");
}

Checked<std::optional<std::vector<report::FrameEdges>>> TestFrames::measured() const {
    console::listen_for_interrupts();
    std::vector<report::FrameEdges> frames;
    std::vector<Problem> problems;
    console::ProgressLine progress{"Measuring:"};
    for (const std::string& image : images) {
        if (!progress.go_on(static_cast<double>(frames.size() + problems.size()) /
                            static_cast<double>(images.size())))
            return std::nullopt;
        auto found = edges_of(image, *this);
        if (found)
            frames.push_back(std::move(*found));
        else
            problems.insert(problems.end(), found.error().begin(), found.error().end());
    }
    if (!problems.empty())
        return tl::unexpected(std::move(problems));
    return frames;
}
