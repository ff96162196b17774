// tests/fuzz/link_fuzz.cpp -- any bytes as a pasted link, and as the body under a right checksum.
//
// Built and run by tools/fuzz.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "core/document/write.hpp"
#include "core/link/link.hpp"
#include "core/link/seal.hpp"
#include "tests/fuzz/in_time.hpp"

namespace {

using namespace canewright;

void must(bool holds) {
    if (!holds) std::abort();
}

// A document, or a reason; never both, never neither. A document has a link that says the same.
void check(const std::string& pasted) {
    const ReadDocument read = fuzz::in_time([&] { return document_of_link(pasted); });
    if (!read.violations.empty()) {
        for (const Violation& each : read.violations) must(name(each.code)[0] != '\0');
        if (!read.is_object) must(read.violations.size() == 1 && read.violations[0].path == "link");
        return;
    }
    must(read.is_object);
    const Linked linked = link_of(read.document);
    must(linked.violations.empty());
    const ReadDocument again = document_of_link(linked.text);
    must(again.violations.empty());
    must(write_document(again.document) == write_document(snapped(read.document)));
    must(link_of(again.document).text == linked.text);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string bytes(reinterpret_cast<const char*>(data), size);
    check(bytes);
    // No fuzzer finds a checksum by trying: here it is given.
    const std::string whole = sealed(bytes);
    check(whole);
    // On the plain grid (first bit 0) whatever is accepted is what we would have written.
    const ReadDocument read = document_of_link(whole);
    if (read.violations.empty() && size > 0 && data[0] < 0x80) {
        must(link_of(read.document).text == whole);
    }
    return 0;
}
