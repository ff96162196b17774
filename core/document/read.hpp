// core/document/read.hpp -- text of the one format to a Document, or everything wrong with it.
#pragma once

#include <string>
#include <vector>

#include "core/base/violation.hpp"
#include "core/document/document.hpp"

namespace canewright {

struct ReadDocument {
    Document document;  // meaningless unless `violations` is empty
    std::vector<Violation> violations;
    bool is_object = false;  // false: the text is no JSON object, nothing could be read at all
};

// Never throws, whatever the bytes. All violations come at once, in the order of the document,
// those of single values before those between values. Keys that our own answers add (`converged`,
// `notes[].hz`, ...) are known and not read: an answer of `layout` is a document.
ReadDocument read_document(const std::string& text);

}  // namespace canewright
