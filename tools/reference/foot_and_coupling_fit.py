# tools/reference/foot_and_coupling_fit.py -- derives the constants of the foot's end correction and of the outside coupling.
"""usage: python3 foot_and_coupling_fit.py       needs numpy and scipy

Foot: delta/a of a pipe of outer radius Ro, fitted to fem/axi_table.txt (axisymmetric finite elements). The limits are fixed:
0.6127 for no wall (Levine & Schwinger 1948, integral re-evaluated), 0.8216 for an infinite flange; the power 2/3 is the
strength of a right-angled corner.
Coupling: potential at distance d along a rigid cylinder of radius Ro from a source on it (k = 0), over that of the same
source in free air; 2 close by (a plane), 1 far away. Exact as a sum over m of integrals along the branch cut,
sum eps_m Int exp(-x d/Ro) / (x^2 |H_m'(x)|^2) dx; for d -> inf it is pi^2/4 Ro/d.
"""
import os, re
import numpy as np
from scipy.optimize import least_squares
from scipy.special import jvp, yvp


def foot():
    path = os.path.join(os.path.dirname(os.path.abspath(__file__)), "fem", "axi_table.txt")
    rows = np.array([(float(line.split()[0]), float(x), float(d)) for line in open(path) for x, d in re.findall(r"ka=([\d.]+) d/a=([\d.]+)", line)])
    s, ka, d = 1 / rows[:, 0], rows[:, 1], rows[:, 2]; v = 1 - s
    A = np.stack([s * v ** (2 / 3), s * v, s * v ** (4 / 3), s * v * v, ka**2, ka**2 * v, ka**2 * v * v], 1)
    y = d - (.8216 - (.8216 - .6127) * s)
    c = np.round(np.linalg.lstsq(A, y, rcond=None)[0], 4); e = A @ c - y
    print("foot, delta/a = 0.8216 - 0.2089 s + s (%+.4f v^(2/3) %+.4f v %+.4f v^(4/3) %+.4f v^2) + (ka)^2 (%+.4f %+.4f v %+.4f v^2)" % tuple(c))
    print("   s = a/Ro, v = 1 - s; Ro/a %.3f to %.0f, ka %.3f to %.3f: rms %.5f, max %.5f" % (rows[:, 0].min(), rows[:, 0].max(), ka.min(), ka.max(), np.sqrt(np.mean(e * e)), abs(e).max()))


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
