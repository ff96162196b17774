# tools/reference/widening_fit.py -- the interpolation between a step and a slender cone, and its error on unseen cones.
"""Excess of a cone, in its narrow radii: (step^-p + slender^-p)^(-1/p), p a parabola in b/a. Fitted to widenings.csv by
the least largest error; then to half of it and checked on the other half; and checked on widenings-unseen.csv.

usage: python3 widening_fit.py       needs numpy and scipy
"""
import os

import numpy as np
from scipy.optimize import least_squares

FOLDER = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "tests", "data", "fem")
CORE = np.array([-.18, 4.79, -3.89])


def load(name):
    rows = np.loadtxt(os.path.join(FOLDER, name), delimiter=",", skiprows=1)
    return rows[:, 0], rows[:, 1], rows[:, 2]


def formula(c, x, steepness):
    step = .8216 * (1 - x) * (1 + x * (-.4314 + x * (.0767 - .5805 * x)))  # orifice_theory.py: a step
    slender = (1 / x - 1) * x / (2 * steepness)
    power = c[0] + x * (c[1] + x * c[2])
    return (step**-power + slender**-power) ** (-1 / power)


def fit(x, steepness, excess):
    c = CORE
    for norm in (2, 4, 8, 16, 32):  # towards the least largest error
        c = least_squares(lambda c: (abs(formula(c, x, steepness) - excess) * 100) ** (norm / 2), c).x
    return np.round(c, 2)


def error(c, x, steepness, excess):
    return abs(formula(c, x, steepness) - excess).max()


if __name__ == "__main__":
    seen, unseen = load("widenings.csv"), load("widenings-unseen.csv")
    c = fit(*seen)
    print("p = %+.2f %+.2f x %+.2f x^2: largest error %.4f, on unseen cones %.4f" % (*c, error(c, *seen), error(c, *unseen)))
    print("core %+.2f %+.2f x %+.2f x^2: largest error %.4f, on unseen cones %.4f" % (*CORE, error(CORE, *seen), error(CORE, *unseen)))
    for half in (0, 1):
        taken = np.arange(len(seen[0])) % 2 == half
        c = fit(*(column[taken] for column in seen))
        print("fitted to half: p = %+.2f %+.2f x %+.2f x^2, largest error on the other half %.4f" % (*c, error(c, *(column[~taken] for column in seen))))
