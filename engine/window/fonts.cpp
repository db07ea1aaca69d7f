#include "window/fonts.h"

#include "base/utf8.h"

#include <fontconfig/fontconfig.h>

#include <array>
#include <cmath>
#include <memory>
#include <string>
#include <vector>

namespace backrow::window {
namespace {

constexpr double letter_px = 14.5;

// Latin with all its accents, Greek, Cyrillic; dashes, fractions, arrows, minus and the like.
constexpr std::array<ImWchar, 15> own_letters{0x0020, 0x052f, 0x1e00, 0x1fff, 0x2010,
                                              0x2044, 0x2070, 0x209f, 0x2150, 0x21ff,
                                              0x2200, 0x22ff, 0x25a0, 0x25ff, 0};

bool is_own(char32_t letter) {
    for (std::size_t i = 0; i + 1 < own_letters.size(); i += 2)
        if (own_letters[i] <= letter && letter <= own_letters[i + 1])
            return true;
    return false;
}

struct Release {
    void operator()(FcPattern* pattern) const noexcept { FcPatternDestroy(pattern); }
    void operator()(FcFontSet* fonts) const noexcept { FcFontSetDestroy(fonts); }
};
template <class T>
using Owned = std::unique_ptr<T, Release>;

/// One face of a font's file, and those of the letters wanted that it gives.
struct Face {
    std::string file;
    int index = 0;  ///< In a file that holds several.
    std::set<ImWchar> letters;
};

std::string text_of(FcPattern* font, const char* property) {
    FcChar8* text = nullptr;
    return FcPatternGetString(font, property, 0, &text) == FcResultMatch
               ? reinterpret_cast<const char*>(text)
               : "";
}

// The toolkit draws outlines out of these two kinds of file alone, and stops at any other. Letters
// made of coloured pixels have no outline.
bool can_be_drawn(FcPattern* font) {
    const std::string format = text_of(font, FC_FONTFORMAT);
    FcBool is_coloured = FcFalse;
    FcPatternGetBool(font, FC_COLOR, 0, &is_coloured);
    return (format == "TrueType" || format == "CFF") && is_coloured == FcFalse;
}

/// DejaVu Sans of a weight, and behind it all others, the most like it first. The letters wanted
/// are no part of the question: they would count for more than the name does.
Owned<FcFontSet> fonts_like(const std::string& weight) {
    const std::string name = "DejaVu Sans:" + weight;
    const Owned<FcPattern> wanted{FcNameParse(reinterpret_cast<const FcChar8*>(name.c_str()))};
    FcConfigSubstitute(nullptr, wanted.get(), FcMatchPattern);
    FcDefaultSubstitute(wanted.get());
    FcResult result{};
    constexpr FcBool keep_all = FcFalse;
    return Owned<FcFontSet>{FcFontSort(nullptr, wanted.get(), keep_all, nullptr, &result)};
}

/// The first gives the program's own letters too; none where the system has no fonts.
std::vector<Face> faces(const std::string& weight, std::set<ImWchar> foreign) {
    std::vector<Face> found;
    const Owned<FcFontSet> fonts = fonts_like(weight);
    for (int i = 0; fonts && i < fonts->nfont && (found.empty() || !foreign.empty()); ++i) {
        FcPattern* font = fonts->fonts[i];
        FcCharSet* held = nullptr;
        if (!can_be_drawn(font) || FcPatternGetCharSet(font, FC_CHARSET, 0, &held) != FcResultMatch)
            continue;
        Face face;
        face.file = text_of(font, FC_FILE);
        FcPatternGetInteger(font, FC_INDEX, 0, &face.index);
        face.index &= 0xffff;  // what lies above counts instances of a variable font
        for (const ImWchar letter : foreign)
            if (FcCharSetHasChar(held, letter) == FcTrue)
                face.letters.insert(letter);
        for (const ImWchar letter : face.letters)
            foreign.erase(letter);
        if (found.empty() || !face.letters.empty())
            found.push_back(std::move(face));
    }
    return found;
}

/// What the toolkit reads of an atlas until it is built, kept that long.
using Ranges = std::vector<std::unique_ptr<ImVector<ImWchar>>>;

ImFont* load(const std::vector<Face>& of, double size_px, Ranges& ranges) {
    ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
    ImFont* font = nullptr;
    for (const Face& face : of) {
        ImFontGlyphRangesBuilder builder;
        if (font == nullptr)
            builder.AddRanges(own_letters.data());
        for (const ImWchar letter : face.letters)
            builder.AddChar(letter);
        builder.BuildRanges(ranges.emplace_back(std::make_unique<ImVector<ImWchar>>()).get());
        ImFontConfig config;
        config.FontNo = face.index;
        config.MergeMode = font != nullptr;
        ImFont* loaded = atlas.AddFontFromFileTTF(face.file.c_str(), static_cast<float>(size_px),
                                                  &config, ranges.back()->Data);
        font = font != nullptr ? font : loaded;
    }
    return font != nullptr ? font : atlas.AddFontDefault();
}

}  // namespace

std::set<ImWchar> foreign_letters(std::string_view text) {
    std::set<ImWchar> letters;
    for (const char32_t letter : code_points(text))
        if (letter > own_letters.front() && letter <= IM_UNICODE_CODEPOINT_MAX && !is_own(letter))
            letters.insert(static_cast<ImWchar>(letter));
    return letters;
}

Fonts load_fonts(double scale, const std::set<ImWchar>& foreign) {
    ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
    atlas.Clear();
    const std::vector<Face> plain = faces("regular", foreign);
    const std::vector<Face> bold = faces("bold", foreign);
    const double size = std::round(letter_px * scale);
    Ranges ranges;
    const Fonts fonts{.plain = load(plain, size, ranges),
                      .bold = load(bold, size, ranges),
                      .small = load(plain, std::round(0.86 * letter_px * scale), ranges),
                      .large = load(bold, std::round(1.3 * letter_px * scale), ranges)};
    atlas.Build();
    return fonts;
}

}  // namespace backrow::window
