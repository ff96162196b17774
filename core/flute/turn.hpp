// core/flute/turn.hpp: follows how far a reflection has turned along a network. Layer: flute.
#pragma once

#include <cmath>

#include "core/base/units.hpp"
#include "core/element/two_port.hpp"

namespace canewright {

// Half the angle of the reflection (p - Zc U) / (p + Zc U), counted upwards, from a pair (p, U) of
// pressure and flow and a reference impedance Zc. In a lossless line it grows with the line's
// phase; a closed loop resonates where it is a multiple of pi.
class Turn {
   public:
    Turn(Complex p, Complex u, Complex reference) : p_(p), u_(u), reference_(reference) {
        angle_rad_ = 0.5 * (kPi - angle_of_reflection());
    }

    Complex p() const { return p_; }
    Complex u() const { return u_; }
    double angle_rad() const { return angle_rad_; }

    // A lumped element moves (p, U) in a straight line, so both waves turn by less than pi.
    void move(Complex p, Complex u) {
        const Complex out = outgoing(), back = returning();
        p_ = p;
        u_ = u;
        add_turned(out, back);
    }
    void add_pressure(Complex p) { move(p_ + p, u_); }
    void add_flow(Complex u) { move(p_, u_ + u); }

    // The bore changes: so does the reference, in a straight line.
    void refer_to(Complex reference) {
        const Complex out = outgoing(), back = returning();
        reference_ = reference;
        add_turned(out, back);
    }

    // A line or slender cone of phase `length_rad`: the angle grows by about that much.
    void travel(const TwoPort& m, double length_rad) {
        const double before = angle_of_reflection();
        const Complex p = m.a * p_ + m.b * u_;
        u_ = m.c * p_ + m.d * u_;
        p_ = p;
        const double grown = 0.5 * (before - angle_of_reflection());
        angle_rad_ += grown + kPi * std::round((length_rad - grown) / kPi);
    }

   private:
    Complex outgoing() const { return p_ + reference_ * u_; }
    Complex returning() const { return p_ - reference_ * u_; }
    double angle_of_reflection() const { return std::arg(returning() * std::conj(outgoing())); }
    void add_turned(Complex out, Complex back) {
        angle_rad_ +=
            0.5 * (std::arg(outgoing() * std::conj(out)) - std::arg(returning() * std::conj(back)));
    }

    Complex p_, u_, reference_;
    double angle_rad_;
};

}  // namespace canewright
