# tools/reference/voice_fit.py -- derives every constant of a sound hole as it is cut and prints its residuals.
"""usage: python3 voice_fit.py [terms]              needs numpy and scipy; writes core/element/voice_terms.hpp

Fitted to potential theory alone (voice_theory.csv), but for every eighth shape, which is kept for the virtual makers' truth
(tools/virtual_makers/voices.inc); shapes outside what makers cut (CUT) count less the farther they are; whole tubes by finite elements (tests/data/fem/voices.csv), none of which
is in the fit, say what it is worth. Lengths in mm there, in any one unit here. With the bare opening's T + E (sound_hole_fit.py)
    change of T + E = sum over four parts of base x (polynomial of degree 2, or 1, in the part's variables)
    ramp     -(t - e) [1 - ln(1 + r/W) W/r] t/(t + 0.4 W)       a slot that widens by the ramp's slope, as a horn
    block    mirror image of the opening in the block's front   x h/(h + sqrt(W H)/2), its height
    over     how far the block reaches over the opening
    walls    W ln(1 + s), s = height of the side walls above the tube's surface beside the opening, over W
"""
import csv, itertools, os, sys
import numpy as np
from sound_hole_fit import HERE, distance_integral, fit_polynomial, flat_wall, inertance_length, load, reactance, report, wall_length, C_M_S

MESH = 1.0023      # of the theory's single mesh: what bare openings (Z0..Z5) miss of the closed form, which has the limit
TUBE = 40.0        # residuals are cents of a tube so many bore radii long (acoustically, the opening's share on top)
DEGREE = {"ramp": 2, "block": 2, "over": 1, "walls": 2}
VARIABLES = {"ramp": 5, "block": 7, "over": 4, "walls": 9}
C1, C2 = .229, .292
# Held beyond these: ratios to the opening's length, but for the edge (of the wall).
HELD = {"ramp": (.5, 6), "edge": (.03, .9), "height": (.4, 4), "walls": (.06, 2.5), "wide": (.35, 5.5), "to_bore": (.3, 1.5), "wall": (.055, 2.6)}

# What makers cut, as fem/design_voice.py has it: the same ratios, the width's to the bore's diameter.
CUT = {"to_bore": (.4, 1.2), "width": (.3, .8), "wall_to_bore": (.12, .6), "ramp": (1, 4.5), "edge": (.06, .7), "height": (.8, 3), "walls": (.15, 1.4), "thickness": (.2, .8), "along": (.5, 2)}


def counts(d):
    """how much a shape counts: 1 / (1 + D), D its way out of CUT, the logarithms of all ratios together"""
    out = lambda name, x, there=True: np.where(there, np.maximum(0, np.maximum(np.log(CUT[name][0] / np.maximum(x, 1e-9)), np.log(np.maximum(x, 1e-9) / CUT[name][1]))), 0)
    a, t, W, H = d["a"], d["t"], d["W"], d["H"]; ramp, block, walls = d["ramp"] > 0, d["block"] > 0, d["wings"] > 0
    way = out("to_bore", W / a) + out("width", H / a / 2) + out("wall_to_bore", t / a) + out("ramp", d["ramp"] / W, ramp) + .5 * out("edge", d["edge"] / t, ramp)
    way += out("height", d["block"] / W, block) + out("walls", d["wings"] / W, walls) + out("thickness", d["wing_width"] / W, walls) + out("along", d["wing_length"] / W, walls)
    return 1 / (1 + way)


def parts(d):
    """[(name, base, variables)] of shapes given as a dictionary of arrays"""
    a, t, W, H, r, hb, bw, front, hw, tw, lw = (d[k] for k in "a t W H ramp block block_width front wings wing_width wing_length".split())
    on, e = r > 0, np.where(r > 0, np.minimum(d["edge"], t), t)
    q = r / W; safe = np.where(on, q, 1)
    tau = np.clip(t / W, *HELD["wall"]); tau = tau / (tau + .4)
    lnH, lnW = np.log(np.clip(H / W, *HELD["wide"])), np.log(np.clip(W / a, *HELD["to_bore"]))
    horn = np.where(on, 1 - np.log1p(q) / safe, 0)
    cut = np.where(on, (1 - e / t) * q / (1 + q), 0)
    back, over = np.maximum(front, 0), np.maximum(-front, 0) * (hb > 0)
    image = (distance_integral(2 * back + 2 * W, H) - 2 * distance_integral(2 * back + W, H)
             + np.where(back > 0, distance_integral(2 * back, H), 0)) / (2 * np.pi * W * H)
    high = hb / (hb + .5 * np.sqrt(W * H))
    sag = a + t - np.sqrt((a + t) ** 2 - H * H / 4)
    s = np.where(hw > 0, (hw + sag) / W, 0)
    return [("ramp", -(t - e) * horn * tau, [np.log(np.clip(safe, *HELD["ramp"])), np.clip(e / t, *HELD["edge"]), tau, lnH, lnW]),
            ("block", image * high, [high, bw / (bw + H), tau, lnH, lnW, cut, back / W]),
            ("over", over, [over / W, tau, lnH, cut]),
            ("walls", W * np.log1p(s), [s / (1 + s), tau, lnH, lnW, cut, lw / (lw + W), tw / (tw + .5 * W), high, front / W])]


