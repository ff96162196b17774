// core/link/link.hpp -- the whole document as a short text for the end of an address, and back.
//
//   <version>.<payload>Z        for example 1.LgHs...Z
//
// The payload is base64url without padding (RFC 4648, section 5): its length, the packed document
// (walk.cpp), what came to the format since (behind.hpp), what newer pages of the same version
// added, and a CRC-32 of it all. Letters, digits, - _ and one dot: nothing that a chat or mail
// program has a reason to change, and never at the end.
#pragma once

#include <string>
#include <vector>

#include "core/base/violation.hpp"
#include "core/document/document.hpp"
#include "core/document/read.hpp"

namespace canewright {

inline constexpr int kLinkVersion = 1;

// Chat programs cut longer ones. A log of about 300 readings fits.
inline constexpr std::size_t kMostLink_chars = 4096;

// What may be pasted: a link with an address in front and a mail's line breaks in it.
inline constexpr std::size_t kMostPasted_bytes = 3 * kMostLink_chars;

struct Linked {
    std::string text;                   // "1.<payload>Z"; empty where there are violations
    std::vector<Violation> violations;  // `link_too_long`, or what is wrong with the document
};

// The document, log included, on the link's grid. Never throws.
//
//   document  one that read_document() accepts
//   returns   the link of snapped(document): document_of_link(text) gives exactly that, and its
//             link is the same text again, byte for byte
Linked link_of(const Document& document);

// The document with every number on the link's grid: 0.01 mm (in a document shown in inches whole
// 64ths stay what they are), 0.001 Hz, 0.01 cent, 0.01 C, ...; the table is in grids.hpp. No
// number moves by more than half a step. Where that would make a document wrong that was right
// (a hole pressed against a limit), all numbers keep six decimals more instead. Those of ramp,
// edge, block and blowing pressures always do.
// A document that has violations comes back as it is.
Document snapped(const Document& document);

// What a link says, or why it says nothing. Takes what is pasted: the bare link, a leading '#', a
// whole address, percent-encoded, with line breaks, spaces of any width and the marks of a quoted
// mail in it, and the punctuation of the sentence around it. Never throws, whatever the bytes.
//
//   returns  the document; or, with `is_object` false, one violation at "link":
//     not_a_link     no link to be seen in it
//     link_cut_off   it stops before its end
//     link_damaged   a letter is wrong
//     link_newer     of a later version (value: its version, limit: ours)
//     link_too_long  more than kMostLink_chars (value and limit: bytes)
//   or, with `is_object` true, what read_document() finds wrong with the document in it.
ReadDocument document_of_link(const std::string& text);

}  // namespace canewright
