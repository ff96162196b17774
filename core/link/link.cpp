// core/link/link.cpp -- a document packed and sealed, or unsealed, unpacked and checked.
#include "core/link/link.hpp"

#include <utility>

#include "core/base/base64url.hpp"
#include "core/document/limits.hpp"
#include "core/document/link_rest.hpp"
#include "core/document/write.hpp"
#include "core/link/behind.hpp"
#include "core/link/seal.hpp"
#include "core/link/walk.hpp"

namespace canewright {

namespace {

struct Packed {
    bool good = false;
    std::string bytes;  // with the entries behind that are the document's own
    ReadDocument read;  // the document on the grid, and what is wrong with it there
};

ReadDocument as_read(const Document& document) { return read_document(write_document(document)); }

bool is_right(const Packed& packed) { return packed.good && packed.read.violations.empty(); }

Packed packed_on(bool fine, Document document) {
    LinkStream stream;
    stream.is_fine = fine;
    Behind behind = taken_out(document);
    walk(stream, document);
    const auto entries = packed_behind(behind);
    put_back(document, std::move(behind));
    return {stream.good() && entries, stream.bytes() + entries.value_or(""), as_read(document)};
}

// On the plain grid; on the finer one where only that leaves the document right. The plain grid is
// tried on what the finer one made, too, so that the outcome's outcome is itself.
Packed packed(const Document& document) {
    Packed plain = packed_on(false, document);
    if (is_right(plain)) return plain;
    Packed fine = packed_on(true, document);
    if (!is_right(fine)) return fine;
    plain = packed_on(false, fine.read.document);
    return is_right(plain) ? plain : fine;
}

Linked too_long(std::size_t given) {
    return {{},
            {violation(Code::link_too_long, "link", static_cast<double>(given),
                       static_cast<double>(kMostLink_chars))}};
}

ReadDocument refused(Violation found) { return {{}, {std::move(found)}, false}; }

}  // namespace

Linked link_of(const Document& document) {
    // Not tried at all where it cannot fit. Packing makes such texts shorter (1 for 1.0), but never
    // to less than half.
    const std::size_t kept_bytes = document.x.size() + document.pattern.size();
    if (kept_bytes / 2 > kMostLink_chars) return too_long(kept_bytes);
    const Packed whole = packed(document);
    if (!whole.read.violations.empty()) return {{}, whole.read.violations};
    const auto rest = bytes_of_base64url(document.link_rest);
    // Only numbers beyond all limits cannot be packed, and those are violations; to be sure:
    if (!whole.good || !rest) return {{}, {violation(Code::wrong_type, "link")}};
    if (!with_known_entries(whole.read.document))
        return {{}, {violation(Code::link_damaged, "link_rest")}};
    std::string text = sealed(whole.bytes + *rest);
    if (text.size() > kMostLink_chars) return too_long(text.size());
    return {std::move(text), {}};
}

Document snapped(const Document& document) {
    Packed whole = packed(document);
    if (!is_right(whole)) return document;
    return with_known_entries(std::move(whole.read.document)).value_or(document);
}

ReadDocument document_of_link(const std::string& text) {
    const Unsealed unsealed_text = unsealed(text);
    if (unsealed_text.violation) return refused(*unsealed_text.violation);
    const std::string& body = unsealed_text.body;

    LinkStream stream(body);
    Document document;
    walk(stream, document);
    const Violation damaged = violation(Code::link_damaged, "link");
    if (!stream.good()) return refused(damaged);
    const std::string rest = body.substr(stream.used_bytes());
    if (!are_entries(rest)) return refused(damaged);
    document.link_rest = base64url(rest);

    ReadDocument read = as_read(document);
    if (!read.violations.empty()) return read;
    // Packed again it must be the same: a spelling that no page writes is no link of ours.
    const Packed again = packed_on(stream.is_fine, read.document);
    if (!again.good || again.bytes != body.substr(0, stream.used_bytes())) return refused(damaged);
    auto whole = with_known_entries(std::move(read.document));
    if (!whole) return refused(damaged);
    read.document = std::move(*whole);
    return read;
}

}  // namespace canewright
