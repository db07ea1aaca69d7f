#include "papers/client/html.h"

#include "base/utf8.h"

#include <glib.h>

#include <array>
#include <memory>

namespace backrow::papers {
namespace {

constexpr char quotation_mark = '\x22';

std::string base64(std::span<const std::byte> bytes) {
    const std::unique_ptr<char, void (*)(void*)> letters{
        g_base64_encode(reinterpret_cast<const guchar*>(bytes.data()), bytes.size()), g_free};
    return letters.get();
}

/// Between quotation marks too.
std::string escaped(std::string_view text) {
    std::string safe;
    safe.reserve(text.size());
    for (const char letter : text)
        switch (letter) {
        case '&':
            safe += "&amp;";
            break;
        case '<':
            safe += "&lt;";
            break;
        case '>':
            safe += "&gt;";
            break;
        case quotation_mark:
            safe += "&quot;";
            break;
        default:
            safe += letter;
        }
    return safe;
}

}  // namespace

std::string html_text(std::string_view text) {
    return escaped(on_one_line(text));
}

std::string void_element(std::string_view name, const std::vector<Attribute>& attributes) {
    std::string tag{'<'};
    tag += name;
    for (const Attribute& attribute : attributes) {
        tag += ' ';
        tag += attribute.name;
        if (!attribute.value.empty())
            tag += std::string{'='} + quotation_mark + escaped(attribute.value) + quotation_mark;
    }
    return tag + '>';
}

std::string element(std::string_view name, const std::vector<Attribute>& attributes,
                    std::string_view inside) {
    std::string whole = void_element(name, attributes);
    whole.reserve(whole.size() + inside.size() + name.size() + 3);
    whole += inside;
    whole += "</";
    whole += name;
    return whole + '>';
}

std::string data_uri(std::string_view type, std::span<const std::byte> bytes) {
    std::string uri{"data:"};
    uri += type;
    return uri + ";base64," + base64(bytes);
}

std::string policy_hash(std::string_view text) {
    std::array<std::byte, 32> digest{};
    gsize size = digest.size();
    const std::unique_ptr<GChecksum, void (*)(GChecksum*)> sum{g_checksum_new(G_CHECKSUM_SHA256),
                                                               g_checksum_free};
    g_checksum_update(sum.get(), reinterpret_cast<const guchar*>(text.data()),
                      static_cast<gssize>(text.size()));
    g_checksum_get_digest(sum.get(), reinterpret_cast<guint8*>(digest.data()), &size);
    return "'sha256-" + base64(digest) + '\'';
}

}  // namespace backrow::papers
