#pragma once

// Numbers for keys, in the order in which they come: edges of a mesh, cubes of space. A flat table,
// for most of the time that is spent on a mesh goes into asking what is known of it.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

namespace backrow::render {

class Numbering {
public:
    struct Numbered {
        std::uint32_t number = 0;
        bool is_new = false;
    };

    /// The number of a key: 0 for the first that was ever asked for, 1 for the second other one …
    Numbered of(std::uint64_t key) {
        if (2 * (count_ + std::size_t{1}) > slots_.size())
            grow();
        Slot& slot = slots_[place_of(key)];
        if (slot.number_and_1 != 0)
            return {slot.number_and_1 - 1, false};
        slot = {key, ++count_};
        return {count_ - 1, true};
    }

    /// Nothing where of() has not seen the key.
    [[nodiscard]] std::optional<std::uint32_t> find(std::uint64_t key) const {
        if (count_ == 0)
            return std::nullopt;
        const Slot& slot = slots_[place_of(key)];
        return slot.number_and_1 != 0 ? std::optional{slot.number_and_1 - 1} : std::nullopt;
    }

    [[nodiscard]] std::uint32_t count() const noexcept { return count_; }

private:
    struct Slot {
        std::uint64_t key = 0;
        std::uint32_t number_and_1 = 0;  // 0: empty
    };

    // Where the key is, or belongs. Half of the slots are empty, so there is an end.
    [[nodiscard]] std::size_t place_of(std::uint64_t key) const {
        // The upper half of a product with the golden section: it depends on all digits of the key.
        constexpr std::uint64_t golden = 0x9e3779b97f4a7c15;
        std::size_t place = (key * golden) >> 32U & (slots_.size() - 1);
        while (slots_[place].number_and_1 != 0 && slots_[place].key != key)
            place = (place + 1) & (slots_.size() - 1);
        return place;
    }

    void grow() {
        constexpr std::size_t least = 64;
        const std::vector<Slot> before =
            std::exchange(slots_, std::vector<Slot>(slots_.empty() ? least : 2 * slots_.size()));
        for (const Slot& slot : before)
            if (slot.number_and_1 != 0)
                slots_[place_of(slot.key)] = slot;
    }

    std::vector<Slot> slots_;
    std::uint32_t count_ = 0;
};

}  // namespace backrow::render
