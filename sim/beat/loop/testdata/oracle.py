#!/usr/bin/python3
"""Independent integration of the published circulations of physics.md C1 (S29) and C2 (S31) with scipy's solve_ivp.

Writes JSON to standard output and the time per beat to standard error. Shares no code with the Go program.
Rerun:  /usr/bin/python3 testdata/oracle.py > testdata/oracle.json   (Debian's python3-scipy; names restrict the cases)
"""
import json
import math
import sys
import time

from scipy.integrate import solve_ivp
from scipy.optimize import minimize_scalar

SAMPLES = 8  # per beat, at i*T/SAMPLES


def run(rhs, start, breaks, beats):
    """Integrates whole beats between the break times of the activation; returns the dense last beat."""
    y, seconds = list(start), time.perf_counter()
    for _ in range(beats):
        pieces = []
        for a, b in zip(breaks, breaks[1:]):
            s = solve_ivp(rhs, (a, b), y, method="LSODA", rtol=1e-9, atol=1e-8, dense_output=True)
            if not s.success:
                raise RuntimeError(s.message)
            pieces.append(s)
            y = [float(v) for v in s.y[:, -1]]
    return pieces, (time.perf_counter() - seconds) / beats


def at(pieces, breaks, t):
    for p, b in zip(pieces, breaks[1:]):
        if t <= b:
            return p.sol(t)
    raise ValueError(t)


def summary(pieces, breaks, pressure, lv, artery, leak):
    """Volumes, pressures and leak volume of the last beat by dense output on a fine grid."""
    T, n = breaks[-1], 4000
    ys = [at(pieces, breaks, i * T / n) for i in range(n + 1)]
    ps = [pressure(i * T / n, y) for i, y in enumerate(ys)]
    flow = [leak(p) for p in ps]
    vol = [float(y[lv]) for y in ys]
    step = n // SAMPLES
    return {
        "edv": max(vol), "esv": min(vol),
        "lv_max": max(p[lv] for p in ps),
        "artery_mean": sum(p[artery] for p in ps[:-1]) / n,
        "leak_ml": sum(flow[:-1]) * T / n,
        "lv_volume": [vol[i * step] for i in range(SAMPLES)],
        "lv_pressure": [ps[i * step][lv] for i in range(SAMPLES)],
    }


def three(cq):
    T = 60 / 70.588235

    def raw(x):
        u = (x / 0.303) ** 1.32
        return u / (1 + u) / (1 + (x / 0.508) ** 21.9)

    best = minimize_scalar(lambda x: -raw(x), bounds=(0.3, 0.6), method="bounded", options={"xatol": 1e-12})
    k = 1 / raw(best.x)

    def pressure(t, v):
        e = 0.03 + 1.47 * k * raw(t / T)
        return (e * float(v[0]), float(v[1]) / 1.13, float(v[2]) / 11.0)

    def leak(p):
        return cq * math.sqrt(max(p[0] - p[2], 0.0))

    def rhs(t, v):
        p = pressure(t, v)
        qao = max(p[0] - p[1], 0.0) / 0.033
        qmi = max(p[2] - p[0], 0.0) / 0.006
        qs = (p[1] - p[2]) / 1.11
        ql = leak(p)
        return (qmi - qao - ql, qao - qs, qs - qmi + ql)

    breaks = [0.0, T]
    pieces, s = run(rhs, (7 / 0.03, 7 * 1.13, 7 * 11.0), breaks, 20)
    return summary(pieces, breaks, pressure, 0, 1, leak), s


def four(mitral, cq):
    def ventricle(t):
        if t <= 0.30:
            return 0.5 * (1 - math.cos(math.pi * t / 0.30))
        if t <= 0.45:
            return 0.5 * (1 + math.cos(math.pi * (t - 0.30) / 0.15))
        return 0.0

    def atrium(t):
        d = (t - 0.92) % 1.0
        return 0.5 * (1 - math.cos(2 * math.pi * d / 0.09)) if d < 0.09 else 0.0

    # lv, sinus, artery, vein, ra, rv, pulmonary sinus, artery, vein, la; then the four flows with inertance
    def pressure(t, v):
        ev, ea = ventricle(t), 0.15 + 0.10 * atrium(t)
        return (1 + (0.1 + 2.4 * ev) * (v[0] - 5), v[1] / 0.08, v[2] / 1.6, v[3] / 20.5, 1 + ea * (v[4] - 4),
                1 + (0.1 + 1.05 * ev) * (v[5] - 10), v[6] / 0.18, v[7] / 3.8, v[8] / 20.5, 1 + ea * (v[9] - 4))

    def gate(c, dp):
        return c * math.sqrt(dp) if dp > 0 else 0.0

    def leak(p):
        return gate(cq, p[0] - p[9])

    def rhs(t, y):
        y = [float(x) for x in y]
        p = pressure(t, y)
        qao, qtr = gate(350, p[0] - p[1]), gate(400, p[4] - p[5])
        qpu, qmi = gate(350, p[5] - p[6]), gate(mitral, p[9] - p[0])
        ql, qsv, qpv = leak(p), (p[3] - p[4]) / 0.075, (p[8] - p[9]) / 0.006
        s, a, ps, pa = y[10:14]
        return (qmi - qao - ql, qao - s, s - a, a - qsv, qsv - qtr, qtr - qpu, qpu - ps, ps - pa, pa - qpv,
                qpv - qmi + ql,
                (p[1] - p[2] - 0.003 * s) / 6.2e-5, (p[2] - p[3] - 1.07 * a) / 0.0017,
                (p[6] - p[7] - 0.002 * ps) / 5.2e-5, (p[7] - p[8] - 0.31 * pa) / 0.0017)

    breaks = [0.0, 0.01, 0.30, 0.45, 0.92, 1.0]
    start = [500, 8, 160, 0, 20, 500, 5.4, 114, 0, 20, 0, 0, 0, 0]
    pieces, s = run(rhs, start, breaks, 40)
    return summary(pieces, breaks, pressure, 0, 2, leak), s


def main():
    out, spent = {}, {}
    for name, f in (("three", lambda: three(0)), ("three_leak10", lambda: three(10)), ("four", lambda: four(400, 0)),
                    ("four_leak20", lambda: four(400, 20)), ("four_both", lambda: four(100, 5))):
        if len(sys.argv) < 2 or name in sys.argv[1:]:
            out[name], spent[name] = f()
    json.dump(out, sys.stdout, indent=1)
    print()
    print("seconds per beat: " + " ".join(f"{k} {v:.4f}" for k, v in spent.items()), file=sys.stderr)


if __name__ == "__main__":
    main()
