// core/api_parts.hpp -- what every verb's answer is wrapped in. Only core/api*.cpp include this.
#pragma once

#include <cstddef>
#include <exception>
#include <string>
#include <vector>

#include "core/document/read.hpp"
#include "core/task/task.hpp"
#include "core/verbs/answer.hpp"
#include "core/verbs/taught.hpp"

namespace canewright::api {

// The text of what leaves the core: every number in it exists, or the whole is a fault.
std::string sent(const Json& json);
std::string answered(Json answer);
std::string answered(Answer answer);
std::string refused(const std::vector<Violation>& violations);
std::string failed(const std::string& what);
bool starts_with(const std::string& text, const std::string& start);

// A verb by its name, and how its text is answered.
struct Row {
    const char* name;
    std::string (*ask)(const std::string& text);
};
template <std::size_t count>
const Row* row_of(const Row (&rows)[count], const std::string& verb) {
    for (const Row& row : rows)
        if (verb == row.name) return &row;
    return nullptr;
}

// What the command needs is wanted only where nothing wrong was given in its place.
std::vector<Violation> with_needs(Verb verb, const ReadDocument& read);

// The kinds of verbs. Of a document with everything that the verb needs; what was heard of a flute
// is the workshop's to heed.
std::string ask_whole(Verb verb, const std::string& text, std::string (*ask)(const Document&));
template <Verb verb, auto answer>
std::string on_document(const std::string& text) {
    return ask_whole(verb, text,
                     [](const Document& document) { return answered(answer(document)); });
}
// Of a document as it is.
template <auto answer>
std::string on_format(const std::string& text) {
    const ReadDocument read = read_document(text);
    return read.violations.empty() ? answered(answer(read.document)) : refused(read.violations);
}
// Of a small text of its own, and of nothing.
template <auto answer>
std::string on_text(const std::string& text) {
    return answered(answer(text));
}
template <auto answer>
std::string on_nothing(const std::string&) {
    return answered(answer());
}

// Our own code throws nothing; what the libraries throw (no memory, a root not bracketed) is a
// fault of ours and must not tear down the page.
template <class Work>
std::string guarded(Work work) {
    try {
        return work();
    } catch (const std::exception& error) {
        return failed(error.what());
    } catch (...) {
        return failed("unknown");
    }
}

}  // namespace canewright::api
