// core/bench/builder.hpp: turns what was done and heard, in order, into a history. Layer: bench.
#pragma once

#include "core/bench/belief/history.hpp"
#include "core/layout/lift.hpp"

namespace canewright {

// How far a maker's measures may be off, one standard deviation each [m]. The defaults are common
// practice without a source: a steel rule read by eye, a fine saw, a twist drill in cane.
struct Measures {
    double ruler_m = 0.3e-3;
    double saw_m = 0.25e-3;   // how far the cut strays from the mark
    double bit_m = 0.05e-3;   // a drilled hole's size against the bit's
    double size_m = 0.15e-3;  // the size of a hole opened by hand, measured
    double wall_m = 0.1e-3;   // bore and wall, for the prior
    double bore_m = 0.1e-3;
};

// The log of a build, entry by entry. The document layer and the virtual makers feed it alike.
class Builder {
   public:
    //   blank     the tube, no holes; foot_m where it ends now
    //   planned   the holes to be cut, from the sound hole to the foot: places and sizes where
    //             known, else zeros
    //   notes     of the scale: how high a fingering lies in it
    Builder(const Flute& blank, const AirState& room, const std::vector<FingerHole>& planned,
            const std::vector<NoteTarget>& notes, const Measures& measures);

    // Blowing pressure of this player over the design's; 1 where nothing is said.
    void breath(double relative) { history_.breath = relative; }

    void read(const Fingering& open, double frequency_Hz, double sigma_cents, double room_C);
    // Sawn or sanded to here, as measured. `error_m` where the maker states it.
    void foot(double at_m, std::optional<double> error_m = std::nullopt);
    // Hole `number` (from 1) drilled, or opened further. A size that was not measured is guessed:
    // a first cut from the plan, a later one a little above the last, both with a wide error.
    void hole(int number, double at_m, std::optional<double> diameter_m,
              std::optional<double> error_m = std::nullopt);
    void undercut(int number);  // the inner edge is wider by a guessed share
    void narrow(int number, std::optional<double> diameter_m,
                std::optional<double> error_m = std::nullopt);
    void sound_hole(double length_m, double width_m);  // readings before it are of another voice
    void block_moved();                                // the same
    void foot_plug(double opening_m, double thickness_m);
    // Finished and dry: only what is heard from here on is of the final flute. Before the last
    // hole is cut it says nothing about drying.
    void sealed();
    // An entry that says nothing of the flute: only counted, so that the others keep their numbers.
    void pass_over() { ++entries_; }

    const History& history() const { return history_; }

   private:
    Stage& new_stage();
    void forget_voice();

    History history_;
    std::vector<NoteTarget> notes_;
    Measures measures_;
    int entries_ = 0;
};

// What a size is worth that nobody measured, as a share of the hole [one standard deviation].
inline constexpr double kGuessedSize = 0.10;
// By how much a cut of unknown size is taken to have opened a hole, as a share of it.
inline constexpr double kGuessedGrowth = 0.06;
// How much wider an undercut is taken to make the inner edge, and its doubt, as shares.
inline constexpr double kUndercutFlare = 0.12;
// A hole off along the tube sounds like one off in size by about this share of the distance.
inline constexpr double kPlaceAsSize = 0.15;

}  // namespace canewright
