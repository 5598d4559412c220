#!/usr/bin/python3
"""Independent recomputation of the ingress cases by SciPy: the method of lines on equal cell-centred volumes.

Reads the same JSON files; shares no idea of mesh or steps with DeckLife: cells of equal width with faces on every
interface, harmonic resistances, time by SciPy's BDF with tight tolerances, instantaneous coefficients (no clocks).
Each case runs on two cell sizes and is extrapolated; the difference to the finer one is printed as its own error.
Writes expected.csv. Run: /usr/bin/python3 reference-checks/peers/ingress/recompute.py  (about two minutes)
"""
import json
import math
import os
import re
import sys

import numpy as np, scipy
from scipy.integrate import solve_ivp
from scipy.sparse import diags

HERE = os.path.dirname(os.path.abspath(__file__))
CASES = os.path.join(HERE, "..", "..", "ingress-cases")
YEAR = 365.25
LB = 0.45359237 / 0.764554857984
UNITS = {
    "mm": 1, "in": 25.4, "yr": 1, "d": 1 / YEAR, "kg/m3": 1, "lb/yd3": LB,
    "mm2/yr": 1, "in2/yr": 645.16, "m2/s": 1e6 * YEAR * 86400,
    "kg/m3/yr": 1, "K": 1, "°C": 1, "kJ/mol": 1000 / 8.31446261815324,
}
MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"]


def q(text):
    number, unit = text.strip().split(" ", 1)
    return float(number) * UNITS[unit]


def month(m):
    return m if isinstance(m, int) else MONTHS.index(m[:3].lower()) + 1


class Law:
    def __init__(self, spec, start):
        self.spec, self.start = spec, start
        self.leak = spec.get("leakFraction", 1)
        self.shift = q(spec["convectionDepth"]) if "convectionDepth" in spec else 0
        self.sealed = spec["law"] == "sealed"

    def __call__(self, t):
        s, law, t = self.spec, self.spec["law"], t - self.start
        if law == "constant":
            v = q(s["content"])
        elif law in ("linear", "square-root"):
            p = 1 if law == "linear" else 0.5
            if "rate" in s:
                v = q(s["rate"].replace("/yr0.5", "/yr")) * max(t, 0) ** p
            else:
                v = q(s["content"]) * (min(max(t, 0), q(s["plateau"])) / q(s["plateau"])) ** p
        elif law == "exponential":
            v = q(s["content"]) * -math.expm1(-t / q(s["timeConstant"]))
        elif law == "table":
            v = float(np.interp(t, [q(x) for x in s["times"]], [q(x) for x in s["contents"]]))
        elif law == "seasonal":
            k = (math.floor(t * 12 + 1e-7) + month(s["timeZeroMonth"]) - 1) % 12 + 1
            v = q(s["content"]) if k in [month(m) for m in s["months"]] else q(s["offContent"])
        return self.leak * v

    def stops(self, a, b):
        s, out = self.spec, []
        if "plateau" in s:
            out.append(q(s["plateau"]))
        if s["law"] == "table":
            out += [q(x) for x in s["times"]]
        if s["law"] == "seasonal":
            out += [k / 12 for k in range(1, int((b - self.start) * 12) + 1)]
        return [self.start + t for t in out if a < self.start + t < b]


