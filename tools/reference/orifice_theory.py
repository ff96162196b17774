# tools/reference/orifice_theory.py -- inertance of one side of a round opening across a round bore, thin and thick wall.
"""Potential flow of mean 1 through an opening of radius 1 in a bore of radius a. The velocity in the opening is a sum of
(1 - r^2)^(nu + n), nu = -1/2 at a thin edge, -1/3 at a square one; least kinetic energy (Ritz). Each basis has a closed
Hankel transform; a bore's side is a sum over the zeros of J1. Length on the opening's area, in its radii.
thin    the wall has no thickness: both sides alike, this is one
thick   the opening is the end of a narrow tube: what a step adds

usage: python3 orifice_theory.py       a few seconds; needs numpy and scipy
"""
import numpy as np
from scipy.special import gamma, jn_zeros, jv

ZEROS = jn_zeros(1, 4000)


def side(a, nu, thick, terms=8):
    def V(q, n):  # integral of (1 - r^2)^(nu + n) J0(q r) r
        e = nu + n
        return 2**e * gamma(e + 1) * jv(e + 1, q) / q ** (e + 1)
    flow = np.array([.5 / (nu + n + 1) for n in range(terms)])
    q = ZEROS / a
    v = np.array([V(q, n) for n in range(terms)])
    M = (v / (q * .5 * a * a * jv(0, ZEROS) ** 2)) @ v.T
    if thick:
        v = np.array([V(ZEROS, n) for n in range(terms)])
        M = M + (v / (ZEROS * .5 * jv(0, ZEROS) ** 2)) @ v.T
    return .5 / (flow @ np.linalg.solve(M, flow))


def thin_core(x): return .25 * np.pi * (1 - x) ** 2 * (1 + x * (.5709 + x * (.3447 + x * (-.2924 + .3743 * x))))
def thick_core(x): return .8216 * (1 - x) * (1 + x * (-.4314 + x * (.0767 - .5805 * x)))


if __name__ == "__main__":
    worst = np.zeros(2)
    print("b/a    thin    core    thick   core")
    for x in (.05, .1, .2, .3, .4, .5, .6, .7, .8, .9):
        thin, thick = side(1 / x, -.5, False), side(1 / x, -1 / 3, True)
        print("%.2f  %.4f  %.4f  %.4f  %.4f" % (x, thin, thin_core(x), thick, thick_core(x)))
        worst = np.maximum(worst, np.abs([thin - thin_core(x), thick - thick_core(x)]))
    print("largest difference: thin %.4f, thick %.4f" % tuple(worst))
