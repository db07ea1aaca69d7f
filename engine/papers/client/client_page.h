#pragma once

// The page for the client: one HTML file with everything in it, for a phone and for a screen. It
// asks the network for nothing and runs nothing but its own script; without that it is a sequence
// of captioned pictures and tables.

#include "papers/client/client_facts.h"
#include "papers/words/language.h"

#include "base/image.h"
#include "base/length_words.h"
#include "base/problem.h"

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace backrow::papers {

/// What a page may weigh to travel by e-mail.
inline constexpr std::size_t most_page_bytes = 6'000'000;

/// Qualities of its WebP pictures that are tried in turn until the page is light enough. The JPEG
/// pictures beside them, for old browsers, have three quarters of it.
inline constexpr std::array page_qualities{84, 74, 64, 54, 44, 34};

/// Where a face is in a picture, as shares of its width and height.
struct FacePlace {
    double left = 0, top = 0, width = 0, height = 0;
};

/// One picture, and a closer look at faces in it.
struct ClientPicture {
    Image<Rgb8> whole{};
    /// One tile beside another for each of ClientPictures::looked_at, in rows of so many columns;
    /// a pixel of it is one of the camera. Empty where no face is looked at.
    Image<Rgb8> faces{};
    std::vector<std::optional<FacePlace>> places{};  ///< None for who is not in this picture.
};

struct ClientPictures {
    std::vector<ClientPicture> pictures{};  ///< As facts have them, all as large.
    std::vector<std::size_t> looked_at{};   ///< Indices of people.
    int columns = 1;
    int tile_width_px = 0;
    int tile_height_px = 0;
};

/// What is written into the page besides: files of ours that are found as shaders are.
struct ClientAssets {
    std::string style;
    std::string script;
};
[[nodiscard]] Made<ClientAssets> client_assets();

struct ClientChoices {
    Units units = Units::metric;
    Language language{};
    std::size_t most_bytes = most_page_bytes;
};

struct ClientPage {
    std::string html;
    int quality = page_qualities.front();  ///< Of page_qualities, that which was light enough.
};

/// Of a page that no quality makes light enough: what it weighs at the least one.
struct TooHeavy {
    std::size_t bytes = 0;
};

[[nodiscard]] tl::expected<ClientPage, TooHeavy> client_page(const ClientFacts& facts,
                                                             const ClientPictures& pictures,
                                                             const ClientAssets& assets,
                                                             const ClientChoices& choices);

}  // namespace backrow::papers