class Layer:
    def __init__(self, spec, start):
        self.name, self.thickness, self.start = spec["name"], q(spec["thickness"]), start
        self.initial = q(spec["initialChloride"])
        d = spec["diffusion"]
        self.apparent = "apparent" in d
        d = d.get("apparent", d)
        self.d, self.m = q(d["coefficient"]), d.get("ageingExponent", 0)
        self.ref = q(d["referenceAge"]) if "referenceAge" in d else 1
        self.age = q(d["ageAtStart"]) if "ageAtStart" in d else 0
        self.fade = q(d["constantAfter"]) if "constantAfter" in d else math.inf
        self.capacity = spec.get("capacity", 1)
        self.iso = spec.get("isotherm")
        self.b = q(spec["activation"]) if "activation" in spec else 0
        self.tref = q(spec["referenceTemperature"]) + 273.15 if self.b else 293.15

    def coefficient(self, t, kelvin):
        t = t - self.start
        if self.apparent:
            d = self.d * (1 - self.m) * (self.ref / max(min(t, self.fade), 1e-13)) ** self.m
        else:
            d = self.d * (self.ref / max(min(t + self.age, self.fade), 1e-13)) ** self.m if self.m else self.d
        return d * (math.exp(self.b * (1 / self.tref - 1 / kelvin)) if self.b else 1)

    @property
    def mobility(self):
        return self.iso["waterContent"] if self.iso else self.capacity

    def total(self, c):
        i = self.iso
        if not i:
            return self.capacity * c
        if i["law"] == "linear":
            bound = i["alpha"] * c
        elif i["law"] == "langmuir":
            bound = i["alpha"] * c / (1 + i["beta"] * np.maximum(c, 0))
        else:
            bound = i["alpha"] * np.maximum(c, 0) ** i["beta"]
        return i["waterContent"] * c + bound

    def free(self, w):
        w = np.asarray(w, float)
        if not self.iso:
            return w / self.capacity
        # Bisection in the logarithm, then Newton: slow and safe, unlike the library's own.
        lo, hi = np.full(w.shape, -80.0), np.log(np.maximum(w, 1e-300) / self.iso["waterContent"])
        for _ in range(60):
            mid = 0.5 * (lo + hi)
            big = self.total(np.exp(mid)) > w
            hi = np.where(big, mid, hi)
            lo = np.where(big, lo, mid)
        return np.where(w > 1e-25, np.exp(0.5 * (lo + hi)), w / self.total(np.ones(())) * 0)


class Fast:
    """Layer.free by interpolation in a fine table with a Newton polish, for the right-hand side."""

    def __init__(self, layer):
        self.layer = layer
        if layer.iso:
            self.c = np.concatenate([[0], np.exp(np.linspace(-60, 6, 20000))])
            self.w = layer.total(self.c)

    def __call__(self, w):
        if not self.layer.iso:
            return w / self.layer.capacity
        c = np.interp(w, self.w, self.c)
        i = self.layer.iso
        for _ in range(2):
            cc = np.maximum(c, 1e-26)
            if i["law"] == "linear":
                slope = i["waterContent"] + i["alpha"]
            elif i["law"] == "langmuir":
                slope = i["waterContent"] + i["alpha"] / (1 + i["beta"] * cc) ** 2
            else:
                slope = i["waterContent"] + i["alpha"] * i["beta"] * cc ** (i["beta"] - 1)
            c = np.where(w > 0, np.maximum(c - (self.layer.total(c) - w) / slope, 0), 0)
        return c


def kelvin_of(spec):
    if spec is None:
        return lambda t: 293.15, lambda a, b: []
    if spec["law"] == "constant":
        return lambda t: q(spec["value"]) + 273.15, lambda a, b: []
    if spec["law"] == "monthly":
        v, z = [q(x) for x in spec["values"]], month(spec["timeZeroMonth"])
        return (lambda t: v[(math.floor(t * 12 + 1e-7) + z - 1) % 12] + 273.15,
                lambda a, b: [k / 12 for k in range(int(a * 12), int(b * 12) + 2) if a < k / 12 < b])
    m, a_, w = q(spec["mean"]), q(spec["amplitude"]), q(spec["warmestAt"])
    return lambda t: m + a_ * math.cos(2 * math.pi * (t - w)) + 273.15, lambda a, b: []


