// core/bench/strokes.hpp: how many more strokes, from what was heard after each. Layer: bench.
#pragma once

#include <vector>

namespace canewright {

// One blow while a hole is opened or the foot sanded.
struct Blow {
    double strokes = 0.0;  // since the blow before; a light one counts kLightStroke; 0: blown again
    double frequency_Hz = 0.0;
};

enum class Stroke {
    blow,   // no stroke: blow again, it is too close to tell
    more,   // `count` strokes like the last
    light,  // one light one
    stop
};

struct StrokeAdvice {
    Stroke what = Stroke::blow;
    int count = 0;
    double frequency_Hz = 0.0;      // what the note sounds now, from all blows together
    double sigma_cents = 0.0;       // how sure that is
    double cents_per_stroke = 0.0;  // what this maker's strokes do here
};

// What to do next on the way up to `stop_Hz`.
//   blows         in order; the first before any stroke
//   meter_cents   scatter of one blow on the meter [cents]
//
// Model    two unknowns, pitch and cents per stroke; strokes differ by kStrokeScatter of their
//          mean; both are estimated together from all blows (Kalman filter, prior kUsualStroke).
//          More strokes are advised only as far as pitch, its doubt and the strokes' scatter leave
//          room; stop where the next light stroke would end further above than now below.
// Source   R.E. Kalman, J. Basic Eng. 82 (1960) 35-45 (textbook, from memory).
StrokeAdvice advise(const std::vector<Blow>& blows, double stop_Hz, double meter_cents);

inline constexpr double kLightStroke = 0.4;
inline constexpr double kStrokeScatter = 0.5;
inline constexpr double kUsualStroke_cents = 4.0;  // common practice, no source; so is the next
inline constexpr double kUsualStrokeSigma_cents = 3.0;
inline constexpr double kMostStrokes = 6;
// Close to the mark the pitch must be as sure as this before it is called good [cents].
inline constexpr double kSureToStop_cents = 1.9;

// The middle and the scatter of a few attempts at one note.
struct Attempts {
    double frequency_Hz = 0.0;
    double sigma_cents = 0.0;  // of the middle, as a reading
};

// Median of attempts; its error from what is usual and from their spread.
//   usual_cents   scatter of one attempt as known from elsewhere
// Requires at least one attempt.
Attempts combine(std::vector<double> frequency_Hz, double usual_cents);

}  // namespace canewright
