# tools/reference/foot_and_coupling_fit.py -- derives the constants of the foot's end correction and of the outside coupling.
"""usage: python3 foot_and_coupling_fit.py       needs numpy and scipy

Foot: delta/a of a pipe of outer radius Ro, fitted to fem/axi_table.txt (axisymmetric finite elements). The limits are fixed:
0.6127 for no wall (Levine & Schwinger 1948, integral re-evaluated), 0.8216 for an infinite flange; the power 2/3 is the
strength of a right-angled corner. Six constants by least squares; of these the two that say how a thin end falls with k a
are set anew so that the largest error is least over the elements and Levine & Schwinger's theory together: the elements'
air is a little too small for a bare end, where theory is exact.
Unseen: the same on every other wall (and the thinnest and the thickest), checked on the walls and the values of k a that were left out.
Coupling: potential at distance d along a rigid cylinder of radius Ro from a source on it (k = 0), over that of the same
source in free air; 2 close by (a plane), 1 far away. Exact as a sum over m of integrals along the branch cut,
sum eps_m Int exp(-x d/Ro) / (x^2 |H_m'(x)|^2) dx; for d -> inf it is pi^2/4 Ro/d.
"""
import os, re
import numpy as np
from scipy.integrate import quad
from scipy.optimize import least_squares, linprog
from scipy.special import ive, j1, jvp, kve, y1, yvp


def bare_end(ka):
    """length of an end without a wall over its radius: H. Levine & J. Schwinger 1948"""
    inside = quad(lambda u: np.log(np.pi * j1(x := ka * np.sin(u)) * np.hypot(j1(x), y1(x))) / x, 1e-9, np.pi / 2)[0]
    outside = lambda x: -np.log(2 * ive(1, x) * kve(1, x)) / (x * np.hypot(x, ka))
    return (inside + quad(outside, 1e-6, 1, limit=400)[0] + quad(outside, 1, np.inf, limit=400)[0]) / np.pi


def foot_terms(s, ka):
    v = 1 - s; w = np.minimum(v, 2 / 3)
    return np.stack([s * v ** (2 / 3), s * v, s * v ** (4 / 3), s * v * v, ka**2 * w * w, ka**2, ka**2 * w], 1), .8216 - (.8216 - .6127) * s


def foot_fit(s, ka, d, theory):
    A, rest = foot_terms(s, ka)
    c = np.round(np.linalg.lstsq(A, d - rest, rcond=None)[0], 4)
    s, ka, d = np.append(s, np.ones(len(theory))), np.append(ka, theory[:, 0]), np.append(d, theory[:, 1])
    A, rest = foot_terms(s, ka); y = d - rest - A[:, :5] @ c[:5]; B = A[:, 5:]; one = np.ones((len(y), 1))
    best = linprog([0, 0, 1], A_ub=np.block([[B, -one], [-B, -one]]), b_ub=np.append(y, -y), bounds=[(None, None)] * 2 + [(0, None)])
    return np.append(c[:5], np.round(best.x[:2], 4))


def foot_error(c, s, ka, d):
    A, rest = foot_terms(s, ka)
    return abs(A @ c + rest - d).max()


def foot():
    path = os.path.join(os.path.dirname(os.path.abspath(__file__)), "fem", "axi_table.txt")
    rows = np.array([(float(line.split()[0]), float(x), float(d)) for line in open(path) for x, d in re.findall(r"ka=([\d.]+) d/a=([\d.]+)", line)])
    s, ka, d = 1 / rows[:, 0], rows[:, 1], rows[:, 2]
    theory = np.array([(x, bare_end(x)) for x in (.05, .1, .15, .2)])
    c = foot_fit(s, ka, d, theory[[1, 3]])
    print("foot, delta/a = 0.8216 - 0.2089 s + s (%+.4f v^(2/3) %+.4f v %+.4f v^(4/3) %+.4f v^2) + (ka)^2 (%+.4f %+.4f w %+.4f w^2)" % (*c[:4], *c[5:], c[4]))
    print("   s = a/Ro, v = 1 - s, w = min(v, 2/3); Ro/a %.3f to %.0f, ka %.3f to %.3f: largest error %.5f; against theory %.5f"
          % (rows[:, 0].min(), rows[:, 0].max(), ka.min(), ka.max(), foot_error(c, s, ka, d), foot_error(c, np.ones(4), *theory.T)))
    wall = np.unique(s, return_inverse=True)[1]
    for left_out in (0, 1):
        seen = (wall % 2 != left_out) | (wall == 0) | (wall == wall.max());  # the range's ends stay in
        known = theory[[left_out, left_out + 2]]; unseen = theory[[1 - left_out, 3 - left_out]]
        c = foot_fit(s[seen], ka[seen], d[seen], known)
        print("   fitted to every other wall: largest error on the others %.5f, against theory at the other ka %.5f"
              % (foot_error(c, s[~seen], ka[~seen], d[~seen]), foot_error(c, np.ones(2), *unseen.T)))


def ratio(z):
    """potential on the cylinder over that in free air, z = d/Ro"""
    total = 0
    with np.errstate(all="ignore"):
        for m in range(int(30 / z) + 3):
            u = np.linspace(np.log(1e-5), np.log(60 / z), 4000); x = np.exp(u)
            f = np.nan_to_num(np.exp(-x * z) / (x * (jvp(m, x) ** 2 + yvp(m, x) ** 2)))
            total += (1 if m == 0 else 2) * np.trapz(f, u)
    return total * z / (np.pi**2 / 4)


def coupling():
    z = np.array([.3, .4, .5, .7, 1, 1.4, 2, 2.8, 4, 5.6, 8, 11]); r = np.array([ratio(q) for q in z])
    fit = least_squares(lambda p: 1 + np.exp(-p[0] * z ** p[1]) - r, [1, 1]); c = np.round(fit.x, 3)
    print("coupling, ratio = 1 + exp(-%.3f (d/Ro)^%.3f), d/Ro 0.3 to 11, max error %.4f" % (*c, abs(1 + np.exp(-c[0] * z ** c[1]) - r).max()))
    for q, v in zip(z, r): print("   d/Ro %5.1f   exact %.4f   formula %.4f" % (q, v, 1 + np.exp(-c[0] * q ** c[1])))


if __name__ == "__main__":
    foot(); coupling()
