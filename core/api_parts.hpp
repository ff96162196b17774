// core/api_parts.hpp -- what every verb's answer is wrapped in. Only core/api*.cpp include this.
#pragma once

#include <exception>
#include <string>
#include <vector>

#include "core/document/answer.hpp"
#include "core/document/read.hpp"
#include "core/document/task.hpp"

namespace canewright::api {

// The text of what leaves the core: every number in it exists, or the whole is a fault.
std::string sent(const Json& json);
std::string answered(Json answer);
std::string answered(Answer answer);
std::string refused(const std::vector<Violation>& violations);
std::string failed(const std::string& what);
bool starts_with(const std::string& text, const std::string& start);

// What the command needs is wanted only where nothing wrong was given in its place.
std::vector<Violation> with_needs(Verb verb, const ReadDocument& read);

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
