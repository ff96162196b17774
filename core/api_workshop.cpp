// core/api_workshop.cpp -- the verbs of the second module: bench, links, listening.
#include "core/api.hpp"
#include "core/api_parts.hpp"
#include "core/document/hear.hpp"
#include "core/document/link.hpp"
#include "core/document/next.hpp"
#include "core/document/taught.hpp"
#include "core/document/write.hpp"

namespace canewright {

using namespace api;

namespace {

// A document as a build needs it: with everything that a layout needs, and a sound pattern.
struct ReadBuild {
    Document document;
    std::vector<Violation> wrong;
};

ReadBuild read_build(const std::string& text, Verb verb) {
    ReadDocument read = read_document(text);
    if (read.violations.empty()) read.document = planned_like_before(read.document);
    std::vector<Violation> wrong = with_needs(verb, read);
    if (wrong.empty()) wrong = pattern_faults(read.document);
    return {std::move(read.document), std::move(wrong)};
}

template <class Ask>
std::string on_build(const std::string& text, Ask ask) {
    const ReadBuild build = read_build(text, Verb::layout);
    if (!build.wrong.empty()) return refused(build.wrong);
    return answered(Json(ask(build.document)));
}

std::string link_text(const std::string& text) {
    const ReadDocument read = read_document(text);
    if (!read.violations.empty()) return refused(read.violations);
    const Linked linked = link_of(read.document);
    if (!linked.violations.empty()) return refused(linked.violations);
    Json json = Json::object();
    json["link"] = linked.text;
    return answered(std::move(json));
}

std::string unlinked(const std::string& text) {
    const ReadDocument read = document_of_link(text);
    if (!read.violations.empty()) return refused(read.violations);
    return answered(document_json(read.document));
}

std::string workshop_verb(const std::string& verb, const std::string& text) {
    if (verb == "next") return on_build(text, next_answer);
    if (verb == "pattern") {
        return on_build(text, [](const Document& document) {
            return parse_json(pattern_text(document, build_of(document))).tree;
        });
    }
    if (verb == "link") return link_text(text);
    if (verb == "unlink") return unlinked(text);
    if (verb == "reading") return answered(reading_answer(text));
    if (verb == "strokes") return answered(strokes_answer(text));
    if (verb == "attempts") return answered(attempts_answer(text));
    if (verb == "layout" || verb == "sound") {
        const ReadDocument read = read_document(text);
        if (read.violations.empty() && is_taught(read.document)) {
            if (verb == "layout") return on_build(text, taught_layout);
            // A build's sound needs what its layout needs: targets give the breath its lift.
            std::vector<Violation> wrong = with_needs(Verb::sound, read);
            if (!wrong.empty()) return refused(wrong);
            return on_build(text, taught_sound);
        }
        if (verb == "layout" && read.violations.empty()) return on_build(text, layout_answer);
    }
    return run(verb, text);
}

}  // namespace

std::string run_workshop(const std::string& verb, const std::string& text) {
    return guarded([&] { return workshop_verb(verb, text); });
}

std::string pitch_frame_text(const float* samples, std::size_t count, double sample_rate_Hz) {
    return guarded([&] { return sent(pitch_frame_json(samples, count, sample_rate_Hz)); });
}

std::string held_tone_text(const std::string& frames, double expected_Hz) {
    return guarded([&] {
        const Answer answer = held_tone_answer(frames, expected_Hz);
        return answer.violations.empty() ? sent(answer.json) : refused(answer.violations);
    });
}

}  // namespace canewright
