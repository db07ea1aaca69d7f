#include "box_argument.h"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <optional>
#include <string_view>

namespace {

using backrow::measure::PixelBox;

/// Four whole numbers with commas between and nothing else.
std::optional<PixelBox> box_of(std::string_view text) {
    std::array<int, 4> numbers{};
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        const char* end = text.data() + text.size();
        const auto [rest, failed] = std::from_chars(text.data(), end, numbers[i]);
        if (failed != std::errc{})
            return std::nullopt;
        text.remove_prefix(static_cast<std::size_t>(rest - text.data()));
        const bool is_last = i + 1 == numbers.size();
        if (is_last ? !text.empty() : !text.starts_with(','))
            return std::nullopt;
        if (!is_last)
            text.remove_prefix(1);
    }
    const PixelBox box{numbers[0], numbers[1], numbers[2], numbers[3]};
    const bool is_box = box.left >= 0 && box.top >= 0 && box.width_px > 0 && box.height_px > 0;
    return is_box ? std::optional{box} : std::nullopt;
}

}  // namespace

void add_boxes(CLI::App& verb, std::vector<PixelBox>& boxes, const std::string& description) {
    verb.add_option_function<std::vector<std::string>>(
            "--box",
            [&boxes](const std::vector<std::string>& words) {
                for (const std::string& word : words)
                    boxes.push_back(*box_of(word));
            },
            description)
        ->type_name("X,Y,W,H")
        ->allow_extra_args(false)
        ->check([](const std::string& text) {
            return box_of(text) ? std::string{}
                                : fmt::format("`{}` is no box; write left, top, width and height "
                                              "in pixels, as in 100,80,60,120",
                                              text);
        });
}

std::vector<backrow::Problem> boxes_outside(const std::vector<PixelBox>& boxes,
                                            const backrow::photographs::Frame& frame) {
    std::vector<backrow::Problem> problems;
    for (const PixelBox& box : boxes)
        if (!lies_within(box, frame.light.width_px(), frame.light.height_px()))
            problems.push_back(
                {.where = {.file = frame.file},
                 .what = fmt::format("box {} reaches beyond the picture", to_words(box)),
                 .mend = fmt::format("it has {} × {} pixels, upright as it is shown",
                                     frame.light.width_px(), frame.light.height_px())});
    return problems;
}

std::string to_words(const PixelBox& box) {
    return fmt::format("{},{},{},{}", box.left, box.top, box.width_px, box.height_px);
}
