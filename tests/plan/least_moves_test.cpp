#include "plan/advice/least_moves.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>
#include <optional>
#include <random>
#include <vector>

namespace backrow::plan {
namespace {

using Moves = std::vector<int>;

bool will_do(const Moves& moves, const std::vector<MoveRange>& ranges,
             const std::vector<RoomBetween>& rooms) {
    for (std::size_t i = 0; i < moves.size(); ++i)
        if (moves[i] < ranges[i].from_cm || moves[i] > ranges[i].to_cm)
            return false;
    return std::ranges::all_of(rooms, [&](const RoomBetween& room) {
        return moves[room.behind] + room.room_cm >= moves[room.front];
    });
}

/// By trying all of −reach … reach for everybody: for each person alone the least size of a move
/// in anything that will do; nothing where nothing does.
std::optional<Moves> least_sizes_by_trying(const std::vector<MoveRange>& ranges,
                                           const std::vector<RoomBetween>& rooms, int reach) {
    std::optional<Moves> least;
    Moves moves(ranges.size(), -reach);
    for (bool more = true; more;) {
        if (will_do(moves, ranges, rooms)) {
            if (!least)
                least = Moves(ranges.size(), reach);
            for (std::size_t i = 0; i < moves.size(); ++i)
                (*least)[i] = std::min((*least)[i], std::abs(moves[i]));
        }
        more = false;
        for (int& move : moves) {
            if (++move <= reach) {
                more = true;
                break;
            }
            move = -reach;
        }
    }
    return least;
}

}  // namespace

// Fixed seed; 400 groups of four with rooms at random, most of them cramped.
TEST_CASE("everybody moves the least that anybody's move could be, found by trying all of them",
          "[plan][property]") {
    constexpr int reach = 4;
    std::mt19937 chance{20};
    const auto between = [&](int from, int to) {
        return from + static_cast<int>(chance() % static_cast<unsigned>(to - from + 1));
    };
    int possible = 0, impossible = 0;
    for (int trial = 0; trial < 400; ++trial) {
        std::vector<MoveRange> ranges;
        for (int i = 0; i < 4; ++i) {
            const int from = between(-reach, reach);
            ranges.push_back({from, std::min(reach, from + between(0, 5))});
        }
        std::vector<RoomBetween> rooms;
        for (std::size_t front = 0; front < 4; ++front)
            for (std::size_t behind = 0; behind < 4; ++behind)
                if (front != behind && between(0, 2) == 0)
                    rooms.push_back({front, behind, between(0, 3)});
        const auto expected = least_sizes_by_trying(ranges, rooms, reach);
        const auto found = least_moves(ranges, rooms);
        CAPTURE(trial);
        REQUIRE(found.has_value() == expected.has_value());
        if (!found) {
            ++impossible;
            continue;
        }
        ++possible;
        CHECK(will_do(*found, ranges, rooms));
        for (std::size_t i = 0; i < found->size(); ++i)
            CHECK(std::abs((*found)[i]) == (*expected)[i]);
    }
    CHECK(possible > 50);
    CHECK(impossible > 50);
}

TEST_CASE("whoever steps back takes those behind along, once the room is used up",
          "[plan][property]") {
    const std::vector<MoveRange> ranges{{10, 30}, {-30, 30}, {-30, 30}};
    CHECK(least_moves(ranges, {{0, 1, 4}, {1, 2, 20}}) == Moves{10, 6, 0});
    CHECK(least_moves(ranges, {{0, 1, 4}, {1, 2, 1}}) == Moves{10, 6, 5});
    CHECK(least_moves(ranges, {}) == Moves{10, 0, 0});
}

TEST_CASE("where one must pass through the other, no moves will do", "[plan][property]") {
    CHECK_FALSE(least_moves({{10, 30}, {-30, -10}}, {{0, 1, 19}}));
    CHECK(least_moves({{10, 30}, {-30, -10}}, {{0, 1, 20}}) == Moves{10, -10});
    CHECK_FALSE(least_moves({{3, 2}}, {}));
}

}  // namespace backrow::plan
