#include "window/pictures/printer.h"

#include "plan/faces/metering.h"
#include "render/faces/face_crop.h"
#include "render/passes/sample_choice.h"
#include "stage/stage_change.h"

#include <algorithm>
#include <cmath>
#include <new>
#include <set>
#include <utility>

namespace backrow::window {
namespace {

double seconds_since(std::chrono::steady_clock::time_point start) {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

// At fifteen pictures a second there are 66 ms for each, at sixty 16, and the window takes its
// share.
constexpr double budget_on_processor_s = 0.048;
constexpr double budget_on_card_s = 0.011;
// A picture of fewer points than this looks worse than the quick one that it would replace.
constexpr int fewest_worth_showing = 8;
constexpr double between_prints_s = 0.35;
constexpr int passes_of_quick_face = 4;
// While one person is led about.
constexpr int passes_with_one_moving = 8;
constexpr double scale_on_processor = 0.5;

/// Who alone is different; nothing where nobody is or more than one.
std::optional<std::size_t> only_mover(const scene::Scene& before, const scene::Scene& after) {
    if (before.people.size() != after.people.size() || !stage::same_surroundings(before, after))
        return std::nullopt;
    std::optional<std::size_t> mover;
    for (std::size_t i = 0; i < after.people.size(); ++i) {
        if (before.people[i] == after.people[i])
            continue;
        if (mover)
            return std::nullopt;
        mover = i;
    }
    return mover;
}

/// Whether every point lands in the same place and as blurred.
bool same_view(const scene::CameraView& one, const scene::CameraView& other) {
    return one.position_m == other.position_m && one.forward == other.forward &&
           one.lens == other.lens && one.sensor_width_mm == other.sensor_width_mm &&
           one.width_px == other.width_px;
}

}  // namespace

Printer::Printer(render::LiveStudio studio, Counter counter)
    : studio_{std::move(studio)}, counter_{std::move(counter)}, pace_{studio_.gl().on_processor
                                                                          ? budget_on_processor_s
                                                                          : budget_on_card_s},
      mover_passes_{passes_with_one_moving} {}

void Printer::begin(Order order) {
    begun_ = Clock::now();
    const bool other_scene = !order_.scene || order.edition != order_.edition;
    const bool other_faces = order.face_width_texels != order_.face_width_texels ||
                             order.face_height_texels != order_.face_height_texels;
    const std::optional<std::size_t> mover =
        order_.scene && order.in_hand ? only_mover(*order_.scene, *order.scene) : std::nullopt;
    const scene::CameraView view = camera_view(*order.scene);
    const bool goes_on =
        mover && mover == mover_ && same_view(view, view_) && order.part == order_.part;
    if (!goes_on)
        one_moves_.reset();
    mover_ = order_.scene && same_view(view, view_) ? mover : std::nullopt;
    order_ = std::move(order);
    view_ = view;
    gain_stops_ = plan::stops_shown(order_.scene->camera, plan::metering(*order_.scene, view_));
    if (other_scene)
        studio_.follow(*order_.scene, view_);
    forget_picture();
    quick_due_ = true;
    if (other_scene || other_faces)
        all_faces_due();
    else
        keep_order_of_faces();
}

bool Printer::step() {
    try {
        return work();
    } catch (const std::bad_alloc&) {
        // What was begun may be large, and goes.
        forget_picture();
        one_moves_.reset();
        has_failed_ = true;
        complain(to_line(too_little_memory()));
        return false;
    }
}

void Printer::complain(const std::string& line) {
    counter_.publish([&](Prints& prints) {
        prints.complaint = line;
        prints.work = Work::none;
    });
}

bool Printer::work() {
    const bool wants_picture = order_.part.width_texels > 0;
    if (studio_.has_stage() && wants_picture && quick_due_)
        return quick_picture();
    if (!studio_.shows_all() && refused_edition_ != order_.edition)
        return build(render::LightCare::rough);
    if (!studio_.has_stage() || !wants_picture)
        return false;
    if (!quick_faces_.empty())
        return quick_face();
    if (!studio_.is_current() && refused_edition_ != order_.edition)
        return build(render::LightCare::full);
    if (!to_measure_.empty())
        return measure_face();
    // Faces before the last of the blur.
    if (!picture_ || (picture_->samples() < fewest_worth_showing && !picture_->complete()))
        return refine_picture();
    if (!faces_to_finish_.empty())
        return finish_face();
    if (!picture_->complete())
        return refine_picture();
    counter_.publish([](Prints& prints) { prints.work = Work::none; });
    return false;
}

void Printer::all_faces_due() {
    quick_faces_.assign(order_.faces.begin(), order_.faces.end());
    faces_to_finish_ = quick_faces_;
    to_measure_ = quick_faces_;
}

// The most urgent first, as ordered now; what was done stays done.
void Printer::keep_order_of_faces() {
    for (std::deque<std::size_t>* due : {&quick_faces_, &faces_to_finish_, &to_measure_}) {
        const std::set<std::size_t> still(due->begin(), due->end());
        due->clear();
        std::ranges::copy_if(order_.faces, std::back_inserter(*due),
                             [&](std::size_t face) { return still.contains(face); });
    }
}

// A single point goes through the middle of the lens: anywhere else it would shift the background.
render::LensSamples Printer::few_samples(int passes) const {
    const auto choice = render::with_passes({.passes = passes, .fine_samples = 64}, passes);
    render::LensSamples samples = render::make_lens_samples(choice.passes, choice.fine_samples,
                                                            optics::opening_of(view_.lens));
    if (passes == 1)
        samples.coarse.front().pupil_x = samples.coarse.front().pupil_y = 0;
    return samples;
}

render::Studio Printer::studio() const {
    return studio_.studio(gain_stops_);
}

render::Accumulation Printer::exposure(const render::CropRect& part,
                                       const render::LensSamples& samples) const {
    return {studio(), view_, part, samples};
}

Print Printer::print_of(const render::Accumulation& exposed, const render::CropRect& part) const {
    return {.pixels = exposed.developed(),
            .edition = order_.edition,
            .part = part,
            .samples = exposed.samples(),
            .samples_wanted = exposed.complete() ? exposed.samples() : exposed.samples_wanted(),
            .shows_all = studio_.shows_all()};
}

bool Printer::quick_picture() {
    if (mover_)
        return picture_of_mover();
    const auto start = Clock::now();
    render::CropRect part = order_.part;
    part.width_texels = std::max(16, static_cast<int>(part.width_texels * pace_.scale()));
    part.height_texels = std::max(16, static_cast<int>(part.height_texels * pace_.scale()));
    const int passes = pace_.passes();
    render::Accumulation exposed{studio_.quick_studio(gain_stops_), view_, part,
                                 few_samples(passes)};
    glFinish();
    const double before_s = seconds_since(start);
    exposed.add(passes);
    glFinish();
    const double passes_s = seconds_since(start) - before_s;
    Print print = print_of(exposed, part);
    print.samples_wanted = print.samples + 1;  // it is never the last
    pace_.note(passes, passes_s, seconds_since(start) - passes_s);
    publish_quick(std::move(print));
    return true;
}

void Printer::publish_quick(Print print) {
    counter_.publish([&](Prints& prints) {
        prints.picture = std::move(print);
        prints.work = Work::exposing;
        prints.share = 0;
        if (std::exchange(has_failed_, false))
            prints.complaint.clear();
    });
    quick_due_ = false;
}

// Everybody else is drawn in the first pictures of the movement, a few points of the lens in each.
bool Printer::picture_of_mover() {
    const auto start = Clock::now();
    const double scale = studio_.gl().on_processor ? scale_on_processor : 1.0;
    render::CropRect part = order_.part;
    part.width_texels = std::max(16, static_cast<int>(part.width_texels * scale));
    part.height_texels = std::max(16, static_cast<int>(part.height_texels * scale));
    if (!one_moves_)
        one_moves_.emplace(studio_.quick_studio(gain_stops_), view_, part,
                           few_samples(passes_with_one_moving), studio_.number_on_stage(*mover_));
    constexpr int fewest = 2;
    while (one_moves_->kept() < one_moves_->wanted() &&
           (one_moves_->kept() < fewest || seconds_since(start) < pace_.budget_s() / 4)) {
        one_moves_->keep_more();
        glFinish();
    }
    const int passes = std::min(one_moves_->kept(), mover_passes_);
    Print print{.pixels = one_moves_->picture(passes),
                .edition = order_.edition,
                .part = part,
                .samples = passes,
                .samples_wanted = passes + 1,
                .shows_all = studio_.shows_all()};
    const double share_of_budget = seconds_since(begun_) / pace_.budget_s();
    if (share_of_budget > 0.95)
        mover_passes_ = std::max(2, passes - 1);
    else if (share_of_budget < 0.75)
        mover_passes_ = std::min(passes_with_one_moving, passes + 1);
    publish_quick(std::move(print));
    return true;
}

std::optional<render::CropRect> Printer::face_part(std::size_t face) const {
    return render::eyes_crop(view_, order_.scene->people[face], order_.face_width_texels,
                             order_.face_height_texels);
}

void Printer::publish_face(std::size_t face, Print print) {
    counter_.publish([&](Prints& prints) { prints.faces[face] = std::move(print); });
}

bool Printer::quick_face() {
    const std::size_t face = quick_faces_.front();
    quick_faces_.pop_front();
    if (const auto part = face_part(face)) {
        render::Accumulation exposed = exposure(*part, few_samples(passes_of_quick_face));
        exposed.add(passes_of_quick_face);
        Print print = print_of(exposed, *part);
        print.samples_wanted = print.samples + 1;
        publish_face(face, std::move(print));
    }
    return true;
}

bool Printer::finish_face() {
    const std::size_t face = faces_to_finish_.front();
    if (const auto part = face_part(face)) {
        // As on preview's sheet: the face counts, not the far larger blur behind it.
        render::Accumulation exposed =
            exposure(*part, studio_.samples_for(view_, *part, render::Quality::draft));
        while (!exposed.complete()) {
            exposed.add(4);
            glFinish();
            if (counter_.is_wanted_elsewhere())
                return true;
        }
        publish_face(face, print_of(exposed, *part));
    }
    faces_to_finish_.pop_front();
    return true;
}

const render::LensSamples& Printer::samples_of_picture() {
    if (!samples_of_picture_) {
        samples_of_picture_ = studio_.samples_for(view_, order_.part, render::Quality::fine);
        samples_of_picture_->enough_db = std::min(samples_of_picture_->enough_db, enough_db);
    }
    return *samples_of_picture_;
}

void Printer::forget_picture() {
    picture_.reset();
    samples_of_picture_.reset();
}

bool Printer::refine_picture() {
    if (!picture_) {
        picture_.emplace(exposure(order_.part, samples_of_picture()));
        last_print_ = Clock::now();
    }
    const auto start = Clock::now();
    do {
        picture_->add(1);
        glFinish();
    } while (!picture_->complete() && seconds_since(start) < pace_.budget_s());
    const bool worth_showing =
        picture_->samples() >= std::min(fewest_worth_showing, picture_->samples_wanted()) &&
        seconds_since(last_print_) > between_prints_s;
    const double share = static_cast<double>(picture_->samples()) / picture_->samples_wanted();
    std::optional<Print> print;
    if (worth_showing || picture_->complete()) {
        print = print_of(*picture_, order_.part);
        last_print_ = Clock::now();
    }
    counter_.publish([&](Prints& prints) {
        prints.work = Work::exposing;
        prints.share = share;
        if (print)
            prints.picture = std::move(print);
    });
    return true;
}

bool Printer::measure_face() {
    const std::size_t face = to_measure_.front();
    to_measure_.pop_front();
    const render::Gl& gl = studio_.gl();
    const render::FaceMeter& meter = studio_.face_meter();
    const FaceMeasures measures{
        .edition = order_.edition,
        .blur_px = meter.blur_px(gl, view_, samples_of_picture(), order_.scene->people[face]),
        .visible_fraction =
            meter.measured_visible_fraction(gl, studio_.on_gpu(), view_, *order_.scene, face)};
    counter_.publish([&](Prints& prints) { prints.measures[face] = measures; });
    return true;
}

// The first stage is finished whatever is ordered meanwhile: without one there is no picture.
bool Printer::build(render::LightCare care) {
    forget_picture();
    one_moves_.reset();
    const bool is_first = !studio_.has_stage();
    auto last_told = Clock::now();
    const auto built = studio_.build(care, [&](double done) {
        if (seconds_since(last_told) > 0.05) {
            last_told = Clock::now();
            counter_.publish([&](Prints& prints) {
                prints.work = Work::lighting;
                prints.share = done;
            });
        }
        return !(is_first ? counter_.is_closing() : counter_.is_wanted_elsewhere());
    });
    const auto refuse = [&](const std::string& line) {
        refused_edition_ = order_.edition;
        complain(line);
        return studio_.has_stage();
    };
    if (!built)
        return refuse(to_line(built.error().front()));
    if (!*built) {
        const auto* failure = std::get_if<MachineFailure>(&built->error());
        return failure == nullptr || refuse(to_line(*failure));
    }
    quick_due_ = care == render::LightCare::rough;
    all_faces_due();
    if (care == render::LightCare::full)
        quick_faces_.clear();  // those in rough light serve until the finished ones come
    counter_.publish([](Prints& prints) { prints.complaint.clear(); });
    return true;
}

}  // namespace backrow::window
