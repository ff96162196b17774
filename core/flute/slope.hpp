// core/flute/slope.hpp: how much a small change of a flute moves a note. Layer: flute.
#pragma once

#include <cmath>

#include "core/base/units.hpp"
#include "core/flute/network.hpp"

namespace canewright {

// A resonance of a network, which must outlive this, and the means to say how it moves: by the
// implicit function theorem from the turn of the loop's reflection (turn = n pi at the resonance),
// so that no root is sought.
class Slope {
   public:
    // `frequency_Hz` is a resonance of `network`.
    Slope(const Network& network, double frequency_Hz) : Slope(network, frequency_Hz, 0.0, 0.0) {}
    // `beside_Hz`: a hair off, where the turn is known, of a Resonance; then one evaluation less.
    Slope(const Network& network, double frequency_Hz, double beside_Hz, double beside_turn)
        : network_(network), here_(network.state(frequency_Hz)) {
        // Nearer, the turn's rounding counts; farther, how it bends.
        const double off = std::abs(beside_Hz / frequency_Hz - 1.0);
        if (!(off > kNearestBeside && off < kStep)) {
            beside_Hz = frequency_Hz * (1.0 + kStep);
            beside_turn = network.passing(beside_Hz).turn;
            ++evaluations_;
        }
        const double grown = std::remainder(beside_turn - here_.loop.turn, kPi);
        cents_per_rad_ =
            kCentsPerOctave * std::log1p(beside_Hz / frequency_Hz - 1.0) / std::log(2.0) / grown;
    }

    Slope(Network&&, double) = delete;

    // Cents by which the resonance of one slightly changed flute lies above another's.
    // Error    of second order in the change; of third where they lie as far from this flute,
    //          either way.
    double cents_between(const Network& less, const Network& more) const {
        // modulo pi: the count may slip between two flutes, the impedance does not
        return -std::remainder(network_.turn_change(here_, less, more), kPi) * cents_per_rad_;
    }
    double cents_to(const Network& changed) const { return cents_between(network_, changed); }

    // How far the resonance moves for each radian that the turn falls short.
    double cents_per_rad() const { return cents_per_rad_; }

    static constexpr double kStep = 1e-6;  // relative, of the frequency
    static constexpr double kNearestBeside = 3e-9;
    // One or two; none more for a change of elements alone (Network::turn_change).
    int evaluations() const { return evaluations_; }

   private:
    const Network& network_;
    const Network::State here_;
    double cents_per_rad_ = 0.0;
    int evaluations_ = 1;
};

}  // namespace canewright
