# tools/reference/sound_hole_fit.py -- derives the constants of the sound hole's inertance from potential theory and finite elements.
"""usage: python3 sound_hole_fit.py [folder with open.csv and more-windows.csv]      needs numpy and scipy only

Stage 1 (no measured or simulated data): end corrections of a uniform flow through a rectangular window in a cylinder,
Fourier-Bessel energy integrals, inside (with the mirror image behind the plug) and outside; polynomials are fitted to
them as ratios to the flat wall's closed form, so that small windows keep the exact limit.
Stage 2: one correction factor (the real flow is not uniform) and the plug stub's extra length, fitted to finite
elements of whole tubes. Lengths in metres, c = 345 m/s as in the tables, k = w/c, exp(+jwt).
"""
import csv, itertools, os, sys
import numpy as np
from scipy.special import kve
from scipy.stats import qmc

C_M_S = 345.0
GX, GW = np.polynomial.legendre.leggauss(8)


# ---- stage 1: potential theory ------------------------------------------------------------------------------------
def kernels(x, M):
    """I_m/(x I_m') (m = 0 without its plane-wave pole 2/x^2) and K_m/(-x K_m'), m = 0..M, by stable recurrences"""
    inner, outer = np.empty((M + 1, x.size)), np.empty((M + 1, x.size))
    q = x / (np.sqrt((M + 41.0) ** 2 + x * x) + M + 41.0)          # I_{m+1}/I_m, started far above M
    for m in range(M + 40, -1, -1):
        q = 1 / (2 * (m + 1) / x + q)
        if m <= M: inner[m] = 1 / (m + x * q)
    inner[0] -= 2 / x**2
    q = kve(1, x) / kve(0, x); outer[0] = 1 / (x * q); q = 1 / q   # K_{m-1}/K_m
    for m in range(1, M + 1):
        outer[m] = 1 / (m + x * q); q = 1 / (2 * m / x + q)
    return inner, outer


def end_corrections(a, t, W, H, off, M=60):
    """inside alone, inside's image at the plug, outside; flow along the hole's axis, uniform over W x chord H"""
    d = off + W / 2; top = 60 / W
    n = int(min(max(top * 4 * (d + W / 2) / np.pi, 40), 400))
    e = np.r_[0, np.geomspace(1e-3 / a, .3 / a, 6)[:-1], np.linspace(.3 / a, top, n), top * np.geomspace(1, 30, 12)[1:]]
    q = ((e[1:] + e[:-1])[:, None] / 2 + (e[1:] - e[:-1])[:, None] / 2 * GX).ravel()
    w = ((e[1:] - e[:-1])[:, None] / 2 * GW).ravel() * np.sinc(q * W / 2 / np.pi) ** 2 * W * H / (2 * np.pi**2)
    m = np.arange(M + 1.0); eps = np.where(m == 0, 1, 2)[:, None]
    def angular(R):
        p = np.arcsin(min(1, H / 2 / R))
        return eps * ((np.sinc((m + 1) * p / np.pi) + np.sinc((m - 1) * p / np.pi)) * p * R / H)[:, None] ** 2
    inside = (angular(a) * kernels(q * a, M)[0]).sum(0); outside = (angular(a + t) * kernels(q * (a + t), M)[1]).sum(0)
    return (w * inside).sum(), (w * inside * np.cos(2 * q * d)).sum(), (w * outside).sum()


def self_energy(s, H):
    """double integral of 1/distance over an s x H rectangle with itself"""
    s = np.maximum(s, 1e-12)
    return 2 * (s * s * H * np.arcsinh(H / s) + s * H * H * np.arcsinh(s / H)) + 2 / 3 * (s**3 + H**3 - (s * s + H * H) ** 1.5)


def flat(W, H): return self_energy(W, H) / (2 * np.pi * W * H)


def flat_image(W, H, off):
    d = 2 * off
    return (self_energy(d + 2 * W, H) - 2 * self_energy(d + W, H) + np.where(d > 0, self_energy(d, H), 0)) / (4 * np.pi * W * H)


def powers(variables, degree):
    ex = [p for p in itertools.product(range(degree + 1), repeat=len(variables)) if 0 < sum(p) <= degree]
    ex.sort(key=lambda p: (sum(p), [-k for k in p]))
    return ex, np.stack([np.prod([v**k for v, k in zip(variables, p)], 0) for p in ex], 1)


IMAGE_DECAY = 3.0


