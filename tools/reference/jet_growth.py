#!/usr/bin/env python3
# tools/reference/jet_growth.py -- spatial growth of a wave on a sech^2 jet, for a table and a test.
"""Spatial growth of a wave on a thin jet: the table of core/jet/jet.cpp.

Rayleigh's equation (U - c)(f'' - k^2 f) = U'' f for U = sech^2 y (lengths in half widths b, speeds
in the centre's U), the sinuous wave: f even, f ~ exp(-k y) far out, real frequency w and complex k,
c = w / k. Integrated by Runge and Kutta from far out to the centre; k by secants until f'(0) = 0.
Neutral point, exact: f = sech^2 y, c = 2/3, k = 2, w = 4/3.
Prints w, -Im k (growth), c_p = w / Re k.
"""
import cmath
import math


def slope_at_centre(w, k, far=12.0, steps=2400):
    c = w / k

    def bend(y):
        s = 1.0 / math.cosh(y) ** 2
        return k * k + (4.0 * s - 6.0 * s * s) / (s - c)

    h = -far / steps
    f, g, y = 1.0 + 0j, -k, far  # scaled: only the ratio counts
    for _ in range(steps):
        b0, b1, b2 = bend(y), bend(y + 0.5 * h), bend(y + h)
        f1, g1 = g, b0 * f
        f2, g2 = g + 0.5 * h * g1, b1 * (f + 0.5 * h * f1)
        f3, g3 = g + 0.5 * h * g2, b1 * (f + 0.5 * h * f2)
        f4, g4 = g + h * g3, b2 * (f + h * f3)
        f += h * (f1 + 2.0 * f2 + 2.0 * f3 + f4) / 6.0
        g += h * (g1 + 2.0 * g2 + 2.0 * g3 + g4) / 6.0
        y += h
    return g / f


def wave_number(w, guess):
    a, b = guess, guess * (1.0 + 1e-4)
    fa, fb = slope_at_centre(w, a), slope_at_centre(w, b)
    for _ in range(40):
        if abs(b - a) < 1e-12 * abs(b):
            break
        a, b, fa = b, b - fb * (b - a) / (fb - fa), fb
        fb = slope_at_centre(w, b)
    return b


if __name__ == "__main__":
    k = 1.04 / 0.608 - 0.068j
    for w in (1.2, 1.04, 0.9, 0.75, 0.6, 0.5, 0.4, 0.32, 0.25, 0.2, 0.15, 0.12, 0.10, 0.06, 0.04, 0.02):
        if w == 1.2:
            k = wave_number(1.04, k)
        k = wave_number(w, k)
        print(f"{w:5.2f}  {-k.imag:.4f}  {w / k.real:.4f}")
    # Tends to the neutral point: growth 0, k 2 at w 4/3 (extrapolated along a line).
    near = [(w, wave_number(w, w / 0.65 - 0.01j)) for w in (1.28, 1.30)]
    (w1, k1), (w2, k2) = near
    at = w2 + (0.0 - k2.imag) * (w2 - w1) / (k2.imag - k1.imag)
    real = k2.real + (k2.real - k1.real) * (at - w2) / (w2 - w1)
    print(f"growth vanishes near w = {at:.3f}, k = {real:.3f}, c = {at / real:.3f}")
