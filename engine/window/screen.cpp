#include "window/screen.h"

#include "window/pointer_events.h"

#include "render/driver/gl.h"

#include <GLFW/glfw3.h>
#include <backends/imgui_impl_glfw.h>
#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <algorithm>
#include <array>
#include <cfloat>
#include <cstddef>
#include <deque>
#include <utility>
#include <variant>

namespace backrow::window {

/// What keys and pointer have done since the last frame. Not in a namespace without a name: a
/// member of Screen::State has this type.
struct Noted {
    bool had_input = true;
    struct Typed {
        std::variant<KeyPress, unsigned> what;  ///< A key, or a letter that it made …
        std::size_t after = 0;                  ///< … after so much that the pointer did.
    };
    std::deque<Typed> typed;
    std::vector<KeyPress> keys;  ///< Of them, what this frame is to hear.
    bool has_letters = false;    ///< Some of this frame.
    std::array<bool, GLFW_KEY_LAST + 1> is_held{};
    std::vector<int> shown_otherwise;  ///< Keys that this frame sees other than as they are held.
    PointerEvents pointer;
    double pointer_x = 0;  ///< Where it was last heard of.
    double pointer_y = 0;
};

namespace {

bool is_modifier(const KeyPress& press) {
    return press.key >= GLFW_KEY_LEFT_SHIFT && press.key <= GLFW_KEY_RIGHT_SUPER;
}

/// Commands, and whatever leads into another field or out of one: what is typed next may be meant
/// for something else.
bool is_alone(const KeyPress& press) {
    switch (press.key) {
    case GLFW_KEY_TAB:
    case GLFW_KEY_ENTER:
    case GLFW_KEY_KP_ENTER:
    case GLFW_KEY_ESCAPE:
        return true;
    default:
        return press.ctrl && !press.is_repeat && !is_modifier(press);
    }
}

// On a machine that draws slowly somebody has typed a word and pressed Ctrl S before the next
// frame. So such keys have a frame of their own, and all else comes in the order in which it was
// typed, after what was clicked before, and not while a field that it is for has yet to open.
void take_typed(Noted& noted, bool field_opens) {
    ImGuiIO& io = ImGui::GetIO();
    io.ClearInputCharacters();
    noted.has_letters = false;
    while (!field_opens && !noted.typed.empty() &&
           noted.typed.front().after <= noted.pointer.taken()) {
        const auto* press = std::get_if<KeyPress>(&noted.typed.front().what);
        const bool comes_alone = press != nullptr && is_alone(*press);
        if (comes_alone && (noted.has_letters || !noted.keys.empty()))
            break;
        if (press != nullptr)
            noted.keys.push_back(*press);
        else
            io.AddInputCharacter(std::get<unsigned>(noted.typed.front().what));
        noted.has_letters |= press == nullptr;
        noted.typed.pop_front();
        if (comes_alone)
            break;
    }
    noted.had_input |= !noted.typed.empty();
    // What comes later is not held yet: an Enter would close the field before its letters.
    for (const Noted::Typed& later : noted.typed) {
        const auto* press = std::get_if<KeyPress>(&later.what);
        if (press == nullptr || press->key < 0 || is_modifier(*press))
            continue;
        io.KeysDown[press->key] = false;
        noted.shown_otherwise.push_back(press->key);
    }
}

// The toolkit looks at keys once a frame, and would miss one that was let go before: Enter on a
// path, say. It is shown as held for one frame.
void hold_short_taps(Noted& noted) {
    ImGuiIO& io = ImGui::GetIO();
    for (const KeyPress& tap : noted.keys) {
        if (tap.key < 0 || io.KeysDown[tap.key])
            continue;
        io.KeysDown[tap.key] = true;
        // Those of the last one: the Shift of a capital letter does not turn Tab round.
        io.KeyCtrl = tap.ctrl;
        io.KeyShift = tap.shift;
        io.KeyAlt = tap.alt;
        noted.shown_otherwise.push_back(tap.key);
    }
    // With it the toolkit throws letters away: a Ctrl that is down already is of the next frame.
    if (!io.InputQueueCharacters.empty())
        io.KeyCtrl = false;
}

void show_keys_as_held(Noted& noted) {
    ImGuiIO& io = ImGui::GetIO();
    for (const int key : std::exchange(noted.shown_otherwise, {}))
        io.KeysDown[key] = noted.is_held[static_cast<std::size_t>(key)];
    const auto is_down = [&](int left, int right) {
        return io.KeysDown[left] || io.KeysDown[right];
    };
    io.KeyCtrl = is_down(GLFW_KEY_LEFT_CONTROL, GLFW_KEY_RIGHT_CONTROL);
    io.KeyShift = is_down(GLFW_KEY_LEFT_SHIFT, GLFW_KEY_RIGHT_SHIFT);
    io.KeyAlt = is_down(GLFW_KEY_LEFT_ALT, GLFW_KEY_RIGHT_ALT);
}

/// One press, letting go or turn of the wheel a frame, where the pointer was then; none beside what
/// is typed, which may have been meant for something else.
void take_pointer(Noted& noted) {
    ImGuiIO& io = ImGui::GetIO();
    io.MouseWheel = io.MouseWheelH = 0;
    const bool is_next = noted.typed.empty() || noted.typed.front().after > noted.pointer.taken();
    const bool may_come = is_next && noted.keys.empty() && !noted.has_letters;
    const auto frame = may_come ? noted.pointer.next_frame() : PointerEvents::Frame{};
    noted.had_input |= noted.pointer.has_more();
    std::ranges::copy(noted.pointer.is_down(), io.MouseDown);
    if (!frame.event)
        return;
    io.MousePos = {frame.event->x, frame.event->y};
    io.MouseWheel = frame.event->wheel_up;
    io.MouseWheelH = frame.event->wheel_across;
    io.KeyCtrl = frame.event->ctrl;
    io.KeyShift = frame.event->shift;
    io.KeyAlt = frame.event->alt;
    // By the clock of the hand, not by that of the frames.
    io.MouseDoubleClickTime = frame.is_second ? FLT_MAX : 0;
}

}  // namespace

struct Screen::State {
    GLFWwindow* window = nullptr;
    bool has_glfw = false;
    bool has_toolkit = false;
    bool has_begun = false;  ///< A frame.
    Noted noted;

