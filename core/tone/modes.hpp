// core/tone/modes.hpp: a fingering's answer to the jet as a sum of modes, for stepping through
// time. Layer: tone.
#pragma once

#include <cstddef>
#include <vector>

#include "core/element/two_port.hpp"
#include "core/flute/network.hpp"

namespace canewright {

// One mode: what it adds to a response is residue / (s - pole) and the same conjugated, with
// s = j w; a pole on the real axis is added once.
struct Mode {
    Complex pole;      // 1/s
    Complex flow;      // residue of the flow through the sound hole over the driving pressure
    Complex radiated;  // the same of what flows out of all openings, as it comes together where it
                       // is heard: kHeardFrom_m straight before the sound hole
    bool is_pair() const { return pole.imag() > 0.0; }
};

// What the jet drives, in modes.
struct ModalLoop {
    std::vector<Mode> modes;
    double error = 0.0;   // greatest of the admittance over the band, relative
    double top_Hz = 0.0;  // of the band
    bool found = false;   // false: a number that does not exist, nothing to blow

    // Admittance of the loop [m^3/(Pa s)], and its share that is radiated.
    Complex admittance(double frequency_Hz) const;
    Complex radiated(double frequency_Hz) const;
};

// The modes of a network below `top_Hz`.
//
// Model    1 / Network::at().impedance at places kPlacesPerMode to a first resonance's frequency is
//          fitted by a sum of modes, one for each passage of the turn and a few above the band that
//          stand for those left out: the poles are moved until the sum that weighs the response has
//          its zeros where they are (vector fitting, the response's own size for weight). All poles
//          decay, whatever the fit wants. The radiated flow has the same poles.
// Valid    from kModesFrom_Hz to top_Hz; above, no more than a mass.
// Error    `error` says it; kModesError for flutes of the shop's sizes.
// Source   B. Gustavsen & A. Semlyen, IEEE Trans. Power Delivery 14 (1999) 1052-1061; zeros by O.
//          Aberth, Math. Comp. 27 (1973) 339-344.
ModalLoop modes_of(const Network& network, double top_Hz = 5000.0);

inline constexpr double kHeardFrom_m = 1.0;
inline constexpr double kModesFrom_Hz = 60.0;
inline constexpr double kModesError = 0.01;

}  // namespace canewright
