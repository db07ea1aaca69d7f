#include "window/focus_ring.h"

#include <imgui.h>
#include <imgui_internal.h>

namespace backrow::window {

void FocusRing::begin_frame() {
    drawn_ = 0;
    has_keys_.reset();
    is_given_ = false;
}

void FocusRing::note_last() {
    if (!is_open_)
        return;
    if (next_ == drawn_) {
        next_.reset();
        has_keys_ = drawn_;
        is_given_ = true;
        ImGui::SetKeyboardFocusHere(-1);
        // Where the pointer was used last the toolkit would draw no mark, and not hear Space.
        ImGui::GetCurrentContext()->NavDisableHighlight = false;
        ImGui::GetCurrentContext()->NavDisableMouseHover = true;
    } else if (!is_given_ && ImGui::IsItemFocused()) {
        has_keys_ = drawn_;
    }
    ++drawn_;
}

void FocusRing::step(int way) {
    if (drawn_ == 0)
        return;
    const std::size_t before_first = drawn_ - 1;
    const std::size_t from = next_ ? *next_ : has_keys_.value_or(way > 0 ? before_first : 0);
    next_ = (from + (way > 0 ? 1 : before_first)) % drawn_;
}

void leave_field() {
    ImGui::ClearActiveID();
}

}  // namespace backrow::window
