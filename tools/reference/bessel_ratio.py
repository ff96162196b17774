#!/usr/bin/env python3
# tools/reference/bessel_ratio.py -- table of the loss function from a general library, for a test.
"""Writes tests/data/published/bessel_ratio.csv: F(s) = 2 J1(z) / (z J0(z)), z = s sqrt(-j).

The ratio J1/J0 is that of scipy.special.jve (Amos's routines, scaled by exp(-|Im z|), so that
nothing overflows); none of the core's recurrence or expansion is used. The values of s cover both
of the core's methods and the place where it changes from one to the other (25).
"""
import pathlib

import numpy
import scipy
from scipy.special import jve

AROUND_THE_CHANGE = [24.0, 24.9, 24.99, 24.9999, 25.0, 25.0001, 25.01, 25.1, 26.0]


def loss_function(s):
    z = s * numpy.exp(-0.25j * numpy.pi)
    return 2.0 * jve(1, z) / (z * jve(0, z))


def main():
    spread = numpy.round(numpy.geomspace(0.1, 300.0, 60), 4)
    values = sorted(set(spread.tolist() + AROUND_THE_CHANGE))
    lines = ["s,real,imaginary"]
    for s in values:
        f = complex(loss_function(s))
        lines.append(f"{s!r},{f.real!r},{f.imag!r}")
    root = pathlib.Path(__file__).resolve().parents[2]
    out = root / "tests" / "data" / "published" / "bessel_ratio.csv"
    out.write_text("\n".join(lines) + "\n", encoding="utf-8")
    print(f"{len(values)} rows by scipy {scipy.__version__}")


if __name__ == "__main__":
    main()
