// core/jet/octave.hpp: whether a note's second register is clean when it is blown. Layer: jet.
#pragma once

#include "core/jet/regime.hpp"

namespace canewright {

// What keeps a register from its pitch, of one that is found.
enum class PitchReach {
    held,          // it holds at its design breath, where it is at its pitch
    jumps_before,  // it has jumped up by then
    dies_before,   // it has died by then, and no other register takes over
    begins_above   // it holds only harder blown than that
};

// Whether a register holds at its design breath, as its ends say (core/jet/regime).
// Error    that of the ends; see Regime.
PitchReach pitch_reach(const Regime& regime);

// What is wrong with a second register as the overblown octave of its note.
enum class OctaveFlaw {
    none,
    not_told,        // the model cannot say (is_told)
    never_holds,     // a neighbour grows beside it at every breath
    no_gain,         // it loses more than the jet gives
    weak,            // gain < kCleanGain
    another_nearer,  // the third register lies nearer to twice the first
    not_held,        // a neighbour grows at the breath at which it is at its pitch, or it has died
    not_where_it_jumps  // where the first register ends, it does not hold yet
};

struct OctaveJudgement {
    OctaveFlaw flaw = OctaveFlaw::none;
    // Of the number that decided: gain and kCleanGain, cents off the octave (the third's and the
    // second's), pressures [Pa] (where it holds, and where it should). NaN: no number did.
    double value = 0.0, limit = 0.0;
    bool clean() const { return flaw == OctaveFlaw::none; }
};

// Whether the model knows if a register sounds: not where a resonance of the tube below open holes
// lies so near that the reactance does not rise through zero within its reach. Then it gives no
// gain at all (core/jet/drive), where a weak register has some.
inline bool is_told(const Regime& regime) { return regime.found || regime.gain > 0.0; }

// Clean: blown at the breath at which it is at its pitch, the second register
//   - sounds, the jet giving at least kCleanGain times what is lost;
//   - is alone: neither neighbour grows beside it there (pitch_reach);
//   - is the mode nearest to twice the first;
//   - and where the first register ends (jumps up or dies), it holds already: blown harder, the
//     note becomes its octave at once, with nothing between that warbles between the two.
// How many cents it is off is another matter, and is said beside it.
//
// Model    of the ends and gains of core/jet/regime; flaws in the order of the enumeration, the
//          first that there is. The last is allowed what the jumps are known to (kJumpHigh).
// Valid    a second register that exists, both blown with their ends. Not where the band is out.
// Error    as the regimes'. kCleanGain is judgement: with less than twice what is lost, a model
//          whose pressures are known to a factor two (kRoughFactor) does not promise a tone.
// Source   ours; the words 'clean' and 'warbles' are the trade's.
OctaveJudgement judge_octave(const NoteLoops& loops, const Regime& first, const Regime& second);

inline constexpr double kCleanGain = 2.0;

}  // namespace canewright
