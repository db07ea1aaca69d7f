#include "setting/ground/grounds.h"

namespace backrow::setting {

std::vector<Piece> build_ground(Ground ground) {
    switch (ground) {
    case Ground::grass:
        return build_grass();
    case Ground::paving:
        return build_paving();
    case Ground::sand:
        return build_sand();
    case Ground::boards:
        return build_boards();
    }
    return {};
}

}  // namespace backrow::setting
