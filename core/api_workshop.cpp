// core/api_workshop.cpp -- the verbs of the second module: bench, links, listening.
#include "core/api.hpp"
#include "core/api_parts.hpp"
#include "core/verbs/bore.hpp"
#include "core/verbs/choose/drills.hpp"
#include "core/verbs/choose/mends.hpp"
#include "core/verbs/choose/reach.hpp"
#include "core/verbs/choose/suits.hpp"
#include "core/verbs/hand.hpp"
#include "core/verbs/hear.hpp"
#include "core/verbs/link.hpp"
#include "core/verbs/next.hpp"
#include "core/verbs/outside.hpp"
#include "core/verbs/pattern.hpp"
#include "core/verbs/spread.hpp"
#include "core/verbs/taught.hpp"
#include "core/verbs/voice/opening.hpp"
#include "core/verbs/voice/tone.hpp"
#include "core/verbs/voice/voice.hpp"

namespace canewright {

using namespace api;

namespace {

// Of a document with a build under way, or with none yet: with everything that a layout needs, and
// a sound pattern.
template <auto answer>
std::string on_build(const std::string& text) {
    ReadDocument read = read_document(text);
    if (read.violations.empty()) read.document = planned_like_before(read.document);
    std::vector<Violation> wrong = with_needs(Verb::layout, read);
    if (wrong.empty()) wrong = pattern_faults(read.document);
    return wrong.empty() ? answered(Json(answer(read.document))) : refused(wrong);
}

// Of a tube, and what is asked beside its document.
template <auto answer>
std::string of_document(const std::string& text) {
    const ParsedJson asked = parse_json(text);
    if (!asked.violations.empty()) return refused(asked.violations);
    const auto document = asked.tree.find("document");
    if (document == asked.tree.end())
        return refused({violation_of_text(Code::missing, "document", "")});
    const ReadDocument read = read_document(json_text(*document));
    const std::vector<Violation> wrong = with_needs(Verb::voice, read);
    return wrong.empty() ? answered(answer(read.document, asked.tree)) : refused(wrong);
}

// Of a flute of which something was heard, else the plan's.
std::string sound_verb(const std::string& text) {
    const ReadDocument read = read_document(text);
    if (!read.violations.empty() || !is_taught(read.document))
        return on_document<Verb::sound, with_outside<sound_answer>>(text);
    // A build's sound needs what its layout needs: targets give the breath its lift.
    const std::vector<Violation> wrong = with_needs(Verb::sound, read);
    return wrong.empty() ? on_build<with_outside<taught_sound>>(text) : refused(wrong);
}

// One row a verb: core/verbs/workshop_verbs.inc.
constexpr Row kWorkshop[] = {
#define VERB(name, ask, help) {#name, ask},
#include "core/verbs/workshop_verbs.inc"
#undef VERB
};

// `layout` and `marks` of a flute of which something was heard, else the plan's.
std::string plan_verb(const std::string& verb, const std::string& text) {
    const ReadDocument read = read_document(text);
    const bool taught = read.violations.empty() && is_taught(read.document);
    const bool marks = verb == "marks";
    if ((verb == "layout" || marks) && taught) return on_build<with_outside<taught_layout>>(text);
    if (verb == "layout") return on_build<with_outside<thorough_layout>>(text);
    if (marks) return on_build<with_outside<thorough_marks>>(text);
    if (verb == "spread" && taught) return on_build<with_outside<taught_spread>>(text);
    if (verb == "spread") return on_document<Verb::spread, with_outside<spread_answer>>(text);
    return run(verb, text);
}

std::string workshop_verb(const std::string& verb, const std::string& text) {
    if (const Row* row = row_of(kWorkshop, verb)) return row->ask(text);
    const bool plans = verb == "layout" || verb == "marks" || verb == "spread";
    return plans ? plan_verb(verb, text) : run(verb, text);
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
