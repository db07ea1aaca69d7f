#include "render/faces/face_meter.h"

#include <utility>

namespace backrow::render {

Made<FaceMeter> FaceMeter::make(const Gl& gl) {
    auto probe = Probe::make(gl);
    if (!probe)
        return tl::make_unexpected(probe.error());
    auto visibility = Visibility::make(gl);
    if (!visibility)
        return tl::make_unexpected(visibility.error());
    return FaceMeter{std::move(*probe), std::move(*visibility)};
}

std::optional<double> FaceMeter::blur_px(const Gl& gl, const scene::CameraView& view,
                                         const LensSamples& samples,
                                         const scene::Person& person) const {
    if (!measures_blur(static_cast<int>(samples.coarse.size())))
        return std::nullopt;
    const LensSamples first =
        samples.looks.empty() ? samples : first_of(samples, samples.looks.front());
    const auto blur = probe_.measure(gl, view, first, nearer_eye_m(view, person));
    return blur ? std::optional{blur->value} : std::nullopt;
}

double FaceMeter::measured_visible_fraction(const Gl& gl, const StageOnGpu& stage,
                                            const scene::CameraView& view,
                                            const scene::Scene& scene, std::size_t person) const {
    return visibility_.measured_visible_fraction(gl, stage, view, scene.people[person],
                                                 static_cast<int>(person));
}

}  // namespace backrow::render
