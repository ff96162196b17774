# tools/reference/fem/design.py -- the tubes of more-windows.csv and more-holes.csv.
"""Seeded space-filling design of window cases and a hand-made list of hole cases; writes windows.json and holes.json."""
import json
import numpy as np
from scipy.stats import qmc
u = qmc.Sobol(6, scramble=True, seed=20261125).random(64)
lg = lambda v, lo, hi: lo * (hi / lo) ** v
W = []
for i, v in enumerate(u):
    d = round(lg(v[0], 6, 25), 1); a = d / 2
    t = round(lg(v[1], max(.5, .05 * a), min(6, .7 * a)), 2)
    b = round((.25 + .70 * v[2]) * d, 2)
    w = round(lg(v[3], .25, 1.6) * a, 2)
    off = 0 if v[4] < .4 else round((v[4] - .4) / .6 * .8 * a, 2)
    ka = lg(v[5], .05, .16)
    S = np.pi * a * a; lw = S / (w * b) * (t + 1.3 * np.sqrt(w * b / np.pi))
    L = np.pi / (ka / a) - .68 * a - np.arctan(ka / a * lw) / (ka / a)
    W.append(dict(name="W%02d" % (i + 1), d=d, t=t, w=w, b=b, off=off, L=round(L, 1), holes=[]))
json.dump(W, open("windows.json", "w"), indent=0)
P = dict(d=22, t=1.5, w=4, b=16.5, off=0, L=400); Q = dict(d=19, t=3.5, w=5, b=11, off=0, L=380)
S = dict(d=8, t=2.5, w=3.5, b=4.0, off=0, L=197); T = dict(d=12, t=2, w=4, b=6, off=0, L=250)
U = dict(d=8, t=1.0, w=3.5, b=4.0, off=0, L=197)
H = []
def add(name, base, holes):
    H.append(dict(name=name, **base, holes=[dict(x=x, dia=D, open=o) for x, D, o in holes]))
o, c = True, False
for n, B in (("P", P), ("Q", Q), ("S", S)):
    for g in (.5, .77 if n == "P" else .8, .2): add("H%s_one%d" % (n, round(g * 10)), B, [(round(.62 * B["L"]), round(g * B["d"], 2), o)])
add("HP_far3", P, [(220, 11, o), (270, 11, o), (320, 11, o)])
add("HT_close2", T, [(165, 6, o), (174, 6, o)])
add("HT_far2", T, [(150, 6, o), (195, 6, o)])
add("HU_five", U, [(105, 4.8, o), (119, 4.8, o), (133, 4.8, o), (147, 4.8, o), (161, 4.8, o)])
add("HS_close3", S, [(130, 4, o), (137, 4, o), (144, 4, o)])
add("HS_closed3", S, [(90, 4.8, c), (120, 4.8, c), (150, 4.8, c)])
add("HP_closed3", P, [(180, 13.2, c), (240, 13.2, c), (300, 13.2, c)])
add("HU_foot", U, [(183, 5.6, o)])
add("HQ_foot", Q, [(362, 11.4, o)])
add("HP_foot", P, [(380, 11, o)])
add("HT_window", T, [(30, 6, o)])
add("HQ_close2", Q, [(255, 13.3, o), (273, 13.3, o)])
add("HU_closed5", U, [(105, 4.8, c), (119, 4.8, c), (133, 4.8, c), (147, 4.8, c), (161, 4.8, c)])
t4 = lambda s: [(x, D, k == "o") for x, D, k in zip((120, 145, 172, 198), (5, 7, 4, 8), s)]
for s in ("cccc", "ccco", "ccoo", "cooo", "oooo", "coco", "ococ", "occo"): add("HT4_" + s, T, t4(s))
json.dump(H, open("holes.json", "w"), indent=0)
for q in W[:48]: print(q["name"], q["d"], q["t"], q["w"], q["b"], q["off"], q["L"])