def columns(d):
    """every candidate term: [(part, i, j)], 0 standing for 1, and its values"""
    names, values = [], []
    for part, base, v in parts(d):
        v = [np.ones_like(base)] + v
        for i, j in itertools.combinations_with_replacement(range(len(v)), 2):
            if DEGREE[part] == 1 and i > 0: continue
            names.append((part, i, j)); values.append(base * v[i] * v[j])
    return names, np.stack(values, 1)


def eliminate(A, y, terms):
    """drops the term that costs least, until so many are left"""
    keep = list(range(A.shape[1])); scale = np.linalg.norm(A, axis=0) + 1e-300; A = A / scale; G, b = A.T @ A, A.T @ y
    while True:
        inverse = np.linalg.inv(G[np.ix_(keep, keep)] + 1e-8 * np.eye(len(keep))); c = inverse @ b[keep]
        if len(keep) <= terms: return keep, c / scale[keep]
        keep.pop(int(np.argmin(c**2 / np.diag(inverse))))


def solve(A, y):
    scale = np.linalg.norm(A, axis=0) + 1e-300; A = A / scale
    return np.linalg.solve(A.T @ A + 1e-8 * np.eye(A.shape[1]), A.T @ y) / scale


def table(rows):
    d = {k: np.array([float(r[k] or 0) for r in rows]) for k in "d t w b off ramp edge block block_width front wings wing_width wing_length l_mm".split()}
    d["a"], d["W"], d["H"] = d.pop("d") / 2, d.pop("w"), d.pop("b"); d["wing_length"] = np.where(d["wing_length"] > 0, d["wing_length"], d["W"])
    return d


def theory():
    return [r for r in csv.DictReader(l for l in open(os.path.join(HERE, "voice_theory.csv")) if l[0] != "#")]


def bare(poly, d): return inertance_length(poly, d["a"], d["t"], d["W"], d["H"], d["off"])


def whole_tubes(path, poly, keep, c):
    """cents by which the first two resonances of tubes solved whole lie above the closed form's"""
    errors = []
    for r in csv.DictReader(l for l in open(path) if l[0] != "#"):
        voice = {k: float(v) for k, v in (kv.split(":") for kv in r["voice"].split(";"))}
        if "flat" in voice: continue
        row = dict(d=r["bore_mm"], t=r["wall_mm"], w=r["window_length_mm"], b=r["window_width_mm"], off=r["plug_offset_mm"], l_mm=0,
                   **{k: voice.get(k, 0) for k in "ramp edge block block_width front wings wing_width wing_length".split()})
        d = table([row]); g = {k: d[k][0] * 1e-3 for k in ("a", "t", "W", "H", "off")}; g["L"] = float(r["foot_mm"]) * 1e-3
        S = np.pi * g["a"] ** 2; l0 = bare(poly, d)[0] * 1e-3; l = l0 + (columns(d)[1][:, keep] @ c)[0] * 1e-3 * S / (g["W"] * g["H"])
        both = []
        for mode in (1, 2):
            k = 2 * np.pi * float(r["f%d_hz" % mode]) / C_M_S; stub = g["off"] + g["W"] / 2 + C2 * g["W"] * g["H"] * g["t"] / S; eps = 1e-6
            true = -reactance(k, g, 0, stub) / k; slope = (reactance(k * (1 + eps), g, true, stub) - reactance(k * (1 - eps), g, true, stub)) / (2 * eps)
            per = -k * true / slope * 1200 / np.log(2)
            both += [per * (true / (v * (1 + C1 * (k * g["W"]) ** 2)) - 1) for v in (l0, l)]
        errors.append((r["name"], *both))
    return errors


