// tools/virtual_makers/habits.hpp: makers whose flutes are alike, and what their readings teach.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/bench/belief/unknowns.hpp"
#include "core/hand/pool.hpp"
#include "tools/virtual_makers/tube.hpp"

namespace virtual_makers {

// What all flutes of one maker share, and how far it scatters from flute to flute. A player's
// breath and fingers, a knife's edges, a way to make voices (sizes: judgement).
struct Ways {
    double voice = 1.0, breath_share = 0.45, edge_m = 0.15e-3, fingertip = 0.3,
           breath_drift_cents = 7.0, space = 3.0;
};
Ways ways_of(const TrueFlute& flute);
// The flute made by them; `scatter` 0 is exactly so, 1 as kWays has it.
void make_by(Random& random, const Ways& ways, double scatter, TrueFlute& flute);

inline constexpr double kVoiceScatter = 0.02;  // of the logarithm
inline constexpr double kShareScatter = 0.02;
inline constexpr double kEdgeScatter_m = 0.03e-3;
inline constexpr double kTipScatter = 0.04;
inline constexpr double kDriftScatter_cents = 1.5;

// Hidden errors: what is cut or measured lies so far from what is said [m].
inline constexpr double kHiddenPlace_m = 0.2e-3;
inline constexpr double kHiddenSize_m = 0.05e-3;
inline constexpr double kBlow_cents = 2.5;  // of a reading

// A tube's first layout, by what is believed of its maker; `mean` and `covariance` of what goes
// from flute to flute. Empty where none is found.
struct Wisdom {
    Eigen::VectorXd mean;
    Eigen::MatrixXd covariance;
};
std::optional<canewright::Stage> first_layout(const Blank& blank, const Wisdom* known);

// A flute as the maker has it: as it is, and what is said of it.
struct Finished {
    TrueFlute truth;
    canewright::Stage said;
};
// Cut by a layout, with hidden errors (`errors` 1; 0: exactly).
Finished cut_by(Random& random, const Blank& blank, const canewright::Stage& layout, double errors);
// A flute that exists already, measured now.
Finished measured(Random& random, const Blank& blank, const TrueFlute& flute);

// What reading every note once teaches; `blow_cents` 0: the true pitches, taken as sure.
canewright::Lesson lesson_of(Random& random, const Blank& blank, const Finished& finished,
                             double blow_cents);

// What is believed of the next flute: after one (the verb `pattern`), after several (`hand`).
Wisdom after(const canewright::Lesson& one, const Blank& next);
Wisdom after(const canewright::Hand& hand, const Blank& next);
canewright::Stranger stranger_of(const Blank& blank);

// Errors of a finished flute, and what was expected of it in standard deviations.
double worst_cents(const TrueFlute& flute, const Blank& blank);
void judge_layout(const Blank& blank, const Wisdom* known, const Finished& finished,
                  std::vector<double>& departures);

}  // namespace virtual_makers
