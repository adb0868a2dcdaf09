#!/usr/bin/python3
"""Independent values for the tests of geometry and geometry/contour, by scipy. Shares no code with them.

    /usr/bin/python3 oracle.py > oracle.json

Lengths in mm. Curves are given by formulas here and in Annulus's comment; what the Go code solves for (the flattening q,
the saddle's k and m) is solved again here from its definition with brentq and adaptive quadrature.
"""
import json
import sys

import numpy as np
import scipy
from scipy.integrate import quad
from scipy.interpolate import CubicSpline, make_smoothing_spline
from scipy.optimize import brentq, minimize


def length(deriv, a=0.0, b=2 * np.pi):
    parts = np.linspace(a, b, 9)
    return sum(quad(lambda t: np.linalg.norm(deriv(t)), p, q, epsabs=1e-11, epsrel=1e-12)[0] for p, q in zip(parts, parts[1:]))


def saddle_ellipse(a, b, h):
    return lambda t: np.array([-a * np.sin(t), b * np.cos(t), -2 * h * np.sin(2 * t)])


class DShape:
    def __init__(self, sl, c, height, share, depth):
        self.a, self.b, self.e, self.h = c / 2, sl / 2, (depth - 0.5) * sl, height
        self.share = share
        self.k = self.m = 0.0
        self.q = brentq(self.sagitta, -0.2, 0.7, xtol=1e-13)
        self.k = brentq(self.tilt, -0.24, 0.24, xtol=1e-13)
        w = self.mean(lambda t: 1.0)
        self.m = self.mean(self.raw) / w

    def xy(self, t):
        s, c = np.sin(t), np.cos(t)
        return self.a * c * (1 + self.q * s * s * (1 + s) / 2), self.b * s + self.e * s * s

    def raw(self, t):
        s = np.sin(t)
        return s * s + self.k * s * np.sin(2 * t) ** 2

    def deriv(self, t, flat=False):
        s, c = np.sin(t), np.cos(t)
        w, dw = s * s * (1 + s) / 2, (s + 1.5 * s * s) * c
        dz = np.sin(2 * t) + self.k * (c * np.sin(2 * t) ** 2 + 2 * s * np.sin(4 * t))
        return np.array([self.a * (-s * (1 + self.q * w) + c * self.q * dw), (self.b + 2 * self.e * s) * c, 0 if flat else self.h * dz])

    def sagitta(self, q):
        self.q = q
        flat = lambda t: self.deriv(t, True)
        half = self.share * length(flat) / 2
        t = brentq(lambda t: length(flat, t, np.pi / 2) - half, -0.5, np.pi / 2, xtol=1e-13)
        x, y = self.xy(t)
        return (self.xy(np.pi / 2)[1] - y) / (2 * x) - 0.06

    def mean(self, f):
        return sum(quad(lambda t: f(t) * np.linalg.norm(self.deriv(t)), p, p + np.pi / 4, epsabs=1e-12)[0] for p in np.arange(8) * np.pi / 4)

    def tilt(self, k):
        self.k = k
        w, y, g = self.mean(lambda t: 1.0), self.mean(lambda t: self.xy(t)[1]), self.mean(self.raw)
        return self.mean(lambda t: self.raw(t) * self.xy(t)[1]) - y * g / w

    def point(self, t):
        x, y = self.xy(t)
        return np.array([x, y, self.h * (self.raw(t) - self.m)])


def minimal_area(boundary, rings):
    """Least area of a graph over the polar mesh between the boundary's projection and its centre, z free inside."""
    around = 4 * rings
    t = 2 * np.pi * np.arange(around) / around
    rim = np.array([boundary(x) for x in t])
    centre = np.array([0.0, rim[:, 1].mean()])
    xy = np.vstack([centre] + [centre + r / rings * (rim[:, :2] - centre) for r in range(1, rings + 1)])
    faces = []
    for k in range(around):
        n = (k + 1) % around
        faces.append((0, 1 + k, 1 + n))
        for r in range(rings - 1):
            a, b = 1 + r * around + k, 1 + r * around + n
            c, d = a + around, b + around
            faces += [(a, c, d), (a, d, b)] if (r + k) % 2 else [(a, c, b), (b, c, d)]
    f = np.array(faces)
    p, q, r = xy[f[:, 0]], xy[f[:, 1]], xy[f[:, 2]]
    u, v = q - p, r - p
    nz = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
    inside = 1 + (rings - 1) * around
    z = np.zeros(len(xy))
    z[inside:] = rim[:, 2]

    def area(zi):
        z[:inside] = zi
        a, b = z[f[:, 1]] - z[f[:, 0]], z[f[:, 2]] - z[f[:, 0]]
        nx, ny = u[:, 1] * b - a * v[:, 1], a * v[:, 0] - u[:, 0] * b
        n = np.sqrt(nx * nx + ny * ny + nz * nz)
        da, db = (-nx * v[:, 1] + ny * v[:, 0]) / n / 2, (nx * u[:, 1] - ny * u[:, 0]) / n / 2
        g = np.bincount(f[:, 1], da, len(z)) + np.bincount(f[:, 2], db, len(z)) - np.bincount(f[:, 0], da + db, len(z))
        return n.sum() / 2, g[:inside]

    start = np.concatenate([[rim[:, 2].mean()]] + [rim[:, 2] * (r / rings) ** 2 for r in range(1, rings)])
    res = minimize(area, start, jac=True, method="L-BFGS-B", options=dict(maxiter=20000, maxfun=40000, ftol=1e-15, gtol=1e-9, maxcor=30))
    return res.fun


