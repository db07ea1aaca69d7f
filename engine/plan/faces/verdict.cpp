#include "plan/faces/verdict.h"

namespace backrow::plan {
namespace {

constexpr double least_seen = 0.5;

}  // namespace

Verdict verdict_of(const Face& face) noexcept {
    if (face.visible_fraction < least_seen)
        return Verdict::hidden;
    if (!face.cropping.has_whole_head)
        return Verdict::cut_off;
    return verdict_of(face.grade);
}

Verdict verdict_of(optics::Grade grade) noexcept {
    switch (grade) {
    case optics::Grade::crisp:
        return Verdict::crisp;
    case optics::Grade::fine:
        return Verdict::fine;
    case optics::Grade::soft:
        return Verdict::soft;
    case optics::Grade::lost:
        break;
    }
    return Verdict::lost;
}

std::vector<std::string> hidden_by(const Face& face) {
    return verdict_of(face) == Verdict::hidden ? face.hiders : std::vector<std::string>{};
}

bool is_seen(const Face& face) noexcept {
    const Verdict verdict = verdict_of(face);
    return verdict != Verdict::hidden && verdict != Verdict::cut_off;
}

const char* to_word(Verdict verdict) noexcept {
    switch (verdict) {
    case Verdict::hidden:
        return "hidden";
    case Verdict::cut_off:
        return "cut off";
    case Verdict::crisp:
        return optics::to_word(optics::Grade::crisp);
    case Verdict::fine:
        return optics::to_word(optics::Grade::fine);
    case Verdict::soft:
        return optics::to_word(optics::Grade::soft);
    case Verdict::lost:
        break;
    }
    return optics::to_word(optics::Grade::lost);
}

}  // namespace backrow::plan
