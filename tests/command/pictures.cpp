#include "pictures.h"

#if defined(__GNUC__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wunused-function"
#pragma GCC diagnostic ignored "-Wold-style-cast"
#pragma GCC diagnostic ignored "-Wshadow"
#endif
#define STB_IMAGE_IMPLEMENTATION
#define STB_IMAGE_STATIC
#include <stb/stb_image.h>
#if defined(__GNUC__)
#pragma GCC diagnostic pop
#endif

#include <cstddef>
#include <fstream>
#include <stdexcept>

namespace backrow::command {
namespace {

template <class Pixel, class Channel>
Image<Pixel> taken_over(Channel* channels, int width, int height, const std::string& file) {
    if (channels == nullptr)
        throw std::runtime_error("no picture: " + file);
    Image<Pixel> picture{width, height};
    for (std::size_t i = 0; i < picture.pixels().size(); ++i)
        picture.pixels()[i] = {channels[3 * i], channels[3 * i + 1], channels[3 * i + 2]};
    stbi_image_free(channels);
    return picture;
}

}  // namespace

Image<Rgb> picture_from_pfm(const std::string& file) {
    std::ifstream stream{file, std::ios::binary};
    std::string magic;
    int width = 0, height = 0;
    double scale = 0;
    if (!(stream >> magic >> width >> height >> scale) || magic != "PF" || scale >= 0)
        throw std::runtime_error("no little-endian PFM of three channels: " + file);
    stream.get();
    Image<Rgb> picture{width, height};
    for (int y = height - 1; y >= 0; --y)
        stream.read(reinterpret_cast<char*>(&picture.at(0, y)),
                    static_cast<std::streamsize>(sizeof(Rgb)) * width);
    if (!stream || stream.peek() != std::ifstream::traits_type::eof())
        throw std::runtime_error("a PFM of the wrong length: " + file);
    return picture;
}

Image<Rgb> picture_from_hdr(const std::string& file) {
    int width = 0, height = 0;
    float* channels = stbi_loadf(file.c_str(), &width, &height, nullptr, 3);
    return taken_over<Rgb>(channels, width, height, file);
}

Image<Rgb8> picture_from_png(const std::string& file) {
    int width = 0, height = 0;
    unsigned char* channels = stbi_load(file.c_str(), &width, &height, nullptr, 3);
    return taken_over<Rgb8>(channels, width, height, file);
}

}  // namespace backrow::command
