#include "figures/appearance.h"

#include "figures/name_hash.h"

#include "base/colour.h"

#include <glm/common.hpp>

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>

namespace backrow::figures {
namespace {

using glm::dvec3;

/// From the eight-bit values of a colour chooser.
dvec3 srgb(int r, int g, int b) {
    const auto linear = [](int c) {
        return static_cast<double>(linear_from_srgb(static_cast<float>(c) / 255.0f));
    };
    return {linear(r), linear(g), linear(b)};
}

template <std::size_t N>
const dvec3& pick(const std::array<dvec3, N>& from, Draws& draws) {
    return from[static_cast<std::size_t>(draws.one_of(static_cast<int>(N)))];
}

struct Complexion {
    dvec3 skin;
    dvec3 lips;
    bool dark_haired;
};

constexpr int complexions = 8;

/// Of 0, the lightest, to the last.
Complexion complexion(int which) {
    static const std::array<Complexion, complexions> all{{
        {srgb(232, 194, 172), srgb(196, 128, 120), false},
        {srgb(225, 182, 155), srgb(188, 116, 106), false},
        {srgb(216, 170, 140), srgb(178, 106, 94), false},
        {srgb(206, 158, 124), srgb(170, 98, 86), true},
        {srgb(190, 140, 106), srgb(154, 88, 78), true},
        {srgb(166, 116, 84), srgb(134, 76, 68), true},
        {srgb(136, 92, 66), srgb(114, 64, 58), true},
        {srgb(108, 72, 53), srgb(98, 56, 52), true},
    }};
    return all[static_cast<std::size_t>(which)];
}

/// Which complexion somebody has: as said, or their own by name, or within a step of the family's.
int which_complexion(const Styling& styling, Draws& own) {
    static constexpr std::array<int, 6> said{0, 1, 3, 5, 6, 7};
    const int drawn = own.one_of(complexions);
    if (styling.skin)
        return said[static_cast<std::size_t>(*styling.skin)];
    if (styling.family.empty())
        return drawn;
    const int of_family = Draws{styling.family, "skin"}.one_of(complexions);
    const int step = own.one_of(4);  // One in four a little lighter, one a little darker.
    return std::clamp(of_family + (step == 0 ? -1 : step == 1 ? 1 : 0), 0, complexions - 1);
}

/// The complexion whose hair and eyes somebody has by nature: a family has them in common.
bool is_dark_haired(const Styling& styling, const Complexion& own) {
    if (styling.skin || styling.family.empty())
        return own.dark_haired;
    return complexion(Draws{styling.family, "skin"}.one_of(complexions)).dark_haired;
}

dvec3 said_hair(HairColour colour) {
    static const std::array<dvec3, 8> all{
        srgb(28, 22, 20),   srgb(44, 32, 26),  srgb(88, 62, 44),    srgb(122, 86, 56),
        srgb(168, 128, 84), srgb(124, 62, 36), srgb(138, 135, 132), srgb(214, 211, 206)};
    return all[static_cast<std::size_t>(colour)];
}

dvec3 hair_colour(Draws& draws, const Styling& styling, bool dark_haired, double age_years) {
    static const std::array<dvec3, 3> dark{srgb(28, 22, 20), srgb(44, 32, 26), srgb(62, 42, 32)};
    static const std::array<dvec3, 6> any{srgb(52, 37, 28),   srgb(88, 62, 44),  srgb(122, 86, 56),
                                          srgb(168, 128, 84), srgb(124, 62, 36), srgb(70, 50, 40)};
    dvec3 own = dark_haired ? pick(dark, draws) : pick(any, draws);
    const double grey = glm::smoothstep(42.0, 72.0, age_years + draws.between(-8, 8));
    if (styling.hair_colour)
        return said_hair(*styling.hair_colour);
    if (!styling.family.empty()) {
        Draws family{styling.family, "hair"};
        own = glm::mix(dark_haired ? pick(dark, family) : pick(any, family), own, 0.15);
    }
    return glm::mix(own, srgb(196, 193, 190), grey);
}

dvec3 iris_colour(Draws& own, const std::string& family, bool dark_haired) {
    static const std::array<dvec3, 3> brown{srgb(84, 52, 30), srgb(66, 40, 26), srgb(104, 68, 38)};
    static const std::array<dvec3, 5> any{srgb(92, 122, 150), srgb(116, 132, 134),
                                          srgb(104, 116, 80), srgb(122, 88, 50), srgb(84, 54, 34)};
    const dvec3 drawn = dark_haired ? pick(brown, own) : pick(any, own);
    if (family.empty())
        return drawn;
    Draws draws{family, "iris"};
    return glm::mix(dark_haired ? pick(brown, draws) : pick(any, draws), drawn, 0.15);
}

HairStyle hair_style(Draws& draws, bool feminine, bool child, double age_years) {
    static constexpr std::array feminine_styles{HairStyle::waves, HairStyle::bob, HairStyle::tied,
                                                HairStyle::curls, HairStyle::waves};
    static constexpr std::array masculine_styles{HairStyle::cropped, HairStyle::parted,
                                                 HairStyle::curls, HairStyle::parted,
                                                 HairStyle::none};
    const int choice = draws.one_of(5);
    const HairStyle style = feminine ? feminine_styles[static_cast<std::size_t>(choice)]
                                     : masculine_styles[static_cast<std::size_t>(choice)];
    const bool may_be_bald = !child && age_years >= 28;
    return style == HairStyle::none && !may_be_bald ? HairStyle::cropped : style;
}

FaceTraits face_traits(Draws& draws, Draws& shape, const std::string& family, bool feminine,
                       bool dark_haired, double age_years) {
    const auto trait = [&] { return (draws.between(-1, 1) + draws.between(-1, 1)) / 2; };
    const double towards = feminine ? 1.0 : -1.0;
    FaceTraits face;
    face.nose_width = trait() - 0.25 * towards;
    face.nose_length = trait();
    face.nose_bridge = trait() - 0.2 * towards;
    face.lip_fullness = trait() + 0.25 * towards;
    face.mouth_width = trait();
    face.smile = 0.35 + 0.65 * draws.share();
    face.jaw_width = trait() - 0.45 * towards;
    face.chin_length = trait();
    face.cheek_fullness = trait() + 0.2 * towards;
    face.brow_height = trait() + 0.3 * towards;
    face.brow_thickness = trait() - 0.5 * towards;
    face.brow_arch = trait() + 0.3 * towards;
    face.eye_opening = trait();
    face.eye_slant = trait();
    const double speckled = draws.share();
    face.freckles = dark_haired ? 0.0 : glm::smoothstep(0.6, 1.0, speckled);
    face.iris = iris_colour(draws, family, dark_haired);
    const auto form = [&] { return (shape.between(-1, 1) + shape.between(-1, 1)) / 1.5; };
    face.eye_depth = form() - 0.3 * towards;
    face.cheekbone = form() + 0.15 * towards;
    face.chin_width = form() - 0.4 * towards;
    face.nose_hump = form() - 0.25 * towards;
    face.nose_tip = form();
    face.mouth_height = form();
    face.forehead = form() + 0.35 * towards;
    face.years = glm::smoothstep(32.0, 80.0, age_years);
    return face;
}

/// The style that was asked for; the name's own where that is one of them.
HairStyle style_for(Hair hair, HairStyle own) {
    switch (hair) {
    case Hair::short_cut:
        return own == HairStyle::parted ? own : HairStyle::cropped;
    case Hair::long_cut:
        return own == HairStyle::bob ? own : HairStyle::waves;
    case Hair::tied:
        return HairStyle::tied;
    case Hair::curly:
        return HairStyle::curls;
    case Hair::none:
        break;
    }
    return HairStyle::none;
}

}  // namespace

Appearance appearance(const Person& person) {
    const std::string& name = person.name;
    const BodyMeasures& measures = person.measures;
    const Styling& styling = person.styling;
    static const std::array<dvec3, 12> tops{
        srgb(176, 74, 62),  srgb(62, 96, 132),   srgb(88, 122, 96),   srgb(188, 150, 92),
        srgb(128, 84, 112), srgb(222, 214, 198), srgb(72, 82, 98),    srgb(196, 122, 84),
        srgb(96, 140, 150), srgb(150, 58, 76),   srgb(164, 176, 188), srgb(118, 112, 74)};
    static const std::array<dvec3, 5> jackets{srgb(52, 60, 78), srgb(74, 72, 70), srgb(96, 84, 70),
                                              srgb(46, 66, 64), srgb(112, 108, 104)};
    static const std::array<dvec3, 4> unders{srgb(232, 230, 226), srgb(206, 218, 230),
                                             srgb(226, 212, 208), srgb(214, 206, 186)};
    static const std::array<dvec3, 5> ties{srgb(122, 38, 44), srgb(36, 52, 92), srgb(52, 84, 72),
                                           srgb(92, 58, 98), srgb(148, 112, 52)};
    static const std::array<dvec3, 6> bottoms{srgb(44, 52, 70),   srgb(66, 64, 64),
                                              srgb(142, 122, 96), srgb(58, 76, 104),
                                              srgb(84, 72, 60),   srgb(96, 102, 88)};
    static const std::array<dvec3, 6> headwears{srgb(72, 64, 58),   srgb(52, 58, 72),
                                                srgb(150, 128, 98), srgb(92, 58, 62),
                                                srgb(84, 104, 108), srgb(196, 184, 160)};
    static const std::array<dvec3, 4> shoes{srgb(38, 34, 34), srgb(84, 56, 40), srgb(58, 42, 34),
                                            srgb(188, 182, 174)};
    // Each aspect has draws of its own: a new hair style must not change anybody's clothes.
    Draws body{name, "presentation"};
    Draws skin{name, "skin"};
    Draws hair{name, "hair"};
    Draws face{name, "face"};
    Draws face_shape{name, "face shape"};
    Draws clothes{name, "clothes"};
    Draws headwear{name, "headwear"};
    Draws folds{name, "folds"};
    Draws tie{name, "tie"};

    Appearance a;
    const bool child = measures.age_years < 14;
    const bool drawn_feminine = body.share() < 0.5;
    a.feminine = measures.sex == Sex::neutral ? drawn_feminine : measures.sex == Sex::female;
    const Complexion look = complexion(which_complexion(styling, skin));
    const bool dark_haired = is_dark_haired(styling, look);
    a.skin = look.skin;
    a.lips = look.lips;
    a.hair = hair_colour(hair, styling, dark_haired, measures.age_years);
    a.hair_style = hair_style(hair, a.feminine, child, measures.age_years);
    a.face =
        face_traits(face, face_shape, styling.family, a.feminine, dark_haired, measures.age_years);

    static constexpr std::array childrens{Top::tee, Top::jumper, Top::shirt, Top::tee};
    static constexpr std::array womens{Top::blouse, Top::jumper, Top::jacket, Top::blouse};
    static constexpr std::array mens{Top::shirt, Top::jacket, Top::jumper, Top::shirt};
    const auto choice = static_cast<std::size_t>(clothes.one_of(4));
    a.top = child ? childrens[choice] : a.feminine ? womens[choice] : mens[choice];
    a.bottom = a.feminine && clothes.share() < 0.4 ? Bottom::skirt : Bottom::trousers;
    a.top = styling.top.value_or(a.top);
    a.bottom = styling.bottom.value_or(a.bottom);
    if (styling.hair)
        a.hair_style = style_for(*styling.hair, a.hair_style);
    a.headwear = styling.headwear;
    a.beard = styling.beard;
    a.glasses = styling.glasses;
    a.top_colour = a.top == Top::jacket ? pick(jackets, clothes) : pick(tops, clothes);
    a.under_colour = pick(unders, clothes);
    a.bottom_colour = pick(bottoms, clothes);
    a.tie = a.top == Top::jacket && !a.feminine && measures.age_years > 15 && tie.share() < 0.7;
    a.tie_colour = pick(ties, tie);
    a.shoe_colour = pick(shoes, clothes);
    if (a.top == Top::jacket && a.shoe_colour == shoes.back())
        a.shoe_colour = shoes.front();  // No white shoes with a jacket.
    a.headwear_colour = pick(headwears, headwear);
    a.fold_phase_rad = folds.between(0, 6.28);
    // Whatever is said, all draws are made: a colour must not change anything else.
    a.top_colour = styling.top_colour.value_or(a.top_colour);
    a.bottom_colour = styling.bottom_colour.value_or(a.bottom_colour);
    a.headwear_colour = styling.headwear_colour.value_or(a.headwear_colour);
    // Who kneels, crouches or sits on the ground for a picture has come in trousers.
    if (wears_trousers(person.pose.posture)) {
        a.bottom = Bottom::trousers;
    } else if (a.top == Top::dress) {  // Of one cloth.
        a.bottom = Bottom::skirt;
        a.bottom_colour = a.top_colour;
    }
    return a;
}

}  // namespace backrow::figures
