#include "render/driver/program.h"

#include "base/assets.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <sstream>

namespace backrow::render {
namespace {

// A shader with its includes in place. `#line L K` numbers its files; files[K] is the name.
struct Source {
    std::string text;
    std::vector<std::string> files;
};

Made<void> append_file(Source& source, const std::string& file) {
    const auto path = find_asset("shaders/" + file);
    if (!path)
        return tl::make_unexpected(path.error());
    const auto text = read_text(*path);
    if (!text)
        return tl::make_unexpected(text.error());
    const std::size_t number = source.files.size();
    source.files.push_back(file);
    source.text += fmt::format("#line 1 {}\n", number);

    std::istringstream lines{*text};
    std::string line;
    constexpr std::string_view include = "#include \"";
    for (int at = 1; std::getline(lines, line); ++at) {
        if (line.rfind(include, 0) == 0) {
            const std::string named =
                line.substr(include.size(), line.find('"', include.size()) - include.size());
            if (auto included = append_file(source, named); !included)
                return included;
            source.text += fmt::format("#line {} {}\n", at + 1, number);
        } else {
            source.text += line + '\n';
        }
    }
    return {};
}

// Mesa writes "1:23(4): error", NVIDIA "1(23) : error": the file's number stands first in both.
std::string with_file_names(const std::string& log, const std::vector<std::string>& files) {
    std::istringstream lines{log};
    std::string line;
    std::string named;
    while (std::getline(lines, line)) {
        const std::size_t digits = std::min(line.find_first_not_of("0123456789"), line.size());
        if (digits > 0 && digits < 4 && digits < line.size() &&
            (line[digits] == ':' || line[digits] == '(')) {
            const auto number = static_cast<std::size_t>(std::stoi(line.substr(0, digits)));
            if (number < files.size())
                line = files[number] + line.substr(digits);
        }
        named += (named.empty() ? "" : " | ") + line;
    }
    return named;
}

Made<Shader> compile(GLenum stage, const std::string& file,
                     const std::vector<std::string>& defines) {
    Source source{.text = "#version 450 core\n", .files = {}};
    for (const std::string& define : defines)
        source.text += "#define " + define + "\n";
    if (const auto appended = append_file(source, file); !appended)
        return tl::make_unexpected(appended.error());

    Shader shader{glCreateShader(stage)};
    const char* text = source.text.c_str();
    glShaderSource(shader.name(), 1, &text, nullptr);
    glCompileShader(shader.name());
    GLint compiled = GL_FALSE;
    glGetShaderiv(shader.name(), GL_COMPILE_STATUS, &compiled);
    if (compiled == GL_TRUE)
        return shader;
    std::string log(4096, '\0');
    GLsizei length = 0;
    glGetShaderInfoLog(shader.name(), static_cast<GLsizei>(log.size()), &length, log.data());
    log.resize(static_cast<std::size_t>(length));
    return tl::make_unexpected(MachineFailure{
        fmt::format("the graphics driver refuses {}: {}", file, with_file_names(log, source.files)),
        "install the program again or update the driver"});
}

Made<Program> link(const std::vector<Shader>& shaders, const std::string& label) {
    Program program{glCreateProgram()};
    for (const Shader& shader : shaders)
        glAttachShader(program.name(), shader.name());
    glLinkProgram(program.name());
    GLint linked = GL_FALSE;
    glGetProgramiv(program.name(), GL_LINK_STATUS, &linked);
    if (linked == GL_TRUE) {
        glObjectLabel(GL_PROGRAM, program.name(), -1, label.c_str());
        return program;
    }
    std::string log(4096, '\0');
    GLsizei length = 0;
    glGetProgramInfoLog(program.name(), static_cast<GLsizei>(log.size()), &length, log.data());
    log.resize(static_cast<std::size_t>(length));
    return tl::make_unexpected(
        MachineFailure{fmt::format("the graphics driver cannot link {}: {}", label, log),
                       "install the program again or update the driver"});
}

}  // namespace

Made<Program> make_program(const Gl& /*gl*/, const std::string& vertex_file,
                           const std::string& fragment_file,
                           const std::vector<std::string>& defines) {
    auto vertex = compile(GL_VERTEX_SHADER, vertex_file, defines);
    if (!vertex)
        return tl::make_unexpected(vertex.error());
    auto fragment = compile(GL_FRAGMENT_SHADER, fragment_file, defines);
    if (!fragment)
        return tl::make_unexpected(fragment.error());
    std::vector<Shader> shaders;
    shaders.push_back(std::move(*vertex));
    shaders.push_back(std::move(*fragment));
    return link(shaders, vertex_file + " with " + fragment_file);
}

Made<Program> make_compute_program(const Gl& /*gl*/, const std::string& file,
                                   const std::vector<std::string>& defines) {
    auto shader = compile(GL_COMPUTE_SHADER, file, defines);
    if (!shader)
        return tl::make_unexpected(shader.error());
    std::vector<Shader> shaders;
    shaders.push_back(std::move(*shader));
    return link(shaders, file);
}

}  // namespace backrow::render
