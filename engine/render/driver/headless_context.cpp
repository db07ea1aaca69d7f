#include "render/driver/headless_context.h"

#include <glad/egl.h>

#include <array>
#include <cstring>
#include <map>
#include <mutex>
#include <optional>
#include <utility>
#include <vector>

namespace backrow::render {

/// That somebody uses a display. EGL opens one once for a whole process and shuts it for everybody
/// at once, contexts of other threads included: so the users are counted, and the last one shuts
/// it.
class DisplayUse {
public:
    /// Nothing where the display cannot be opened.
    static std::optional<DisplayUse> begin(EGLDisplay display) {
        const std::scoped_lock held{lock};
        if (eglInitialize(display, nullptr, nullptr) == EGL_FALSE)
            return std::nullopt;
        ++users[display];
        return DisplayUse{display};
    }
    DisplayUse(DisplayUse&& other) noexcept
        : display_{std::exchange(other.display_, EGL_NO_DISPLAY)} {}
    DisplayUse& operator=(DisplayUse&& other) noexcept {
        std::swap(display_, other.display_);
        return *this;
    }
    ~DisplayUse() {
        if (display_ == EGL_NO_DISPLAY)
            return;
        const std::scoped_lock held{lock};
        if (--users[display_] == 0)
            eglTerminate(display_);
    }
    [[nodiscard]] EGLDisplay display() const noexcept { return display_; }

private:
    explicit DisplayUse(EGLDisplay display) noexcept : display_{display} {}
    EGLDisplay display_;

    static inline std::mutex lock;
    static inline std::map<EGLDisplay, int> users;
};

struct HeadlessContext::State {
    explicit State(DisplayUse use_) : use{std::move(use_)} {}
    State(const State&) = delete;
    State& operator=(const State&) = delete;
    ~State() {
        eglMakeCurrent(use.display(), EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
        if (context != EGL_NO_CONTEXT)
            eglDestroyContext(use.display(), context);
    }

    DisplayUse use;
    EGLContext context = EGL_NO_CONTEXT;
    Gl gl;
};

namespace {

/// Finds the functions of EGL, those that need no display; once a process.
bool load_egl() {
    static const bool loaded = gladLoaderLoadEGL(EGL_NO_DISPLAY) != 0;
    return loaded;
}

/// And the rest: those of one display serve all.
bool load_egl(EGLDisplay display) {
    static const bool loaded = gladLoaderLoadEGL(display) != 0;
    return loaded;
}

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
    // One thread at a time, for all of them share EGL's functions.
    static std::mutex lock;
    const std::scoped_lock held{lock};
    if (!load_egl())
        return tl::make_unexpected(no_opengl("no EGL library"));

    constexpr std::array<EGLint, 7> wanted{EGL_CONTEXT_MAJOR_VERSION,
                                           4,
                                           EGL_CONTEXT_MINOR_VERSION,
                                           5,
                                           EGL_CONTEXT_OPENGL_PROFILE_MASK,
                                           EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT,
                                           EGL_NONE};
    for (EGLDisplay display : displays_by_preference()) {
        auto use = DisplayUse::begin(display);
        if (!use || !load_egl(display))
            continue;
        auto state = std::make_unique<State>(std::move(*use));
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
