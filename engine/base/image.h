#pragma once

// A picture as a plain value: rows from the top, left to right.

#include <cstddef>
#include <cstdint>
#include <vector>

namespace backrow {

/// Linear light, or any three floats.
struct Rgb {
    float r = 0, g = 0, b = 0;
    bool operator==(const Rgb&) const = default;
};

/// Eight bits a channel, sRGB encoded unless said otherwise.
struct Rgb8 {
    std::uint8_t r = 0, g = 0, b = 0;
    bool operator==(const Rgb8&) const = default;
};

struct Rgba8 {
    std::uint8_t r = 0, g = 0, b = 0, a = 255;
    bool operator==(const Rgba8&) const = default;
};

template <class Pixel>
class Image {
public:
    Image() = default;
    Image(int width_px, int height_px, Pixel fill = {})
        : width_px_{width_px}, height_px_{height_px},
          pixels_(static_cast<std::size_t>(width_px) * static_cast<std::size_t>(height_px), fill) {}

    [[nodiscard]] int width_px() const noexcept { return width_px_; }
    [[nodiscard]] int height_px() const noexcept { return height_px_; }
    [[nodiscard]] bool empty() const noexcept { return pixels_.empty(); }

    /// (0, 0) is the top-left pixel; both indices must lie inside.
    [[nodiscard]] Pixel& at(int x, int y) noexcept { return pixels_[index(x, y)]; }
    [[nodiscard]] const Pixel& at(int x, int y) const noexcept { return pixels_[index(x, y)]; }

    [[nodiscard]] std::vector<Pixel>& pixels() noexcept { return pixels_; }
    [[nodiscard]] const std::vector<Pixel>& pixels() const noexcept { return pixels_; }

private:
    [[nodiscard]] std::size_t index(int x, int y) const noexcept {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(width_px_) +
               static_cast<std::size_t>(x);
    }
    int width_px_ = 0;
    int height_px_ = 0;
    std::vector<Pixel> pixels_;
};

}  // namespace backrow
