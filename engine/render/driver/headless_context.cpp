#include "render/driver/headless_context.h"

#include <glad/egl.h>

#include <array>
#include <cstring>
#include <vector>

namespace backrow::render {

struct HeadlessContext::State {
    EGLDisplay display = EGL_NO_DISPLAY;
    EGLContext context = EGL_NO_CONTEXT;
    Gl gl;

    State() = default;
    State(const State&) = delete;
    State& operator=(const State&) = delete;
    ~State() {
        if (display == EGL_NO_DISPLAY)
            return;
        eglMakeCurrent(display, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
        if (context != EGL_NO_CONTEXT)
            eglDestroyContext(display, context);
        eglTerminate(display);
    }
};

namespace {

MachineFailure no_opengl(const char* why) {
    return {std::string{"this machine offers no OpenGL 4.5 ("} + why + ")",
            "install a graphics driver, or Mesa's software one: libegl1 and libgl1-mesa-dri"};
}

// Graphics cards first, then whatever else EGL lists, then Mesa without any device. A device of
// Mesa's software rasteriser says so among its extensions.
std::vector<EGLDisplay> displays_by_preference() {
    std::vector<EGLDisplay> cards;
    std::vector<EGLDisplay> others;
    if (eglQueryDevicesEXT != nullptr && eglGetPlatformDisplayEXT != nullptr) {
        std::array<EGLDeviceEXT, 16> devices{};
        EGLint count = 0;
        eglQueryDevicesEXT(static_cast<EGLint>(devices.size()), devices.data(), &count);
        for (EGLint i = 0; i < count; ++i) {
            EGLDeviceEXT device = devices[static_cast<std::size_t>(i)];
            const char* extensions = eglQueryDeviceStringEXT(device, EGL_EXTENSIONS);
            const bool software = extensions != nullptr &&
                                  std::strstr(extensions, "EGL_MESA_device_software") != nullptr;
            EGLDisplay display = eglGetPlatformDisplayEXT(EGL_PLATFORM_DEVICE_EXT, device, nullptr);
            if (display != EGL_NO_DISPLAY)
                (software ? others : cards).push_back(display);
        }
    }
    if (eglGetPlatformDisplayEXT != nullptr) {
        EGLDisplay surfaceless = eglGetPlatformDisplayEXT(
            EGL_PLATFORM_SURFACELESS_MESA, reinterpret_cast<void*>(EGL_DEFAULT_DISPLAY), nullptr);
        if (surfaceless != EGL_NO_DISPLAY)
            others.push_back(surfaceless);
    }
    cards.insert(cards.end(), others.begin(), others.end());
    return cards;
}

}  // namespace

HeadlessContext::HeadlessContext(std::unique_ptr<State> state) noexcept
    : state_{std::move(state)} {}
HeadlessContext::HeadlessContext(HeadlessContext&&) noexcept = default;
HeadlessContext& HeadlessContext::operator=(HeadlessContext&&) noexcept = default;
HeadlessContext::~HeadlessContext() = default;

const Gl& HeadlessContext::gl() const noexcept {
    return state_->gl;
}

Made<HeadlessContext> HeadlessContext::make() {
    if (gladLoaderLoadEGL(EGL_NO_DISPLAY) == 0)
        return tl::make_unexpected(no_opengl("no EGL library"));

    constexpr std::array<EGLint, 7> wanted{EGL_CONTEXT_MAJOR_VERSION,
                                           4,
                                           EGL_CONTEXT_MINOR_VERSION,
                                           5,
                                           EGL_CONTEXT_OPENGL_PROFILE_MASK,
                                           EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT,
                                           EGL_NONE};
    for (EGLDisplay display : displays_by_preference()) {
        if (eglInitialize(display, nullptr, nullptr) == EGL_FALSE)
            continue;
        auto state = std::make_unique<State>();
        state->display = display;
        gladLoaderLoadEGL(display);
        if (eglBindAPI(EGL_OPENGL_API) == EGL_FALSE)
            continue;
        state->context =
            eglCreateContext(display, EGL_NO_CONFIG_KHR, EGL_NO_CONTEXT, wanted.data());
        if (state->context == EGL_NO_CONTEXT ||
            eglMakeCurrent(display, EGL_NO_SURFACE, EGL_NO_SURFACE, state->context) == EGL_FALSE)
            continue;
        if (!load_opengl(eglGetProcAddress))
            continue;
        state->gl = describe_current_context();
        return HeadlessContext{std::move(state)};
    }
    return tl::make_unexpected(no_opengl("EGL made no context"));
}

}  // namespace backrow::render
