#include "source_files.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

namespace backrow::structure {

std::string text_of(const std::string& path) {
    std::ifstream file(std::filesystem::path{BACKROW_SOURCE_DIR} / path, std::ios::binary);
    return {std::istreambuf_iterator<char>{file}, {}};
}

std::vector<SourceFile> files_under(const std::string& folder) {
    const std::filesystem::path top{BACKROW_SOURCE_DIR};
    std::vector<SourceFile> files;
    if (!std::filesystem::is_directory(top / folder))
        return files;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(top / folder))
        if (entry.is_regular_file()) {
            const std::string path = std::filesystem::relative(entry.path(), top).generic_string();
            files.push_back({path, text_of(path)});
        }
    std::ranges::sort(files, {}, &SourceFile::path);
    return files;
}

std::vector<SourceFile> documents() {
    std::vector<SourceFile> found;
    const auto keep = [&](const SourceFile& file) {
        if (file.path.ends_with(".md"))
            found.push_back(file);
    };
    // Not below the top as a whole: what is built lies there, too.
    for (const auto& entry : std::filesystem::directory_iterator{BACKROW_SOURCE_DIR})
        if (entry.is_regular_file() && entry.path().extension() == ".md")
            keep({entry.path().filename().string(), text_of(entry.path().filename().string())});
    for (const char* folder : {"engine", "scenes", "shaders", "tests", "tools"})
        std::ranges::for_each(files_under(folder), keep);
    return found;
}

std::string layer_of(const std::string& path) {
    const auto start = path.find('/') + 1;
    return path.substr(start, path.find('/', start) - start);
}

std::vector<std::string> matches(const std::string& text, const std::regex& pattern) {
    std::vector<std::string> found;
    for (auto match = std::sregex_iterator(text.begin(), text.end(), pattern);
         match != std::sregex_iterator(); ++match)
        found.push_back((*match)[1]);
    return found;
}

}  // namespace backrow::structure
