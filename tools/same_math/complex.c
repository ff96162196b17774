// tools/same_math/complex.c -- complex functions as the C++ library of WebAssembly has them.
//
// g++ calls the C library's; there they are templates (libc++'s header <complex>), of these formulas.
// What overflows is not kept apart as there: nothing in the core comes near it.
#include <complex.h>
#include <math.h>

typedef double _Complex Complex;

static Complex of(double real, double imaginary) {
    Complex z;
    __real__ z = real;
    __imag__ z = imaginary;
    return z;
}

double cabs(Complex z) { return hypot(__real__ z, __imag__ z); }

Complex cexp(Complex z) {
    const double size = exp(__real__ z);
    return of(size * cos(__imag__ z), size * sin(__imag__ z));
}

Complex csqrt(Complex z) {
    const double size = sqrt(cabs(z)), angle = atan2(__imag__ z, __real__ z) / 2.0;
    return of(size * cos(angle), size * sin(angle));
}

Complex ctanh(Complex z) {
    const double real = 2.0 * __real__ z, imaginary = 2.0 * __imag__ z;
    const double under = cosh(real) + cos(imaginary);
    return of(sinh(real) / under, sin(imaginary) / under);
}

// The compiler's own division of two complex numbers: (a + bj) / (c + dj).
Complex __divdc3(double a, double b, double c, double d) {
    int scale = 0;
    const double power = logb(fmax(fabs(c), fabs(d)));
    if (isfinite(power)) {
        scale = (int)power;
        c = scalbn(c, -scale);
        d = scalbn(d, -scale);
    }
    const double under = c * c + d * d;
    return of(scalbn((a * c + b * d) / under, -scale), scalbn((b * c - a * d) / under, -scale));
}
