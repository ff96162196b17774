// core/flute/network.hpp: a flute with a fingering as a network of acoustic elements.
// Layer: flute.
#pragma once

#include <optional>
#include <vector>

#include "core/air/air.hpp"
#include "core/element/finger_hole.hpp"
#include "core/element/line.hpp"
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

// What sounds at one place of the bore: pressure, and flow towards the foot, for a flow of 1 into
// the bore at the sound hole.
struct FieldPlace {
    double at_m = 0.0;
    Complex pressure, flow;
};

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
    // With every hole covered, to be fingered.
    Network(const Flute& flute, const Air& air);

    // To be compared with another, and asked no more than once.
    static Network changed(const Flute& flute, const Air& air, const Fingering& open) {
        Network network(flute, air);
        network.finger(open);
        return network;
    }

    // The same flute with other holes open.
    void finger(const Fingering& open);
    // What has no frequency in it is reckoned now, for one that is asked often.
    void measure();

    Loop at(double frequency_Hz) const { return solve(frequency_Hz, Count::turns, nullptr); }
    // The same with the turn known but for half turns, in two thirds of the time: what follows a
    // resonance needs no count.
    Loop passing(double frequency_Hz) const { return solve(frequency_Hz, Count::none, nullptr); }

    // A network at one frequency, with what flows everywhere: to ask what small changes do.
    struct State;
    State state(double frequency_Hz) const;
    // By how much the turn of one slightly changed flute lies above another's, at the frequency of
    // `here`, a state of this network [rad]; within half a turn.
    // Model    what flows where stays, each changed element takes or gives its share of the loop's
    //          impedance: sum of flow^2 times change of impedance, less pressure^2 times change of
    //          admittance. Elements that are the same cost nothing, nor does a cylinder's length.
    //          Where the change is of another kind (other air, bore at the sound hole, order of
    //          holes and stations) the networks are solved.
    // Error    of second order in the change; of third where `less` and `more` lie as far from this
    //          network, either way.
    // Source   reciprocity (Tellegen's theorem): B.D.H. Tellegen, Philips Res. Rep. 7 (1952) 259,
    //          S.W. Director & R.A. Rohrer, IEEE Trans. Circuit Theory 16 (1969) 318-323.
    double turn_change(const State& here, const Network& less, const Network& more) const;
    double turn_change(const State& here, const Network& changed) const {
        return turn_change(here, *this, changed);
    }

    // The air of the bore at one frequency, from the foot to the middle of the sound hole, in steps
    // of no more than `step_m`; twice where something changes the flow or pressure at once. Valid
    // plane waves: what narrows and turns the flow beside an opening is not drawn. Error    as the
    // network's; between the ends of a cone's piece of second order in its taper.
    std::vector<FieldPlace> field(double frequency_Hz, double step_m) const;

    const Air& air() const { return air_; }
    // Places of the openings: the foot, the open holes upwards, the sound hole's middle [m].
    const std::vector<double>& openings_m() const { return port_m_; }
    // Length from the plug to the first open hole or the foot: half a wave, roughly [m].
    double first_open_m() const { return first_open_m_; }

   private:
    struct Step {
        enum class Kind { piece, widening, ridge, open, covered } kind;
        int hole = -1;  // open, covered: which of holes_
        // Piece, and the widening that stands beside it: its ends.
        double near_radius_m = 0.0, far_radius_m = 0.0, length_m = 0.0;
        double share = 1.0;  // ridge: of it, here
        // Piece: its equivalent radius. Widening: its excess. Negative: not measured.
        double measured_m = -1.0;
    };
    struct Hole {
        double at_m = 0.0;
        HoleShape shape{};
        HoleLengths open_lengths{}, covered_lengths{};  // where they are measured
        bool open_measured = false, covered_measured = false;
    };
    // What a step is at one frequency. Holes: `half` of the series impedance on either side, and
    // the cavity's admittance or the outside's own radiation impedance.
    struct Solved {
        TwoPort matrix;
        Complex half, other;
        LineConstants line;  // of a piece
        double line_radius_m = 0.0;
        double length_rad = 0.0;
    };
    // Towards the foot: pressure, and flow out that way.
    struct Plane {
        Complex p, u;
    };
    // What ends the network: beyond the foot, and behind the sound hole.
    struct Ends {
        Complex foot;
        TwoPort disc;
        LineConstants behind;
        Complex cavity, window;
    };
    HoleLengths covered_lengths(const HoleShape& shape) const;
    static double measured_m(const Step& step);
    const Hole& hole_of(const Step& step) const {
        return holes_[static_cast<std::size_t>(step.hole)];
    }
    void add_pieces(double far_m, double near_m);
    void add_ridge(double& at_m, double until_m, double share);
    void solve_step(const Step& step, const Solved& like, double angular_Hz, Solved& solved) const;
    Ends foot_ends(double angular_Hz) const;
    Complex cavity(const LineConstants& behind) const;
    Ends ends(double angular_Hz) const;
    Complex seen(std::size_t one_port, std::size_t other_port, double angular_Hz) const;
    enum class Count { none, turns };
    Loop solve(double frequency_Hz, Count count, State* state) const;
    bool is_like(const Network& other) const;
    bool same_step(std::size_t n, const Network& other) const;
    Complex impedance_change(const State& here, const Network& less, const Network& more) const;
    Complex end_change(const State& here, const Network& less, const Network& more) const;

    Air air_;
    std::vector<BoreStation> bore_;
    std::vector<Step> steps_;           // from the foot to the sound hole's centre
    std::vector<Hole> holes_;           // from the foot upwards
    std::vector<double> port_m_;        // openings: the foot, open holes upwards, the sound hole
    std::vector<double> wall_factors_;  // of each two open holes; empty: reckoned when asked for
    double centre_m_ = 0.0;             // of the sound hole
    double ridge_at_m_ = 0.0;
    PlacedRidge ridge_;
    std::optional<FootPlug> foot_plug_;
    WindowShape window_{};
    double window_inertance_m_ = 0.0, plug_cavity_m_ = 0.0;  // of the window; no frequency in them
    Fingers fingers_ = Fingers::soft;
    double tube_radius_m_ = 0.0;  // outer, at the sound hole
    double foot_radius_m_ = 0.0;
    double foot_outer_radius_m_ = 0.0;
    double end_radius_m_ = 0.0;  // of what opens at the foot
    double first_open_m_ = 0.0;
};

struct Network::State {
    double angular_Hz = 0.0;
    Loop loop{};
    Ends ends{};
    std::vector<Solved> solved;   // of each step
    std::vector<Plane> planes;    // below each step, and above the last
    std::vector<Plane> openings;  // outside each opening, flow out of it
};

}  // namespace canewright
