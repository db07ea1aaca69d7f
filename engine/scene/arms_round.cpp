#include "scene/arms_round.h"

#include "scene/camera_view.h"

#include "figures/posture/reach.h"
#include "figures/posture/spots.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <array>
#include <limits>
#include <map>
#include <optional>

namespace backrow::scene {
namespace {

using figures::Arms;
using figures::Bearing;
using figures::Spot;
using glm::dvec3;

/// Nobody has arms so long that two people this far apart could touch.
constexpr double farthest_m = 1.6;

/// Somebody as others touch them, engine space.
struct Touchable {
    explicit Touchable(const Person& person)
        : figure{figure_of(person)}, origin_m{figure_origin_m(person)} {
        bearing = figures::bearing(figure);
        bearing.shoulders_m += origin_m;
    }
    figures::Person figure;
    dvec3 origin_m;
    Bearing bearing;

    /// The side of this body, 0 left, 1 right, on which a point lies.
    [[nodiscard]] int side_of(const dvec3& point_m) const {
        return glm::dot(point_m - bearing.shoulders_m, bearing.left) > 0 ? 0 : 1;
    }
    [[nodiscard]] double shoulder_m() const { return bearing.shoulders_m.y; }
};

/// What an arm that comes from one side goes round: the trunk, and the arm on that side unless it
/// has still to find its own place.
std::vector<figures::Capsule> obstacles(const Touchable& on, int near_side) {
    std::vector<figures::Capsule> body = figures::trunk_solids(on.figure);
    const figures::Pose& pose = on.figure.pose;
    if (pose.arms != Arms::round_neighbours || pose.holds[static_cast<std::size_t>(near_side)])
        for (const figures::Capsule& solid : figures::arm_solids(on.figure, near_side))
            body.push_back(solid);
    return body;
}

/// One hand of one person on a spot of another, in the first one's figure space.
std::optional<figures::Hold> laid(const Touchable& who, int side, const Touchable& on, Spot spot,
                                  const dvec3& fingers) {
    const dvec3 shift = on.origin_m - who.origin_m;
    spot.at_m += shift;
    std::vector<figures::Capsule> body = obstacles(on, on.side_of(who.bearing.shoulders_m));
    for (figures::Capsule& solid : body) {
        solid.from_m += shift;
        solid.to_m += shift;
    }
    return figures::reach(who.figure, side, spot, fingers, body);
}

/// As far round a neighbour as the arm reaches.
///
/// goes_over   over the neighbour's own arm, or under it
/// farthest    as in on_the_back(), negative on the near side of the spine
std::optional<figures::Hold> round_the_back(const Touchable& who, const Touchable& neighbour,
                                            bool goes_over, double farthest) {
    const int near_side = neighbour.side_of(who.bearing.shoulders_m);
    const int far_side = 1 - near_side;
    const double far = far_side == 0 ? 1.0 : -1.0;
    const Bearing& body = neighbour.bearing;
    // As high on the neighbour as the own shoulder, or round the waist.
    const double level = 1 + (who.shoulder_m() - body.shoulders_m.y) / body.hips_to_shoulders_m;
    const double up =
        goes_over ? std::clamp(level - 0.10, 0.50, 0.90) : std::clamp(level - 0.45, 0.38, 0.55);
    const int side = who.side_of(body.shoulders_m);
    // Two hands that meet on one back lie one above the other.
    constexpr double one_hand = 0.16;
    const double lower = farthest < 0 && side == 1 ? one_hand : 0;
    // Over the muscle of the far shoulder, but not in the crease before it; then along the back.
    constexpr std::array<double, 7> shares{1.15, 0.45, 0.3, 0.15, 0.0, -0.25, -0.55};
    for (const double share : shares) {
        if (share > farthest)
            continue;
        const Spot spot =
            share >= 0 ? figures::on_the_back(neighbour.figure, far_side, share, up - lower)
                       : figures::on_the_back(neighbour.figure, near_side, -share, up - lower);
        const dvec3 fingers = body.left * far + body.up * (goes_over ? -0.15 : 0.1);
        if (auto hold = laid(who, side, neighbour, spot, fingers))
            return hold;
    }
    return std::nullopt;
}

std::optional<figures::Hold> on_a_shoulder(const Touchable& who, int side, const Touchable& other,
                                           int shoulder) {
    const Spot spot = figures::on_the_shoulder(other.figure, shoulder);
    const double out = shoulder == 0 ? 1.0 : -1.0;
    const Bearing& body = other.bearing;
    const dvec3 from = who.bearing.shoulders_m - body.shoulders_m;
    // Fingers point away from where the hand comes from.
    const dvec3 fingers =
        -glm::normalize(dvec3{from.x, 0, from.z}) - 0.5 * body.up + 0.2 * out * body.left;
    return laid(who, side, other, spot, fingers);
}

class ArmsRound {
public:
    explicit ArmsRound(std::vector<Person>& people) : people_{people} {
        for (std::size_t i = 0; i < people.size(); ++i)
            if (people[i].carrier < 0)
                rows_[people[i].row].push_back(i);
        for (auto& [row, members] : rows_)
            std::ranges::stable_sort(members, {},
                                     [&](std::size_t i) { return people[i].place.across_m; });
    }