def run(case, cell):
    layers = [Layer(s, 0) for s in case["layers"]]
    stack = []  # (layer, array of cell widths, array of total contents) from the top
    for l in layers:
        n = round(l.thickness / cell)
        stack.append([l, np.full(n, l.thickness / n), np.full(n, l.initial)])
    lowest = layers[-1].initial
    surface = Law(case["surface"], 0)
    bottom = case["bottom"]
    bottom_law = Law(bottom, 0) if isinstance(bottom, dict) else None
    kelvin, temperature_stops = kelvin_of(case.get("temperature"))
    queries = [(q(t), q(x)) for t, x in case["queries"]] if "queries" in case else \
        [(q(t), q(x)) for t in case["times"] for x in case["depths"]]
    events = sorted(case.get("events", []), key=lambda e: q(e["at"]))
    found = {}
    horizon = max(t for t, _ in queries)
    now = 0.0

    def assemble():
        h = np.concatenate([s[1] for s in stack])
        owner = np.concatenate([np.full(len(s[1]), i) for i, s in enumerate(stack)])
        return h, owner

    def advance(a, b):
        nonlocal stack
        h, owner = assemble()
        held = int(round(surface.shift / h[0])) if not surface.sealed else 0
        fast = [Fast(s[0]) for s in stack]
        slices = [(owner == i) for i in range(len(stack))]
        mob = np.concatenate([np.full(len(s[1]), s[0].mobility) for s in stack])
        w0 = np.concatenate([s[2] for s in stack])

        def free_of(w):
            c = np.empty_like(w)
            for f, m in zip(fast, slices):
                c[m] = f(w[m])
            return c

        stops = sorted({a, b, *surface.stops(a, b), *(bottom_law.stops(a, b) if bottom_law else []), *temperature_stops(a, b)})
        inside = [t for t, _ in queries if a < t <= b]
        for s, e in zip(stops[:-1], stops[1:]):
            middle = 0.5 * (s + e)
            def coefficients(t):
                k = kelvin(middle if (case.get("temperature") or {}).get("law") == "monthly" else t)
                return np.concatenate([np.full(len(x[1]), x[0].coefficient(t, k)) for x in stack]) * mob

            def top(t):
                return float(stack[0][0].free(surface(middle if surface.spec["law"] == "seasonal" else t)))

            def low(t):
                return float(stack[-1][0].free(bottom_law(t) if bottom_law else lowest))

            def rhs(t, w):
                c, d = free_of(w), coefficients(t)
                r = 0.5 * h / d
                flux = np.zeros(len(w) + 1)
                flux[1:-1] = (c[:-1] - c[1:]) / (r[:-1] + r[1:])
                if not surface.sealed:
                    flux[held] = (top(t) - c[held]) / r[held]
                if bottom_law or bottom == "open":
                    flux[-1] = (c[-1] - low(t)) / r[-1]
                out = (flux[:-1] - flux[1:]) / h
                out[:held] = 0
                return out

            if held:
                for i, m in enumerate(slices):
                    idx = np.where(m)[0]
                    idx = idx[idx < held]
                    w0[idx] = stack[i][0].total(np.full(len(idx), top(s)))
            n = len(w0)
            pattern = diags([np.ones(n - 1), np.ones(n), np.ones(n - 1)], [-1, 0, 1])
            wanted = sorted({t for t in inside if s < t <= e} | {e})
            sol = solve_ivp(rhs, (s, e), w0, method="BDF", t_eval=wanted, rtol=2e-8, atol=1e-10,
                            jac_sparsity=pattern, first_step=min(1e-7, (e - s) / 10))
            assert sol.success, sol.message
            for k, t in enumerate(wanted):
                w = sol.y[:, k]
                for j, (tq, x) in enumerate(queries):
                    if tq == t and j not in found:
                        found[j] = value_at(x, w, free_of(w), h, owner, coefficients(t), top(t) if not surface.sealed else None,
                                            low(t) if bottom_law or bottom == "open" else None, held)
            w0 = sol.y[:, -1]
        at = 0
        for s in stack:
            s[2] = w0[at:at + len(s[1])]
            at += len(s[1])

    def value_at(x, w, c, h, owner, d, top, low, held):
        edges = np.concatenate([[0], np.cumsum(h)])
        if held and x < held * h[0] - 1e-9:
            return float(stack[0][0].total(np.array(top)))
        # values of the free concentration on all faces, from flux continuity; sealed faces by a parabola of zero slope
        r = 0.5 * h / d
        face = np.empty(len(w) + 1)
        face[1:-1] = (c[:-1] * r[1:] + c[1:] * r[:-1]) / (r[:-1] + r[1:])
        face[0] = top if top is not None else (9 * c[0] - c[1]) / 8
        face[-1] = low if low is not None else (9 * c[-1] - c[-2]) / 8
        if held:
            face[held] = top
        k = int(np.argmin(abs(edges - x)))
        if abs(edges[k] - x) < 1e-6:
            layer = stack[owner[max(k - 1, 0)]][0]
            # inside a layer a fourth-order mean of the four cells beside the face
            if 2 <= k <= len(w) - 2 and owner[k - 2] == owner[k + 1] and k - 2 >= held:
                return float(layer.total((9 * (c[k - 1] + c[k]) - (c[k - 2] + c[k + 1])) / 16))
            return float(layer.total(face[k]))
        k = int(np.searchsorted(edges, x)) - 1
        layer = stack[owner[k]][0]
        centre = 0.5 * (edges[k] + edges[k + 1])
        if x < centre:
            xs, ys = (edges[k], centre), (face[k], c[k])
        else:
            xs, ys = (centre, edges[k + 1]), (c[k], face[k + 1])
        return float(layer.total(np.interp(x, xs, ys)))

    for j, (t, x) in enumerate(queries):
        if t == 0:
            edge = 0
            for s in stack:
                edge += s[1].sum()
                if x <= edge + 1e-9:
                    found[j] = s[0].initial
                    break
    for event in events + [None]:
        end = q(event["at"]) if event else horizon
        if min(end, horizon) > now:
            advance(now, min(end, horizon))
        if event is None or end >= horizon:
            break
        now = end
        left = q(event["remove"]) if "remove" in event else 0
        while left > 1e-9:
            s = stack[0]
            if s[1].sum() <= left + 1e-9:
                left -= s[1].sum()
                stack.pop(0)
            else:
                k = int(round(left / s[1][0]))
                assert abs(k * s[1][0] - left) < 1e-6, "a cut must lie on a cell face"
                stack[0] = [s[0], s[1][k:], s[2][k:]]
                left = 0
        if "place" in event:
            l = Layer(event["place"], end)
            n = round(l.thickness / cell)
            stack.insert(0, [l, np.full(n, l.thickness / n), np.full(n, l.initial)])
        if "surface" in event:
            surface = Law(event["surface"], end)
    return np.array([found[j] for j in range(len(queries))]), queries


