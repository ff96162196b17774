# tools/reference/hole_theory.py -- a finger hole's series length, oval holes and flared ones, from potential theory alone.
"""series   t_a / (b g^2), g -> 0: plane flow past a round hole in a wall of thickness t, open or shut at its end. Modes
         J1(k r) cos(phi) in the hole joined to half spaces by their Hankel transform (thin and open: Bethe's -4/(3 pi)).
oval     ends: energy of a uniform flow through an oval on a cylinder of radius 2 (b/a = 0.5), inside and outside, over
         that of the round hole of equal area (Fourier-Bessel; hole's rim y = b sin, z = a cos on the unrolled chord).
         t_a: polarisability of an ellipse in a thin wall, exact (elliptic integrals).
flare    a hole of radius 1 outside and b inside through a wall of 1, half spaces on both sides; axisymmetric linear
         triangles, oblate coordinates outside; two meshes and their limit. What cone and flat ends alone fall short by.

usage: python3 hole_theory.py       a minute; needs numpy and scipy
"""
import numpy as np
import scipy.sparse as sparse
from scipy.sparse.linalg import spsolve
from scipy.special import ellipe, ellipk, j1, jnp_zeros, jvp

from window_theory import log_derivatives


def series(t, is_open, modes=40):
    k = jnp_zeros(1, modes)
    gauss, weight = np.polynomial.legendre.leggauss(16)
    edges = np.arange(0, 3000, 2.0)
    q = (edges[:, None] + 1 + gauss).ravel(); w = np.tile(weight, edges.size)
    V = q * jvp(1, q) * j1(k)[:, None] / (k[:, None] ** 2 - q * q)
    K = (V * w) @ V.T
    N, R = .5 * (1 - 1 / k**2) * j1(k) ** 2, j1(k) / k**2
    if not is_open:
        return -R @ np.linalg.solve(K + np.diag(N / (k * np.tanh(k * t))), R)
    far, across = np.diag(N / (k * np.tanh(k * t))), np.diag(N / (k * np.sinh(np.minimum(k * t, 300))))
    both = np.block([[K + far, -across], [-across, K + far]])
    return -R @ np.linalg.solve(both, np.append(R, 0 * R))[: modes]


def oval_series(aspect):
    """of flow along the first axis; aspect first over second, equal areas"""
    a, b = np.sqrt(max(aspect, 1 / aspect)), np.sqrt(min(aspect, 1 / aspect))
    e2 = 1 - (b / a) ** 2; K, E = ellipk(e2), ellipe(e2)
    long = a**3 * e2 / (K - E); short = a**3 * e2 * (1 - e2) / (E - (1 - e2) * K)
    return np.pi / 4 * (long if aspect > 1 else short)


def ends(aspect, R=2.0, orders=120):
    """inner plus outer energy of a uniform flow through an oval, z half axis sqrt(aspect), chord half axis 1/sqrt(aspect)"""
    a, b = np.sqrt(aspect), 1 / np.sqrt(aspect)
    gauss, weight = np.polynomial.legendre.leggauss(200)
    angle = .5 * np.pi * gauss                       # y = b sin(angle), no square root at the rim
    phi = np.arcsin(b * np.sin(angle) / R)
    area = .5 * np.pi * weight * b * np.cos(angle)   # d y: the flow is uniform along the drill
    half = a * np.cos(angle)
    edges = np.concatenate([np.geomspace(1e-4, 1, 25), np.arange(1.5, 80, .5)])
    g, w = np.polynomial.legendre.leggauss(8)
    q = (.5 * (edges[1:] + edges[:-1])[:, None] + .5 * np.diff(edges)[:, None] * g).ravel()
    dq = (.5 * np.diff(edges)[:, None] * w).ravel()
    strips = 2 * np.sin(np.outer(q, half)) / q[:, None] * area
    A, B = log_derivatives(q * R, orders)
    S = strips.sum(1); total = (2 * half * area).sum()
    energy = np.zeros_like(q)
    for m in range(orders + 1):
        U = strips @ np.cos(m * phi)
        inner = 1 / A[m] - (2 / (q * R) ** 2 if m == 0 else 0)
        energy += (1 if m == 0 else 2) * U**2 * (inner + 1 / B[m])
    z = np.linspace(-a, a, 801)                       # the plane wave's kink: double integral of |z - z'| / 2
    width = 2 * b * np.sqrt(np.maximum(0, 1 - (z / a) ** 2))
    weight_z = np.full(z.size, z[1] - z[0]); weight_z[[0, -1]] *= .5
    kink = (width * weight_z) @ np.abs(z[:, None] - z) @ (width * weight_z)
    return (energy @ dq) / (2 * np.pi**2 * total) - kink / (2 * np.pi * R**2 * total)


