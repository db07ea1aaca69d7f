#include "papers/words/verdict_words.h"

namespace backrow::papers {

std::string verdict_words(plan::Verdict verdict, const Language& language) {
    const auto say = [&](std::string_view sentence) { return language.say(sentence); };
    switch (verdict) {
    case plan::Verdict::hidden:
        return say("hidden");
    case plan::Verdict::cut_off:
        return say("cut off");
    case plan::Verdict::crisp:
        return say("crisp");
    case plan::Verdict::fine:
        return say("fine");
    case plan::Verdict::soft:
        return say("soft");
    case plan::Verdict::lost:
        break;
    }
    return say("lost");
}

}  // namespace backrow::papers
