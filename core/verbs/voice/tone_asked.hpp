// core/verbs/voice/tone_asked.hpp -- a question about a flute: the document, and what is asked of
// it.
#pragma once

#include <string>
#include <vector>

#include "core/document/fields.hpp"
#include "core/document/read.hpp"
#include "core/document/write.hpp"
#include "core/music/fingering.hpp"
#include "core/task/build.hpp"
#include "core/task/task.hpp"
#include "core/verbs/voice/voice_parts.hpp"

namespace canewright {

// "open" and "register" of a question.
inline void read_fingering(Fields& fields, std::vector<int>& open, int& register_number) {
    constexpr Range kHoleNumbers{1, kMostHoles}, kRegisters{1, 2};
    const auto holes = fields.integers("open", kHoleNumbers, kMostHoles);
    if (!holes && !fields.has("open")) fields.missing("open");
    open = holes.value_or(std::vector<int>());
    register_number = fields.integer("register", kRegisters).value_or(1);
}

// The same flute, asked for one fingering alone.
inline Document with_fingering(Document document, const std::vector<int>& open) {
    document.notes = std::vector<NoteEntry>{{open, {}}};
    return document;
}

// `read` takes what is asked beside the document, `answer` has the document, whole.
template <class Read, class Reply>
Answer asked_of_flute(const std::string& text, Read read, Reply answer) {
    const ParsedJson parsed = parse_json(text);
    if (!parsed.violations.empty()) return {{}, parsed.violations};
    Faults faults;
    Fields fields(parsed.tree, "", faults);
    if (faults.count() > 0) return {{}, faults.all()};
    read(fields);
    const Json* const document = fields.raw("document");
    if (document == nullptr) fields.missing("document");
    fields.close();
    if (faults.count() > 0) return {{}, faults.all()};
    ReadDocument given = read_document(json_text(*document));
    if (!given.violations.empty()) return {{}, given.violations};
    const std::vector<Violation> needs = missing_for(Verb::voice, given.document);
    if (!needs.empty()) return {{}, needs};
    const std::vector<Violation> wrong = pattern_faults(given.document);
    if (!wrong.empty()) return {{}, wrong};
    return answer(played_document(given.document));
}

}  // namespace canewright
