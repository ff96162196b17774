# tools/reference/fem/femlib.py -- matrices and the nonlinear eigenvalue solver.
"""Common FEM pieces: dolfinx (complex PETSc build) P2 Helmholtz with 2nd-order BGT condition on a
sphere of radius R centred at (xc,0,0); nonlinear complex eigenvalue by residual inverse iteration.
Time convention exp(-i w t); A(k) = K - k^2 M - (ik-1/R) Bm + R/(2(1-ikR)) Bk ."""
import os
os.environ.setdefault("PETSC_DIR", "/usr/lib/petscdir/petsc-complex")
import numpy as np, time
import gmsh
from mpi4py import MPI
import dolfinx, ufl
from dolfinx import fem
from dolfinx.io import gmshio
from petsc4py import PETSc
C0 = 345.0

def mats(mesh, ft, rad_tag, axisym=False, xc=0.0):
    V = fem.FunctionSpace(mesh, ("CG", 2))
    u, v = ufl.TrialFunction(V), ufl.TestFunction(V)
    x = ufl.SpatialCoordinate(mesh)
    w = x[1] if axisym else 1.0
    dx = ufl.dx(metadata={"quadrature_degree": 4 if not axisym else 6})
    ds = ufl.ds(domain=mesh, subdomain_data=ft, metadata={"quadrature_degree": 4 if not axisym else 6})(rad_tag)
    n = ufl.FacetNormal(mesh)
    gt = lambda f: ufl.grad(f) - ufl.dot(ufl.grad(f), n) * n
    forms = dict(K=w * ufl.inner(ufl.grad(u), ufl.grad(v)) * dx, M=w * ufl.inner(u, v) * dx,
                 Bm=w * ufl.inner(u, v) * ds, Bk=w * ufl.inner(gt(u), gt(v)) * ds)
    out = {}
    for kx, f in forms.items():
        A = fem.petsc.assemble_matrix(fem.form(f)); A.assemble(); out[kx] = A
    return V, out

class NLEig:
    def __init__(s, m, R):
        s.m = m; s.R = R
        s.A = None
    def coef(s, k):
        R = s.R
        return dict(K=1.0, M=-k * k, Bm=-(1j * k - 1 / R), Bk=R / (2 * (1 - 1j * k * R)))
    def build(s, k):
        c = s.coef(k)
        if s.A is None:
            s.A = s.m["K"].copy()
        else:
            s.m["K"].copy(s.A, structure=PETSc.Mat.Structure.SAME_NONZERO_PATTERN)
        for q in ("M", "Bm", "Bk"):
            s.A.axpy(c[q], s.m[q], structure=PETSc.Mat.Structure.SUBSET_NONZERO_PATTERN)
        s.A.setOption(PETSc.Mat.Option.SYMMETRIC, True)
        return s.A
    def solve(s, k0, b, tol=1e-9, maxit=30, verbose=False):
        A = s.build(k0)
        ksp = PETSc.KSP().create(A.comm); ksp.setOperators(A); ksp.setType("preonly")
        pc = ksp.getPC(); pc.setType("cholesky"); pc.setFactorSolverType("mumps"); ksp.setFromOptions()
        pc.setFactorSetUpSolverType(); F = pc.getFactorMatrix(); F.setMumpsIcntl(14, 60); F.setMumpsIcntl(7, 5)
        t = time.time(); ksp.setUp(); s.tfac = time.time() - t
        xv, y = A.createVecRight(), A.createVecRight()
        ksp.solve(b, xv); xv.scale(1 / xv.norm())
        k = k0; hist = []
        vs = {q: A.createVecRight() for q in s.m}
        for it in range(maxit):
            q = {}
            for n_, Mx in s.m.items():
                Mx.mult(xv, vs[n_]); q[n_] = xv.tDot(vs[n_])
            for _ in range(30):   # scalar Newton on x^T A(k) x = 0
                R = s.R
                c = s.coef(k); p = sum(c[z] * q[z] for z in q)
                dp = -2 * k * q["M"] - 1j * q["Bm"] + 1j * R * R / (2 * (1 - 1j * k * R) ** 2) * q["Bk"]
                dk = -p / dp; k = k + dk
                if abs(dk) < 1e-13 * abs(k): break
            hist.append(k)
            c = s.coef(k); y.set(0)
            for z in q: y.axpy(c[z], vs[z])
            if verbose: print("  it", it, k, flush=True)
            if it and abs(hist[-1] - hist[-2]) < tol * abs(k): break
            dxv = A.createVecRight(); ksp.solve(y, dxv); xv.axpy(-1, dxv); xv.scale(1 / xv.norm())
        else:
            print("NOT CONVERGED", hist[-3:])
        ksp.destroy()
        return k, xv, it