def load(path):
    text = re.sub(r"^\s*//.*$", "", open(path, encoding="utf-8").read(), flags=re.M)
    return json.loads(text)


if __name__ == "__main__":
    lines = [f"# Python {sys.version.split()[0]}, NumPy {np.__version__}, SciPy {scipy.__version__}; written by recompute.py",
             "case,time_yr,depth_mm,chloride_kg_per_m3,own_error_kg_per_m3"]
    only = sys.argv[1:]
    for name in sorted(os.listdir(CASES)):
        if only and not any(name.startswith(o) for o in only):
            continue
        case = load(os.path.join(CASES, name))
        # a fiftieth of an inch or half a millimetre divides every length of the case
        cell = 0.508 if "in" in case["layers"][0]["thickness"] else 0.5
        coarse, queries = run(case, cell)
        fine, _ = run(case, cell / 2)
        best = fine + (fine - coarse) / 3
        for (t, x), v, f in zip(queries, best, fine):
            lines.append(f"{name[:-5]},{t!r},{x!r},{v:.8f},{abs(v - f):.1e}")
        print(name, "own error", f"{np.max(abs(best - fine)):.1e}", flush=True)
    if not only:
        with open(os.path.join(HERE, "expected.csv"), "w") as f:
            f.write("\n".join(lines) + "\n")
    else:
        print("\n".join(lines))
