// core/verbs/voice/tone.hpp -- the verbs `tone`, `tune` and `wave`: a note of the flute to listen
// to, which notes a tune has, and what the air in the tube does for one.
#pragma once

#include <string>

#include "core/verbs/answer.hpp"

namespace canewright {

// To {"document","open":[..],"register":1|2,"breath","breath_to"?,"seconds"}:
// {"hz","heard_hz","holds","pa":[from,to],"in_tune","why","seconds","rate_hz","peak_pa","samples"}.
//
// `breath` is -1 at the softest at which the note holds, 0 at the design breath, 1 beyond its
// hardest (kBeyond of the jump up); between them even in the logarithm, and so is the way to
// `breath_to`. `hz` is the balance's pitch at `breath_to`, `heard_hz` what core/listen hears of the
// samples just before the breath ends (null: no pitch), and `holds` whether the two are one within
// kToneFar_cents: time has the last word on whether a register has jumped. `samples` are 16 bits
// each, lower byte first, in base64url, scaled so that the loudest is kFullScale; what that is in
// pascals a metre away says `peak_pa`. `in_tune` is what the pitch has to be multiplied by for the
// note asked for, null where none is. A register begins as if it sounded already (core/tone/blown):
// what a tongue does to a beginning is not in it. The same question has the same answer.
// No sound: `samples` is null and `why` {"code","value","limit"}: the voice's number that is out,
// or why the note does not sound (core/verbs/voice).
Answer tone_answer(const std::string& text);

// To {"document","tune":"G4 A4 .."}: {"notes":[{"open","register","name"}]}. A name without an
// octave is the lowest there is. Wrong is tune[n]: `not_a_note`, or `unknown_name` for one that no
// fingering gives within its first two registers.
Answer tune_answer(const std::string& text);

// To {"document","open","register"}: {"hz","at_mm":[..],"pressure":[..],"flow":[..],"openings":[{
// "at_mm","share"}],"why"}: along the bore from the foot to the sound hole's middle, at the passive
// resonance, each over its greatest: sound pressure (its sign is that of the moment at which it is
// greatest) and flow a quarter of a period from there. `share` is what an opening lets out over
// what the sound hole does; places are the tube's, the sound hole's upstream edge at 0. hz null:
// `why`.
Answer wave_answer(const std::string& text);

inline constexpr double kBeyond = 1.2;
inline constexpr double kBeyondOpen = 4.0;  // of the design breath, where nothing ends the register
inline constexpr double kFullScale = 32000.0;

}  // namespace canewright
