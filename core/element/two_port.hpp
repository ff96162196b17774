// core/element/two_port.hpp: transfer matrices of acoustic two-ports. Layer: element.
#pragma once

#include <complex>

namespace canewright {

using Complex = std::complex<double>;

// The library's own product looks for what is not a number first, and asks a function where it is.
inline Complex operator*(Complex a, Complex b) {
    return {a.real() * b.real() - a.imag() * b.imag(), a.real() * b.imag() + a.imag() * b.real()};
}
// 1 / z and a / b where no square is near overflow: the library's own division asks for that first.
inline Complex inverse(Complex z) { return std::conj(z) / std::norm(z); }
inline Complex quotient(Complex a, Complex b) { return a * inverse(b); }

// [p1; U1] = [a b; c d] [p2; U2]: pressure [Pa] and volume flow [m^3/s] at the end towards the
// sound hole (1) from those at the end towards the foot (2). Time dependence exp(+j w t).
// Reciprocal two-ports have a d - b c = 1.
struct TwoPort {
    Complex a{1.0}, b{0.0}, c{0.0}, d{1.0};
};

inline TwoPort operator*(const TwoPort& m, const TwoPort& n) {
    return {m.a * n.a + m.b * n.c, m.a * n.b + m.b * n.d, m.c * n.a + m.d * n.c,
            m.c * n.b + m.d * n.d};
}

// A series impedance z [Pa s/m^3].
inline TwoPort series(Complex z) { return {1.0, z, 0.0, 1.0}; }

}  // namespace canewright
