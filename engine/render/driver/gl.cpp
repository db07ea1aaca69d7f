#include "render/driver/gl.h"

#include <fmt/format.h>

#include <array>

#include <cassert>
#include <cstring>
#include <mutex>
#include <new>
#include <stdexcept>

namespace backrow::render {
namespace {

constexpr const char* other_driver = "another driver may do, such as Mesa's llvmpipe";

std::string text_of(GLenum name) {
    const auto* text = reinterpret_cast<const char*>(glGetString(name));
    return text != nullptr ? text : "";
}

}  // namespace

bool load_opengl(GLADloadfunc find) {
    static std::mutex lock;
    static bool loaded = false;
    const std::scoped_lock held{lock};
    loaded = loaded || gladLoadGL(find) != 0;
    return loaded;
}

Gl describe_current_context() {
    Gl gl;
    gl.driver = text_of(GL_RENDERER);
    gl.on_processor = gl.driver.find("llvmpipe") != std::string::npos ||
                      gl.driver.find("softpipe") != std::string::npos ||
                      gl.driver.find("SWR") != std::string::npos;
    glGetIntegerv(GL_MAX_TEXTURE_SIZE, &gl.largest_texture_texels);
    return gl;
}

void require_no_gl_error() {
    const GLenum first = glGetError();
    bool is_of_memory = false;
    for (GLenum error = first; error != GL_NO_ERROR; error = glGetError())
        is_of_memory = is_of_memory || error == GL_OUT_OF_MEMORY;
    if (is_of_memory)
        throw std::bad_alloc{};
    if (first != GL_NO_ERROR)
        throw std::runtime_error{
            fmt::format("the graphics driver reports error 0x{:04x}; {}", first, other_driver)};
}

void destroy_buffer(GLuint name) noexcept {
    glDeleteBuffers(1, &name);
}
void destroy_texture(GLuint name) noexcept {
    glDeleteTextures(1, &name);
}
void destroy_framebuffer(GLuint name) noexcept {
    glDeleteFramebuffers(1, &name);
}
void destroy_vertex_array(GLuint name) noexcept {
    glDeleteVertexArrays(1, &name);
}
void destroy_program(GLuint name) noexcept {
    glDeleteProgram(name);
}
void destroy_shader(GLuint name) noexcept {
    glDeleteShader(name);
}

Buffer make_buffer(const Gl& /*gl*/, const void* bytes, std::size_t size, const char* label) {
    GLuint name = 0;
    glCreateBuffers(1, &name);
    if (size == 0)
        glNamedBufferStorage(name, 1, nullptr, GL_DYNAMIC_STORAGE_BIT);
    else
        glNamedBufferStorage(name, static_cast<GLsizeiptr>(size), bytes, GL_DYNAMIC_STORAGE_BIT);
    Buffer buffer{name};
    glObjectLabel(GL_BUFFER, name, -1, label);
    require_no_gl_error();
    return buffer;
}

Texture make_texture(const Gl& gl, GLenum format, int width_texels, int height_texels,
                     GLenum filter, const char* label, int levels) {
    assert(width_texels <= gl.largest_texture_texels && height_texels <= gl.largest_texture_texels);
    static_cast<void>(gl);
    GLuint name = 0;
    glCreateTextures(GL_TEXTURE_2D, 1, &name);
    glTextureStorage2D(name, levels, format, width_texels, height_texels);
    glTextureParameteri(name, GL_TEXTURE_MIN_FILTER, static_cast<GLint>(filter));
    glTextureParameteri(name, GL_TEXTURE_MAG_FILTER, static_cast<GLint>(filter));
    glTextureParameteri(name, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
    glTextureParameteri(name, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
    Texture texture{name};
    glObjectLabel(GL_TEXTURE, name, -1, label);
    require_no_gl_error();
    return texture;
}

Framebuffer make_framebuffer(const Gl& /*gl*/, GLuint colour_texture, GLuint depth_texture,
                             const char* label, GLuint second_colour_texture) {
    GLuint name = 0;
    glCreateFramebuffers(1, &name);
    if (colour_texture != 0) {
        glNamedFramebufferTexture(name, GL_COLOR_ATTACHMENT0, colour_texture, 0);
    } else {
        glNamedFramebufferDrawBuffer(name, GL_NONE);
        glNamedFramebufferReadBuffer(name, GL_NONE);
    }
    if (second_colour_texture != 0) {
        constexpr std::array<GLenum, 2> both{GL_COLOR_ATTACHMENT0, GL_COLOR_ATTACHMENT1};
        glNamedFramebufferTexture(name, GL_COLOR_ATTACHMENT1, second_colour_texture, 0);
        glNamedFramebufferDrawBuffers(name, 2, both.data());
    }
    if (depth_texture != 0)
        glNamedFramebufferTexture(name, GL_DEPTH_ATTACHMENT, depth_texture, 0);
    Framebuffer framebuffer{name};
    glObjectLabel(GL_FRAMEBUFFER, name, -1, label);
    require_no_gl_error();
    const bool is_ready = colour_texture != 0 || depth_texture != 0;
    if (is_ready && glCheckNamedFramebufferStatus(name, GL_FRAMEBUFFER) != GL_FRAMEBUFFER_COMPLETE)
        throw std::runtime_error{
            fmt::format("the graphics driver cannot draw into \"{}\"; {}", label, other_driver)};
    return framebuffer;
}

VertexArray make_vertex_array(const Gl& /*gl*/, const char* label) {
    GLuint name = 0;
    glCreateVertexArrays(1, &name);
    glObjectLabel(GL_VERTEX_ARRAY, name, -1, label);
    return VertexArray{name};
}

}  // namespace backrow::render
