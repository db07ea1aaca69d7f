#include "scene/footing.h"

#include "scene/risers.h"
#include "scene/seats.h"

namespace backrow::scene {

std::vector<setting::Block> blocks_under(const std::vector<Person>& people) {
    std::vector<setting::Block> blocks = risers_under(people);
    for (const setting::Block& seat : seats_under(people))
        blocks.push_back(seat);
    return blocks;
}

}  // namespace backrow::scene
