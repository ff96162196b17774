# tools/reference/window_theory.py -- inertance of a sound hole at low frequency, from potential theory alone.
"""Flow through a rectangular window (length W along the tube, chord H, side faces parallel) in the wall of a cylinder
that is plugged `off` behind the window's upstream edge. Three regions are joined by a Galerkin method (the unknown is
the flow through the two curved mouths of the slot, in cosine modes n along W and p across H):
  bore     Green's function of a cylinder in Fourier-Bessel form, mirror image behind the plug, plane wave apart
  slot     the arch-shaped slot between the two cylinders, spectral elements in its cross section
  outside  Green's function of an infinite rigid cylinder in free air
The energy bounds the inertance from above; two sizes give the limit, whose error falls as N^(-4/3) (square corners).

usage: python3 window_theory.py [count]     writes window_theory.csv, a space-filling sample (1400: 8 minutes)
                                            columns: W/a, H/2a, off/a, t/a, l_w/a with 4 x 3 and with 8 x 6 modes
"""
import os, sys
import numpy as np
from numpy.polynomial import legendre
from scipy.special import kve
from scipy.stats import qmc

LEVELS = ((4, 3), (8, 6))
RATE = 4 / 3


def gauss(edges, n=8):
    g, w = legendre.leggauss(n); d = (edges[1:] - edges[:-1])[:, None] / 2
    return ((edges[1:] + edges[:-1])[:, None] / 2 + d * g).ravel(), (d * w).ravel()


def log_derivatives(x, M):
    """x I_m'(x)/I_m(x) and -x K_m'(x)/K_m(x), m = 0..M, by recurrences in their stable directions"""
    A, B = np.empty((M + 1, x.size)), np.empty((M + 1, x.size))
    q = x / (np.sqrt((M + 41.0) ** 2 + x * x) + M + 41.0)          # I_{m+1}/I_m
    for m in range(M + 40, -1, -1):
        q = 1 / (2 * (m + 1) / x + q)
        if m <= M: A[m] = m + x * q
    q = kve(1, x) / kve(0, x); B[0] = x * q; q = 1 / q             # K_{m-1}/K_m
    for m in range(1, M + 1):
        B[m] = m + x * q; q = 1 / (2 * m / x + q)
    return A, B


def slot(a, t, W, H, N, P):
    """for each n the energy of flows (P modes in at the bore, P modes out), potential in Legendre polynomials"""
    I, J = P + 8, 14
    gy, wy = legendre.leggauss(2 * I + 16); gs, ws = legendre.leggauss(J + 8)
    y, wy, s, ws = gy * H / 2, wy * H / 2, (gs + 1) / 2, ws / 2
    zi, zo = np.sqrt(a * a - y * y), np.sqrt((a + t) ** 2 - y * y); depth = zo - zi
    tilt = ((-y / zi)[:, None] + s * (y / zi - y / zo)[:, None]) / depth[:, None]
    val = lambda n, g, even: np.array([legendre.legval(g, np.eye(2 * n)[2 * i if even else i]) for i in range(n)])
    der = lambda n, g, even: np.array([legendre.legval(g, legendre.legder(np.eye(2 * n)[2 * i if even else i])) for i in range(n)])
    Py, dPy, Ps, dPs = val(I, gy, True), der(I, gy, True) * 2 / H, val(J, gs, False), der(J, gs, False) * 2
    both = lambda u, v: np.einsum("iy,js->ijys", u, v).reshape(I * J, -1)
    F, Fs = both(Py, Ps), both(Py, dPs); Fy = both(dPy, Ps) - Fs * tilt.ravel()
    area = (wy[:, None] * ws * depth[:, None]).ravel()
    K0 = (Fy * area) @ Fy.T + (Fs * (area / np.repeat(depth, s.size) ** 2)) @ Fs.T; mass = (F * area) @ F.T
    c = (np.cos(2 * np.pi * np.arange(P)[:, None] * y / H) * wy) @ Py.T
    into = lambda ends: np.einsum("pi,j->pij", c, ends).reshape(P, I * J)
    B = np.concatenate([-into((-1.0) ** np.arange(J)), into(np.ones(J))]); out = []
    for n in range(N):
        K = K0 + (n * np.pi / W) ** 2 * mass
        # n = 0: lifts the free constant of the potential; the flows balance, so the energy is unchanged
        if n == 0: K = K + np.outer(mass[0], mass[0]) * (np.trace(K0) / (I * J) / mass[0, 0] ** 2)
        out.append(B @ np.linalg.solve(K, B.T) * (1 if n == 0 else .5) / (W * H * H))
    return out