    void lay(std::size_t i) {
        if (people_[i].pose.arms == Arms::round_neighbours)
            for (const std::size_t j : neighbours(i))
                round(i, j);
        if (people_[i].pose.arms == Arms::hand_on_shoulder)
            on_nearest(i);
    }

private:
    /// Left and right in the row, where there is somebody near enough.
    [[nodiscard]] std::vector<std::size_t> neighbours(std::size_t i) const {
        const std::vector<std::size_t>& row = rows_.at(people_[i].row);
        const auto self = std::ranges::find(row, i);
        std::vector<std::size_t> found;
        if (self != row.begin() && near(i, *(self - 1)))
            found.push_back(*(self - 1));
        if (self + 1 != row.end() && near(i, *(self + 1)))
            found.push_back(*(self + 1));
        return found;
    }
    [[nodiscard]] double distance_m(std::size_t i, std::size_t j) const {
        return glm::distance(engine_from_mark(people_[i].place),
                             engine_from_mark(people_[j].place));
    }
    [[nodiscard]] bool near(std::size_t i, std::size_t j) const {
        return distance_m(i, j) < farthest_m;
    }

    [[nodiscard]] bool is_free(std::size_t i, int side) const {
        return !people_[i].pose.holds[static_cast<std::size_t>(side)];
    }
    void take(std::size_t i, int side, const figures::Hold& hold) {
        people_[i].pose.holds[static_cast<std::size_t>(side)] = hold;
    }

    [[nodiscard]] bool embraces(std::size_t i) const {
        return people_[i].pose.arms == Arms::round_neighbours;
    }

    /// Whether the arm of one lies over the other's, if that one has an arm round the first as
    /// well.
    [[nodiscard]] bool goes_over(std::size_t i, std::size_t j) const {
        if (!embraces(j))
            return true;
        constexpr double same_m = 0.001;
        const double higher_m =
            Touchable{people_[i]}.shoulder_m() - Touchable{people_[j]}.shoulder_m();
        return std::abs(higher_m) > same_m ? higher_m > 0
                                           : people_[i].place.across_m < people_[j].place.across_m;
    }

    /// How far round a neighbour there is room for a hand: not to an arm that is itself round
    /// somebody, and to the spine where another hand comes as high from the other side.
    [[nodiscard]] double farthest_round(std::size_t i, std::size_t j, bool over) const {
        constexpr double far_shoulder = 2, far_waist = 0.4, before_the_arm = 0.8,
                         before_waist = 0.2, near_side = -0.5;
        double farthest = over ? far_shoulder : far_waist;
        for (const std::size_t k : neighbours(j)) {
            if (k == i)
                continue;
            if (embraces(j))
                farthest = over ? before_the_arm : before_waist;
            if (embraces(k) && goes_over(k, j) == over)
                farthest = near_side;
        }
        return farthest;
    }

    void round(std::size_t i, std::size_t j) {
        const Touchable who{people_[i]}, neighbour{people_[j]};
        const int side = who.side_of(neighbour.bearing.shoulders_m);
        if (!is_free(i, side))
            return;
        const bool over = goes_over(i, j);
        if (const auto hold = round_the_back(who, neighbour, over, farthest_round(i, j, over)))
            take(i, side, *hold);
    }

    /// Whoever stands in front by more than the depth of a body, then neighbours; nearest first.
    void on_nearest(std::size_t i) {
        constexpr double in_front_m = 0.25;
        std::vector<std::size_t> in_front;
        for (std::size_t j = 0; j < people_.size(); ++j)
            if (j != i && people_[j].carrier < 0 &&
                people_[i].place.back_m - people_[j].place.back_m > in_front_m && near(i, j))
                in_front.push_back(j);
        std::ranges::stable_sort(in_front, {}, [&](std::size_t j) { return distance_m(i, j); });
        for (const std::size_t j : in_front)
            if (on_shoulder_of(i, j, true))
                return;
        std::vector<std::size_t> beside = neighbours(i);
        std::ranges::stable_sort(beside, {}, [&](std::size_t j) { return distance_m(i, j); });
        for (const std::size_t j : beside)
            if (on_shoulder_of(i, j, false))
                return;
    }

    /// In front the nearer shoulder first, with either hand; a neighbour's far one, from behind.
    bool on_shoulder_of(std::size_t i, std::size_t j, bool in_front) {
        const Touchable who{people_[i]}, other{people_[j]};
        const int near_shoulder = other.side_of(who.bearing.shoulders_m);
        const int near_hand = who.side_of(other.bearing.shoulders_m);
        const int first = in_front ? near_shoulder : 1 - near_shoulder;
        for (const int shoulder : {first, 1 - first})
            for (const int hand : {near_hand, 1 - near_hand}) {
                if (!is_free(i, hand) || (hand != near_hand && !in_front))
                    continue;
                if (const auto hold = on_a_shoulder(who, hand, other, shoulder)) {
                    take(i, hand, *hold);
                    return true;
                }
            }
        return false;
    }

    std::vector<Person>& people_;
    std::map<int, std::vector<std::size_t>> rows_;
};

}  // namespace

void lay_arms(std::vector<Person>& people) {
    ArmsRound arms{people};
    for (std::size_t i = 0; i < people.size(); ++i)
        if (people[i].carrier < 0)
            arms.lay(i);
}

}  // namespace backrow::scene
