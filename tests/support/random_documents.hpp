// tests/support/random_documents.hpp: documents that the checker accepts, with all that matters to
// what is laid out: every tube, song, shop and build that somebody may bring, bounds and zeros too.
#pragma once

#include <cstdint>

#include "core/document/json_text.hpp"
#include "tests/support/draw.hpp"

namespace canewright::testing {

// The document of a number: the same natively and in wasm. One that read_document() finds nothing
// wrong with and that `layout` does not refuse; `layout` itself is asked for the plan of a document
// that has a log, and for the foot where the tube is to end a hair beside it.
Json random_document(std::uint64_t seed, std::uint64_t index);

// Its parts.
Json random_tube(Draw& draw);  // `tube` with bore, wall or outside, and end
Json random_sound_hole(Draw& draw, const Json& tube);
void add_voice(Draw& draw, Json& document);  // what stands round the sound hole
void add_song(Draw& draw, Json& document);
void add_shop(Draw& draw, Json& document);
void add_log(Draw& draw, Json& document);

// The bore at the sound hole [mm].
double bore_mm(const Json& document);
// Whether it is permitted: nothing wrong with it, nothing missing for a layout.
bool permitted(const Json& document);
// The answer of a verb, or null where it is none.
Json answer_of(const char* verb, const Json& document);

}  // namespace canewright::testing