    State() = default;
    State(const State&) = delete;
    State& operator=(const State&) = delete;
    ~State() {
        if (has_toolkit) {
            ImGui_ImplOpenGL3_Shutdown();
            ImGui_ImplGlfw_Shutdown();
            ImGui::DestroyContext();
        }
        if (window != nullptr)
            glfwDestroyWindow(window);
        if (has_glfw)
            glfwTerminate();
    }
};

namespace {

std::string last_complaint() {
    const char* what = nullptr;
    glfwGetError(&what);
    return what != nullptr ? what : "no reason given";
}

// The toolkit chains to callbacks that are set before it takes over; every one notes that there is
// something to draw, and what has to be heard in its order.
void note(GLFWwindow* window) {
    static_cast<Noted*>(glfwGetWindowUserPointer(window))->had_input = true;
}

// Of a key that is let go before the next frame the toolkit would learn nothing.
void note_key(GLFWwindow* window, int key, int /*scancode*/, int action, int mods) {
    note(window);
    auto& noted = *static_cast<Noted*>(glfwGetWindowUserPointer(window));
    if (key >= 0)
        noted.is_held[static_cast<std::size_t>(key)] = action != GLFW_RELEASE;
    if (action == GLFW_RELEASE)
        return;
    noted.typed.push_back({KeyPress{.key = key,
                                    .ctrl = (mods & GLFW_MOD_CONTROL) != 0,
                                    .shift = (mods & GLFW_MOD_SHIFT) != 0,
                                    .alt = (mods & GLFW_MOD_ALT) != 0,
                                    .is_repeat = action == GLFW_REPEAT},
                           noted.pointer.noted()});
}

void note_letter(GLFWwindow* window, unsigned letter) {
    note(window);
    auto& noted = *static_cast<Noted*>(glfwGetWindowUserPointer(window));
    noted.typed.push_back({letter, noted.pointer.noted()});
}

// To be asked where the pointer is would not help: it says where it is now.
void note_place(GLFWwindow* window, double x, double y) {
    note(window);
    auto& noted = *static_cast<Noted*>(glfwGetWindowUserPointer(window));
    noted.pointer_x = x;
    noted.pointer_y = y;
}

void note_pointer(GLFWwindow* window, PointerEvent event) {
    note(window);
    auto& noted = *static_cast<Noted*>(glfwGetWindowUserPointer(window));
    event.at_s = glfwGetTime();
    event.x = static_cast<float>(noted.pointer_x);
    event.y = static_cast<float>(noted.pointer_y);
    const auto is_held = [&](std::size_t left, std::size_t right) {
        return noted.is_held[left] || noted.is_held[right];
    };
    event.ctrl = is_held(GLFW_KEY_LEFT_CONTROL, GLFW_KEY_RIGHT_CONTROL);
    event.shift = is_held(GLFW_KEY_LEFT_SHIFT, GLFW_KEY_RIGHT_SHIFT);
    event.alt = is_held(GLFW_KEY_LEFT_ALT, GLFW_KEY_RIGHT_ALT);
    noted.pointer.note(event);
}

void note_button(GLFWwindow* window, int button, int action, int /*mods*/) {
    note_pointer(window, {.what = action == GLFW_PRESS ? PointerEvent::What::press
                                                       : PointerEvent::What::release,
                          .button = static_cast<std::size_t>(button)});
}

void note_wheel(GLFWwindow* window, double across, double up) {
    note_pointer(window, {.what = PointerEvent::What::wheel,
                          .wheel_across = static_cast<float>(across),
                          .wheel_up = static_cast<float>(up)});
}

void note_all_input(GLFWwindow* window) {
    glfwSetCursorPosCallback(window, note_place);
    glfwSetMouseButtonCallback(window, note_button);
    glfwSetScrollCallback(window, note_wheel);
    glfwSetKeyCallback(window, note_key);
    glfwSetCharCallback(window, note_letter);
    glfwSetWindowFocusCallback(window, [](GLFWwindow* w, int) { note(w); });
    glfwSetCursorEnterCallback(window, [](GLFWwindow* w, int) { note(w); });
    glfwSetFramebufferSizeCallback(window, [](GLFWwindow* w, int, int) { note(w); });
    glfwSetWindowRefreshCallback(window, note);
    glfwSetWindowCloseCallback(window, note);
}

}  // namespace

Screen::Screen(std::unique_ptr<State> state) noexcept : state_{std::move(state)} {}
Screen::Screen(Screen&&) noexcept = default;
Screen& Screen::operator=(Screen&&) noexcept = default;
Screen::~Screen() = default;

Made<Screen> Screen::open(const std::string& title, int width, int height) {
    auto state = std::make_unique<State>();
    if (glfwInit() == GLFW_FALSE)
        return tl::make_unexpected(MachineFailure{
            "cannot open a window: " + last_complaint(),
            "a screen is needed for `rehearse`; `preview`, `faces` and `advise` do without"});
    state->has_glfw = true;
    glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
    glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 3);
    glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
    state->window = glfwCreateWindow(width, height, title.c_str(), nullptr, nullptr);
    if (state->window == nullptr)
        return tl::make_unexpected(
            MachineFailure{"cannot open a window with OpenGL: " + last_complaint(),
                           "install a graphics driver, or Mesa's software one: libgl1-mesa-dri"});
    glfwMakeContextCurrent(state->window);
    glfwSwapInterval(1);
    if (!render::load_opengl(glfwGetProcAddress))
        return tl::make_unexpected(MachineFailure{"the window's OpenGL has no functions to load",
                                                  "install a graphics driver, or Mesa's software "
                                                  "one: libgl1-mesa-dri"});
    glfwGetCursorPos(state->window, &state->noted.pointer_x, &state->noted.pointer_y);
    glfwSetWindowUserPointer(state->window, &state->noted);
    note_all_input(state->window);

