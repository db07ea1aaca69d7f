#include "missing_letters.h"

#include "console.h"

#include "report/drawing/canvas.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>

void tell_missing_letters(const backrow::scene::Scene& scene) {
    const auto tell = [](const std::string& text) {
        if (!backrow::report::Canvas::lacks_letters(text))
            return false;
        console::say(
            fmt::format("backrow: no font on this machine has all letters of `{}`, so boxes stand "
                        "for them; install one that has (in Debian fonts-noto-core or "
                        "fonts-noto-cjk)",
                        text));
        return true;
    };
    if (!tell(scene.title))
        std::ranges::any_of(scene.people, tell, &backrow::scene::Person::name);
}
