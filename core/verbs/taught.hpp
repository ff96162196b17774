// core/verbs/taught.hpp -- `layout` and `sound` for a flute of which readings tell something.
#pragma once

#include <vector>

#include "core/task/build.hpp"
#include "core/verbs/answer.hpp"
#include "core/verbs/spread.hpp"

namespace canewright {

// Whether readings or a pattern are to be heeded: then these two answer instead of layout_answer()
// and sound_answer(), with the same keys. `spread`, too.
bool is_taught(const Document& document);

// Laid out for the flute as its readings (and the pattern) have shown it to be: voice, air, bore,
// wall, holes and the breath's lift as believed. Sizes are the maker's own.
Json taught_layout(const Document& document);

// What the verb `sound` asks of the flute as believed, holes and foot as `sounds_as` has them.
struct TaughtFlute {
    SoundTask task;
    Air air;
    double octave_cents = 0.0;  // by which the breath lifts a note an octave above the lowest
    double voice_sigma = 0.0;   // of the sound hole's inertance, relative, as it is known by now
    bool heard = false;         // a reading or a pattern says something of it
};
TaughtFlute taught_flute(const Document& document);

// What `spread` spreads about: the layout of a taught flute, its voice as well as it is known by
// now.
SpreadTask taught_spread_task(const Document& document);
Json taught_spread(const Document& document);

// What the flute sounds as believed, in the room where it will be played.
Json taught_sound(const Document& document);

}  // namespace canewright
