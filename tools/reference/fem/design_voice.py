# tools/reference/fem/design_voice.py -- the tubes of voices.csv: sound holes with ramp, block and side walls.
"""Seeded space-filling design (Sobol), ranges as makers cut them; writes voices.json. The last column of the CSV has the voice.
V..r ramp alone, V..b ramp and block, V..w with side walls; X.. the block set back or overhanging, a flat, walls of other length."""
import json
import numpy as np
from scipy.stats import qmc
u = qmc.Sobol(12, scramble=True, seed=20261128).random(32)
lg = lambda v, lo, hi: lo * (hi / lo) ** v
cases = []
for i, v in enumerate(u[:30]):
    d = round(lg(v[0], 8, 25), 1); a = d / 2
    t = round(lg(v[1], .12, .6) * a, 2)
    b = round((.3 + .5 * v[2]) * d, 2)
    w = round(lg(v[3], .4, 1.2) * a, 2)
    off = 0 if v[4] < .5 else round((v[4] - .5) * a, 2)
    base = dict(d=d, t=t, w=w, b=b, off=off, L=round(14 * d, 1), holes=[])
    ramp = dict(ramp=round(lg(v[5], 1, 4.5) * w, 2), edge=round(lg(v[6], .06, .7) * t, 2))
    block = dict(block=round(lg(v[7], .8, 3) * w, 2), block_width=round((b + 1) + v[8] * max(2.2 * a - b, 1), 2))
    wings = dict(wings=round(lg(v[9], .15, 1.4) * w, 2), wing_width=round(lg(v[10], .2, .8) * w, 2))
    n = "V%02d" % (i + 1)
    if i % 2 == 0: cases.append(dict(base, name=n + "r", **ramp))
    if i % 3 != 2: cases.append(dict(base, name=n + "b", **ramp, **block))
    cases.append(dict(base, name=n + "w", **ramp, **block, **wings))
S = dict(d=8.7, t=1.5, w=3.5, b=4.0, off=0, L=122, holes=[], ramp=9.0, edge=.225, block=7, block_width=9.36)
B = dict(d=18, t=3.0, w=5.5, b=9.0, off=0, L=252, holes=[], ramp=18.0, edge=.45, block=7, block_width=19.2)
walls = dict(wings=3, wing_width=2)
extra = [dict(S, name="XSback", front=1), dict(S, name="XSover", front=-1), dict(B, name="XBback", front=1), dict(B, name="XBover", front=-1),
         dict(S, **walls, name="XSwback", front=1), dict(B, **walls, name="XBwover", front=-1),
         dict(B, name="XBflat", flat=1.0), dict(S, name="XSflat", flat=.5),
         dict(B, **walls, name="XBlong", wing_length=11), dict(S, **walls, name="XSshort", wing_length=1.75),
         dict({k: v for k, v in B.items() if k not in ("ramp", "edge")}, name="XBnoramp")]
cases[12:12] = extra
json.dump(cases, open("voices.json", "w"), indent=0)
for q in cases: print({k: v for k, v in q.items() if k != "holes"})
