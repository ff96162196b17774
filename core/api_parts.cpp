// core/api_parts.cpp -- the three shapes of an answer.
#include "core/api_parts.hpp"

#include <algorithm>

#include "core/document/write.hpp"

namespace canewright::api {

bool starts_with(const std::string& text, const std::string& start) {
    return text.compare(0, start.size(), start) == 0;
}

std::string sent(const Json& json) {
    const auto place = no_number_at(json);
    return place ? failed("no number at " + *place) : json_text(json);
}

std::string answered(Json answer) {
    Json json = Json::object();
    json["answer"] = std::move(answer);
    return sent(json);
}

std::string refused(const std::vector<Violation>& violations) {
    Json json = Json::object();
    json["violations"] = violations_json(violations);
    return json_text(json);
}

std::string answered(Answer answer) {
    if (!answer.violations.empty()) return refused(answer.violations);
    return answered(std::move(answer.json));
}

std::string failed(const std::string& what) {
    Json json = Json::object();
    json["fault"] = what;
    return json_text(json);
}

namespace {

// Default fingerings depend on the song alone, and are asked for while its own are being changed.
bool concerns(Verb verb, const Violation& each) {
    return verb != Verb::fingerings ||
           (starts_with(each.path, "song") && !starts_with(each.path, "song.fingerings"));
}

}  // namespace

// What the command needs is wanted only where nothing wrong was given in its place.
std::vector<Violation> with_needs(Verb verb, const ReadDocument& read) {
    if (!read.is_object) return read.violations;
    std::vector<Violation> all;
    for (const Violation& each : read.violations)
        if (concerns(verb, each)) all.push_back(each);
    for (const Violation& need : missing_for(verb, read.document)) {
        const bool said =
            std::any_of(read.violations.begin(), read.violations.end(),
                        [&](const Violation& each) { return starts_with(each.path, need.path); });
        if (!said && concerns(verb, need)) all.push_back(need);
    }
    return all;
}

std::string ask_whole(Verb verb, const std::string& text, std::string (*ask)(const Document&)) {
    const ReadDocument read = read_document(text);
    const std::vector<Violation> wrong = with_needs(verb, read);
    if (!wrong.empty()) return refused(wrong);
    if ((verb == Verb::sound || verb == Verb::layout || verb == Verb::spread) &&
        is_taught(read.document))
        return failed("what was heard of this flute is heeded by run_workshop() only");
    if (verb == Verb::layout && counts_octaves(read.document))
        return failed("octaves are heeded by run_workshop() only");
    return ask(read.document);
}

}  // namespace canewright::api
