// core/layout/tolerance.hpp: what the shop's errors and the model's do to the notes. Layer: layout.
#pragma once

#include <Eigen/Core>
#include <array>
#include <vector>

#include "core/layout/causes.hpp"

namespace canewright {

inline constexpr std::array<double, 3> kWithin_cents = {5.0, 10.0, 20.0};
using Shares = std::array<double, kWithin_cents.size()>;

// One note of the plan and how far a build of it may be off.
struct NoteSpread {
    Fingering open;
    bool speaks = false;        // false: nothing below is known, and no share counts it
    double nominal_Hz = 0.0;    // the resonance as planned
    double breath_cents = 0.0;  // what the planned breath adds to it
    double off_cents = 0.0;     // both above target; 0 without a target
    double sigma_cents = 0.0;   // shop and model together
    double shop_cents = 0.0;
    double model_cents = 0.0;
    std::array<double, kGroups> part_cents{};  // of each group, one standard deviation
    double cents_per_rad = 0.0;                // of the turn; for the Monte Carlo's first step
    double quality = 0.0;                      // of the loop
};

// A cause and what it does to the flute as a whole.
//   share   of the notes' mean variance that goes when this cause does [-]
//   cents   root mean square over the notes of what one standard deviation of it does
struct RankedCause {
    Cause cause;
    double share;
    double cents;
};

struct Spread {
    std::vector<NoteSpread> notes;
    std::vector<Cause> causes;
    Eigen::MatrixXd effects_cents;      // notes x causes: what one standard deviation does, signed
    Eigen::MatrixXd covariance_cents2;  // of the notes: effects times their transpose
    std::vector<RankedCause> ranked;    // largest first
    Shares within{};                    // of builds with every note so near its target
    Shares within_shop{};               // the same for the shop's errors alone
};

// What is planned, and what may be off.
//   target_Hz   one a note, 0 where there is none (then the nominal pitch is the aim); or empty
struct SpreadTask {
    Build plan;
    std::vector<Fingering> open;
    std::vector<double> target_Hz;   // as sounded
    std::vector<double> lift_cents;  // of each note, by the player's breath; none where empty
    double breath = 1.0;             // blowing pressure over the design's
    ShopErrors shop;
    ModelErrors model;
};

// Model    all causes independent and Gaussian, each note's cents linear in them; slopes by the
//          implicit function theorem (core/flute/slope); notes share causes, so they are
//          correlated: the covariance is kept in full. `within` by kSamples draws of the linear
//          model from a fixed seed.
// Valid    errors small against what they change; core/layout/builds says how good that is.
// Error    kLinearError, relative, of a note's standard deviation against 10,000 builds of the full
//          model with small errors (1 % of a bore); shares within kShareError (three standard
//          errors of the sampling).
// Source   law of propagation of uncertainty: JCGM 100:2008, 5.1 and 5.2 (from memory).
// Requires a validated flute in its air (refresh_air() done); fingerings that exist.
Spread spread(const SpreadTask& task);
// The same without the shares of builds, which take most of the time.
Spread linear_spread(const SpreadTask& task);

inline constexpr double kLinearError = 0.10;
inline constexpr int kSamples = 20000;
inline constexpr double kShareError = 0.011;  // 3 sqrt(1/4 / kSamples)

// What one unit of a cause does to each note [cents]; 0 for one that does not speak. Its sigma is
// not read.
std::vector<double> slopes_cents(const SpreadTask& task, const Cause& cause);

// How a change of the room's temperature moves each note [cents]; NaN for one that does not speak.
struct Climate {
    std::vector<double> per_C;      // at the plan's room
    std::vector<double> ten_to_30;  // from a room of 10 C to one of 30 C
};
// Requires a plan with a room.
Climate climate(const SpreadTask& task);

}  // namespace canewright
