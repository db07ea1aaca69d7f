#include "window/panels/sheet_state.h"

namespace backrow::window {

const char* to_word(Sheet sheet) noexcept {
    switch (sheet) {
    case Sheet::keys:
        return "keys";
    case Sheet::open:
        return "open";
    case Sheet::save_as:
        return "save as";
    case Sheet::save_picture:
        return "save picture";
    case Sheet::leave:
        return "leave";
    case Sheet::left_behind:
        return "left behind";
    case Sheet::clash:
        return "clash";
    case Sheet::none:
        break;
    }
    return "";
}

}  // namespace backrow::window
