// tools/virtual_makers/voice.hpp: sound holes as makers cut them, and what is said of them.
#pragma once

#include "tools/virtual_makers/tube.hpp"

namespace virtual_makers {

// Gives a flute the opening, wall and plug of a voice that tools/reference/voice_fit.py kept from
// the core's element, with the inertance finite elements found; returns its parts.
canewright::VoiceShape cut_voice(Random& random, TrueFlute& flute);

// What the maker says of it: `blank.measured` and `blank.voice_sigma`, by core/task/voice.
void tell_voice(Told told, const canewright::VoiceShape& cut, Random& random, Blank& blank);

}  // namespace virtual_makers