    ImGui::CreateContext();
    state->has_toolkit = true;
    ImGui::GetIO().IniFilename = nullptr;  // it would leave a file wherever it is started
    ImGui_ImplGlfw_InitForOpenGL(state->window, true);
    // Tab goes round as focus_ring.h says, and a field takes back nothing by itself: Ctrl Z undoes
    // what was done to the scene, wherever the keys are.
    for (const ImGuiKey key : {ImGuiKey_Tab, ImGuiKey_Z, ImGuiKey_Y})
        ImGui::GetIO().KeyMap[key] = -1;
    ImGui_ImplOpenGL3_Init("#version 330");
    return Screen{std::move(state)};
}

bool Screen::is_closing() const {
    return glfwWindowShouldClose(state_->window) == GLFW_TRUE;
}
void Screen::keep_open() {
    glfwSetWindowShouldClose(state_->window, GLFW_FALSE);
}
void Screen::set_title(const std::string& title) {
    glfwSetWindowTitle(state_->window, title.c_str());
}

double Screen::scale() const {
    float x = 1;
    float y = 1;
    glfwGetWindowContentScale(state_->window, &x, &y);
    int window_width = 1;
    int framebuffer_width = 1;
    int height = 1;
    glfwGetWindowSize(state_->window, &window_width, &height);
    glfwGetFramebufferSize(state_->window, &framebuffer_width, &height);
    // Where the system itself enlarges the window, a unit is already as large as it should be.
    const double already = static_cast<double>(framebuffer_width) / std::max(1, window_width);
    return std::clamp(static_cast<double>(x) / already, 1.0, 4.0);
}

void Screen::wait(double seconds) {
    if (seconds > 0)
        glfwWaitEventsTimeout(seconds);
    else
        glfwPollEvents();
}

bool Screen::had_input() {
    return std::exchange(state_->noted.had_input, false);
}

std::vector<KeyPress> Screen::take_keys() {
    return std::exchange(state_->noted.keys, {});
}

void Screen::take_new_fonts() {
    if (!state_->has_begun)
        return;  // the first frame makes the texture, with all else that the toolkit draws by
    ImGui_ImplOpenGL3_DestroyFontsTexture();
    ImGui_ImplOpenGL3_CreateFontsTexture();
}

void Screen::begin_frame(bool field_opens) {
    state_->has_begun = true;
    ImGui_ImplOpenGL3_NewFrame();
    ImGui_ImplGlfw_NewFrame();
    take_typed(state_->noted, field_opens);
    hold_short_taps(state_->noted);
    take_pointer(state_->noted);
    ImGui::NewFrame();
}

void Screen::end_frame(unsigned background) {
    ImGui::Render();
    show_keys_as_held(state_->noted);
    int width = 0;
    int height = 0;
    glfwGetFramebufferSize(state_->window, &width, &height);
    glViewport(0, 0, width, height);
    const ImVec4 colour = ImGui::ColorConvertU32ToFloat4(background);
    glClearColor(colour.x, colour.y, colour.z, 1);
    glClear(GL_COLOR_BUFFER_BIT);
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    glfwSwapBuffers(state_->window);
}

void Screen::wake() {
    glfwPostEmptyEvent();
}

}  // namespace backrow::window
