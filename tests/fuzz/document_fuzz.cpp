// tests/fuzz/document_fuzz.cpp -- any bytes as a document, and its way into a link and back.
//
// Built and run by tools/fuzz.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "core/document/write.hpp"
#include "core/link/link.hpp"
#include "tests/fuzz/in_time.hpp"

namespace {

void must(bool holds) {
    if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace canewright;
    const std::string text(reinterpret_cast<const char*>(data), size);
    const ReadDocument read = fuzz::in_time([&] { return read_document(text); });
    if (!read.violations.empty()) {
        for (const Violation& each : read.violations) must(name(each.code)[0] != '\0');
        return 0;
    }
    must(read.is_object);
    // What is right is written, and read again as the same.
    const std::string written = write_document(read.document);
    const ReadDocument again = read_document(written);
    must(again.violations.empty());
    must(write_document(again.document) == written);

    const Linked linked = fuzz::in_time([&] { return link_of(read.document); });
    if (!linked.violations.empty()) return 0;  // too long, or its numbers lie too near each other
    const ReadDocument back = document_of_link(linked.text);
    must(back.violations.empty());
    must(link_of(back.document).text == linked.text);
    must(write_document(back.document) == write_document(snapped(read.document)));
    return 0;
}
