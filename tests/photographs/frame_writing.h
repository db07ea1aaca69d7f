#pragma once

// Files as cameras and converters write them, by hand: PNGs of sixteen bits, and notes of aperture,
// focal length and the way up.

#include "base/image.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace backrow::photographs {

struct Fraction {
    std::uint32_t numerator = 0;
    std::uint32_t denominator = 1;
};

inline std::string big_endian(std::uint32_t number, int bytes) {
    std::string written;
    for (int i = bytes - 1; i >= 0; --i)
        written += static_cast<char>(number >> (8 * i) & 0xff);
    return written;
}

/// The CRC of PNG.
inline std::uint32_t crc_of(const std::string& bytes) {
    std::uint32_t crc = 0xffffffffu;
    for (const char byte : bytes) {
        crc ^= static_cast<unsigned char>(byte);
        for (int bit = 0; bit < 8; ++bit)
            crc = (crc & 1) != 0 ? crc >> 1 ^ 0xedb88320u : crc >> 1;
    }
    return ~crc;
}

inline std::string png_chunk(const std::string& kind, const std::string& content) {
    std::string chunk = big_endian(static_cast<std::uint32_t>(content.size()), 4);
    chunk += kind;
    chunk += content;
    chunk += big_endian(crc_of(kind + content), 4);
    return chunk;
}

/// Grey, not compressed: blocks of zlib as they are.
inline std::string deep_png_of(const Image<std::uint16_t>& picture) {
    using namespace std::string_literals;
    std::string rows;
    for (int y = 0; y < picture.height_px(); ++y) {
        rows += '\0';
        for (int x = 0; x < picture.width_px(); ++x)
            rows += big_endian(picture.at(x, y), 2);
    }
    std::string stream = "\x78\x01"s;
    constexpr std::size_t most = 65535;
    for (std::size_t at = 0; at < rows.size(); at += most) {
        const std::string block = rows.substr(at, most);
        const auto size = static_cast<std::uint32_t>(block.size());
        stream += at + most >= rows.size() ? '\x01' : '\0';
        for (const std::uint32_t number : {size, ~size & 0xffffu}) {
            stream += static_cast<char>(number & 0xff);
            stream += static_cast<char>(number >> 8);
        }
        stream += block;
    }
    std::uint32_t low = 1;
    std::uint32_t high = 0;
    for (const char byte : rows) {
        low = (low + static_cast<unsigned char>(byte)) % 65521;
        high = (high + low) % 65521;
    }
    stream += big_endian(high << 16 | low, 4);
    std::string head = big_endian(static_cast<std::uint32_t>(picture.width_px()), 4);
    head += big_endian(static_cast<std::uint32_t>(picture.height_px()), 4);
    head += "\x10\0\0\0\0"s;
    std::string file = "\x89PNG\r\n\x1a\n"s;
    file += png_chunk("IHDR", head);
    file += png_chunk("IDAT", stream);
    file += png_chunk("IEND", {});
    return file;
}

/// The directories of an Exif segment, big-endian: orientation, and in the second aperture and
/// focal length.
inline std::string notes(int orientation, const Fraction& f_number, const Fraction& focal_length) {
    using namespace std::string_literals;
    constexpr std::uint32_t word = 3, whole = 4, fraction = 5;
    // Header 8, first directory 2 + 2 · 12 + 4, second likewise, then the fractions.
    constexpr std::uint32_t second = 8 + 30;
    constexpr std::uint32_t values = second + 30;
    std::string written = "MM\0\x2a\0\0\0\x08"s;
    const auto entry = [&](std::uint32_t tag, std::uint32_t kind, const std::string& value) {
        written += big_endian(tag, 2);
        written += big_endian(kind, 2);
        written += big_endian(1, 4);
        written += value;
    };
    written += big_endian(2, 2);
    entry(0x0112, word, big_endian(static_cast<std::uint32_t>(orientation) << 16, 4));
    entry(0x8769, whole, big_endian(second, 4));
    written += big_endian(0, 4);
    written += big_endian(2, 2);
    entry(0x829d, fraction, big_endian(values, 4));
    entry(0x920a, fraction, big_endian(values + 8, 4));
    written += big_endian(0, 4);
    for (const Fraction& number : {f_number, focal_length}) {
        written += big_endian(number.numerator, 4);
        written += big_endian(number.denominator, 4);
    }
    return written;
}

/// A JPEG with these notes before all else.
inline std::string with_notes(const std::string& jpeg, int orientation, const Fraction& f_number,
                              const Fraction& focal_length) {
    using namespace std::string_literals;
    const std::string segment = "Exif\0\0"s + notes(orientation, f_number, focal_length);
    std::string file = jpeg.substr(0, 2);
    file += "\xff\xe1";
    file += big_endian(static_cast<std::uint32_t>(segment.size() + 2), 2);
    file += segment;
    file += jpeg.substr(2);
    return file;
}

/// A PNG with these notes behind its head.
inline std::string png_with_notes(const std::string& png, int orientation, const Fraction& f_number,
                                  const Fraction& focal_length) {
    constexpr std::size_t head_bytes = 8 + 25;
    std::string file = png.substr(0, head_bytes);
    file += png_chunk("eXIf", notes(orientation, f_number, focal_length));
    file += png.substr(head_bytes);
    return file;
}

}  // namespace backrow::photographs
