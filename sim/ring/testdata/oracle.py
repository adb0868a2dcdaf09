"""Independent minimiser of the ring energy: reads inputs as JSON from the file named first, writes the equilibrium of
each to standard output. Written from the formulas in the package documentation, shares no code with the Go package;
numpy and scipy only. Run by oracle_test.go, which also keeps its answers in oracle.json."""
import json
import sys

import numpy as np
from scipy.optimize import fsolve, minimize

STRETCH_TOE, CABLE_TOE, WALL_SHORTEST = 0.01, 0.02, 1.0


def blend(a, b, w):
    return a * (b / a) ** w


def unit(v):
    return v / np.linalg.norm(v)


def step_integral(x):
    return 0.0 if x <= 0 else x - 0.5 if x >= 1 else x**3 - x**4 / 2


def ramp(a, b, p, width):
    return (step_integral((b - p) / width + 0.5) - step_integral((a - p) / width + 0.5)) * width / (b - a)


def form(k_along, k_across, t):
    """stiffness matrix along the unit vector t and across it"""
    return k_across * np.eye(3) + (k_along - k_across) * np.outer(t, t)


def build(case):
    """quadratic matrix, force vector, list of cords, list of cables, list of rod triples"""
    c = case["constants"]
    x = np.array(case["annulus"])
    v = np.array(case["vein"]).reshape(-1, 3)
    n, m = len(x), len(v)
    rest = np.vstack([x, v])
    size = 3 * (n + m)
    quad, force = np.zeros((size, size)), np.zeros(size)

    def add(points, weights, k):
        for p, a in zip(points, weights):
            for q, b in zip(points, weights):
                quad[3 * p : 3 * p + 3, 3 * q : 3 * q + 3] += a * b * k

    def bend(a, b, d, ei):
        la, ld = np.linalg.norm(rest[b] - rest[a]), np.linalg.norm(rest[d] - rest[b])
        h = (la + ld) / 2
        add([a, b, d], [1 / (la * h), -1 / (la * h) - 1 / (ld * h), 1 / (ld * h)], form(0, ei * h, unit(rest[d] - rest[a])))

    cords = []
    for i in range(n):
        a, b, f = (i - 1) % n, (i + 1) % n, case["fibrous"][i]
        bend(a, i, b, blend(c["AnnulusBending"], c["FibrousBending"], f))
        h = (np.linalg.norm(rest[i] - rest[a]) + np.linalg.norm(rest[b] - rest[i])) / 2
        add([i], [1], h * np.diag([blend(c["FoundationCommissural"], c["FibrousFoundation"], f)]
                                  + 2 * [blend(c["FoundationSeptal"], c["FibrousFoundation"], f)]))
        g = (f + case["fibrous"][b]) / 2
        cords.append((i, b, blend(c["AnnulusTension"], c["FibrousAxial"], g), blend(c["AnnulusCompression"], c["FibrousAxial"], g)))
    for j in range(m):
        a, b = max(j - 1, 0) + n, min(j + 1, m - 1) + n
        if 0 < j < m - 1:
            bend(a, n + j, b, c["VeinBending"])
        h = (np.linalg.norm(rest[n + j] - rest[a]) + np.linalg.norm(rest[b] - rest[n + j])) / 2
        t = unit(rest[b] - rest[a])
        add([n + j], [1], h * form(c["GrooveTangent"], c["Groove"], t))
        p = case["partner"][j]
        lo, w = int(np.floor(p)) % n, p - np.floor(p)
        hi = (lo + 1) % n
        d = (1 - w) * x[lo] + w * x[hi] - v[j]
        length = np.sqrt(d @ d + WALL_SHORTEST**2)
        e = d / length
        s = unit(t - (t @ e) / (e @ e) * e)
        k = form(c["WallMembrane"], c["WallTransverse"], e) + (c["WallShear"] - c["WallTransverse"]) * np.outer(s, s)
        add([n + j, lo, hi], [1, w - 1, -w], case["on_atrium"][j] * h / length * k)
        if j + 1 < m:
            cords.append((n + j, n + j + 1, c["VeinTension"], c["VeinCompression"]))
    for load in case["loads"]:
        force[3 * load["point"] : 3 * load["point"] + 3] += load["force"]

    cables, rods, st = [], [], case["station"]
    if case["band"]:
        b = case["band"]
        w = [ramp(st[j], st[j + 1], b["proximal"], c["AnchorLength"]) - ramp(st[j], st[j + 1], b["distal"], c["AnchorLength"]) for j in range(m - 1)]
        free = sum(w[j] * np.linalg.norm(v[j + 1] - v[j]) for j in range(m - 1))
        taken = b["slack"] * (1 - np.exp(-b["shortening"] / b["slack"])) if b["slack"] > 0 else 0
        cables.append(([(n + j, n + j + 1, w[j]) for j in range(m - 1)], free - b["shortening"] + taken, b["tension"]))
    for tie in case["ties"]:
        cables.append(([(tie["a"], tie["b"], 1.0)], np.linalg.norm(x[tie["a"]] - x[tie["b"]]) - tie["shortening"], 0))
    if case["rods"]:
        r = case["rods"]
        w = [ramp(st[j], st[j + 1], r["proximal"], c["AnchorLength"]) - ramp(st[j], st[j + 1], r["distal"], c["AnchorLength"]) for j in range(m - 1)]
        for j in range(1, m - 1):
            h = (np.linalg.norm(v[j] - v[j - 1]) + np.linalg.norm(v[j + 1] - v[j])) / 2
            rods.append((n + j, min(w[j - 1], w[j]) * r["stiffness"] / h))
    return rest, quad, force, cords, cables, rods, c["BandStiffness"]


