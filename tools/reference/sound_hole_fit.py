# tools/reference/sound_hole_fit.py -- derives every constant of the sound hole's closed form and prints its residuals.
"""usage: python3 sound_hole_fit.py [folder of open.csv and more-windows.csv]       needs numpy and scipy

Stage 1: a polynomial for the end correction, fitted to potential theory (window_theory.csv), not to any simulated tube.
Stage 2: two constants for what changes with frequency, fitted to finite elements of whole tubes (window rows only).
Lengths in metres, c = 345 m/s as in the tables, k = w/c, exp(+jwt), impedances in units of rho c/S.
    T      = mean wall seen along the hole's axis
    E      = [2 D_flat + D_image exp(-3 off/a)] x polynomial(ln(W/a), asin(H/2a), exp(-4 off/a), t/(t + 0.4 a))
    l_w    = S/(W H) (T + E) - W/6                       at the window's centre, k -> 0
    z_w    = j k l_w [1 + C1 (k W)^2] + k^2 S/(4 pi);    closed stub behind the centre: off + W/2 + C2 W H t/S
"""
import csv, itertools, os, sys
import numpy as np
import window_theory

C_M_S = 345.0
DEGREE, TERMS = 5, 80
HERE = os.path.dirname(os.path.abspath(__file__))


# ---- closed form ----------------------------------------------------------------------------------------------------
def distance_integral(s, H):
    """double integral of 1/distance over an s x H rectangle with itself"""
    s = np.maximum(s, 1e-12)
    return 2 * (s * s * H * np.arcsinh(H / s) + s * H * H * np.arcsinh(s / H)) + 2 / 3 * (s**3 + H**3 - (s * s + H * H) ** 1.5)


def flat_wall(a, W, H, off):
    """2 D_flat + D_image exp(-3 off/a): the same window in a flat wall, and its mirror image behind the plug"""
    d = 2 * off
    image = distance_integral(d + 2 * W, H) - 2 * distance_integral(d + W, H) + np.where(d > 0, distance_integral(d, H), 0)
    return (2 * distance_integral(W, H) + image * np.exp(-3 * off / a) / 2) / (2 * np.pi * W * H)


def wall_length(a, t, H):
    F = lambda R: H / 2 * np.sqrt(R * R - H * H / 4) + R * R * np.arcsin(H / 2 / R)
    return (F(a + t) - F(a)) / H


def variables(a, t, W, H, off): return np.log(W / a), np.arcsin(H / 2 / a), np.exp(-4 * off / a), t / (t + .4 * a)


def monomials(exponents, v): return np.stack([np.prod([x**p for x, p in zip(v, e)], 0) * np.ones_like(v[0]) for e in exponents], 1)


def inertance_length(poly, a, t, W, H, off):
    E = flat_wall(a, W, H, off) * (monomials(poly[0], variables(a, t, W, H, off)) @ poly[1])
    return np.pi * a * a / (W * H) * (wall_length(a, t, H) + E) - W / 6


# ---- stage 1 --------------------------------------------------------------------------------------------------------
def theory():
    rows = np.loadtxt(os.path.join(HERE, "window_theory.csv"), delimiter=",", skiprows=2)
    l = np.array([window_theory.extrapolate(r[4:]) for r in rows])
    return rows[:, 0], 2 * rows[:, 1], rows[:, 2], rows[:, 3], l


def fit_polynomial():
    W, H, off, t, l = theory(); a = 1.0
    base = flat_wall(a, W, H, off); y = ((l + W / 6) * W * H / np.pi - wall_length(a, t, H)) / base
    # cents of a tube of acoustic length 25 a (ka about 0.13), the window's share on top
    weight = 1200 / np.log(2) / (25 + l) * np.pi / (W * H) * base
    exps = [e for e in itertools.product(range(DEGREE + 1), repeat=4) if sum(e) <= DEGREE]
    exps.sort(key=lambda e: (sum(e), [-p for p in e])); v = variables(a, t, W, H, off)
    solve = lambda A, rows: np.linalg.lstsq(A[rows] * weight[rows, None], (y * weight)[rows], rcond=None)[0]
    every = np.arange(len(y))
    while len(exps) > TERMS:                                           # drops the term that costs least
        A = monomials(exps, v) * weight[:, None]; scale = np.linalg.norm(A, axis=0); R = np.linalg.qr(A / scale, mode="r")
        inverse = np.linalg.inv(R); c = solve(A / weight[:, None], every) * scale
        del exps[int(np.argmin(c**2 / (inverse**2).sum(1)))]
    A = monomials(exps, v); c = np.round(solve(A, every), 5); fold = np.random.default_rng(0).integers(0, 10, len(y))
    cv = np.zeros(len(y))
    for j in range(10): cv[fold == j] = ((A @ solve(A, fold != j) - y) * weight)[fold == j]
    usual = (W > .25) & (W < 1.6) & (H > .5) & (H < 1.9) & (t < .8)
    report("closed form - theory, cents of a tube 25 a long, fitted", (A @ c - y) * weight); report("   10-fold cross-validated", cv)
    report("   of these W/a 0.25-1.6, H/2a 0.25-0.95, t/a < 0.8", cv[usual])
    return exps, c


# ---- stage 2 --------------------------------------------------------------------------------------------------------
def foot_length(a, Ro, k):
    """open end of a thick wall, own fit to fem/axi_table.txt"""
    s = a / Ro; v = 1 - s; w = np.minimum(v, 2 / 3)
    return a * (.8216 - .2089 * s + s * (.0836 * v ** (2 / 3) + .2676 * v - .4331 * v ** (4 / 3) + .1537 * v * v)
                + (k * a) ** 2 * (-.1455 - .0933 * w + .9662 * w * w))


