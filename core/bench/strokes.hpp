// core/bench/strokes.hpp: how many more strokes, from what was heard after each. Layer: bench.
#pragma once

#include <limits>
#include <vector>

namespace canewright {

// One blow while a hole is opened or the foot sanded.
struct Blow {
    double strokes = 0.0;  // since the blow before; a light one counts kLightStroke; 0: blown again
    double frequency_Hz = 0.0;
};

// How far this maker's blows of one note lie apart, and how many blows say so.
struct Scatter {
    double cents = 4.0;  // one standard deviation of a blow; of a stranger: common practice, no
                         // source
    double blows = 4.0;  // that it counts like; kKnownExactly: nothing is learned
};
inline constexpr double kKnownExactly = std::numeric_limits<double>::infinity();
// The same maker is not the same for ever: what is known counts like so many blows at most.
inline constexpr double kMostScatterBlows = 40.0;

enum class Stroke {
    blow,   // no stroke: blow again, it is too close to tell
    more,   // `count` strokes like the last
    light,  // one light one
    stop
};

// Whether strokes are tapped as they are made.
enum class Tapping {
    unsaid,  // judged by the blows
    tapped,  // the maker says that nothing was opened but what is told
    not_told
};

// What is known of the note before the first of these blows.
struct Known {
    double frequency_Hz = 0.0;  // as it should be heard; 0: nothing is known
    double sigma_cents = 0.0;
    double moment_cents = 0.0;  // how far one sitting's blows lie from another's, all alike
};

struct StrokeAdvice {
    Stroke what = Stroke::blow;
    int count = 0;
    double frequency_Hz = 0.0;      // what the note sounds now, from all blows together
    double mark_Hz = 0.0;           // where to stop, as this sitting's breath has it
    double sigma_cents = 0.0;       // how sure that is
    double cents_per_stroke = 0.0;  // what this maker's strokes do here
    bool opened_untold = false;     // the blows rise as if it was opened between them
    Scatter scatter;                // as known by now
};

// What to do next on the way up to `stop_Hz`.
//   blows   in order; the first before any stroke
//   usual   what is known of this maker's blows before these
//   known   what is known of the note: blown sharper than that at first, it is likely to be blown
//           sharper to the end, and the mark moves along
//
// Model    two unknowns, pitch and cents per stroke; strokes differ by kStrokeScatter of their
//          mean; both are estimated together from all blows (Kalman filter, prior kUsualStroke).
//          The scatter of a blow is that of `usual` weighed with what these blows say (scaled
//          inverse chi-square on a grid of kScatterGrid). Blows that rise without a stroke are
//          compared with a model in which each stands for one stroke, give or take one: taken
//          where it is kUntoldOdds times as likely. So a blow that was waited for (the first to
//          show the mark) is not taken for the pitch: it is the highest of several tries.
//          More strokes are advised only as far as pitch, its doubt and the strokes' scatter leave
//          room; stop where the next light stroke would end further above than now below. Not more
//          than kMostBlowsAgain blows are asked for without a stroke between.
// Source   R.E. Kalman, J. Basic Eng. 82 (1960) 35-45; A. Gelman et al., Bayesian Data Analysis,
//          ch. 2 (both textbook, from memory).
StrokeAdvice advise(const std::vector<Blow>& blows, double stop_Hz, const Scatter& usual,
                    const Known& known = {}, Tapping tapping = Tapping::unsaid);

// The blows before the first stroke, as a reading of the note as it was. Requires a blow.
struct Attempts;
Attempts before_strokes(const std::vector<Blow>& blows, const Scatter& usual, bool opened_untold);

inline constexpr double kLightStroke = 0.4;
inline constexpr double kStrokeScatter = 0.5;
inline constexpr double kUsualStroke_cents = 4.0;  // common practice, no source; so is the next
inline constexpr double kUsualStrokeSigma_cents = 3.0;
inline constexpr double kMostStrokes = 6;
// Close to the mark the pitch must be as sure as this before it is called good [cents].
inline constexpr double kSureToStop_cents = 1.9;
inline constexpr int kMostBlowsAgain = 2;
inline constexpr double kUntoldOdds = 20.0;

// The middle and the scatter of a few attempts at one note.
struct Attempts {
    double frequency_Hz = 0.0;
    double sigma_cents = 0.0;  // of the middle, as a reading
    Scatter scatter;           // as known by now
};

// Median of attempts; its error from what is known of this maker and from their spread.
// Requires at least one attempt.
Attempts combine(std::vector<double> frequency_Hz, const Scatter& usual);

}  // namespace canewright
