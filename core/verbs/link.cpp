// core/verbs/link.cpp -- a document to a link, and back.
#include "core/verbs/link.hpp"

#include "core/document/write.hpp"
#include "core/link/link.hpp"

namespace canewright {

Answer link_answer(const Document& document) {
    const Linked linked = link_of(document);
    Json json = Json::object();
    json["link"] = linked.text;
    return {std::move(json), linked.violations};
}

Answer unlink_answer(const std::string& text) {
    const ReadDocument read = document_of_link(text);
    if (!read.violations.empty()) return {{}, read.violations};
    return {document_json(read.document), {}};
}

}  // namespace canewright
