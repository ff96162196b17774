// core/flute/turn.hpp: follows how far a reflection has turned along a network. Layer: flute.
#pragma once

#include <algorithm>
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

    // Where a travel() is still to come, the angle is wanted to a tenth of a half turn: travel()
    // knows it but for half turns. Arc tangents are a fifth of what a network costs.
    void roughly(bool rough) { rough_ = rough; }

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
        if (reference == reference_) return;
        const Complex out = outgoing(), back = returning();
        reference_ = reference;
        add_turned(out, back);
    }

    // A line or slender cone of phase `length_rad`: the angle grows by about that much.
    void travel(const TwoPort& m, double length_rad) {
        const Complex p = m.a * p_ + m.b * u_;
        u_ = m.c * p_ + m.d * u_;
        p_ = p;
        // known but for half turns
        const double angle_rad = 0.5 * (kPi - angle_of_reflection());
        angle_rad_ = angle_rad + kPi * std::round((angle_rad_ + length_rad - angle_rad) / kPi);
    }

   private:
    Complex outgoing() const { return p_ + reference_ * u_; }
    Complex returning() const { return p_ - reference_ * u_; }
    double angle_of_reflection() const { return angle(returning() * std::conj(outgoing())); }
    double angle(Complex z) const { return rough_ ? rough_angle(z) : std::arg(z); }
    // Within 0.004.
    static double rough_angle(Complex z) {
        const double x = std::abs(z.real()), y = std::abs(z.imag());
        const double most = std::max(x, y), share = most > 0.0 ? std::min(x, y) / most : 0.0;
        const double eighth = share * (0.25 * kPi + 0.273 * (1.0 - share));
        const double quarter = y > x ? 0.5 * kPi - eighth : eighth;
        return std::copysign(z.real() < 0.0 ? kPi - quarter : quarter, z.imag());
    }
    void add_turned(Complex out, Complex back) {
        const Complex one = outgoing() * std::conj(out), other = returning() * std::conj(back);
        // each of the two is less than half a turn; where both are less than a quarter so is their
        // difference, and one arc tangent has it
        const bool small = one.real() > 0.0 && other.real() > 0.0;
        angle_rad_ += 0.5 * (small ? angle(one * std::conj(other)) : angle(one) - angle(other));
    }

    Complex p_, u_, reference_;
    double angle_rad_;
    bool rough_ = false;
};

}  // namespace canewright
