# tools/reference/fem/fem3d.py -- mesh and resonances of one tube with sound hole and finger holes.
"""3-D P2 FEM of a tube with window + finger holes in free air. Usage: fem3d.py case.json  (or import run_case)
Coordinates (mm in JSON): x along the bore, x=0 window CENTRE, foot end x=L_ref; window and holes face +z; half model y>0."""
import sys, json
from femlib import *
DEF = dict(name="case", d=8.7, t=1.5, w=3.5, b=4.0, off=0.0, L=172.0, Lup=25.0, holes=[], margin=50.0,
           hw=0.05, hf=0.08, hh=0.2, g=0.4, hin=0.55, hex=0.5, hoopt=1, modes=[1, 2], cap=0.8)   # = mesh M1
# hw: edge size at window edges / sqrt(w*b/pi); hf: at the foot rim / a; hh: at hole rims / rh; g growth; hin: bore h / a; hex: exterior growth

def foot_delta(a, Ro):   # rough thick-wall end correction, only for the eigenvalue's starting value
    bs = np.array([1.0, 1.001, 1.005, 1.02, 1.1, 1.2, 1.35, 1.6, 2.0, 3.0])
    ds = np.array([.6133, .6143, .6169, .6257, .6541, .6757, .6977, .7213, .7440, .7720])
    return a * np.interp(Ro / a, bs, ds)

def tl_guess(p, nmodes):
    """crude lumped/transmission-line estimate, only used for the FEM shift and start vector (metres)"""
    a = p["d"] / 2e3; t = p["t"] / 1e3; w = p["w"] / 1e3; b = p["b"] / 1e3; L = p["L"] / 1e3; off = p["off"] / 1e3
    S = np.pi * a * a; req = np.sqrt(w * b / np.pi)
    ell = S / (w * b) * (t + 1.45 * req)
    def B(k):  # susceptance-like sum at window centre, normalised by S
        z = np.tan(k * (foot_delta(a, a + t)))          # X/(rho c / S) at the foot
        pos = L
        for h in sorted(p["holes"], key=lambda h: -h["x"]):
            l = pos - h["x"] / 1e3; T = np.tan(k * l); z = (z + T) / (1 - z * T); pos = h["x"] / 1e3
            rh = h["dia"] / 2e3; sh = np.pi * rh * rh / S
            y = -1 / z
            y += (-sh / (k * (t + 1.5 * rh))) if h["open"] else k * sh * t
            z = -1 / y
        T = np.tan(k * pos); z = (z + T) / (1 - z * T)
        return -1 / z - 1 / (k * ell) + np.tan(k * (off + w / 2))
    ks = np.linspace(2, 150, 40000); v = np.array([B(k) for k in ks]); out = []
    for i in range(len(ks) - 1):
        if v[i] < 0 <= v[i + 1] and abs(v[i]) < 5 and abs(v[i + 1]) < 5: out.append(ks[i])
    return out[:nmodes]