def reactance(k, g, l_w, stub):
    """Im Z of the loop through the window, unit flow out of it: foot behind a tube, plug stub, window <-> foot outside"""
    a, L = g["a"], g["L"]; S = np.pi * a * a
    d = np.hypot(L + .6 * a, a + g["t"])                               # from the window to the foot's acoustic centre
    zx = 1j * k * S * np.cos(k * d) / (4 * np.pi * d); zf = 1j * np.tan(k * foot_length(a, a + g["t"], k)) + k * k * S / (4 * np.pi)
    c, s, y = np.cos(k * L), np.sin(k * L), 1j * np.tan(k * stub)
    # p0, u0 = -1 - y p0 at the window; pL = c p0 - j s u0, uL = c u0 - j s p0; pL = zf uL + zx
    p0 = (-zf * c + zx - 1j * s) / (c + 1j * s * y + zf * (c * y + 1j * s)); u0 = -1 - y * p0
    return (1j * k * l_w + k * k * S / (4 * np.pi) - p0 + zx * (c * u0 - 1j * s * p0)).imag


def load(path):
    """two rows a tube: the l_w each solved frequency asks for, its change with the stub, cents per relative l_w"""
    rows = []
    for r in csv.DictReader(line for line in open(path) if not line.startswith("#")):
        if r["holes"]: continue
        g = {n: float(r[c]) * 1e-3 for n, c in (("t", "wall_mm"), ("W", "window_length_mm"), ("H", "window_width_mm"), ("off", "plug_offset_mm"), ("L", "foot_mm"))}
        g["a"] = float(r["bore_mm"]) / 2e3; base = g["off"] + g["W"] / 2
        for mode in (1, 2):
            k = 2 * np.pi * float(r["f%d_hz" % mode]) / C_M_S; l = -reactance(k, g, 0, base) / k; e = 1e-6
            slope = (reactance(k * (1 + e), g, l, base) - reactance(k * (1 - e), g, l, base)) / (2 * e)
            rows.append(dict(g, name=r["name"], mode=mode, k=k, l=l, per_stub=(-reactance(k, g, 0, base + 1e-5) / k - l) / 1e-5,
                             cents=-k * l / slope * 1200 / np.log(2)))
    return {n: np.array([r[n] for r in rows]) for n in rows[0]}


def geometry(d): return d["a"], d["t"], d["W"], d["H"], d["off"]


def fit_frequency(poly, d, rows):
    """C1, C2 by least squares in cents; and what is left, in cents, of every row"""
    l = inertance_length(poly, *geometry(d)); S = np.pi * d["a"] ** 2; g = d["cents"] / d["l"]
    A = np.stack([l * (d["k"] * d["W"]) ** 2, -d["per_stub"] * d["W"] * d["H"] * d["t"] / S], 1)
    c = np.linalg.lstsq(A[rows] * g[rows, None], ((d["l"] - l) * g)[rows], rcond=None)[0]
    return c, lambda c: (A @ c + l - d["l"]) * g


def report(what, e):
    e = np.abs(e); print("%-58s n %4d  median %.2f  rms %.2f  95%% %.2f  max %.2f" % (what, e.size, np.median(e), np.sqrt(np.mean(e * e)), np.quantile(e, .95), e.max()))


def inside_5_2b(d):
    """the range of the older empirical fit"""
    a = d["a"]; x = [(d["t"] / a, .14, .62), (d["W"] / a, .36, 1.5), (d["H"] / 2 / a, .35, .77), (d["off"] / a, -1, .77)]
    return np.all([(v > lo) & (v < hi) for v, lo, hi in x], 0)


if __name__ == "__main__":
    folder = sys.argv[1] if len(sys.argv) > 1 else os.path.join(HERE, "..", "..", "tests", "data", "fem")
    poly = fit_polynomial()
    for e, v in zip(*poly): print("    {%d, %d, %d, %d, %+.5f}," % (*e, v))
    old, new = (load(os.path.join(folder, n)) for n in ("open.csv", "more-windows.csv"))
    both = {n: np.concatenate([old[n], new[n]]) for n in old}; names = np.unique(both["name"]); every = np.arange(len(both["l"]))
    c, left = fit_frequency(poly, both, every); c = np.round(c, 3); print("C1 = %.3f, C2 = %.3f (all tubes)" % tuple(c)); e = left(c)
    c_old = fit_frequency(poly, both, every < len(old["l"]))[0]; print("C1 = %.3f, C2 = %.3f (older tubes alone)" % tuple(c_old))
    cv = np.zeros(len(e)); fold = {n: i % 10 for i, n in enumerate(np.random.default_rng(1).permutation(names))}; fold = np.array([fold[n] for n in both["name"]])
    for j in range(10): cv[fold == j] = left(fit_frequency(poly, both, fold != j)[0])[fold == j]
    is_new = every >= len(old["l"]); inr = inside_5_2b(both)
    for mode in (1, 2):
        m = both["mode"] == mode
        print("-- f%d, cents, closed form with the constants above minus finite elements" % mode)
        for what, rows in (("all", m), ("older tubes", m & ~is_new), ("newer tubes", m & is_new), ("inside the range of 5.2b", m & inr), ("outside", m & ~inr)):
            report(what, e[rows]); report("   10-fold cross-validated", cv[rows])
        report("newer tubes, C1 and C2 from the older ones", left(c_old)[m & is_new])
        for i in np.argsort(-np.abs(e) * m)[:4]: print("      worst: %s %+.2f" % (both["name"][i], e[i]))
