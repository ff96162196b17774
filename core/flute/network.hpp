// core/flute/network.hpp: a flute with a fingering as a network of acoustic elements.
// Layer: flute.
#pragma once

#include <optional>
#include <vector>

#include "core/air/air.hpp"
#include "core/element/finger_hole.hpp"
#include "core/element/sound_hole.hpp"
#include "core/element/two_port.hpp"
#include "core/flute/geometry.hpp"
#include "core/flute/ridge_place.hpp"

namespace canewright {

// What the network answers at one frequency.
struct Loop {
    // Impedance of the loop that the jet drives: through the sound hole, round the bore and the
    // piece towards the plug, and back through the air outside [Pa s/m^3].
    Complex impedance;
    // Half the angle by which the loop's reflection has turned since frequency zero [rad]. It
    // grows with frequency and passes a multiple of pi where a register resonates: there the
    // impedance is real and small. The tube below an open hole has resonances of its own; where
    // losses hide one from the jet, the turn slips by pi at once with the impedance not real.
    // Passages that are real are the registers: counted, neither skipped nor invented.
    double turn;
    double bore_impedance;  // of the bore at the sound hole, lossless part [Pa s/m^3]
};

inline constexpr int kMostHolesOpen = 12;

// A flute with some holes open, ready to be asked at many frequencies.
//
// Model    plane waves in the bore (core/element/line; what steep cones add: widening), T networks
// at
//          holes, the fitted sound hole, radiation from every opening to every other. The system of
//          open holes and sound hole is solved as linear equations; the turn is then followed from
//          the foot to the sound hole element by element, in the manner of Pruefer's angle: a line
//          turns it by its own length, anything lumped moves (p, U) in a straight line, both waves
//          by less than pi.
// Valid    below the first cross mode of the bore; elements in their own ranges.
// Source   the angle: standard in Sturm-Liouville theory; the elements name theirs.
// Requires a validated flute: bore stations and holes in rising order, at most kMostHolesOpen of
//          them open, numbers that exist.
class Network {
   public:
    Network(const Flute& flute, const Air& air, const Fingering& open);

    Loop at(double frequency_Hz) const;

    const Air& air() const { return air_; }
    // Length from the plug to the first open hole or the foot: half a wave, roughly [m].
    double first_open_m() const { return first_open_m_; }

   private:
    struct Step {
        enum class Kind { piece, widening, ridge, open, covered } kind;
        // Piece: its ends. Widening: the narrow end alone.
        double near_radius_m = 0.0, far_radius_m = 0.0;
        double length_m = 0.0;  // piece; widening: excess
        double share = 1.0;     // ridge: of it, here
        HoleShape shape{};      // open, covered
    };
    // What a step is at one frequency. Holes: `half` of the series impedance on either side, and
    // the cavity's admittance or the outside's own radiation impedance.
    struct Solved {
        TwoPort matrix;
        Complex half, other;
        Complex reference;
        double length_rad;
    };
    void add_pieces(double far_m, double near_m);
    void add_ridge(double& at_m, double until_m, double share);
    void solve_steps(double angular_Hz, std::vector<Solved>& solved) const;

    Air air_;
    std::vector<BoreStation> bore_;
    std::vector<Step> steps_;     // from the foot to the sound hole's centre
    std::vector<double> port_m_;  // openings: the foot, open holes upwards, the sound hole
    double ridge_at_m_ = 0.0;
    PlacedRidge ridge_;
    std::optional<FootPlug> foot_plug_;
    WindowShape window_{};
    double window_inertance_m_ = 0.0, plug_cavity_m_ = 0.0;  // of the window; no frequency in them
    Fingers fingers_ = Fingers::soft;
    double tube_radius_m_ = 0.0;  // outer, at the sound hole
    double foot_radius_m_ = 0.0;
    double foot_outer_radius_m_ = 0.0;
    double first_open_m_ = 0.0;
};

}  // namespace canewright
