#include "inspection/inspection.h"

#include "inspection/frame_noise.h"

#include "base/side_by_side.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <utility>

namespace backrow::inspection {
namespace {

using measure::PixelBox;

bool has_blur(const FrameFace& face) {
    return std::holds_alternative<Blur>(face.blur);
}

/// A judged blur against the limit of "fine", the same for all units; −1 where it is not known.
double badness(const FrameFace& face) {
    if (const CannotTell* why = std::get_if<CannotTell>(&face.blur))
        return *why == CannotTell::too_blurred ? std::numeric_limits<double>::infinity() : -1;
    return face.judged.amount / limit_of(optics::Grade::fine, face.judged.unit);
}

/// How bad it makes its frame: shut eyes spoil one as a lost face does.
double spoils(const FrameFace& face) {
    const optics::BlurUnit unit = face.judged.unit;
    const double lost = limit_of(optics::Grade::soft, unit) / limit_of(optics::Grade::fine, unit);
    return face.eyes == Eyes::shut ? std::max(badness(face), lost) : badness(face);
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
    return static_cast<std::size_t>(
        std::ranges::count_if(frame.faces, [](const FrameFace& face) { return has_blur(face); }));
}

std::optional<std::size_t> best_of(const std::vector<Frame>& frames) {
    std::optional<std::size_t> best;
    const auto rank = [&](std::size_t i) {
        const Frame& frame = frames[i];
        double worst = -1;
        for (const FrameFace& face : frame.faces)
            worst = std::max(worst, spoils(face));
        return std::pair{-static_cast<double>(told(frame)), worst};
    };
    for (std::size_t i = 0; i < frames.size(); ++i)
        if (told(frames[i]) > 0 && (!best || rank(i) < rank(*best)))
            best = i;
    return best;
}

bool surely_sharper(const FrameFace& one, const FrameFace& other) {
    const Blur* blur = std::get_if<Blur>(&one.blur);
    const Blur* other_blur = std::get_if<Blur>(&other.blur);
    return blur != nullptr && other_blur != nullptr && surely_sharper(*blur, *other_blur);
}

/// Whether it would mend what the other shows: shut eyes, more blur than can be told, or some.
bool mends(const FrameFace& face, const FrameFace& other) {
    return face.person == other.person && has_blur(face) && spoils(face) < spoils(other) &&
           (other.eyes == Eyes::shut || !has_blur(other) || surely_sharper(face, other));
}

/// Whoever shows a blur or shut eyes in the best frame and surely is better in another.
std::vector<Swap> swaps_for(const std::vector<Frame>& frames, std::size_t best) {
    std::vector<Swap> swaps;
    for (const FrameFace& face : frames[best].faces) {
        if (spoils(face) <= 1)
            continue;
        std::optional<std::size_t> from;
        double least = std::numeric_limits<double>::infinity();
        for (std::size_t i = 0; i < frames.size(); ++i)
            for (const FrameFace& other : frames[i].faces)
                if (mends(other, face) && spoils(other) < least) {
                    least = spoils(other);
                    from = i;
                }
        if (from)
            swaps.push_back({face.person, *from});
    }
    return swaps;
}

/// A person in one of the frames.
struct Appearance {
    std::size_t frame;
    FrameFace* face;
};

void compare_each_person(std::vector<Frame>& frames) {
    std::map<std::string, std::vector<Appearance>> people;
    for (std::size_t i = 0; i < frames.size(); ++i)
        for (FrameFace& face : frames[i].faces)
            people[face.person].push_back({i, &face});
    for (auto& [person, appearances] : people) {
        std::vector<ComparedFace> compared;
        for (const auto& [frame, face] : appearances)
            compared.push_back({static_cast<FaceSharpness&>(*face), std::exchange(face->detail, {}),
                                static_cast<double>(face->head.height_px), face->lids_open});
        compare(compared);
        for (std::size_t i = 0; i < appearances.size(); ++i)
            static_cast<FaceSharpness&>(*appearances[i].face) = compared[i];
        for (const auto& [frame, face] : appearances)
            for (const auto& [other_frame, other] : appearances)
                if (surely_sharper(*other, *face))
                    face->sharper_in.push_back(other_frame);
    }
}

/// The head moved so that its eyes lie where they usually are in a head.
PixelBox about_eyes(PixelBox head, const FaceMarks& marks) {
    head.left = static_cast<int>(std::lround(marks.eyes_x_px - head.width_px / 2.0));
    head.top = static_cast<int>(std::lround(marks.eyes_y_px - head.height_px / 2.0));
    return head;
}

void judge(Frame& frame, const Viewing& viewing) {
    for (FrameFace& face : frame.faces)
        if (const Blur* blur = std::get_if<Blur>(&face.blur)) {
            face.judged = judged(blur->px, frame, viewing);
            face.grade = grade_of(face.judged);
            face.best_grade = grade_of(judged(blur->from_px, frame, viewing));
            face.worst_grade = grade_of(judged(blur->to_px, frame, viewing));
        }
    std::ranges::stable_sort(frame.faces, std::greater{}, badness);
}

}  // namespace

bool FrameFace::is_graded() const noexcept {
    const Blur* known = std::get_if<Blur>(&blur);
    return known != nullptr && (known->is_told() || best_grade == worst_grade);
}

Frame inspect_frame(const std::string& image, const Image<Rgb8>& shown,
                    const std::vector<PixelBox>& heads, const std::vector<std::string>& names) {
    Frame frame{.image = image, .width_px = shown.width_px(), .height_px = shown.height_px()};
    frame.faces.resize(heads.size());
    const double noise = heads.empty() ? 0 : frame_noise(shown);
    side_by_side(heads.size(), [&](std::size_t i) {
        FrameFace& face = frame.faces[i];
        const auto marks = hindrance(shown, heads[i]) ? std::nullopt : face_marks(shown, heads[i]);
        const PixelBox looked_at = marks ? about_eyes(heads[i], *marks) : heads[i];
        static_cast<FaceSharpness&>(face) = face_sharpness(shown, looked_at, marks, noise);
        face.person = names.empty() ? std::string{} : names[i];
        face.head = heads[i];
        face.detail = face_detail(shown, looked_at);
        if (marks)
            face.lids_open = marks->lids_open;
    });
    return frame;
}

Inspection compared(std::vector<Frame> frames, const Viewing& viewing) {
    Inspection inspection{.frames = std::move(frames)};
    const bool have_names = std::ranges::any_of(inspection.frames, [](const Frame& frame) {
        return !frame.faces.empty() && !frame.faces.front().person.empty();
    });
    if (!have_names)
        name_all(inspection.frames);
    compare_each_person(inspection.frames);
    for (Frame& frame : inspection.frames)
        judge(frame, viewing);
    inspection.best = best_of(inspection.frames);
    if (inspection.best)
        inspection.swaps = swaps_for(inspection.frames, *inspection.best);
    return inspection;
}

}  // namespace backrow::inspection
