// backrow lens measure: how sharp a lens is, at slanted edges in frames that were taken with it.

#include "box_argument.h"
#include "console.h"
#include "lens_verbs.h"
#include "scene_arguments.h"

#include "measure/edge_finding.h"
#include "measure/frame_edges.h"
#include "photographs/frame.h"
#include "report/lens/edge_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <string>
#include <vector>

namespace {

using namespace backrow;

struct MeasureArguments {
    std::vector<std::string> images;
    std::vector<measure::PixelBox> boxes;
    bool is_linear = false;
    TableFormat format = TableFormat::text;
};

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

Checked<report::FrameEdges> edges_of(const std::string& image, const MeasureArguments& arguments) {
    const auto frame = photographs::read_frame(
        image, arguments.is_linear ? photographs::Encoding::linear : photographs::Encoding::srgb);
    if (!frame)
        return tl::unexpected(frame.error());
    if (auto outside = boxes_outside(arguments.boxes, *frame); !outside.empty())
        return tl::unexpected(std::move(outside));
    const bool were_named = !arguments.boxes.empty();
    report::FrameEdges found{
        .image = image,
        .f_number = frame->f_number,
        .focal_length_mm = frame->focal_length_mm,
        .edges = measure::measure_edges(
            frame->light,
            were_named ? arguments.boxes : measure::find_edges(frame->light, most_edges))};
    if (auto problems = unfit(*frame, found.edges, were_named); !problems.empty())
        return tl::unexpected(std::move(problems));
    return found;
}

ExitCode lens_measure(const MeasureArguments& arguments) {
    console::listen_for_interrupts();
    std::vector<report::FrameEdges> frames;
    std::vector<Problem> problems;
    console::ProgressLine progress{"Measuring:"};
    for (const std::string& image : arguments.images) {
        if (!progress.go_on(static_cast<double>(frames.size() + problems.size()) /
                            static_cast<double>(arguments.images.size())))
            return console::say_interrupted();
        auto found = edges_of(image, arguments);
        if (found)
            frames.push_back(std::move(*found));
        else
            problems.insert(problems.end(), found.error().begin(), found.error().end());
    }
    if (!problems.empty())
        return console::refuse(problems);
    switch (arguments.format) {
    case TableFormat::text:
        return console::print(edges_text(frames));
    case TableFormat::json:
        return console::print(edges_json(frames));
    case TableFormat::csv:
        return console::print(edges_csv(frames));
    }
    return ExitCode::done;
}

}  // namespace

void add_lens_measure(CLI::App& lens, ExitCode& result) {
    auto* verb =
        lens.add_subcommand("measure", "How sharp a lens is, from slanted edges in test frames");
    verb->footer("Example: backrow lens measure wide-open.png stopped-down.png --format json");
    const auto arguments = std::make_shared<MeasureArguments>();
    verb->add_option("IMAGE", arguments->images,
                     "Frames of the chart or of any straight edge, "
                     "PNG or JPEG")
        ->required();
    add_boxes(*verb, arguments->boxes,
              "Where an edge is, in pixels of the upright picture, instead of looking for edges; "
              "repeatable");
    verb->add_flag("--linear", arguments->is_linear,
                   "Pixel values are linear light already; otherwise sRGB is undone");
    add_format(*verb, arguments->format);
    verb->callback([arguments, &result] { result = lens_measure(*arguments); });
}
