#include "render/driver/gl.h"

#include <atomic>
#include <cassert>
#include <cstring>
#include <mutex>

namespace backrow::render {
namespace {

std::atomic<int> errors_seen{0};

void GLAD_API_PTR count_error(GLenum /*source*/, GLenum type, GLuint /*id*/, GLenum severity,
                              GLsizei /*length*/, const GLchar* /*message*/, const void* /*user*/) {
    if (type == GL_DEBUG_TYPE_ERROR || severity == GL_DEBUG_SEVERITY_HIGH)
        ++errors_seen;
}

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
    glEnable(GL_DEBUG_OUTPUT);
    glDebugMessageCallback(count_error, nullptr);
    return gl;
}

int gl_errors() noexcept {
    return errors_seen;
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
    glObjectLabel(GL_BUFFER, name, -1, label);
    return Buffer{name};
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
    glObjectLabel(GL_TEXTURE, name, -1, label);
    return Texture{name};
}

Framebuffer make_framebuffer(const Gl& /*gl*/, GLuint colour_texture, GLuint depth_texture,
                             const char* label) {
    GLuint name = 0;
    glCreateFramebuffers(1, &name);
    if (colour_texture != 0) {
        glNamedFramebufferTexture(name, GL_COLOR_ATTACHMENT0, colour_texture, 0);
    } else {
        glNamedFramebufferDrawBuffer(name, GL_NONE);
        glNamedFramebufferReadBuffer(name, GL_NONE);
    }
    if (depth_texture != 0)
        glNamedFramebufferTexture(name, GL_DEPTH_ATTACHMENT, depth_texture, 0);
    glObjectLabel(GL_FRAMEBUFFER, name, -1, label);
    return Framebuffer{name};
}

VertexArray make_vertex_array(const Gl& /*gl*/, const char* label) {
    GLuint name = 0;
    glCreateVertexArrays(1, &name);
    glObjectLabel(GL_VERTEX_ARRAY, name, -1, label);
    return VertexArray{name};
}

}  // namespace backrow::render
