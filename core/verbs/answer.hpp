// core/verbs/answer.hpp -- what the commands answer, as JSON.
#pragma once

#include <vector>

#include "core/air/air.hpp"
#include "core/base/violation.hpp"
#include "core/document/document.hpp"
#include "core/document/json_text.hpp"
#include "core/layout/place_holes.hpp"
#include "core/task/task.hpp"

namespace canewright {

struct Answer {
    Json json;
    std::vector<Violation> violations;  // not empty: there is no answer
};

// Each of these takes a document without violations for which missing_for() finds nothing.
//
// {"at_c":21,"notes":[{"open","name","target_hz"?,"hz","second_hz","second_why"?,"cents"?,
// "breath_cents"?,"converged","why"?}]}. `hz` is what sounds: the passive resonance, which is the
// pitch at the design breath, lifted by `breath_cents`: of song.breath (core/jet/sounding says how
// sure that is), and of the player's breath on high notes (core/layout/lift). `second_hz` is
// passive always: an overblown note has a breath of its own. `hz` is null where the note does not
// speak, and `why` says why: "hole_not_cut" (the log has not cut it), "no_resonance",
// "not_converged". `second_why` says it of `second_hz`, and there may also be "faint_register":
// open holes half hide a register of the tube below them.
Json sound_answer(const Document& document);

// The whole document with the plan in it; the keys of document.md, and `at_c`, `worst_cents`,
// `cane`. `worst_cents` is null where a note does not speak (its `hz` is null). With a log it says
// `"sounds_as":"planned"`: fed to `sound`, it is the plan that sounds.
Json layout_answer(const Document& document);

// The same, to the last digit, but that `binding` is null where notes are off: what holds them back
// is not looked for, and that is most of the time.
Json marks_answer(const Document& document);

// layout_answer() at its best (core/layout/thorough), octaves heeded: what a page loads first
// does without, and refuses a document that counts octaves.
Json thorough_layout(const Document& document);
// The same as marks_answer() is of layout_answer().
Json thorough_marks(const Document& document);
bool counts_octaves(const Document& document);

// The flute as it sounds and the air in it, where these are not just what was measured.
struct Sounding {
    Flute flute;
    Air air;
};
// What place_holes() makes of a document's task, `binding` as marks_answer() has it where limits
// are not explained.
Json layout_of(const Document& document, const LayoutTask& task, Explain explain);
// The answer to a layout that has been solved: sizes as the maker measures them are `plan`'s.
Json layout_json(const Document& document, const LayoutTask& task, const LayoutResult& plan,
                 const Sounding& sounding);
// The answer of `sound`; the breath lifts a note an octave above the lowest by so much
// (lift_cents() of core/layout/lift).
Json sound_json(const Document& document, const SoundTask& task, const Air& air,
                double octave_cents);

// What the tube is, whatever is played on it; `plan` is the layout found.
Json cane_json(const Document& document, const LayoutTask& task, const LayoutResult& plan,
               const Air& air);

// {"fingerings":[{"cents","open","name"}]}: the default ones, whatever the document says.
Answer fingerings_answer(const Document& document);

// Scales, units and words to choose from, and what an absent key means.
Json choices_answer();

// [{"code","path","value","limit"}]; value is the text given where it is no number, else null.
Json violations_json(const std::vector<Violation>& violations);

// How far a note is off [cents]; what is below a solve's own resolution is no error but noise, and
// would differ from one processor to the next: 0.
double cents_off(double frequency_Hz, double target_Hz);
inline constexpr double kResolved_cents = 1e-6;

// The name of the note nearest to a frequency, or null.
Json name_json(double frequency_Hz, double a4_Hz);

}  // namespace canewright
