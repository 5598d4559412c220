#!/usr/bin/python3
"""Layered histories by SciPy and NumPy on the cases that `DeckLife.Benchmarks peers` wrote: processor time a history, error beside it.

Space: lumped linear elements, 62 cells graded under the point, the interface's node shared by volume; what a careful user of a
general solver would write. The batched version uses the library's own algorithm (clocks, two-stage scheme, two meshes).
"""
import sys
import time

import numpy as np
import scipy
from scipy.integrate import solve_ivp
from scipy.sparse import diags
from scipy.special import erfc

folder = sys.argv[1]
P = np.loadtxt(folder + "/sections.csv", delimiter=",")
R = np.loadtxt(folder + "/reference.csv", delimiter=",")
TREF, AGE1, AGE2, T = 28 / 365.25, 7 / 365.25, 30.0, 60.0
YEARS = np.arange(1.0, 61.0)


def line(key, value, error, unit):
    print(f"peer|{key}|{value:.6g}|{error:.3g}|{unit}", flush=True)


def set_up(p, n1=24, n2=18, n3=20, ratio=1.1):
    h1, point, bottom = p[0], p[1], p[10]
    deep = ratio ** np.arange(n3)
    h = np.concatenate([np.full(n1, h1 / n1), np.full(n2, (point - h1) / n2), (bottom - point) * deep / deep.sum()])
    x = np.cumsum(h)
    mass = h / 2 + np.append(h[1:], 0) / 2
    c = np.where(np.arange(len(h)) < n1 - 1, 0.0, p[7] * erfc((x - h1 + p[9]) / (2 * np.sqrt(p[8]))))
    c[n1 - 1] *= h[n1] / (h[n1 - 1] + h[n1])
    return h, mass, c, n1, n1 + n2 - 1


def right_hand_side(p):
    h, mass, c, n1, point = set_up(p)
    upper = np.arange(len(h)) < n1

    def conductance(t):
        d1 = p[2] * (TREF / (t + AGE1)) ** p[3]
        d2 = p[4] * (TREF / (t + AGE2)) ** p[5]
        return np.where(upper, d1, d2) / h

    def f(t, u):
        flux = conductance(t) * (np.concatenate(([p[6]], u[:-1])) - u)
        change = flux.copy()
        change[:-1] -= flux[1:]
        return change / mass

    def jacobian(t, u):
        k = conductance(t)
        main = -k.copy()
        main[:-1] -= k[1:]
        return diags([k[1:] / mass[1:], main / mass, k[1:] / mass[:-1]], [-1, 0, 1], format="csc")

    return f, jacobian, c, point


def error(i, values):
    return np.max(np.abs(values - R[i])) / max(P[i, 6], P[i, 7])


def solver(method, rtol, cases):
    seconds, errors = [], []
    for i in cases:
        f, jacobian, c, point = right_hand_side(P[i])
        more = dict(lband=1, uband=1) if method == "LSODA" else dict(jac=jacobian)
        best = np.inf
        for _ in range(3):
            start = time.process_time()
            s = solve_ivp(f, (0, T), c, method=method, t_eval=YEARS, rtol=rtol, atol=rtol * 0.1, **more)
            best = min(best, time.process_time() - start)
        seconds.append(best)
        errors.append(error(i, s.y[point]))
    return np.median(seconds) * 1e6, max(errors)


def times_and_factors(steps, grading, age, d, m):
    t = T * (np.arange(steps + 1) / steps) ** grading
    a = t + age
    s = d * TREF**m / (1 - m) * (a[:, None] ** (1 - m))
    return t, np.diff(s, axis=0) * (1 - np.sqrt(0.5))