def plane_wave(W, N, S):
    """what the bore's one-dimensional flow adds, referred to the window's centre: -max(x, x')/S between flow at x and x'"""
    x = np.linspace(-W / 2, W / 2, 4001); h = x[1] - x[0]; f = np.cos(np.arange(N)[:, None] * np.pi * (x / W + .5))
    w = np.full(4001, h); w[[0, -1]] = h / 2
    run = lambda v: np.concatenate([np.zeros((N, 1)), np.cumsum((v[:, 1:] + v[:, :-1]) / 2 * h, 1)], 1) / W
    G = x * run(f); r = run(f * x); G = G + r[:, -1:] - r; K = -(f * w) @ G.T / W / S
    return (K + K.T) / 2


def inertance_lengths(a, t, W, H, off, levels=LEVELS):
    """l_w = inertance x S/rho, one value for each (N, P); extrapolate() gives the limit"""
    N, P = levels[-1]; Ro, S, d = a + t, np.pi * a * a, off + W / 2
    M = int(50 + 32 / np.arcsin(H / 2 / Ro))
    top = max(60, 4 * np.pi * N) / W; n = int(min(max(top * 2 * (off + W) / np.pi, 60), 300))
    q, w = gauss(np.r_[0, np.geomspace(1e-3 / a, .3 / a, 6)[:-1], np.linspace(.3 / a, top, n), top * np.geomspace(1, 12, 9)[1:]])
    m = np.arange(M + 1); eps = np.where(m == 0, 1, 2)[:, None]
    inner = eps / log_derivatives(q * a, M)[0]; inner[0] -= 2 / (q * a) ** 2
    outer = eps / log_derivatives(q * Ro, M)[1]
    gy, wy = legendre.leggauss(60 + M); y = gy * H / 2
    cy = np.cos(2 * np.pi * np.arange(P)[:, None] * y / H) * wy / 2
    V = lambda R: cy @ np.cos(np.arcsin(np.clip(y / R, -1, 1))[:, None] * m)
    across = lambda v, kernel: np.einsum("pm,rm,mq->prq", v, v, kernel, optimize=True)
    Ai, Ao = across(V(a), inner), across(V(Ro), outer)
    kn, ph = np.arange(N)[:, None] * np.pi / W, np.arange(N)[:, None] * np.pi / 2
    sinc = lambda x: np.sinc(x * W / 2 / np.pi)
    Cc = np.cos(ph) * .5 * (sinc(kn - q) + sinc(kn + q)); Cs = -np.sin(ph) * .5 * (sinc(kn - q) - sinc(kn + q))
    Ci = Cc * np.cos(q * d) - Cs * np.sin(q * d)                   # with the image behind the plug
    join = lambda c, A, f: np.einsum("nq,kq,prq,q->npkr", c, c, A, f * w / (2 * np.pi**2), optimize=True)
    Ri, Rr = join(Ci, Ai, 2), join(Cc, Ao, 1) + join(Cs, Ao, 1)
    Ri[:, 0, :, 0] += plane_wave(W, N, S)
    wall = slot(a, t, W, H, N, P); out = []
    for Nn, Pp in levels:
        r = Nn * Pp; Q = np.zeros((2 * r, 2 * r)); one = np.ones(2)
        Q[:r, :r] = Ri[:Nn, :Pp, :Nn, :Pp].reshape(r, r); Q[r:, r:] = Rr[:Nn, :Pp, :Nn, :Pp].reshape(r, r)
        for j in range(Nn):
            at = np.r_[j * Pp:(j + 1) * Pp, r + j * Pp:r + (j + 1) * Pp]; k = np.r_[0:Pp, P:P + Pp]
            Q[np.ix_(at, at)] += wall[j][np.ix_(k, k)]
        fixed, free = [0, r], [i for i in range(2 * r) if i not in (0, r)]
        v = Q[np.ix_(free, fixed)] @ one
        out.append((one @ Q[np.ix_(fixed, fixed)] @ one - v @ np.linalg.solve(Q[np.ix_(free, free)], v)) * S)
    return out


def extrapolate(lengths, levels=LEVELS):
    x, y = levels[0][0] ** -RATE, levels[-1][0] ** -RATE
    return lengths[-1] - (lengths[0] - lengths[-1]) / (x - y) * y


def sample(count):
    """W/a, H/2a, off/a, t/a"""
    u = qmc.Sobol(4, scramble=True, seed=78).random(2048)[:count]
    return np.stack([.13 * (1.9 / .13) ** u[:, 0], .15 + .82 * u[:, 1], np.maximum(0, (u[:, 2] - .2) / .8 * 1.4), .02 * (2.2 / .02) ** u[:, 3]], 1)


if __name__ == "__main__":
    path = os.path.join(os.path.dirname(os.path.abspath(__file__)), "window_theory.csv")
    with open(path, "w") as file:
        file.write("# made by window_theory.py from potential theory; lengths in bore radii\nw_over_a,h_over_2a,off_over_a,t_over_a,l_4x3_over_a,l_8x6_over_a\n")
        for w, h, o, ta in sample(int(sys.argv[1]) if len(sys.argv) > 1 else 1400):
            file.write(",".join("%.8g" % z for z in (w, h, o, ta, *inertance_lengths(1, ta, w, 2 * h, o))) + "\n")
