#include "window/pictures/screen_picture.h"

#include <cstdint>

namespace backrow::window {

// The window may have no more than OpenGL 3.3, so nothing newer is called here.
void ScreenPicture::take(const Image<Rgb8>& pixels) {
    if (texture_.name() == 0 || pixels.width_px() != width_px_ ||
        pixels.height_px() != height_px_) {
        GLuint name = 0;
        glGenTextures(1, &name);
        texture_ = render::Texture{name};
        glBindTexture(GL_TEXTURE_2D, name);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
        width_px_ = pixels.width_px();
        height_px_ = pixels.height_px();
        glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
        glTexImage2D(GL_TEXTURE_2D, 0, GL_RGB8, width_px_, height_px_, 0, GL_RGB, GL_UNSIGNED_BYTE,
                     pixels.pixels().data());
        return;
    }
    glBindTexture(GL_TEXTURE_2D, texture_.name());
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    glTexSubImage2D(GL_TEXTURE_2D, 0, 0, 0, width_px_, height_px_, GL_RGB, GL_UNSIGNED_BYTE,
                    pixels.pixels().data());
}

ImTextureID ScreenPicture::id() const noexcept {
    return reinterpret_cast<ImTextureID>(static_cast<std::intptr_t>(texture_.name()));
}

}  // namespace backrow::window