def build_mesh(p):
    mm = 1e-3
    a = p["d"] / 2 * mm; t = p["t"] * mm; Ro = a + t; w = p["w"] * mm; b = p["b"] * mm; L = p["L"] * mm
    xp = -w / 2 - p["off"] * mm; xu = xp - p["Lup"] * mm
    xc = 0.5 * (L + xu); R = 0.5 * (L - xu) + p["margin"] * mm
    gmsh.initialize(); gmsh.option.setNumber("General.Verbosity", 1)
    g = gmsh.model; o = g.occ; S = 1e3   # build in mm
    def half(): return (3, o.addBox(-5000, 0, -5000, 10000, 5000, 10000))
    def cyl(x0, x1, r): return (3, o.addCylinder(x0 * S, 0, 0, (x1 - x0) * S, 0, 0, r * S))
    def cut(A, B): return o.cut(A, B)[0]
    def inter(A, B): return o.intersect(A, B)[0]
    sph = (3, o.addSphere(xc * S, 0, 0, R * S))
    # the bore's far end joins the outside, or, where the flow is steady, is where it comes in (surface 3)
    ext = cut(inter([sph], [half()]), [cyl(xu, L + (1 * mm if p.get("potential") else 0), Ro)])
    for h in p["holes"]:      # closed hole: cavity up to the OUTER wall surface, sealed by a solid pad (fingertip) of thickness cap, radius rh+cap
        if not h["open"]:
            ext = cut(ext, [(3, o.addCylinder(h["x"], 0, 0, 0, 0, Ro * S + p["cap"], h["dia"] / 2 + p["cap"]))])
    bore = inter([cyl(xp, L, a)], [half()])
    def wall_piece(tool, rout):
        q = inter([tool], [cyl(xu, L, rout)]); return cut(q, [cyl(xu - 1, L + 1, a)])
    parts = wall_piece((3, o.addBox(-w / 2 * S, 0, 0, w * S, b / 2 * S, 2 * Ro * S)), Ro)
    front = p.get("front", 0.0) * mm     # the block's front behind the window's upstream edge; negative: overhanging it
    flat = p.get("flat", 0.0)            # so deep a flat is cut on the tube under the block and along the window
    if flat: parts += wall_piece((3, o.addBox((-w / 2 - max(front, 0)) * S, 0, Ro * S - flat, (w + max(front, 0)) * S, Ro * S, Ro * S)), Ro)
    if p.get("ramp"):         # a plane from the splitting edge (`edge` above the bore's top) up to the outer surface, as wide as the window
        x0, z0, z1 = w / 2 * S, a * S + p["edge"], Ro * S
        pts = [o.addPoint(x0, 0, z0), o.addPoint(x0 + p["ramp"], 0, z1), o.addPoint(x0 + p["ramp"], 0, z1 + 1), o.addPoint(x0, 0, z1 + 1)]
        face = o.addPlaneSurface([o.addCurveLoop([o.addLine(pts[i], pts[(i + 1) % 4]) for i in range(4)])])
        parts += wall_piece([q for q in o.extrude([(2, face)], 0, b / 2 * S, 0) if q[0] == 3][0], Ro)
    if p.get("block"):        # solid upstream of the window down to the tube; `block` high above the tube's top
        ext = cut(ext, [(3, o.addBox(xu * S - 1, 0, 0, (-w / 2 - front - xu) * S + 1, p["block_width"] / 2, Ro * S + p["block"]))])
    if p.get("wings"):        # side walls of the block along both sides of the window, inner faces flush with it
        x0 = (-w / 2 - max(front, 0)) * S - .5
        ext = cut(ext, [(3, o.addBox(x0, b / 2 * S, 0, -w / 2 * S + p.get("wing_length", w * S) - x0, p["wing_width"], Ro * S + p["wings"]))])
    for h in p["holes"]:
        q = inter([(3, o.addCylinder(h["x"], 0, 0, 0, 0, 2 * Ro * S, h["dia"] / 2))], [half()])
        parts += wall_piece(q[0], Ro)
    o.fragment(ext, bore + parts)
    o.synchronize()
    vols = g.getEntities(3)
    g.addPhysicalGroup(3, [v for _, v in vols], 1)
    rad = []
    for _, s in g.getEntities(2):
        lo, hi = g.getParametrizationBounds(2, s)
        c = g.getValue(2, s, [0.5 * (lo[0] + hi[0]), 0.5 * (lo[1] + hi[1])])
        if abs(np.linalg.norm([c[0] - xc * S, c[1], c[2]]) - R * S) < 1e-4 * R * S: rad.append(s)
    g.addPhysicalGroup(2, rad, 2)
    if p.get("potential"):
        inlet = []
        for _, s in g.getEntities(2):
            x0, y0, z0, x1, y1, z1 = g.getBoundingBox(2, s)
            if abs(x0 - L * S) < 1e-3 and abs(x1 - L * S) < 1e-3 and max(z1, -z0, y1) < a * S + 1e-3: inlet.append(s)
        g.addPhysicalGroup(2, inlet, 3)
    # curves for refinement
    am, Rm, Lm, wm, bm = a * S, Ro * S, L * S, w * S, b * S
    cw, cf, ch = [], [], {}
    for _, c in g.getEntities(1):
        x0, y0, z0, x1, y1, z1 = g.getBoundingBox(1, c); e = 1e-4 + 1e-5
        lo, hi = g.getParametrizationBounds(1, c); P = np.array([g.getValue(1, c, [lo[0] + s_ * (hi[0] - lo[0])]) for s_ in (0, .25, .5, .75, 1)])
        r = np.hypot(P[:, 1], P[:, 2])
        onr = [np.all(abs(r - q) < 1e-3) for q in (am, Rm)]
        if np.all(P[:, 1] < 1e-4): continue
        cut_ = (p.get("ramp") or flat) and np.all(r > am - 1e-3) and np.all(r < Rm + 1e-3)
        if (any(onr) or cut_) and np.all(abs(P[:, 0]) < wm / 2 + 1e-3) and np.all(P[:, 1] < bm / 2 + 1e-3) and np.all(P[:, 2] > 0): cw.append(c)
        elif any(onr) and np.all(abs(P[:, 0] - Lm) < 1e-3): cf.append(c)
        else:
            for i, h in enumerate(p["holes"]):
                rr = np.hypot(P[:, 0] - h["x"], P[:, 1])
                if np.all(abs(rr - h["dia"] / 2) < 1e-3) and (any(onr) or np.all(abs(r - Rm) < 1.2 * p['cap'])) and np.ptp(r) < 0.5 * t * S and not np.ptp(P[:, 0]) < 1e-3: ch.setdefault(i, []).append(c)
    f = g.mesh.field; fl = []
    def thr(curves, he, hmax, npts):
        d = f.add("Distance"); f.setNumbers(d, "CurvesList", curves); f.setNumber(d, "NumPointsPerCurve", npts)
        q = f.add("Threshold"); f.setNumber(q, "InField", d); f.setNumber(q, "SizeMin", he); f.setNumber(q, "SizeMax", hmax)
        f.setNumber(q, "DistMin", 0.3 * he); f.setNumber(q, "DistMax", 0.3 * he + (hmax - he) / p["g"]); fl.append(q)
    req = np.sqrt(wm * bm / np.pi); BIG = R * S / 4
    thr(cw, p["hw"] * req, BIG, 60); thr(cf, p["hf"] * am, BIG, 60)
    for i, h in enumerate(p["holes"]):
        thr(ch[i], p["hh"] * h["dia"] / 2 * (1.0 if h["open"] else 1.6), BIG, 40)
    m = f.add("MathEval"); rr = "sqrt(y^2+z^2)"; pos = lambda e_: f"0.5*(abs({e_})+({e_}))"
    out = f"sqrt({pos(f'{rr}-{Rm}')}^2+{pos(f'x-{Lm}')}^2+{pos(f'{xu*S}-x')}^2)"
    f.setString(m, "F", f"{p['hin']*am}+{p['hex']}*{out}"); fl.append(m)
    mn = f.add("Min"); f.setNumbers(mn, "FieldsList", fl); f.setAsBackgroundMesh(mn)
    for opt, val in (("MeshSizeExtendFromBoundary", 0), ("MeshSizeFromPoints", 0), ("MeshSizeFromCurvature", 0), ("MeshSizeMax", BIG),
                     ("Algorithm", 6), ("Algorithm3D", 1), ("Optimize", 1), ("ElementOrder", 2), ("OptimizeNetgen", p.get("netgen", 0)), ("OptimizeThreshold", p.get("othr", 0.3)), ("HighOrderOptimize", p.get("hoopt", 0))):
        gmsh.option.setNumber("Mesh." + opt, val)
    t0 = time.time(); g.mesh.generate(3); tm = time.time() - t0
    info = dict(ncw=len(cw), ncf=len(cf), nch={i: len(v) for i, v in ch.items()}, nrad=len(rad), nvol=len(vols), tmesh=tm)
    mesh, ct, ft = gmshio.model_to_mesh(g, MPI.COMM_SELF, 0, gdim=3); gmsh.finalize()
    mesh.geometry.x[:] -= np.array([xc * S, 0, 0]); mesh.geometry.x[:] *= mm
    return mesh, ft, R, xc, info

