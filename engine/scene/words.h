#pragma once

// The words of a scene file, and what each stands for: for whoever reads, writes or shows them.

#include "scene/scene.h"

#include <array>
#include <cstddef>
#include <string_view>
#include <utility>

namespace backrow::scene {

/// Every word that may stand for a value of one kind.
template <class Value, std::size_t N>
using Words = std::array<std::pair<std::string_view, Value>, N>;

/// The word that stands for this value.
template <class Value, std::size_t N>
[[nodiscard]] constexpr std::string_view word_for(const Words<Value, N>& words, Value value) {
    for (const auto& [word, meaning] : words)
        if (meaning == value)
            return word;
    return {};
}

/// How a finished picture is used; what that means for what is sharp, viewing_for() says.
enum class Use { phone, album, wall, single_pixels };

[[nodiscard]] inline Viewing viewing_for(Use how) {
    switch (how) {
    case Use::phone:
        return optics::phone_viewing;
    case Use::album:
        return optics::album_viewing;
    case Use::wall:
        return optics::wall_viewing;
    case Use::single_pixels:
        break;
    }
    return PixelViewing{};
}

namespace words {

// [camera]
inline constexpr Words<Orientation, 2> orientation{
    {{"landscape", Orientation::landscape}, {"portrait", Orientation::portrait}}};
inline constexpr Words<FocusFoundAt, 2> found_at{
    {{"working", FocusFoundAt::working}, {"wide_open", FocusFoundAt::wide_open}}};
inline constexpr Words<ShownExposure, 2> exposure{
    {{"metered", ShownExposure::metered}, {"as_set", ShownExposure::as_set}}};

// [viewing]
inline constexpr Words<Use, 4> use{{{"phone", Use::phone},
                                    {"album", Use::album},
                                    {"wall", Use::wall},
                                    {"pixels", Use::single_pixels}}};
inline constexpr Words<Judge, 2> judge{{{"sharpness", Judge::sharpness}, {"blur", Judge::blur}}};

// [[person]]
inline constexpr Words<figures::Sex, 2> sex{
    {{"female", figures::Sex::female}, {"male", figures::Sex::male}}};
inline constexpr Words<figures::Physique, 4> build{{{"slim", figures::Physique::slim},
                                                    {"medium", figures::Physique::medium},
                                                    {"broad", figures::Physique::broad},
                                                    {"stout", figures::Physique::stout}}};
inline constexpr Words<figures::Skin, 6> skin{{{"very light", figures::Skin::very_light},
                                               {"light", figures::Skin::light},
                                               {"medium light", figures::Skin::medium_light},
                                               {"medium dark", figures::Skin::medium_dark},
                                               {"dark", figures::Skin::dark},
                                               {"very dark", figures::Skin::very_dark}}};
inline constexpr Words<figures::HairColour, 8> hair_colour{
    {{"black", figures::HairColour::black},
     {"dark brown", figures::HairColour::dark_brown},
     {"brown", figures::HairColour::brown},
     {"light brown", figures::HairColour::light_brown},
     {"blond", figures::HairColour::blond},
     {"red", figures::HairColour::red},
     {"grey", figures::HairColour::grey},
     {"white", figures::HairColour::white}}};
inline constexpr Words<figures::Posture, 7> posture{
    {{"standing", figures::Posture::standing},
     {"seated", figures::Posture::seated},
     {"kneeling", figures::Posture::kneeling},
     {"crouching", figures::Posture::crouching},
     {"kneeling_both", figures::Posture::kneeling_both},
     {"on_ground", figures::Posture::on_ground},
     {"on_step", figures::Posture::on_step}}};
/// How a child sits whom `carried_by` names somebody for.
inline constexpr Words<figures::Posture, 2> carried{
    {{"hip", figures::Posture::on_hip}, {"shoulders", figures::Posture::on_shoulders}}};
inline constexpr Words<figures::Arms, 6> arms{
    {{"down", figures::Arms::down},
     {"folded", figures::Arms::folded},
     {"behind", figures::Arms::behind},
     {"crossed", figures::Arms::crossed},
     {"round_neighbours", figures::Arms::round_neighbours},
     {"hand_on_shoulder", figures::Arms::hand_on_shoulder}}};
inline constexpr Words<figures::Expression, 4> expression{
    {{"neutral", figures::Expression::neutral},
     {"smile", figures::Expression::smile},
     {"laugh", figures::Expression::laugh},
     {"eyes_closed", figures::Expression::eyes_closed}}};
inline constexpr Words<figures::Hair, 5> hair{{{"short", figures::Hair::short_cut},
                                               {"long", figures::Hair::long_cut},
                                               {"tied", figures::Hair::tied},
                                               {"curly", figures::Hair::curly},
                                               {"none", figures::Hair::none}}};
inline constexpr Words<figures::Headwear, 3> headwear{
    {{"none", figures::Headwear::none},
     {"hat", figures::Headwear::hat},
     {"headscarf", figures::Headwear::headscarf}}};
inline constexpr Words<figures::Top, 6> top{{{"shirt", figures::Top::shirt},
                                             {"blouse", figures::Top::blouse},
                                             {"jumper", figures::Top::jumper},
                                             {"tee", figures::Top::tee},
                                             {"jacket", figures::Top::jacket},
                                             {"dress", figures::Top::dress}}};
inline constexpr Words<figures::Bottom, 2> bottom{
    {{"trousers", figures::Bottom::trousers}, {"skirt", figures::Bottom::skirt}}};

// [setting]
inline constexpr Words<setting::Ground, 4> ground{{{"grass", setting::Ground::grass},
                                                   {"paving", setting::Ground::paving},
                                                   {"sand", setting::Ground::sand},
                                                   {"boards", setting::Ground::boards}}};
inline constexpr Words<setting::BackdropKind, 10> backdrop_kind{
    {{"wall", setting::BackdropKind::wall},
     {"hedge", setting::BackdropKind::hedge},
     {"trees", setting::BackdropKind::trees},
     {"lights", setting::BackdropKind::lights},
     {"water", setting::BackdropKind::water},
     {"bookshelf", setting::BackdropKind::bookshelf},
     {"hall", setting::BackdropKind::hall},
     {"beach", setting::BackdropKind::beach},
     {"street", setting::BackdropKind::street},
     {"photo", setting::BackdropKind::photo}}};
inline constexpr Words<setting::Finish, 2> finish{
    {{"brick", setting::Finish::brick}, {"plaster", setting::Finish::plaster}}};

// [light]
inline constexpr Words<LightKind, 2> light_kind{
    {{"open", LightKind::open}, {"window", LightKind::window}}};

}  // namespace words

}  // namespace backrow::scene
