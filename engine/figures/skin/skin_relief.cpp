#include "figures/skin/skin_relief.h"

#include "figures/head/face_chart.h"
#include "figures/head/face_lines.h"
#include "figures/head/head_form.h"
#include "figures/head/head_frame.h"
#include "figures/skin/noise.h"

#include "base/side_by_side.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <utility>
#include <vector>

namespace backrow::figures {
namespace {

using glm::dvec2;
using glm::dvec3;

constexpr double sheet_mm = sheet::width / sheet::per_mm;

/// How strongly skin of an age shows what it has; 1 that of a grown face, by eye.
struct SkinStrength {
    double relief, pores, blotches, lines;
};
SkinStrength strength_of(SkinAge age) {
    switch (age) {
    case SkinAge::child:
        return {0.55, 0.15, 0.8, 0.0};
    case SkinAge::young:
        return {0.85, 0.75, 0.8, 0.10};
    case SkinAge::grown:
        return {1.05, 1.0, 1.0, 0.45};
    case SkinAge::old:
        break;
    }
    return {1.45, 1.1, 1.5, 1.0};
}

/// Height of the skin's own relief: a net of fine furrows, and softer lumps under it.
SheetRow relief_along(const SheetRow& x_mm, const SheetRow& y_mm) {
    const auto noise = [&](double cells_mm, int k) {
        const int across = static_cast<int>(std::lround(sheet_mm / cells_mm));
        const float scale = static_cast<float>(across) / static_cast<float>(sheet_mm);
        return cell_noise(x_mm, y_mm, scale, k, across);
    };
    const SheetRow net = noise(1.2, 1), finer_net = noise(0.7, 2), lumps = noise(0.42, 3),
                   soft_lumps = noise(2.6, 4);
    SheetRow relief;
    for (std::size_t c = 0; c < relief.size(); ++c)
        relief[c] = 0.9f * (-0.7f * std::abs(net[c]) - 0.9f * std::abs(finer_net[c])) +
                    0.65f * lumps[c] + 0.22f * soft_lumps[c];
    return relief;
}

/// Its brightness under the sky, around 0: what faces up is bright, furrows are dark. above: the
/// relief of the texel over it.
float lit_relief(float here, float above) {
    return 0.070f * (here + 0.7f) - 0.10f * (here - above);
}

/// Where pores, freckles and stubble are, 0 … 1.
struct Places {
    double pores, freckles, stubble;
};
Places places_at(const dvec3& p) {
    const double lips = lips_at(p);
    const double x = std::abs(p.x), y = p.y;
    const double front = glm::smoothstep(0.0, 35.0, p.z) * (1 - lips);
    const double lids = hill((x - model::pupil_x) / 19.0) * hill(y / 13.0);
    const double nose = hill(x / 17.0) * hill((y + 34) / 20.0);
    const double cheek = hill((x - 28) / 16.0) * hill((y + 36) / 18.0);
    const double forehead = glm::smoothstep(20.0, 32.0, y);
    const double bare = 1 - 0.9 * lids;
    const double moustache = hill((y + 58) / 6.0) * hill(x / 26.0);
    return {front * bare * (0.35 + 0.75 * nose + 0.55 * cheek + 0.15 * forehead),
            front * (1 - 0.7 * lids) *
                std::min(1.0, 0.9 * hill((x - 22) / 26.0) * hill((y + 26) / 20.0) + 0.9 * nose +
                                  0.25 * forehead * (1 - glm::smoothstep(50.0, 75.0, y))),
            glm::smoothstep(-10.0, 20.0, p.z) * (1 - lips) *
                std::max(moustache, glm::smoothstep(-50.0, -72.0, y) *
                                        (1 - 0.5 * hill((x - 28) / 9.0) * hill((y + 62) / 9.0)))};
}

/// What sheets of all kinds have in common, by texel of the face.
struct FaceTexel {
    float relief;  ///< Of the skin, as relief_along().
    float line;
    float blood;
};

struct LipTexel {
    float lips;    ///< 0 off the lips …
    float crease;  ///< … and so is their creases' relief.
};

struct Face {
    std::vector<FaceTexel> texels;
    std::vector<std::vector<LipTexel>> lips;  ///< By rows; empty where a row has none.
};

std::size_t texel_index(int column, int row) {
    return static_cast<std::size_t>(row) * sheet::width + static_cast<std::size_t>(column);
}

void fill_face_row(int row, Face& face) {
    std::array<dvec3, sheet::width> at_mm;
    SheetRow across, down;
    for (std::size_t c = 0; c < sheet::width; ++c) {
        const ChartPoint point = chart_point(static_cast<double>(c) + 0.5, row + 0.5);
        at_mm[c] = point.at_mm;
        across[c] = static_cast<float>(point.laid_mm.x);
        down[c] = static_cast<float>(point.laid_mm.y);
    }
    const auto noise = [&](float per_mm, int k) {
        return cell_noise(across, down, per_mm, k, 4096);
    };
    const SheetRow relief = relief_along(across, down);
    const SheetRow wander = noise(0.12f, 31);
    const SheetRow blood = noise(0.11f, 41), finer = noise(0.30f, 42), finest = noise(0.75f, 43);
    FaceTexel* texels = &face.texels[texel_index(0, row)];
    std::vector<LipTexel>& lips = face.lips[static_cast<std::size_t>(row)];
    for (std::size_t c = 0; c < sheet::width; ++c) {
        const dvec3& p = at_mm[c];
        texels[c] = {.relief = relief[c],
                     .line = p.z > 0
                                 ? static_cast<float>(line_depth(p, static_cast<double>(wander[c])))
                                 : 0.0f,
                     .blood = 0.5f * blood[c] + 0.35f * finer[c] + 0.25f * finest[c]};
        if (const auto here = static_cast<float>(lips_at(p)); here > 0) {
            lips.resize(sheet::width);
            lips[c] = {here, here * static_cast<float>(0.45 - lip_crease(p))};
        }
    }
}

const Face& common_face() {
    static const Face made = [] {
        Face face{std::vector<FaceTexel>(texel_index(0, sheet::face_rows)),
                  std::vector<std::vector<LipTexel>>(sheet::face_rows)};
        side_by_side(sheet::face_rows,
                     [&](std::size_t row) { fill_face_row(static_cast<int>(row), face); });
        return face;
    }();
    return made;
}

/// Skin of no particular place, likewise.
struct PlainTexel {
    float lit, blood;
};

const std::vector<PlainTexel>& plain_texels() {
    static const std::vector<PlainTexel> made = [] {
        const auto mm = [](auto texel) {
            return static_cast<float>((static_cast<double>(texel)) / sheet::per_mm);
        };
        SheetRow x;
        for (std::size_t c = 0; c < x.size(); ++c)
            x[c] = mm(c);
        const auto all_at = [&](float y_mm) {
            SheetRow y;
            y.fill(y_mm);
            return y;
        };
        // One more above the first.
        std::vector<SheetRow> relief(sheet::skin_rows + 1);
        side_by_side(relief.size(), [&](std::size_t above) {
            relief[above] = relief_along(x, all_at(mm(static_cast<int>(above) - 1)));
        });
        std::vector<PlainTexel> texels(texel_index(0, sheet::skin_rows));
        side_by_side(sheet::skin_rows, [&](std::size_t r) {
            const SheetRow y = all_at(mm(r));
            const SheetRow blood = cell_noise(x, y, 0.125f, 51, 32);
            const SheetRow finer = cell_noise(x, y, 0.5f, 52, 128);
            PlainTexel* texel = &texels[r * sheet::width];
            for (std::size_t c = 0; c < sheet::width; ++c)
                texel[c] = {lit_relief(relief[r + 1][c], relief[r][c]),
                            0.5f * blood[c] + 0.4f * finer[c]};
        });
        return texels;
    }();
    return made;
}

/// Rows that are painted as one part of the work.
constexpr int strip_rows = 32;
static_assert(sheet::face_rows % strip_rows == 0 && sheet::skin_rows % strip_rows == 0);

/// A soft round dot of another tint.
struct Dot {
    double column, row;
    dvec2 per_radius;  ///< Radii in a texel.
    dvec3 tint;
};

/// The rows or columns with their middles within two radii, beyond which a dot is nothing.
struct Reach {
    int first, last;
};
Reach reach_of(double middle, double per_radius) {
    const double half = 2 / per_radius;
    return {static_cast<int>(std::ceil(middle - 0.5 - half)),
            static_cast<int>(std::floor(middle - 0.5 + half))};
}

/// Multiplies the dot onto a strip of the face.
void lay(const Dot& dot, int strip_row, Image<Rgb>& onto) {
    const Reach down = reach_of(dot.row, dot.per_radius.y);
    const Reach across = reach_of(dot.column, dot.per_radius.x);
    const int from = std::max(0, across.first), to = std::min(sheet::width - 1, across.last);
    const int end = std::min(strip_row + strip_rows - 1, down.last);
    for (int r = std::max(strip_row, down.first); r <= end; ++r) {
        const double y = (r + 0.5 - dot.row) * dot.per_radius.y;
        for (int c = from; c <= to; ++c) {
            const double x = (c + 0.5 - dot.column) * dot.per_radius.x;
            // Nearly the hill of head_form.h.
            const double left = 1 - (x * x + y * y) / 4;
            if (left <= 0)
                continue;
            const double t = left * left * left * left;
            Rgb& texel = onto.at(c, r);
            texel.r *= static_cast<float>(1 - (1 - dot.tint.r) * t);
            texel.g *= static_cast<float>(1 - (1 - dot.tint.g) * t);
            texel.b *= static_cast<float>(1 - (1 - dot.tint.b) * t);
        }
    }
}

/// The dots of a face by the strips that they touch, in each in the order in which they were added.
class Dots {
public:
    void add(double column, double row, double radius_mm, const dvec3& tint, const dvec2& stretch) {
        const Dot dot{column, row, stretch / (sheet::per_mm * radius_mm), tint};
        const Reach down = reach_of(row, dot.per_radius.y);
        const int first = std::max(0, down.first) / strip_rows;
        const int last = std::min(sheet::face_rows - 1, down.last) / strip_rows;
        for (int strip = first; strip <= last; ++strip)
            by_strip_[static_cast<std::size_t>(strip)].push_back(dot);
    }
    [[nodiscard]] const std::vector<Dot>& of_strip(std::size_t strip) const {
        return by_strip_[strip];
    }

private:
    std::array<std::vector<Dot>, sheet::face_rows / strip_rows> by_strip_;
};

/// What may become a dot: one in each cell of the face, at a place shifted by chance.
struct Spot {
    double column, row;
    dvec2 stretch;
    double size, depth;  ///< 0 … 1, by chance.
    double much;         ///< 0 … 1, by where on the face it is.
};

/// The spots of a layer that can be seen on anybody. k tells layers apart; much_at says how much of
/// it there is at a point of the head, is_seen what is kept.
template <class MuchAt, class IsSeen>
std::vector<Spot> strewn(double cell_mm, int k, const MuchAt& much_at, const IsSeen& is_seen) {
    const double cell_texels = cell_mm * sheet::per_mm;
    const auto cells_down = static_cast<std::size_t>(std::ceil(sheet::face_rows / cell_texels));
    std::vector<std::vector<Spot>> rows(cells_down);
    side_by_side(cells_down, [&](std::size_t cell_row) {
        const int y = static_cast<int>(cell_row);
        for (int x = 0; x < sheet::width / cell_texels; ++x) {
            const auto share = [&](int what) {
                return static_cast<double>(cell_share(x, y, k + what));
            };
            const double column = (x + share(0)) * cell_texels, row = (y + share(1)) * cell_texels;
            const ChartPoint at = chart_point(column, row);
            const Spot spot{column, row, at.stretch, share(2), share(3), much_at(at.at_mm)};
            if (is_seen(spot))
                rows[cell_row].push_back(spot);
        }
    });
    std::vector<Spot> all;
    for (const std::vector<Spot>& row : rows)
        all.insert(all.end(), row.begin(), row.end());
    return all;
}

const dvec3 pore_tint{0.70, 0.58, 0.52};
const dvec3 freckle_tint{0.66, 0.47, 0.36};
const dvec3 stubble_tint{0.42, 0.42, 0.46};

dvec3 mixed(const dvec3& tint, double share) {
    return glm::mix(dvec3{1}, tint, std::clamp(share, 0.0, 1.0));
}

void add_pores(const SkinStrength& strong, Dots& dots) {
    static const std::vector<Spot> pores = strewn(
        0.95, 100, [](const dvec3& at_mm) { return places_at(at_mm).pores; },
        [](const Spot& spot) { return spot.much > 0; });
    for (const Spot& pore : pores) {
        const double much = pore.much * strong.pores;
        if (much > 0.05)
            dots.add(pore.column, pore.row, 0.17 + 0.15 * pore.size * std::min(1.0, much),
                     mixed(pore_tint, much * (0.35 + 0.9 * pore.depth)), pore.stretch);
    }
}

void add_freckles(Dots& dots) {
    const auto freckled = [](double cell_mm, int k) {
        return strewn(
            cell_mm, k, [](const dvec3& at_mm) { return places_at(at_mm).freckles; },
            [](const Spot& spot) { return spot.depth < 0.75 * spot.much; });
    };
    static const std::vector<Spot> large = freckled(3.4, 200), small = freckled(2.1, 210);
    for (const auto& [spots, least_mm] : {std::pair{&large, 0.50}, {&small, 0.32}})
        for (const Spot& spot : *spots)
            dots.add(spot.column, spot.row, least_mm + 0.5 * spot.size * spot.size,
                     mixed(freckle_tint, 0.24 + 0.42 * spot.size), spot.stretch);
}

void add_stubble(Dots& dots) {
    static const std::vector<Spot> stubble = strewn(
        0.72, 300,
        [](const dvec3& at_mm) { return at_mm.y > -42 ? 0.0 : places_at(at_mm).stubble; },
        [](const Spot& spot) { return spot.depth < spot.much; });
    for (const Spot& hair : stubble)
        dots.add(hair.column, hair.row, 0.14 + 0.08 * hair.size,
                 mixed(stubble_tint, (0.25 + 0.5 * hair.size) * hair.much), hair.stretch);
}

void add_spots_of_age(Dots& dots) {
    static const std::vector<Spot> off_the_lips = strewn(
        13.0, 400, [](const dvec3& at_mm) { return lips_at(at_mm) == 0 ? 1.0 : 0.0; },
        [](const Spot& spot) { return spot.much > 0 && spot.depth < 0.3; });
    for (const Spot& spot : off_the_lips)
        dots.add(spot.column, spot.row, 0.9 + 1.6 * spot.size, mixed(freckle_tint, 0.25),
                 spot.stretch);
}

Dots dots_of(const SkinDetailKind& kind, const SkinStrength& strong) {
    Dots dots;
    add_pores(strong, dots);
    if (kind.freckled)
        add_freckles(dots);
    if (kind.shaven)
        add_stubble(dots);
    if (kind.age == SkinAge::old)
        add_spots_of_age(dots);
    return dots;
}

void paint_face(const SkinStrength& strong, int first_row, int end_row, Image<Rgb>& onto) {
    const Face& face = common_face();
    const auto relief = static_cast<float>(strong.relief), lines = static_cast<float>(strong.lines);
    const auto blotches = static_cast<float>(strong.blotches);
    for (int r = first_row; r < end_row; ++r) {
        const FaceTexel* row = &face.texels[texel_index(0, r)];
        const FaceTexel* row_above = &face.texels[texel_index(0, std::max(0, r - 1))];
        const std::vector<LipTexel>& lips = face.lips[static_cast<std::size_t>(r)];
        for (int c = 0; c < sheet::width; ++c) {
            const FaceTexel& t = row[c];
            const float lit = lit_relief(t.relief, row_above[c].relief);
            const LipTexel lip = lips.empty() ? LipTexel{} : lips[static_cast<std::size_t>(c)];
            const float light = (1 + relief * (1 - 0.8f * lip.lips) * lit + 0.42f * lip.crease) *
                                (1 - 0.36f * lines * t.line);
            const float blood = blotches * t.blood;
            onto.at(c, r) = {light * (1 - 0.026f * blood), light * (1 - 0.082f * blood),
                             light * (1 - 0.086f * blood)};
        }
    }
}

void paint_plain(const SkinStrength& strong, int first_row, int end_row, Image<Rgb>& onto) {
    const std::vector<PlainTexel>& texels = plain_texels();
    const auto relief = static_cast<float>(strong.relief);
    const auto blotches = static_cast<float>(strong.blotches);
    for (int r = first_row; r < end_row; ++r)
        for (int c = 0; c < sheet::width; ++c) {
            const PlainTexel& t = texels[texel_index(c, r - sheet::skin_row)];
            const float light = 1 + relief * t.lit;
            const float blood = blotches * t.blood;
            onto.at(c, r) = {light * (1 - 0.022f * blood), light * (1 - 0.060f * blood),
                             light * (1 - 0.064f * blood)};
        }
}

}  // namespace

Image<Rgb> painted_skin(const SkinDetailKind& kind) {
    const SkinStrength strong = strength_of(kind.age);
    const Dots dots = dots_of(kind, strong);
    // Made here: whoever waits in a part cannot help with it.
    (void)common_face();
    (void)plain_texels();

    constexpr int rows = sheet::face_rows + sheet::skin_rows;
    Image<Rgb> skin{sheet::width, rows};
    std::array<double, rows> green{};
    side_by_side(rows / strip_rows, [&](std::size_t i) {
        const int first = static_cast<int>(i) * strip_rows, end = first + strip_rows;
        if (first < sheet::face_rows) {
            paint_face(strong, first, end, skin);
            for (const Dot& dot : dots.of_strip(i))
                lay(dot, first, skin);
        } else {
            paint_plain(strong, first, end, skin);
        }
        for (int r = first; r < end; ++r)
            for (int c = 0; c < sheet::width; ++c)
                green[static_cast<std::size_t>(r)] += static_cast<double>(skin.at(c, r).g);
    });

    // Brings the means to that of skin_detail.h.
    const auto gain = [&](int first, int count) {
        const double* from = green.data() + first;
        return static_cast<float>(skin_detail_mean * count * sheet::width /
                                  std::accumulate(from, from + count, 0.0));
    };
    const float face_gain = gain(0, sheet::face_rows);
    const float plain_gain = gain(sheet::skin_row, sheet::skin_rows);
    side_by_side(rows / strip_rows, [&](std::size_t i) {
        const int first = static_cast<int>(i) * strip_rows;
        const float by = first < sheet::face_rows ? face_gain : plain_gain;
        Rgb* texel = &skin.at(0, first);
        for (int t = 0; t < strip_rows * sheet::width; ++t)
            texel[t] = {texel[t].r * by, texel[t].g * by, texel[t].b * by};
    });
    return skin;
}

}  // namespace backrow::figures
