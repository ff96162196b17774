// core/flute/followed.cpp: a resonance from a good guess, by secants of the turn.
#include <cmath>

#include "core/base/units.hpp"
#include "core/flute/asked.hpp"

namespace canewright {

// The passage of the turn through so many half turns that is nearest to a good guess.
Resonance near_guess(Asked& ask, int half_turns, double guess_Hz) {
    const auto excess = [&](double f) { return ask.turn(f) - kPi * half_turns; };
    double low = std::min(std::max(guess_Hz, kLowest_Hz), kHighest_Hz), high = low;
    double at_low = excess(low), at_high = at_low;
    const bool upwards = at_low < 0.0;
    double step = 1.0 + (kBracketStep - 1.0) / 8.0;  // a guess is usually within a tenth of a tone
    while (upwards ? at_high < 0.0 : at_low >= 0.0) {
        if (upwards) {
            low = high, at_low = at_high;
            high *= step, at_high = excess(high);
        } else {
            high = low, at_high = at_low;
            low /= step, at_low = excess(low);
        }
        step = std::min(step * step, kBracketStep);
        if (std::abs(cents_between(upwards ? low : high, guess_Hz)) > kNearest_cents) return {};
    }
    if (!(at_low < 0.0 && at_high >= 0.0)) return {};  // NaN
    return root(excess, low, high, at_low, at_high);
}

Resonance followed_resonance(const Network& network, int register_number, double guess_Hz,
                             double cents_per_rad, bool counted) {
    constexpr int kMostTrips = 6;
    // A step this small leaves an error smaller by the slope's own error, which after one secant
    // is below a hundredth (a given slope may be off by more: it never has the last word).
    constexpr double kSmallStep_cents = 1e-3;
    constexpr double kBeside_cents = 1e-5;
    double f = guess_Hz, moved_cents = 0.0, last_excess = 0.0, beside_Hz = 0.0, beside_turn = 0.0;
    int evaluations = 0;
    for (int trip = 0; trip < kMostTrips; ++trip) {
        // the count is for the last trip, which is not the first
        const bool count = counted && trip > 0;
        const Loop loop = count ? network.at(f) : network.passing(f);
        // of whichever count: it may have slipped, and a good guess is in the right register
        const double excess = std::remainder(loop.turn, kPi);
        ++evaluations;
        if (trip > 0 && excess != last_excess) cents_per_rad = moved_cents / (excess - last_excess);
        const double step_cents = -excess * cents_per_rad;
        if (!(std::abs(step_cents) < kNearest_cents)) break;  // NaN fails
        // the last place asked, or the one before where that is as good as here
        if (trip == 0 || std::abs(step_cents) > kBeside_cents)
            beside_Hz = f, beside_turn = loop.turn;
        f = shifted_Hz(f, step_cents);
        const bool real = std::abs(loop.impedance.imag()) <= kNearlyReal * std::abs(loop.impedance);
        if ((std::abs(step_cents) < kNearError_cents && count == counted) ||
            (trip > 0 && std::abs(step_cents) < kSmallStep_cents)) {
            Resonance r;
            r.frequency_Hz = f;
            r.found = r.converged = real && f >= kLowest_Hz && f <= kHighest_Hz;
            if (!r.found) break;
            r.evaluations = evaluations;
            r.beside_Hz = beside_Hz;
            r.beside_turn = beside_turn;
            r.turn = count ? loop.turn : 0.0;
            return r;
        }
        moved_cents = step_cents;
        last_excess = excess;
    }
    Asked ask(network);
    Resonance r = near_guess(ask, register_number, guess_Hz);
    const bool clear = r.found && ask.passage(r, false) == Passage::clear;
    if (!clear) r = missing("no_resonance", 0);
    if (clear && counted) r.turn = ask.turn(r.frequency_Hz);
    r.evaluations = evaluations + ask.evaluations();
    return r;
}

}  // namespace canewright