def flare(inner, cells):
    """inertance length on the outer area of a conical hole with half spaces at both ends"""
    s = 1 - (1 - np.linspace(0, 1, cells + 1)) ** 2.5
    xi = np.sqrt(1 - s * s)
    far = np.concatenate([[0], np.geomspace(2e-3 / cells, 60, 3 * cells)])
    u = np.linspace(0, 1, 2 * cells + 1); z = np.where(u < .5, .5 * (2 * u) ** 2.5, 1 - .5 * (2 * (1 - u)) ** 2.5)
    outside = lambda b, way, at: (at + way * b * np.outer(far, xi), b * np.outer(np.sqrt(1 + far**2), s))
    X0, Y0 = outside(inner, -1, 0); X2, Y2 = outside(1, 1, 1)
    X = np.concatenate([X0[::-1], np.outer(z[1:-1], np.ones_like(s)), X2])
    Y = np.concatenate([Y0[::-1], np.outer(inner + (1 - inner) * z[1:-1], s), Y2])
    node = np.arange(X.size).reshape(X.shape)
    A, B, C, D = node[:-1, :-1], node[1:, :-1], node[1:, 1:], node[:-1, 1:]
    tri = np.concatenate([np.stack([p.ravel() for p in t], 1) for t in ((A, B, C), (A, C, D))])
    x, y = X.ravel()[tri], Y.ravel()[tri]
    dy = np.stack([y[:, 1] - y[:, 2], y[:, 2] - y[:, 0], y[:, 0] - y[:, 1]], 1)
    dx = np.stack([x[:, 2] - x[:, 1], x[:, 0] - x[:, 2], x[:, 1] - x[:, 0]], 1)
    area = abs(dy[:, 0] * dx[:, 1] - dy[:, 1] * dx[:, 0]) / 2
    full = area > 1e-15                              # at a rim three corners lie in one line
    tri, x, y, dx, dy, area = tri[full], x[full], y[full], dx[full], dy[full], area[full]
    local = (dy[:, :, None] * dy[:, None, :] + dx[:, :, None] * dx[:, None, :]) * (2 * np.pi * y.mean(1) / (4 * area))[:, None, None]
    stiff = sparse.csr_matrix((local.ravel(), (np.repeat(tri, 3, 1).ravel(), np.tile(tri, (1, 3)).ravel())))
    phi = np.zeros(node.size); phi[node[-1]] = 1
    free = np.ones(node.size, bool); free[node[0]] = free[node[-1]] = False
    phi[free] = spsolve(stiff[free][:, free].tocsc(), -(stiff @ phi)[free])
    beyond = (np.pi / 2 - np.arctan(60)) / (2 * np.pi) * (1 + 1 / inner)    # outside the last spheroids
    return np.pi * (1 / (phi @ (stiff @ phi)) + beyond)


if __name__ == "__main__":
    print("t/b   t_a / (b g^2): shut  core     open  core")
    for t in (.1, .25, .5, 1, 2):
        print("%.2f   %.4f  %.4f   %.4f  %.4f" % (t, series(t, False), -.301 * (1 - np.exp(-3.35 * t)), series(t, True), -.301 - .1234 * np.exp(-4.7 * t)))
    round_hole = ends(1.0)
    for aspect in (1.5, 2, 1 / 1.5, .5):
        print("oval %.3f: ends %.4f, core %.4f; t_a %.4f, core %.4f" % (aspect, ends(aspect) / round_hole, 1 - .09 * np.log(aspect) ** 2, oval_series(aspect), aspect**.75))
    for inner in (1.25, 1.5, 2.0):
        coarse, fine = flare(inner, 24), flare(inner, 48)
        whole = fine + (fine - coarse) / 1.7
        alone = .8216 / inner + 1 / inner + .8216
        core = alone + .35 * (inner - 1) * (1 - 1 / inner)
        print("flare to %.2f: whole %.4f (meshes %.4f %.4f), cone and ends alone %.1f %% short, core %+.1f %%" % (inner, whole, coarse, fine, 100 * (1 - alone / whole), 100 * (core / whole - 1)))
    print("straight, a check: %.4f, known %.4f" % (flare(1.0, 48), 1 + 2 * .8216))