def fix_jac(mesh):
    """check the curved P2 tets; straighten the edges of those (near-)inverted. basix edges: (2,3)(1,3)(1,2)(0,3)(0,2)(0,1)"""
    X = np.array([[.25,.25,.25],[0,0,0],[1,0,0],[0,1,0],[0,0,1],[.5,0,0],[0,.5,0],[0,0,.5],[.5,.5,0],[.5,0,.5],[0,.5,.5]], float)
    nc = mesh.topology.index_map(3).size_local; cells = np.arange(nc, dtype=np.int32)
    dm = mesh.geometry.dofmap; dm = np.array(dm.array).reshape(nc, -1) if hasattr(dm, "array") else np.array(dm)
    E = [(2, 3), (1, 3), (1, 2), (0, 3), (0, 2), (0, 1)]; nfix = 0
    ex = fem.Expression(ufl.JacobianDeterminant(mesh), X)
    for it in range(6):
        dj = np.real(ex.eval(cells)); sg = np.sign(dj[:, :1]); rat = (dj * sg).min(1) / np.abs(dj).max(1)
        bad = np.where(rat < 0.0)[0]
        if it == 0: nlow = int((rat < 0.05).sum()); mr0 = float(rat.min())
        if len(bad) == 0: break
        nfix += len(bad); G = mesh.geometry.x
        for q, (i, j) in enumerate(E):
            G[dm[bad, 4 + q]] = 0.5 * (G[dm[bad, i]] + G[dm[bad, j]])
    return dict(nfix=nfix, nlow=nlow, minJ0=mr0, minJratio=float(rat.min()), nbad=int((rat <= 0).sum()), ntet=nc, jit=it)