def batched(block, cells, steps, grading=3.5):
    """The library's algorithm, compact mass rows, vectorised over samples by NumPy."""
    p = block.T
    n = cells
    lengths = [p[0] / 2, p[0] / 2, p[1] - p[0]]
    near = np.minimum(1.5 * (p[1] - p[0]), 0.25 * (p[10] - p[1]))
    rest = p[10] - p[1] - near
    lengths += [near, 0.4 * rest, 0.6 * rest]
    h = [length / k for length, k in zip(lengths, n)]
    upper = [True, True, False, False, False, False]
    t, ds1 = times_and_factors(steps, grading, AGE1, p[2], p[3])
    _, ds2 = times_and_factors(steps, grading, AGE2, p[4], p[5])
    starts = np.cumsum([0] + list(n))
    last, point, face = starts[-1], starts[3], starts[2]
    c = np.zeros((last + 1, len(block)))
    depth = np.zeros(len(block))
    node = face
    root = 0.5 / np.sqrt(p[8])
    top = p[7] * erfc(p[9] * root)
    for s in range(2, 6):
        for j in range(n[s]):
            depth = depth + h[s]
            node += 1
            c[node] = p[7] * erfc((depth + p[9]) * root)
    jump = top
    gamma_rho = (1 - (1 - np.sqrt(0.5))) / (1 - np.sqrt(0.5))
    omr = 1 - gamma_rho
    segment = np.repeat(np.arange(6), n)
    is_end = np.zeros(last + 1, bool)
    is_end[starts[1:]] = True
    history = np.empty((steps + 1, len(block)))
    history[0] = c[point]
    inverse, g, low, y = [None] * (last + 1), [None] * (last + 1), [None] * (last + 1), [None] * (last + 1)
    for k in range(steps):
        stiff = [(ds1[k] if upper[s] else ds2[k]) / h[s] for s in range(6)]
        for stage in (0, 1):
            yp, gp = p[6], 0.0
            left, here = c[0], c[1]
            for i in range(1, last + 1):
                s = segment[i - 1]
                if not is_end[i]:
                    off = h[s] / 12 - stiff[s]
                    right = c[i + 1]
                    r = h[s] / 12 * (left + right) + h[s] * (10 / 12) * here
                    if stage == 0:
                        inverse[i] = 1 / (h[s] * (10 / 12) + 2 * stiff[s] - off * gp)
                        gp = g[i] = off * inverse[i]
                        low[i] = g[i]
                    yp = y[i] = r * inverse[i] - low[i] * yp
                    left, here = here, right
                elif i < last:
                    hl, hr = h[s], h[s + 1]
                    right = c[i + 1]
                    here_right = here + jump * (1.0 if stage == 0 else omr) if i == face else here
                    r = (hl * left + hr * right) / 6 + (hl * here + hr * here_right) / 3
                    if stage == 0:
                        lower = hl / 6 - stiff[s]
                        inverse[i] = 1 / ((hl + hr) / 3 + stiff[s] + stiff[s + 1] - lower * gp)
                        gp = g[i] = (hr / 6 - stiff[s + 1]) * inverse[i]
                        low[i] = lower * inverse[i]
                    yp = y[i] = r * inverse[i] - low[i] * yp
                    left, here = here_right, right
                else:
                    r = h[s] * left / 6 + h[s] * here / 3
                    if stage == 0:
                        lower = h[s] / 6 - stiff[s]
                        inverse[i] = 1 / (h[s] / 3 + stiff[s] - lower * gp)
                        low[i] = lower * inverse[i]
                    yp = r * inverse[i] - low[i] * yp
            x = yp
            c[last] = omr * c[last] + gamma_rho * x if stage == 0 else x
            for i in range(last - 1, 0, -1):
                x = y[i] - g[i] * x
                c[i] = omr * c[i] + gamma_rho * x if stage == 0 else x
            c[0] = omr * c[0] + gamma_rho * p[6] if stage == 0 else p[6]
        jump = 0.0
        history[k + 1] = c[point]
    return t, history


def batched_pair(block, cells, steps):
    t, fine = batched(block, cells, steps)
    _, coarse = batched(block, [k // 2 for k in cells], steps // 2)
    fine[::2] += (fine[::2] - coarse) / 3
    return t[::2], fine[::2]


if __name__ == "__main__":
    print(f"peer|versions|Python {sys.version.split()[0]}, SciPy {scipy.__version__}, NumPy {np.__version__}||")
    cases = range(8)
    for method, rtol in (("LSODA", 3e-3), ("LSODA", 1e-3), ("BDF", 1e-3)):
        value, worst = solver(method, rtol, cases)
        line(f"SciPy {method}, rtol {rtol:g}, one history", value, worst, "us")
    from scipy.interpolate import CubicSpline

    for count in (1024, 4096):
        best = np.inf
        for _ in range(3):
            start = time.process_time()
            t, values = batched_pair(P[:count], (8, 8, 10, 8, 6, 4), 32)
            best = min(best, time.process_time() - start)
        worst = max(error(i, CubicSpline(t ** (1 / 3.5), values[:, i])(YEARS ** (1 / 3.5))) for i in range(64))
        line(f"NumPy batched over {count}, same algorithm, a history", best / count * 1e6, worst, "us")
