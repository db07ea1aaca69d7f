#include "inspection/inspection.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <utility>

namespace backrow::inspection {
namespace {

using measure::PixelBox;

const double* blur_px(const FrameFace& face) {
    return std::get_if<double>(&face.blur);
}

/// A judged blur against the limit of "fine", the same for all units; −1 where it is not known.
double badness(const FrameFace& face) {
    if (const CannotTell* why = std::get_if<CannotTell>(&face.blur))
        return *why == CannotTell::too_blurred ? std::numeric_limits<double>::infinity() : -1;
    return face.judged.amount / limit_of(optics::Grade::fine, face.judged.unit);
}

optics::JudgedBlur judged(double blur_px, const Frame& frame, const Viewing& viewing) {
    if (!viewing)
        return {blur_px, optics::BlurUnit::px};
    // The angle depends on the ratio of both lengths alone.
    const double long_side_px = std::max(frame.width_px, frame.height_px);
    return {optics::view_arcmin(blur_px, long_side_px, *viewing), optics::BlurUnit::arcmin};
}

struct Place {
    double x = 0;
    double y = 0;
    double head = 0;  ///< Height.
};

/// In shares of the picture's width, so that frames of other sizes compare.
Place place_of(const FrameFace& face, const Frame& frame) {
    const double width = frame.width_px;
    return {(face.head.left + face.head.width_px / 2.0) / width,
            (face.head.top + face.head.height_px / 2.0) / width, face.head.height_px / width};
}

struct Known {
    std::string name;
    Place place;
};

/// How far apart in heads; too far for the same person where it is over 1 or a head twice as large.
double apart(const Place& one, const Place& other) {
    const double head = std::max(one.head, other.head);
    const double alike = std::max(one.head / other.head, other.head / one.head);
    return alike > 1.6 ? std::numeric_limits<double>::infinity()
                       : std::hypot(one.x - other.x, one.y - other.y) / head;
}

/// Gives the faces of a frame the names of those who are known, the nearest first, and new numbers
/// to others.
void name_faces(Frame& frame, std::vector<Known>& known) {
    struct Pair {
        double apart;
        std::size_t face;
        std::size_t person;
    };
    std::vector<Pair> pairs;
    for (std::size_t face = 0; face < frame.faces.size(); ++face)
        for (std::size_t person = 0; person < known.size(); ++person)
            pairs.push_back(
                {apart(place_of(frame.faces[face], frame), known[person].place), face, person});
    std::ranges::stable_sort(pairs, {}, &Pair::apart);
    std::vector<bool> taken(known.size());
    for (const Pair& pair : pairs)
        if (pair.apart <= 1 && frame.faces[pair.face].person.empty() && !taken[pair.person]) {
            frame.faces[pair.face].person = known[pair.person].name;
            taken[pair.person] = true;
        }
    for (FrameFace& face : frame.faces)
        if (face.person.empty()) {
            face.person = std::to_string(known.size() + 1);
            known.push_back({face.person, place_of(face, frame)});
        }
}

void name_all(std::vector<Frame>& frames) {
    const auto fullest =
        std::ranges::max_element(frames, {}, [](const Frame& frame) { return frame.faces.size(); });
    if (fullest == frames.end())
        return;
    std::ranges::sort(fullest->faces, {}, [](const FrameFace& face) { return face.head.left; });
    std::vector<Known> known;
    name_faces(*fullest, known);
    for (Frame& frame : frames)
        if (&frame != &*fullest)
            name_faces(frame, known);
}

std::size_t told(const Frame& frame) {
    return static_cast<std::size_t>(std::ranges::count_if(
        frame.faces, [](const FrameFace& face) { return blur_px(face) != nullptr; }));
}

std::optional<std::size_t> best_of(const std::vector<Frame>& frames) {
    std::optional<std::size_t> best;
    const auto rank = [&](std::size_t i) {
        const Frame& frame = frames[i];
        return std::pair{-static_cast<double>(told(frame)), badness(frame.faces.front())};
    };
    for (std::size_t i = 0; i < frames.size(); ++i)
        if (told(frames[i]) > 0 && (!best || rank(i) < rank(*best)))
            best = i;
    return best;
}

/// Whoever shows a blur in the best frame and is clearly sharper in another.
std::vector<Swap> swaps_for(const std::vector<Frame>& frames, std::size_t best) {
    constexpr double clearly = 1.25;
    std::vector<Swap> swaps;
    for (const FrameFace& face : frames[best].faces) {
        if (badness(face) <= 1)
            continue;
        std::optional<std::size_t> from;
        double least = badness(face) / clearly;
        for (std::size_t i = 0; i < frames.size(); ++i)
            for (const FrameFace& other : frames[i].faces)
                if (other.person == face.person && blur_px(other) != nullptr &&
                    badness(other) < least) {
                    least = badness(other);
                    from = i;
                }
        if (from)
            swaps.push_back({face.person, *from});
    }
    return swaps;
}

}  // namespace

Frame inspect_frame(const std::string& image, const Image<Rgb8>& shown,
                    const std::vector<PixelBox>& heads, const std::vector<std::string>& names,
                    const Viewing& viewing) {
    Frame frame{.image = image, .width_px = shown.width_px(), .height_px = shown.height_px()};
    for (std::size_t i = 0; i < heads.size(); ++i) {
        FrameFace face{.person = names.empty() ? std::string{} : names[i],
                       .head = heads[i],
                       .blur = face_blur(shown, heads[i])};
        if (const double* blur = blur_px(face)) {
            face.judged = judged(*blur, frame, viewing);
            face.grade = grade_of(face.judged);
        }
        frame.faces.push_back(std::move(face));
    }
    return frame;
}

Inspection compared(std::vector<Frame> frames) {
    Inspection inspection{.frames = std::move(frames)};
    const bool have_names = std::ranges::any_of(inspection.frames, [](const Frame& frame) {
        return !frame.faces.empty() && !frame.faces.front().person.empty();
    });
    if (!have_names)
        name_all(inspection.frames);
    for (Frame& frame : inspection.frames)
        std::ranges::stable_sort(frame.faces, std::greater{}, badness);
    inspection.best = best_of(inspection.frames);
    if (inspection.best)
        inspection.swaps = swaps_for(inspection.frames, *inspection.best);
    return inspection;
}

}  // namespace backrow::inspection
