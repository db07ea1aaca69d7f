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
    case Sheet::give_away:
        return "give away";
    case Sheet::leave:
        return "leave";
    case Sheet::left_behind:
        return "left behind";
    case Sheet::clash:
        return "clash";
    case Sheet::reasons:
        return "reasons";
    case Sheet::photo_file:
        return "photo";
    case Sheet::panorama_file:
        return "panorama";
    case Sheet::model_file:
        return "model";
    case Sheet::photo_size:
        return "photo's size";
    case Sheet::none:
        break;
    }
    return "";
}

void SheetState::step_back() {
    if (shown == Sheet::give_away && chooser) {
        chooser.reset();
        complaint.clear();
    } else {
        close();
    }
}

std::string SheetState::letters() const {
    std::string letters = chooser ? chooser->letters : std::string{};
    if (give_away) {
        letters += give_away->choices.folder + give_away->choices.stem;
        for (const delivery::Piece& piece : give_away->choices.pieces)
            letters += piece.tail;
    }
    return letters;
}

}  // namespace backrow::window