def run_case(case, verbose=False):
    p = dict(DEF); p.update(case); T0 = time.time()
    mesh, ft, R, xc, info = build_mesh(p)
    info.update(fix_jac(mesh))
    t1 = time.time(); V, m = mats(mesh, ft, 2); t2 = time.time()
    ks = p.get("k0") or tl_guess(p, max(p["modes"]))
    a = p["d"] / 2e3; L = p["L"] / 1e3; xpm = -(p["w"] / 2 + p["off"]) / 1e3
    ne = NLEig(m, R); res = []
    for n in p["modes"]:
        k0 = ks[n - 1]; gf = fem.Function(V)
        l0 = np.pi * 1 / k0 * n
        gf.interpolate(lambda x: (np.where((x[0] + xc < L) & (x[0] + xc > xpm) & (np.hypot(x[1], x[2]) < a * 1.0001),
                       np.sin(k0 * (L + .68 * a - x[0] - xc)), 0)).astype(complex))
        bv = m["M"].createVecRight(); m["M"].mult(gf.vector, bv)
        k, xv, it = ne.solve(k0, bv, verbose=verbose)
        res.append(dict(mode=n, k=k, f=k * C0 / 2 / np.pi, Q=k.real / (-2 * k.imag), it=it, k0=k0))
    info.update(ndof=V.dofmap.index_map.size_global, R=R, tasm=t2 - t1, tfac=ne.tfac, ttot=time.time() - T0)
    return p, res, info
if __name__ == "__main__":
    case = json.load(open(sys.argv[1])) if len(sys.argv) > 1 else {}
    for kv in sys.argv[2:]:
        q, v = kv.split("="); case[q] = float(v)
    p, res, info = run_case(case, True)
    print(info)
    for r in res: print(p["name"], "mode", r["mode"], "f = %.4f %+.4fj Hz" % (r["f"].real, r["f"].imag), "Q %.1f" % r["Q"], "k0->f %.1f" % (r["k0"] * C0 / 2 / np.pi), "it", r["it"])
