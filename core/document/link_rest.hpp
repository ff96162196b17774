// core/document/link_rest.hpp -- what newer pages of the same version put behind the document.
//
// Entries of a tag (one byte, never 0), a length (in bytes of seven bits, the lowest first;
// the highest bit says that more follows) and so many bytes. A page that does not know a tag keeps
// its entry, byte for byte, and passes it on when the flute is shared again: in the document as
// `link_rest`, base64url.
#pragma once

#include <string>

namespace canewright {

// Whether bytes are whole entries and nothing else.
bool are_entries(const std::string& bytes);

// The same of a document's `link_rest`. Empty is not: the key is absent then.
bool is_link_rest(const std::string& text);

}  // namespace canewright
