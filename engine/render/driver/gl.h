#pragma once

// The one door to OpenGL: who holds a Gl has a current context with its functions loaded.

#include <glad/gl.h>

#include <string>
#include <utility>

namespace backrow::render {

/// A current OpenGL 4.5 core context. Headless and window contexts each yield one; every class that
/// draws takes it first, so none can exist without a context nor tell which kind it got.
struct Gl {
    std::string driver;         ///< "llvmpipe (LLVM 15.0.6, 256 bits)"
    bool on_processor = false;  ///< A software rasteriser: no GPU.
    int largest_texture_texels = 0;
};

/// Finds the functions of OpenGL through the current context, once a process: they go by whatever
/// context their caller has, so those of one serve all, and nobody's are exchanged while in use.
/// Whether they are there; may be called from any thread.
[[nodiscard]] bool load_opengl(GLADloadfunc find);

/// Reads names and limits from the current context.
[[nodiscard]] Gl describe_current_context();

/// Looks whether the driver has refused anything on this thread since it was last asked. For
/// whoever has made something large or reads a finished picture back: a picture after an error is
/// none.
///
/// throws  std::bad_alloc where graphics memory has run out, as for any other memory;
///         std::runtime_error, in the driver's words, for anything else
void require_no_gl_error();

/// Owns one OpenGL object. The context that made it must be current when it is destroyed.
template <void (*destroy)(GLuint) noexcept>
class Owned {
public:
    Owned() noexcept = default;
    explicit Owned(GLuint name) noexcept : name_{name} {}
    Owned(Owned&& other) noexcept : name_{std::exchange(other.name_, 0)} {}
    Owned& operator=(Owned&& other) noexcept {
        std::swap(name_, other.name_);
        return *this;
    }
    ~Owned() {
        if (name_ != 0)
            destroy(name_);
    }
    [[nodiscard]] GLuint name() const noexcept { return name_; }

private:
    GLuint name_ = 0;
};

void destroy_buffer(GLuint name) noexcept;
void destroy_texture(GLuint name) noexcept;
void destroy_framebuffer(GLuint name) noexcept;
void destroy_vertex_array(GLuint name) noexcept;
void destroy_program(GLuint name) noexcept;
void destroy_shader(GLuint name) noexcept;

using Buffer = Owned<destroy_buffer>;
using Texture = Owned<destroy_texture>;
using Framebuffer = Owned<destroy_framebuffer>;
using VertexArray = Owned<destroy_vertex_array>;
using Program = Owned<destroy_program>;
using Shader = Owned<destroy_shader>;

// What follows throws as require_no_gl_error() does.

/// An immutable buffer holding bytes; size 0 is made one byte large, which OpenGL wants.
[[nodiscard]] Buffer make_buffer(const Gl& gl, const void* bytes, std::size_t size,
                                 const char* label);

/// A texture; filter is GL_NEAREST or GL_LINEAR; edges are clamped. levels: 1, or room for so many
/// smaller ones as well.
[[nodiscard]] Texture make_texture(const Gl& gl, GLenum format, int width_texels, int height_texels,
                                   GLenum filter, const char* label, int levels = 1);

/// 0 for a texture that it has none of; without any, whoever draws gives it one first.
/// second_colour_texture: 0 for none.
[[nodiscard]] Framebuffer make_framebuffer(const Gl& gl, GLuint colour_texture,
                                           GLuint depth_texture, const char* label,
                                           GLuint second_colour_texture = 0);

[[nodiscard]] VertexArray make_vertex_array(const Gl& gl, const char* label);

}  // namespace backrow::render