def theory_fit():
    u = qmc.Sobol(4, scramble=True, seed=5).random(1024)
    w = .2 * 9 ** u[:, 0]; h = .2 + .77 * u[:, 1]; o = np.maximum(0, (u[:, 2] - .25) / .75) * 1.1; ta = .03 + .72 * u[:, 3]
    E = np.array([end_corrections(1, *z) for z in zip(ta, w, 2 * h, o)]); total = E.sum(1)
    out = {}
    for name, y, base, var, deg in (("inside", E[:, 0], flat(w, 2 * h), (w, h), 3), ("outside", E[:, 2], flat(w, 2 * h), (w / (1 + ta), h / (1 + ta)), 3),
                                    ("image", E[:, 1], flat_image(w, 2 * h, o) * np.exp(-IMAGE_DECAY * o), (w, h, o), 2)):
        ex, A = powers(var, deg); g = base / total
        c, *_ = np.linalg.lstsq(A * g[:, None], (y / base - 1) * g, rcond=None)
        r = (A @ c - y / base + 1) * g
        out[name] = (ex, c); print("%-8s error relative to the whole end correction: rms %.5f max %.5f" % (name, np.sqrt(np.mean(r * r)), abs(r).max()))
        for p, v in zip(ex, c): print("   %s %+.4f" % (p, v))
    return out


def end_correction(theory, a, t, W, H, off):
    """the closed form that stands for end_corrections()"""
    w, h, o, wo, ho = W / a, H / 2 / a, off / a, W / (a + t), H / 2 / (a + t)
    ratio = lambda name, v: 1 + powers(v, max(sum(p) for p in theory[name][0]))[1] @ theory[name][1]
    return flat(W, H) * (ratio("inside", (w, h)) + ratio("outside", (wo, ho))) \
        + flat_image(W, H, off) * np.exp(-IMAGE_DECAY * o) * ratio("image", (w, h, o))


# ---- stage 2: what finite elements say ------------------------------------------------------------------------------
def foot_length(a, Ro, k):
    """open end of a thick wall, own fit to fem/axi_table.txt"""
    s = a / Ro; v = 1 - s; w = np.minimum(v, 2 / 3)
    return a * (.8216 - .2089 * s + s * (.0836 * v ** (2 / 3) + .2676 * v - .4331 * v ** (4 / 3) + .1537 * v * v)
                + (k * a) ** 2 * (-.1359 - .1149 * w + .9662 * w * w))


def reactance(k, g, l_w, stub):
    """Im Z of the loop through the window, unit flow out of it: foot behind a tube, plug stub, window <-> foot outside"""
    a, L = g["a"], g["L"]; S = np.pi * a * a
    zx = 1j * k * S * np.cos(k * L) / (4 * np.pi * L); zf = 1j * np.tan(k * foot_length(a, a + g["t"], k)) + k * k * S / (4 * np.pi)
    c, s, y = np.cos(k * L), np.sin(k * L), 1j * np.tan(k * stub)
    # p0, u0 = -1 - y p0 at the window; pL = c p0 - j s u0, uL = c u0 - j s p0; pL = zf uL + zx
    p0 = (-zf * c + zx - 1j * s) / (c + 1j * s * y + zf * (c * y + 1j * s)); u0 = -1 - y * p0
    return (1j * k * l_w + k * k * S / (4 * np.pi) - p0 + zx * (c * u0 - 1j * s * p0)).imag


def load(paths):
    """one row a resonance: what l_w each solved frequency asks for, how it moves with the stub, cents per relative l_w"""
    rows = []
    for path in paths:
        with open(path) as file:
            for r in csv.DictReader(line for line in file if not line.startswith("#")):
                if r["holes"]: continue
                g = {n: float(r[c]) * 1e-3 for n, c in (("t", "wall_mm"), ("W", "window_length_mm"), ("H", "window_width_mm"), ("off", "plug_offset_mm"), ("L", "foot_mm"))}
                g["a"] = float(r["bore_mm"]) / 2e3; base = g["off"] + g["W"] / 2
                for mode in (1, 2):
                    k = 2 * np.pi * float(r["f%d_hz" % mode]) / C_M_S
                    l = -reactance(k, g, 0, base) / k; e = 1e-6
                    slope = (reactance(k * (1 + e), g, l, base) - reactance(k * (1 - e), g, l, base)) / (2 * e)
                    rows.append(dict(g, name=r["name"], mode=mode, k=k, l=l, more=(-reactance(k, g, 0, base + 1e-5) / k - l) / 1e-5,
                                     cents=-k * l / slope * 1200 / np.log(2)))
    return {n: np.array([r[n] for r in rows]) for n in rows[0]}
