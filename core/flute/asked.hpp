// core/flute/asked.hpp: a network asked for its turn and reactance, and what passes there. Layer:
// flute; for its resonances alone.
#pragma once

#include <algorithm>
#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <limits>
#include <utility>

#include "core/base/units.hpp"
#include "core/flute/resonance.hpp"

namespace canewright {

// At a resonance the impedance is real; where the turn slips it is anything.
inline constexpr double kReal = 1e-6;
inline constexpr double kNearlyReal =
    0.05;  // a thousandth of a cent away, at a Q of some thousands

inline Resonance missing(const char* why, int evaluations) {
    Resonance r;
    r.frequency_Hz = std::numeric_limits<double>::quiet_NaN();
    r.why = why;
    r.evaluations = evaluations;
    return r;
}

inline bool narrow(double a, double b) { return std::abs(b - a) <= kResonanceError * b; }

// A root of an excess that rises from at_low < 0 to at_high >= 0.
template <class Excess>
Resonance root(const Excess& excess, double low, double high, double at_low, double at_high) {
    std::uintmax_t trips = 60;
    const auto bracket = at_high == 0.0 ? std::make_pair(high, high)
                                        : boost::math::tools::toms748_solve(
                                              excess, low, high, at_low, at_high, narrow, trips);
    Resonance r;
    r.frequency_Hz = 0.5 * (bracket.first + bracket.second);
    r.found = true;
    r.converged = narrow(bracket.first, bracket.second);
    return r;
}

// Whether what lies below zero at three places may have touched it between: it is highest in the
// middle, and not farther from zero than it falls beside.
inline bool may_touch(double before, double middle, double after) {
    return middle < 0.0 && middle > before && middle > after &&
           -middle < middle - std::min(before, after);
}

// What a passage of the turn through a multiple of pi is.
enum class Passage { slip, faint, unclear, clear };

// Asks a network, and counts how often.
class Asked {
   public:
    explicit Asked(const Network& network) : network_(network) {}
    double turn(double f_Hz) {
        ++evaluations_;
        return network_.at(f_Hz).turn;
    }
    double reactance(double f_Hz) {
        ++evaluations_;
        return network_.passing(f_Hz).impedance.imag();
    }
    // Where the reactance is greatest between two frequencies.
    double top_Hz(double low, double high) {
        constexpr int kBits = 24;  // half a double's: there the top is flat
        return boost::math::tools::brent_find_minima([this](double f) { return -reactance(f); },
                                                     low, high, kBits)
            .first;
    }
    // A register is wherever the impedance is real, small and rising; the second is asked for as
    // one that a player can reach, and counted over those where it is clearly so.
    Passage passage(Resonance& r, bool strictly) {
        if (!r.converged) return Passage::slip;
        ++evaluations_;
        const Loop loop = network_.passing(r.frequency_Hz);
        const Complex z = loop.impedance;
        const double absorbed = z.real() / loop.bore_impedance;
        if (!(std::abs(z.imag()) <= kReal * std::abs(z) && absorbed < 1.0)) return Passage::slip;
        ++evaluations_;
        r.beside_Hz = r.frequency_Hz * (1.0 - 1e-7);
        const Loop below = network_.passing(r.beside_Hz);
        r.beside_turn = below.turn;
        if (below.impedance.imag() > 0.0) return Passage::slip;
        rise_ = (z.imag() - below.impedance.imag()) / (1e-7 * loop.bore_impedance);
        if (!strictly) return Passage::clear;
        if (absorbed >= kFaint) return Passage::faint;
        return absorbed <= kClear && leaves_zero(r.frequency_Hz, -1.0) &&
                       leaves_zero(r.frequency_Hz, 1.0)
                   ? Passage::clear
                   : Passage::unclear;
    }
    // How steeply the reactance goes through the last passage that was none by a slip [bore
    // impedances for the whole of its frequency].
    double rise() const { return rise_; }
    int evaluations() const { return evaluations_; }
    Resonance counted(Resonance r) const {
        r.evaluations = evaluations_;
        return r;
    }

   private:
    // Whether the reactance, on the bore's impedance, lies so far from zero beside a passage: below
    // under it, above over it.
    bool leaves_zero(double f_Hz, double side) {
        for (const double away : {0.04, 0.02, 0.01, 0.005}) {  // most often it does at the first
            ++evaluations_;
            const Loop loop = network_.passing(f_Hz * (1.0 + side * away));
            if (side * loop.impedance.imag() >= kLeastDip * loop.bore_impedance) return true;
        }
        return false;
    }

    const Network& network_;
    int evaluations_ = 0;
    double rise_ = 0.0;
};

// The passage of the turn through so many half turns that is nearest to a good guess.
Resonance near_guess(Asked& ask, int half_turns, double guess_Hz);

}  // namespace canewright
