#include "papers/words/catalogue.h"

#include <algorithm>
#include <cstdint>
#include <functional>
#include <optional>

namespace backrow::papers {
namespace {

constexpr std::size_t word_bytes = 4;

/// The file as numbers of 32 bits and texts; nothing where it ends before them.
class Bytes32 {
public:
    Bytes32(std::string_view bytes, bool is_little) : bytes_{bytes}, is_little_{is_little} {}

    [[nodiscard]] std::optional<std::uint32_t> number(std::size_t at) const {
        if (at > bytes_.size() || bytes_.size() - at < word_bytes)
            return std::nullopt;
        std::uint32_t number = 0;
        for (std::size_t i = 0; i < word_bytes; ++i) {
            const std::size_t place = is_little_ ? word_bytes - 1 - i : i;
            number = number << 8 | static_cast<unsigned char>(bytes_[at + place]);
        }
        return number;
    }

    /// By its length and its place, which stand there.
    [[nodiscard]] std::optional<std::string_view> text(std::size_t at) const {
        const auto length = number(at);
        const auto place = number(at + word_bytes);
        if (!length || !place || *place > bytes_.size() || *length > bytes_.size() - *place)
            return std::nullopt;
        return bytes_.substr(*place, *length);
    }

private:
    std::string_view bytes_;
    bool is_little_;
};

std::optional<Catalogue> catalogue_of(std::string_view bytes) {
    constexpr std::uint32_t magic = 0x950412de;
    const bool is_little = Bytes32{bytes, true}.number(0) == magic;
    const Bytes32 file{bytes, is_little};
    const auto count = file.number(2 * word_bytes);
    const auto sentences = file.number(3 * word_bytes);
    const auto translations = file.number(4 * word_bytes);
    if (file.number(0) != magic || !count || !sentences || !translations)
        return std::nullopt;
    Catalogue catalogue;
    for (std::size_t i = 0; i < *count; ++i) {
        const auto sentence = file.text(*sentences + 2 * word_bytes * i);
        const auto translation = file.text(*translations + 2 * word_bytes * i);
        if (!sentence || !translation)
            return std::nullopt;
        if (!sentence->empty() && placeholders(*sentence) == placeholders(*translation))
            catalogue.emplace(*sentence, *translation);
    }
    return catalogue;
}

}  // namespace

std::vector<std::string> placeholders(std::string_view sentence) {
    std::vector<std::string> names;
    for (std::size_t from = 0; (from = sentence.find('{', from)) != sentence.npos;) {
        const std::size_t to = sentence.find('}', from);
        if (to == sentence.npos)
            break;
        names.emplace_back(sentence.substr(from + 1, to - from - 1));
        from = to;
    }
    std::ranges::sort(names);
    names.erase(std::unique(names.begin(), names.end()), names.end());
    return names;
}

Made<Catalogue> read_catalogue(std::string_view bytes, const std::string& name) {
    auto catalogue = catalogue_of(bytes);
    if (!catalogue)
        return tl::make_unexpected(
            MachineFailure{name + " is no catalogue of sentences", "install the program again"});
    return std::move(*catalogue);
}

}  // namespace backrow::papers
