#include "report/drawing/page_file.h"

#include "base/file_endings.h"

namespace backrow::report {

PageKind page_kind_of(const std::string& path) {
    if (ends_in(path, ".svg"))
        return PageKind::svg;
    return ends_in(path, ".pdf") ? PageKind::pdf : PageKind::png;
}

Bytes page_bytes(const Canvas& page, PageKind kind, int pixels_a_point, const std::string& title) {
    switch (kind) {
    case PageKind::svg:
        return page.svg_bytes();
    case PageKind::pdf:
        return page.pdf_bytes(title);
    case PageKind::png:
        break;
    }
    return png_bytes(page.pixels(pixels_a_point));
}

}  // namespace backrow::report
