#!/usr/bin/env python3
# tools/reference/track_entrance.py -- laminar flow entering a plane channel, for a model and a test.
"""Laminar flow entering a plane channel: what pressure it takes and how fast its centre runs.

Boundary-layer equations in half the channel, uniform at the inlet, marched downstream implicitly;
the pressure follows from the flow that must pass (two tridiagonal solutions a step). Nothing is
fitted. Prints, against x+ = l / (4 h Re_h), Re_h = Um h / nu:
    drop    pressure drop over rho Um^2 / 2
    K       the same less the developed friction 96 x+
    centre  centre speed over Um
Used by core/jet/track (correlation of Shah, and the centre speed) and its test.
"""


def tridiagonal(low, mid, up, right):
    n = len(mid)
    c, d = [0.0] * n, [0.0] * n
    c[0], d[0] = up[0] / mid[0], right[0] / mid[0]
    for i in range(1, n):
        m = mid[i] - low[i] * c[i - 1]
        c[i], d[i] = up[i] / m, (right[i] - low[i] * d[i - 1]) / m
    for i in range(n - 2, -1, -1):
        d[i] -= c[i] * d[i + 1]
    return d


def march(points=240, first=2e-8, growth=1.012, until=0.06):
    # X = x / (h Re_h); y from the wall (0) to the centre (1/2), narrow at the wall
    y = [0.5 * (i / points) ** 2 for i in range(points + 1)]
    u = [0.0] + [1.0] * points
    v = [0.0] * (points + 1)
    weight = [0.0] * (points + 1)
    for i in range(points):
        weight[i] += 0.5 * (y[i + 1] - y[i])
        weight[i + 1] += 0.5 * (y[i + 1] - y[i])
    x, step, pressure = 0.0, first, 0.0
    rows = []
    while x < until:
        for _ in range(3):  # v and the convecting u are iterated
            old = u if _ == 0 else old
            near = u
            low, mid, up = [0.0] * points, [0.0] * points, [0.0] * points
            right, force = [0.0] * points, [1.0] * points
            for i in range(1, points + 1):
                k = i - 1
                if i < points:
                    a, b = y[i] - y[i - 1], y[i + 1] - y[i]
                    dl, du = 2.0 / (a * (a + b)), 2.0 / (b * (a + b))
                    cl, cu = -b / (a * (a + b)), a / (b * (a + b))
                else:  # symmetric at the centre
                    a = y[i] - y[i - 1]
                    dl, du, cl, cu = 2.0 / (a * a), 0.0, 0.0, 0.0
                cm = -(cl + cu)
                low[k] = v[i] * cl - dl
                up[k] = v[i] * cu - du
                mid[k] = near[i] / step + v[i] * cm + dl + (2.0 / (a * a) - dl if i == points else du)
                right[k] = near[i] * old[i] / step
            one = [0.0] + tridiagonal(low, mid, up, right)
            other = [0.0] + tridiagonal(low, mid, up, force)
            flow = sum(w * q for w, q in zip(weight, one))
            slope = (0.5 - flow) / sum(w * q for w, q in zip(weight, other))
            u = [p + slope * q for p, q in zip(one, other)]
            v = [0.0] * (points + 1)
            for i in range(1, points + 1):
                v[i] = v[i - 1] - 0.5 * (y[i] - y[i - 1]) * (u[i] + u[i - 1] - old[i] - old[i - 1]) / step
        x += step
        pressure += slope * step
        step *= growth
        rows.append((x / 4.0, 2.0 * pressure, u[-1]))
    return rows


def shah(x):
    t = 13.76 * x**0.5
    return t + (96.0 * x + 0.674 - t) / (1.0 + 0.000029 / (x * x))


if __name__ == "__main__":
    rows = march()
    print("x+        drop     K       centre  shah    Bernoulli centre")
    for want in (1e-5, 3e-5, 1e-4, 3e-4, 1e-3, 2e-3, 4e-3, 5e-3, 6e-3, 8e-3, 0.011, 0.0140):
        x, drop, centre = min(rows, key=lambda r: abs(r[0] - want))
        print(f"{x:.3e} {drop:8.4f} {drop - 96 * x:7.4f} {centre:7.4f} {shah(x):7.4f}"
              f" {min(1.5, (1 + drop) ** 0.5):7.4f}")
