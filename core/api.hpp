// core/api.hpp -- text in, text out: the only header that wasm/ and tools/ include. Layer: api.
//
// Nothing here throws, whatever comes in.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>

namespace canewright {

// Runs one command on a document.
//
//   verb     sound, spread, layout, fingerings (of the document); bore (of one measurement);
//            reading (of a typed pitch); example, choices (the text is not read)
//   text     the document, JSON in UTF-8 (document.md); for bore: core/verbs/bore.hpp;
//            for reading: core/verbs/hear.hpp
//   returns  one of {"answer":{..}}, {"violations":[{"code","path","value","limit"},..]} where the
//            document is wrong, {"fault":".."} where we are, or where there is no such verb
std::string run(const std::string& verb, const std::string& text);

// Builds number `from` up to but without `to` of a document's flute, each with errors of its own,
// added to those before: a caller can go in pieces, show how far it is, and stop.
//
//   seed     of the series; the same in whatever pieces, natively and in wasm
//   before   "sums" of the last answer, as JSON text; empty at the start
//   returns  as run(); {"answer":{"monte_carlo":{..},"sums":{..}}} (core/verbs/spread.hpp).
//            Violations of the numbers have the paths "from", "to", "before"
std::string spread_builds(const std::string& text, long from, long to, std::uint64_t seed,
                          const std::string& before);

// run("spread") with "monte_carlo" of so many builds in the answer.
std::string spread_with_builds(const std::string& text, long builds, std::uint64_t seed);

// run() and more: what the bench, the shelf and links ask. It lives apart, in a second module for
// the page, so that a first visit need not wait for it.
//
//   verb     next, pattern (of a document with a log), link (of a document), unlink (of a link),
//            strokes, attempts (core/verbs/next.hpp), and every verb of run(). For a document
//            with readings or a pattern layout and sound heed them, where run() has a fault
std::string run_workshop(const std::string& verb, const std::string& text);

// What the command says of a verb, or "help" of all: JSON text; empty where there is no such verb.
std::string verb_help(const std::string& verb);

// One frame of sound, and the frames of a held tone: core/verbs/hear.hpp. Answers are not
// wrapped in "answer"; what is wrong comes as from run().
std::string pitch_frame_text(const float* samples, std::size_t count, double sample_rate_Hz);
std::string held_tone_text(const std::string& frames, double expected_Hz);

// A typed length.
//
//   unit     "mm" or "inch": the ruler meant where the text names none
//   returns  {"mm":53.18125,"unit":"inch"} (the unit in which it was written), or {"violations":..}
//            with path "length", or path "unit" for another unit
std::string read_length_json(const std::string& text, const std::string& unit);

// A length to show: "53.3" (mm, one decimal), "2 3/32″" (inches, nearest 1/fraction).
//
//   returns  empty when not finite or the unit is neither "mm" nor "inch"
std::string write_length_text(double value_mm, const std::string& unit, int fraction);

}  // namespace canewright