def extrapolated(boundary, rings=12):
    a, b = minimal_area(boundary, rings), minimal_area(boundary, 2 * rings)
    return (4 * b - a) / 3


def spline_data(n):
    i = np.arange(n)
    u = i + 0.3 * np.sin(3 * i)
    noise, x = [], 12345  # a small linear congruential generator, the same in the Go test
    for _ in range(3 * n):
        x = (1103515245 * x + 12345) % 2**31
        noise.append(x / 2**31 - 0.5)
    y = np.vstack([np.cos(u / 3), 0.05 * u + np.sin(u / 5), np.sin(u / 7)]) + 0.3 * np.array(noise).reshape(n, 3).T
    w = 1.0 + i % 4
    return u, y, w


def periodic_smooth(u, y, w, period, lam):
    """Normal equations in the basis of periodic cardinal splines."""
    n = len(u)
    knots = np.append(u, u[0] + period)
    second = np.zeros((n + 1, n))
    for j in range(n):
        e = np.zeros(n + 1)
        e[j] = 1
        if j == 0:
            e[n] = 1
        second[:, j] = CubicSpline(knots, e, bc_type="periodic")(knots, 2)
    h = np.diff(knots)
    a, b = second[:-1], second[1:]
    bend = (a.T * h) @ a / 3 + (b.T * h) @ b / 3 + ((a.T * h) @ b + (b.T * h) @ a) / 6
    return np.linalg.solve(np.diag(w) + lam * bend, (w * y).T).T


def main():
    out = {"scipy": scipy.__version__}
    out["saddle_ellipse_length"] = [{"a": a, "b": b, "h": h, "length": length(saddle_ellipse(a, b, h))}
                                    for a, b, h in [(20, 16, 0), (20, 16, 4), (19.5, 14, 3.45), (15, 15, 6)]]
    out["annulus"] = []
    for sl, c, height, share, depth in [(28, 39, 6.9, 0.231, 0.375), (34, 43, 5.9, 0.26, 0.40), (24, 36, 8.0, 0.22, 0.45)]:
        d = DShape(sl, c, height, share, depth)
        out["annulus"].append({"septal_lateral": sl, "commissural": c, "height": height, "share": share, "depth": depth, "q": d.q, "k": d.k, "m": d.m,
                               "length": length(d.deriv), "minimal_area": extrapolated(d.point),
                               "projected_area": quad(lambda t: d.xy(t)[0] * d.deriv(t)[1], 0, 2 * np.pi)[0]})
    out["saddle_circle_minimal"] = [{"h": h, "ratio": extrapolated(lambda t: np.array([np.cos(t), np.sin(t), h * np.cos(2 * t)])) / np.pi} for h in (0.1, 0.2, 0.4)]
    u, y, w = spline_data(40)
    out["smoothing"] = [{"lambda": lam, "values": np.array([make_smoothing_spline(u, c, w=w, lam=lam)(u) for c in y]).T.tolist()} for lam in (0.01, 1.0, 50.0)]
    out["periodic_smoothing"] = [{"lambda": lam, "period": 40.7, "values": periodic_smooth(u, y, w, 40.7, lam).T.tolist()} for lam in (0.01, 1.0, 50.0)]
    # Automatic smoothing: one coordinate at a time, so that the choice of scipy (generalised cross-validation) is per coordinate.
    out["automatic"] = [{"coordinate": k, "values": make_smoothing_spline(u, y[k])(u).tolist()} for k in range(3)]
    json.dump(out, sys.stdout, indent=1)
    print()


main()
