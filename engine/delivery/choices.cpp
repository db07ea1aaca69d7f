#include "delivery/choices.h"

#include "delivery/outputs.h"

#include "base/state_folder.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <filesystem>
#include <system_error>
#include <utility>

namespace backrow::delivery {
namespace {

namespace fs = std::filesystem;

constexpr const char* kept_file = "give-away";
constexpr std::size_t most_kept_bytes = 1u << 16;

constexpr std::array formats{std::pair{"png", PictureFormat::png},
                             std::pair{"jpeg", PictureFormat::jpeg}};
constexpr std::array sizes{std::pair{"screen", PictureSize::screen},
                           std::pair{"camera", PictureSize::camera},
                           std::pair{"own", PictureSize::own}};
constexpr std::array answers{std::pair{"no", false}, std::pair{"yes", true}};

template <class Words, class Value>
const char* word_of(const Words& words, Value value) {
    return std::ranges::find(words, value, [](const auto& word) { return word.second; })->first;
}

template <class Words, class Value>
void take_word(const Words& words, std::string_view said, Value& into) {
    const auto found = std::ranges::find(
        words, said, [](const auto& word) { return std::string_view{word.first}; });
    if (found != words.end())
        into = found->second;
}

void take_number(std::string_view said, int least, int greatest, int& into) {
    int number = 0;
    const auto [end, error] = std::from_chars(said.data(), said.data() + said.size(), number);
    if (error == std::errc{} && end == said.data() + said.size() && number >= least &&
        number <= greatest)
        into = number;
}

bool stands_on_a_line(std::string_view text) {
    return text.find('\n') == text.npos;
}

void take_line(std::string_view key, std::string_view said, Choices& choices) {
    if (key == "folder")
        choices.folder = said;
    else if (key == "format")
        take_word(formats, said, choices.format);
    else if (key == "jpeg-quality")
        take_number(said, 1, 100, choices.jpeg_quality);
    else if (key == "size")
        take_word(sizes, said, choices.size);
    else if (key == "width")
        take_number(said, least_picture_width_px, longest_jpeg_side_px, choices.own_width_px);
    else if (key == "captions")
        take_word(answers, said, choices.with_captions);
    for (Piece& piece : choices.pieces) {
        if (key == piece.key)
            take_word(answers, said, piece.is_wanted);
        else if (key == piece.key + "-tail")
            piece.tail = said;
    }
}

}  // namespace

Choices usual_choices(const std::string& scene_path) {
    std::error_code none;
    const fs::path scene = fs::absolute(scene_path, none);
    Choices choices{.folder = scene.parent_path().string(), .stem = scene.stem().string()};
    for (const Output& output : outputs())
        choices.pieces.push_back({.key = output.key,
                                  .is_wanted = output.is_usual,
                                  .tail = fmt::format("-{}", output.key)});
    return choices;
}

std::string text_of(const Choices& choices) {
    std::string text;
    const auto add = [&](std::string_view key, std::string_view said) {
        if (stands_on_a_line(said))
            text += fmt::format("{} {}\n", key, said);
    };
    add("folder", choices.folder);
    add("format", word_of(formats, choices.format));
    add("jpeg-quality", std::to_string(choices.jpeg_quality));
    add("size", word_of(sizes, choices.size));
    add("width", std::to_string(choices.own_width_px));
    add("captions", word_of(answers, choices.with_captions));
    for (const Piece& piece : choices.pieces) {
        add(piece.key, word_of(answers, piece.is_wanted));
        add(piece.key + "-tail", piece.tail);
    }
    return text;
}

Choices choices_from(std::string_view text, const std::string& scene_path) {
    Choices choices = usual_choices(scene_path);
    while (!text.empty()) {
        const std::string_view line = text.substr(0, text.find('\n'));
        text.remove_prefix(std::min(text.size(), line.size() + 1));
        if (const auto space = line.find(' '); space != line.npos)
            take_line(line.substr(0, space), line.substr(space + 1), choices);
    }
    return choices;
}

Choices kept_choices(const std::string& scene_path) {
    const auto folder = state_folder();
    const auto text =
        folder ? read_state(*folder / kept_file, most_kept_bytes) : std::optional<std::string>{};
    Choices choices = choices_from(text.value_or(""), scene_path);
    std::error_code none;
    if (!fs::is_directory(choices.folder, none))
        choices.folder = usual_choices(scene_path).folder;
    return choices;
}

void keep(const Choices& choices) {
    if (const auto folder = state_folder())
        static_cast<void>(write_state(*folder / kept_file, text_of(choices)));
}

}  // namespace backrow::delivery
