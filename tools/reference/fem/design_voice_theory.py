# tools/reference/fem/design_voice_theory.py -- shapes of sound holes as they are cut, in bore radii of 10 mm: space-filling (Sobol), seeded.
import json
import numpy as np
from scipy.stats import qmc
u = qmc.Sobol(16, scramble=True, seed=1128).random(1024)
lg = lambda v, lo, hi: lo * (hi / lo) ** v
def shape(i, v):
    a = 10.0; d = 20.0
    w = round(lg(v[0], .3, 1.5) * a, 3); b = round((.25 + .6 * v[1]) * d, 3); t = round(lg(v[2], .08, .8) * a, 3)
    off = 0 if v[3] < .5 else round((v[3] - .5) * 1.4 * a, 3)
    c = dict(name="T%04d" % i, d=d, t=t, w=w, b=b, off=off)
    kind = v[4]
    if kind < .2 or kind >= .35 and kind < .95: c.update(ramp=round(lg(v[5], .5, 6) * w, 3), edge=round(lg(v[6], .03, .9) * t, 3))
    if kind >= .2:
        c.update(block=round(lg(v[7], .4, 4) * w, 3), block_width=round(b * .9 + v[8] * max(2.6 * a - b * .9, 2), 3))
        if v[9] > .7: c["front"] = round((-.3 + .8 * (v[9] - .7) / .3) * w, 3)
    if kind >= .6:
        c.update(wings=round(lg(v[10], .06, 2.5) * w, 3), wing_width=round(lg(v[11], .15, 1.0) * w, 3))
        if v[12] > .65: c["wing_length"] = round(lg(v[13], .3, 2.5) * w, 3)
    return c
first = [shape(i, v) for i, v in enumerate(u)]
# The block set back or overhanging; last six bare openings, for what one mesh misses.
u = qmc.Sobol(14, scramble=True, seed=1129).random(256)
def with_front(i, v):
    a = 10.0; d = 20.0
    w = round(lg(v[0], .35, 1.2) * a, 3); b = round((.3 + .5 * v[1]) * d, 3); t = round(lg(v[2], .1, .65) * a, 3)
    off = 0 if v[3] < .6 else round((v[3] - .6) * 1.4 * a, 3)
    c = dict(name="F%04d" % i, d=d, t=t, w=w, b=b, off=off)
    if v[4] < .8: c.update(ramp=round(lg(v[5], .8, 5) * w, 3), edge=round(lg(v[6], .05, .6) * t, 3))
    c.update(block=round(lg(v[7], .6, 3) * w, 3), block_width=round(b + v[8] * max(2.4 * a - b, 2), 3))
    c["front"] = round((-.32 + .82 * v[9]) * w, 3)
    if v[10] > .5: c.update(wings=round(lg(v[11], .1, 1.8) * w, 3), wing_width=round(lg(v[12], .2, .8) * w, 3))
    return c
json.dump(first + [with_front(i, v) for i, v in enumerate(u)] + [dict(name="Z%d" % i, d=20.0, t=t, w=w, b=b, off=o) for i, (t, w, b, o) in enumerate([(1, 5, 8, 0), (2, 8, 10, 0), (3, 6, 12, 2), (5, 10, 14, 0), (1.5, 4, 6, 4), (7, 7, 9, 0)])], open("theory.json", "w"), indent=0)
