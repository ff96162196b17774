# tools/reference/voice_theory.py -- inertance of a sound hole as it is cut, from potential flow alone.
"""Steady potential flow from a long bore through the sound hole to the outside: P2 elements on the geometry of
fem/fem3d.py (ramp, block, side walls, flat), without its frequency: l_w = S x (mean potential far down the bore) minus the
way there, referred to the opening's centre. The far sphere is a monopole's. One mesh: what bare openings miss on it of their
limit, 0.23 %, is taken off by voice_fit.py; with side walls it is up to 0.2 % more (five shapes on a finer one).
usage: . fem/env.sh; python3 fem/design_voice_theory.py; HW=.045 python3 voice_theory.py theory.json voice_theory.csv [from to]
about 4 s a shape; the design's 1,280 shapes and six bare ones, but F0089, on which gmsh gave up"""
import csv, json, os, sys, time
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "fem"))
import fem3d
from femlib import *

def solve(case, hw=.06, reach=3.0, out=5.0, finer=1.0):
    a = case["d"] / 2; p = dict(fem3d.DEF); p.update(case)
    p.update(L=round(max(reach * a, p["w"] / 2 + (p.get("ramp") or 0) + 2.5 * a), 3), Lup=round(max(2.5 * a, 6), 3), holes=[], margin=out * a, hw=hw, hf=.6, g=.5 * finer, hin=.6 * finer, hex=.6, hoopt=1, potential=True)
    mesh, ft, R, xc, info = fem3d.build_mesh(p); info.update(fem3d.fix_jac(mesh))
    V = fem.FunctionSpace(mesh, ("CG", 2)); u, v = ufl.TrialFunction(V), ufl.TestFunction(V)
    ds = ufl.ds(domain=mesh, subdomain_data=ft)
    A = fem.petsc.assemble_matrix(fem.form(ufl.inner(ufl.grad(u), ufl.grad(v)) * ufl.dx + 1 / R * ufl.inner(u, v) * ds(2))); A.assemble()
    b = fem.petsc.assemble_vector(fem.form(ufl.inner(fem.Constant(mesh, 1 + 0j), v) * ds(3)))
    A.setOption(PETSc.Mat.Option.SYMMETRIC, True)
    ksp = PETSc.KSP().create(A.comm); ksp.setOperators(A); ksp.setType("preonly"); pc = ksp.getPC(); pc.setType("cholesky"); pc.setFactorSolverType("mumps"); ksp.setUp()
    x = fem.Function(V); ksp.solve(b, x.vector)
    S = fem.assemble_scalar(fem.form(fem.Constant(mesh, 1 + 0j) * ds(3))).real      # half the bore's section
    mean = fem.assemble_scalar(fem.form(x * ds(3))).real / S                           # flux S at unit speed: l = mean
    return mean * 1e3 - p["L"], dict(ndof=V.dofmap.index_map.size_global, nfix=info["nfix"], bad=info["nbad"], area=S * 1e6 / (np.pi * a * a / 2))

if __name__ == "__main__":
    cases, path = json.load(open(sys.argv[1])), sys.argv[2]
    lo, hi = (int(v) for v in sys.argv[3:5]) if len(sys.argv) > 3 else (0, len(cases))
    done = {r["name"] for r in csv.DictReader(open(path))} if os.path.exists(path) else set()
    keys = "d t w b off ramp edge block block_width front wings wing_width wing_length flat".split()
    for c in cases[lo:hi]:
        if c["name"] in done or os.path.exists("stop"): continue
        t0 = time.time()
        for finer in (1, .95, .9):    # gmsh gives up on a curved element now and then
            try: l, info = solve(c, finer=finer, **({"hw": float(os.environ["HW"])} if "HW" in os.environ else {})); break
            except Exception as e: print(c["name"], "failed", e, flush=True); fem3d.gmsh.finalize()
        else: continue
        with open(path, "a", newline="") as fh:
            w = csv.writer(fh)
            if fh.tell() == 0: w.writerow(["name"] + keys + ["l_mm", "ndof", "fixed"])
            w.writerow([c["name"]] + [c.get(k, "") for k in keys] + ["%.5f" % l, info["ndof"], info["nfix"]])
        print(c["name"], "%.4f" % l, info, "%.1f s" % (time.time() - t0), flush=True)
