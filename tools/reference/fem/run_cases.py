# tools/reference/fem/run_cases.py -- solves a list of tubes on two meshes and writes their limit.
"""Solve a list of cases and append rows to a CSV.   usage: . ./env.sh; $PY run_cases.py cases.json out.csv [NAME ...]

cases.json: [{"name": "N1", "d": bore, "t": wall, "w": window length, "b": window width, "off": plug distance behind
the window's upstream edge, "L": window centre -> foot, "holes": [{"x": at, "dia": diameter, "open": true}]}], all in mm.
The voice as it is cut, optional: "ramp" length along the tube and "edge" height above the bore's top, "block" height and
"block_width", its "front" behind the window's upstream edge, "wings" height, "wing_width" and "wing_length", depth of the
"flat" under the block; they are in the CSV's last column.
Two meshes a case, Richardson extrapolation with the corner rate h^(4/3); about 45 s a case and 2-4 GB on one core.
One case a process is kindest to memory: name it on the command line.
"""
import csv, json, os, sys
from fem3d import *
M1 = dict(hw=.05, hf=.08, hh=.2, g=.4, hin=.55, hex=.5, hoopt=1)
M2 = dict(hw=.025, hf=.04, hh=.1, g=.33, hin=.5, hex=.5, hoopt=1)
COLS = "name bore_mm wall_mm window_length_mm window_width_mm plug_offset_mm foot_mm holes f1_hz f2_hz f1_imag_hz f2_imag_hz mesh_shift_cents voice".split()

def limit(coarse, fine, hole_ratio):
    """h -> 0; where the hole rims were refined by less than 2, their share of the shift keeps its own ratio"""
    if hole_ratio == 2: return fine - (coarse - fine) / (2 ** (4 / 3) - 1)
    whole = coarse - fine; window = min(fine * (2 ** (.21 / 1200) - 1), max(whole, 0))
    return fine - window / 1.52 - (whole - window) / (hole_ratio ** (4 / 3) - 1)

def solve(case):
    runs, ratio = [], 2
    for mesh in (M1, M2):
        c = dict(case); c.update(mesh)
        if runs: c["k0"] = [complex(r["k"]) for r in runs[0]]
        if len(case["holes"]) >= 4 and mesh is M2: c.update(hh=.12); ratio = .2 / .12
        for attempt in range(4):
            try:
                p, res, info = run_case(c)
                if info["nfix"] == 0: break
            except Exception as fault:                        # gmsh gives up on a curved element
                if attempt == 3 or "ScaledJac" not in str(fault): raise
                gmsh.finalize()
            c.update(hin=c["hin"] * .93, g=c["g"] * .97)      # another mesh where curved elements came out inverted
        else: raise RuntimeError("inverted elements in " + case["name"])
        runs.append(res)
    out = []
    for n in (0, 1):
        a, b = runs[0][n]["f"], runs[1][n]["f"]
        out.append((limit(a.real, b.real, ratio), b.imag, abs(1200 * np.log2(b.real / limit(a.real, b.real, ratio)))))
    return out

if __name__ == "__main__":
    cases, path, names = json.load(open(sys.argv[1])), sys.argv[2], sys.argv[3:]
    done = {r["name"] for r in csv.DictReader(open(path))} if os.path.exists(path) else set()
    for case in cases:
        if case["name"] in done or (names and case["name"] not in names): continue
        (f1, i1, e1), (f2, i2, e2) = solve(case)
        holes = ";".join("%g:%g:%s" % (h["x"], h["dia"], "open" if h["open"] else "closed") for h in case["holes"])
        with open(path, "a", newline="") as fh:
            w = csv.writer(fh)
            if fh.tell() == 0: w.writerow(COLS)
            w.writerow([case["name"]] + [case[q] for q in ("d", "t", "w", "b", "off", "L")] + [holes] + ["%.3f" % q for q in (f1, f2, i1, i2)] + ["%.2f" % max(e1, e2), ";".join("%s:%g" % (q, case[q]) for q in ("ramp", "edge", "block", "block_width", "front", "wings", "wing_width", "wing_length", "flat") if case.get(q))])
        print(case["name"], "%.3f %.3f Hz" % (f1, f2), flush=True)
