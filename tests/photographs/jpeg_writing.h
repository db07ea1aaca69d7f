#pragma once

// JPEG files as cameras write them, with the turn noted in an Exif segment.

#include "base/image.h"

#if defined(__GNUC__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wmissing-field-initializers"
#pragma GCC diagnostic ignored "-Wunused-function"
#pragma GCC diagnostic ignored "-Wold-style-cast"
#pragma GCC diagnostic ignored "-Wshadow"
#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wsign-conversion"
#pragma GCC diagnostic ignored "-Wdouble-promotion"
#endif
#define STB_IMAGE_WRITE_IMPLEMENTATION
#define STB_IMAGE_WRITE_STATIC
#include <stb/stb_image_write.h>
#if defined(__GNUC__)
#pragma GCC diagnostic pop
#endif

#include <string>

namespace backrow::photographs {

/// An Exif segment whose one directory notes the orientation, big-endian or little-endian.
inline std::string exif_segment(int orientation, bool is_little) {
    using namespace std::string_literals;
    std::string directory =
        is_little ? "II\x2a\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0N\0\0\0\0\0\0\0"s
                  : "MM\0\x2a\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0N\0\0\0\0\0\0"s;
    directory[directory.find('N')] = static_cast<char>(orientation);
    const std::string content = "Exif\0\0"s + directory;
    return "\xff\xe1\0"s + static_cast<char>(content.size() + 2) + content;
}

/// The pixels as they are, and beside them which way up they are meant; 0 for no word of it.
inline std::string jpeg_of(const Image<Rgb8>& picture, int orientation) {
    std::string file;
    constexpr int best_quality = 100;
    stbi_write_jpg_to_func(
        [](void* into, void* bytes, int size) {
            static_cast<std::string*>(into)->append(static_cast<const char*>(bytes),
                                                    static_cast<std::size_t>(size));
        },
        &file, picture.width_px(), picture.height_px(), 3, picture.pixels().data(), best_quality);
    return orientation == 0 ? file
                            : file.substr(0, 2) + exif_segment(orientation, true) + file.substr(2);
}

}  // namespace backrow::photographs