if __name__ == "__main__":
    terms = int(sys.argv[1]) if len(sys.argv) > 1 else 80
    poly = fit_polynomial(); rows = theory(); d = table(rows); l = bare(poly, d); S = np.pi * d["a"] ** 2
    plain = (d["ramp"] == 0) & (d["block"] == 0)
    print("bare openings, closed form over one mesh:", np.round(l[plain] / d["l_mm"][plain], 5))
    kept = np.array([int(r["name"][1:]) % 8 == 0 for r in rows]) & ~plain; made = ~plain & ~kept; every = d, l, S
    d, l, S = {k: v[made] for k, v in d.items()}, l[made], S[made]
    y = (d["l_mm"] * MESH - l) * d["W"] * d["H"] / S
    weight = 1200 / np.log(2) / (TUBE * d["a"] + l) * S / (d["W"] * d["H"])
    fitted = weight * counts(d)
    names, A = columns(d); keep, c = eliminate(A * fitted[:, None], y * fitted, terms); c = np.round(c, 4)
    A = A[:, keep]; fold = np.random.default_rng(0).integers(0, 10, len(y)); cv = np.zeros(len(y))
    for j in range(10): cv[fold == j] = (A[fold == j] @ solve(A[fold != j] * fitted[fold != j, None], (y * fitted)[fold != j]) - y[fold == j]) * weight[fold == j]
    report("a bare opening instead, cents of a tube 40 a long", y * weight); report("closed form - theory, fitted", (A @ c - y) * weight); report("   10-fold cross-validated", cv)
    for what, m in (("ramp alone", d["block"] == 0), ("block, no side walls", (d["block"] > 0) & (d["wings"] == 0) & (d["front"] >= 0)), ("side walls", (d["wings"] > 0) & (d["front"] >= 0)), ("block over the opening", d["front"] < 0), ("as makers cut them", counts(d) == 1)):
        report("   of these: " + what, cv[m])
    q, lq, Sq = {k: v[kept] for k, v in every[0].items()}, every[1][kept], every[2][kept]; per = 1200 / np.log(2) / (TUBE * q["a"] + lq)
    report("shapes kept from it, bare", (q["l_mm"] * MESH - lq) * per); report("   as cut", (lq + (columns(q)[1][:, keep] @ c) * Sq / (q["W"] * q["H"]) - q["l_mm"] * MESH) * per)
    a = q["a"]; usual = (q["W"] / a > .4) & (q["W"] / a < .8) & (q["H"] / a > .7) & (q["H"] / a < 1.5) & (q["t"] / a > .12) & (q["t"] / a < .6)
    with open(os.path.join(HERE, "..", "virtual_makers", "voices.inc"), "w") as f:
        f.write("// Generated by tools/reference/voice_fit.py: sound holes as they are cut that the core's element has not seen, by finite\n// elements. In bore radii: opening along and across, wall, plug behind; ramp, its edge, block, its width, its front, side\n// walls, their thickness and length; last the inertance as a length of bore.\n")
        for i in np.where(usual)[0]:
            v = [q[k][i] / a[i] for k in "W H t off ramp edge block block_width front wings wing_width wing_length".split()]
            f.write("{" + ", ".join("%.4g" % x for x in v + [q["l_mm"][i] * MESH / a[i]]) + "},\n")
    path = os.path.join(HERE, "..", "..", "tests", "data", "fem", "voices.csv")
    if os.path.exists(path):
        found = whole_tubes(path, poly, keep, c)
        for r in found: print("      %-8s bare %+6.1f %+6.1f   as cut %+5.2f %+5.2f" % (r[0], r[1], r[3], r[2], r[4]))
        e = np.array([r[1:] for r in found])
        report("whole tubes, first register, bare", e[:, 0]); report("   as cut", e[:, 1]); report("whole tubes, second register, bare", e[:, 2]); report("   as cut", e[:, 3])
    with open(os.path.join(HERE, "..", "..", "core", "element", "voice_terms.hpp"), "w") as f:
        f.write("""// core/element/voice_terms.hpp: what ramp, block and side walls do to a sound hole, as sums.
// Layer: element.
//
// Generated by tools/reference/voice_fit.py from tools/reference/voice_theory.csv (%d shapes
// solved by tools/reference/voice_theory.py: steady potential flow by finite elements). No tube
// that was solved whole and no measurement is in it.
#pragma once

#include <cstdint>

namespace canewright {

// c * base of a part * its variable i * its variable j; variable 0 is 1.
struct VoiceTerm {
    std::uint8_t part, i, j;  // part: 0 ramp, 1 block, 2 the block over the opening, 3 side walls
    float c;
};

// clang-format off
inline constexpr VoiceTerm kVoiceTerms[] = {
""" % len(y))
        order = ["ramp", "block", "over", "walls"]
        for k, v in zip(keep, c): f.write("    {%d, %d, %d, %.4ff},\n" % (order.index(names[k][0]), *names[k][1:], v))
        f.write("};\n// clang-format on\n\n}  // namespace canewright\n")
