# tools/reference/widening_theory.py -- inertance of a steep change of bore, from potential flow alone.
"""A round tube of radius 1 opens over the length L = steepness * (a - 1) to radius a, in a straight cone. Potential flow
through it by axisymmetric finite elements (linear triangles, graded towards both corners) on three meshes, each half as
fine as the next; from them the limit. The energy bounds the conductance from above, so that each mesh is too low.
Excess: what the resistance to acceleration has beyond that of plane waves, L / (pi a) for the cone, as a length of the
small tube in units of its radius.

usage: python3 widening_theory.py > ../../tests/data/fem/widenings.csv     half a minute; needs numpy and scipy
       python3 widening_theory.py unseen > ../../tests/data/fem/widenings-unseen.csv     cones that nothing is fitted to
"""
import sys

import numpy as np
import scipy.sparse as sparse
from scipy.sparse.linalg import spsolve

MESHES = (32, 64, 128)


def graded(start, end, cells, fine_at_start, fine_at_end, power=2.5):
    u = np.linspace(0, 1, cells + 1)
    if fine_at_start and fine_at_end:
        u = np.where(u < .5, .5 * (2 * u) ** power, 1 - .5 * (2 * (1 - u)) ** power)
    else:
        u = u**power if fine_at_start else 1 - (1 - u) ** power
    return start + (end - start) * u


def excess(a, length, cells):
    before, after = 3.0, 3.0 * a  # the slowest mode has died to exp(-3.83 * 3) there
    z = np.concatenate([graded(-before, 0, cells, False, True), graded(0, length, cells, True, True)[1:],
                        graded(length, length + after, cells, True, False)[1:]])
    s = 1 - (1 - np.linspace(0, 1, cells + 1)) ** 2
    radius = np.interp(z, [0, length], [1, a])
    node = np.arange(z.size * s.size).reshape(z.size, s.size)
    A, B, C, D = node[:-1, :-1], node[1:, :-1], node[1:, 1:], node[:-1, 1:]
    triangles = np.concatenate([np.stack([p.ravel() for p in t], 1) for t in ((A, B, C), (A, C, D))])
    x = np.repeat(z, s.size)[triangles]
    y = (radius[:, None] * s).ravel()[triangles]
    dy = np.stack([y[:, 1] - y[:, 2], y[:, 2] - y[:, 0], y[:, 0] - y[:, 1]], 1)
    dx = np.stack([x[:, 2] - x[:, 1], x[:, 0] - x[:, 2], x[:, 1] - x[:, 0]], 1)
    area = abs(dy[:, 0] * dx[:, 1] - dy[:, 1] * dx[:, 0]) / 2
    weight = 2 * np.pi * y.mean(1) / (4 * area)
    local = (dy[:, :, None] * dy[:, None, :] + dx[:, :, None] * dx[:, None, :]) * weight[:, None, None]
    stiff = sparse.csr_matrix((local.ravel(), (np.repeat(triangles, 3, 1).ravel(), np.tile(triangles, (1, 3)).ravel())))
    phi = np.zeros(node.size)
    phi[node[-1]] = 1
    free = np.ones(node.size, bool)
    free[node[0]] = free[node[-1]] = False
    phi[free] = spsolve(stiff[free][:, free].tocsc(), -(stiff @ phi)[free])
    plane = before + length / a + after / a**2
    return np.pi / (phi @ (stiff @ phi)) - plane


def limit(values):
    first, last = values[1] - values[0], values[2] - values[1]
    return values[2] + last * last / (first - last)


SEEN = (.5, .6, .7, .8, .9, .95), (.1, .25, .5, 1, 2, 4, 8)
UNSEEN = (.53, .65, .75, .85, .93), (.15, .35, .7, 1.4, 2.8, 5.6)

print("ratio,steepness,excess,error")
RATIOS, STEEPNESSES = UNSEEN if sys.argv[1:] == ["unseen"] else SEEN
for ratio in RATIOS:
    for steepness in STEEPNESSES:
        a = 1 / ratio
        found = [excess(a, steepness * (a - 1), cells) for cells in MESHES]
        print("%.2f,%.2f,%.5f,%.5f" % (ratio, steepness, limit(found), limit(found) - found[-1]))