def energy(u, model):
    """energy and gradient at the displacements u"""
    rest, quad, force, cords, cables, rods, stiff = model
    x = rest + u.reshape(-1, 3)
    ku = quad @ u
    e, g = u @ ku / 2 - force @ u, (ku - force).reshape(-1, 3)
    for a, b, ten, com in cords:
        d, l0 = x[b] - x[a], np.linalg.norm(rest[b] - rest[a])
        l = np.linalg.norm(d)
        lam = l / l0
        s = (lam - 1) / STRETCH_TOE
        q = np.sqrt(s * s + 1)
        e += l0 * (com * (lam - 1 - np.log(lam)) + (ten - com) * STRETCH_TOE**2 * (s * s / 2 + (s * q + np.arcsinh(s)) / 2 - s) / 2)
        f = (com * (1 - 1 / lam) + (ten - com) * STRETCH_TOE * (s + q - 1) / 2) / l * d
        g[a] -= f
        g[b] += f
    for segments, target, held in cables:
        length = sum(w * np.linalg.norm(x[b] - x[a]) for a, b, w in segments)
        over = length - target
        if held > 0:
            t, e = held, e + held * over
        elif over <= 0:
            continue
        elif over < CABLE_TOE:
            t, e = stiff * over**2 / (2 * CABLE_TOE), e + stiff * over**3 / (6 * CABLE_TOE)
        else:
            t = stiff * (over - CABLE_TOE / 2)
            e += stiff * (over**2 / 2 - CABLE_TOE * over / 2 + CABLE_TOE**2 / 6)
        for a, b, w in segments:
            f = t * w * unit(x[b] - x[a])
            g[a] -= f
            g[b] += f
    for i, k in rods:
        p, q = x[i] - x[i - 1], x[i + 1] - x[i]
        tp, tq = unit(p), unit(q)
        cos = tp @ tq
        e += k * (1 - cos)
        dp, dq = -k * (tq - cos * tp) / np.linalg.norm(p), -k * (tp - cos * tq) / np.linalg.norm(q)
        g[i - 1] -= dp
        g[i] += dp - dq
        g[i + 1] += dq
    return e, g.ravel()


def solve(case):
    model = build(case)
    u = minimize(energy, np.zeros(model[1].shape[0]), args=(model,), jac=True, method="BFGS", options={"gtol": 1e-5, "maxiter": 5000}).x
    u = fsolve(lambda z: energy(z, model)[1], u, xtol=1e-13)
    e, g = energy(u, model)
    x = model[0] + u.reshape(-1, 3)
    return {"name": case["name"], "energy": e, "residual": float(np.abs(g).max()), "points": x.tolist()}


if __name__ == "__main__":
    with open(sys.argv[1]) as f:
        json.dump([solve(case) for case in json.load(f)], sys.stdout)
