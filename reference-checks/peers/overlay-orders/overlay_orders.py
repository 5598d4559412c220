"""Three orders about overlays that look obvious and are false, computed with NumPy and SciPy alone.

Finite volumes with faces on the interface and harmonic resistances, Crank-Nicolson after damped first steps, on two
grids (0.5 and 0.25 mm, 400 and 800 steps) with Richardson extrapolation. Run:

    python3 overlay_orders.py > overlay_orders.txt
"""

import sys

import numpy as np
import scipy
from scipy.linalg import solve_banded
from scipy.special import erfc

DECK_MM, DECK_D, EXPOSURE, CS = 200.0, 20.0, 35.0, 8.0


def history(overlay_mm, overlay_d, removed_mm, bar_mm, new_surface, years, old_surface, deck_d, exposure, dx, steps):
    n = int(round((overlay_mm + DECK_MM - removed_mm) / dx))
    x = (np.arange(n) + 0.5) * dx
    d = np.where(x < overlay_mm, overlay_d, deck_d)
    c = np.where(
        x < overlay_mm,
        0.0,
        old_surface * erfc((x - overlay_mm + removed_mm) / (2 * np.sqrt(deck_d * exposure))),
    )
    g = np.zeros(n + 1)
    g[1:-1] = 2 * d[:-1] * d[1:] / (d[:-1] + d[1:]) / dx
    g[0] = 2 * d[0] / dx
    times = years * (np.arange(steps + 1) / steps) ** 2
    bar = overlay_mm + bar_mm - removed_mm
    out = [np.interp(bar, x, c)]
    for k in range(steps):
        dt = times[k + 1] - times[k]
        theta = 1.0 if k < 8 else 0.5
        flux = np.zeros(n + 1)
        flux[1:-1] = -g[1:-1] * (c[1:] - c[:-1])
        flux[0] = -g[0] * (c[0] - new_surface)
        rhs = c + (1 - theta) * dt * (flux[:-1] - flux[1:]) / dx
        rhs[0] += theta * dt * g[0] * new_surface / dx
        ab = np.zeros((3, n))
        ab[1] = 1 + theta * dt * (g[:-1] + g[1:]) / dx
        ab[0, 1:] = -theta * dt * g[1:-1] / dx
        ab[2, :-1] = -theta * dt * g[1:-1] / dx
        c = solve_banded((1, 1), ab, rhs)
        out.append(np.interp(bar, x, c))
    return np.array(out)


def value(overlay_mm, overlay_d, removed_mm, bar_mm, new_surface, years, pick, old_surface=CS, deck_d=DECK_D, exposure=EXPOSURE):
    coarse = pick(history(overlay_mm, overlay_d, removed_mm, bar_mm, new_surface, years, old_surface, deck_d, exposure, 0.5, 400))
    fine = pick(history(overlay_mm, overlay_d, removed_mm, bar_mm, new_surface, years, old_surface, deck_d, exposure, 0.25, 800))
    return fine + (fine - coarse) / 3, abs(fine - coarse) / 3


def last(h):
    return h[-1]


def show(name, result):
    print(f"{name:64s} {result[0]:.6f}  +- {result[1]:.1e}")


print(f"# Python {sys.version.split()[0]}, NumPy {np.__version__}, SciPy {scipy.__version__}")
print(f"# deck {DECK_MM:g} mm, D {DECK_D:g} mm2/yr, {EXPOSURE:g} yr of surface content {CS:g} kg/m3, background 0")
print("# 1: 38 mm overlay of D 30, bar at 60 mm, surface content 8 again: content at the bar after 50 yr [kg/m3]")
for removed in (7, 30, 45):
    show(f"removed {removed} mm", value(38, 30.0, removed, 60, CS, 50, last))
print("# 2: 38 mm overlay, 7 mm removed, bar at 60 mm, surface content 1: peak at the bar over 60 yr [kg/m3]")
for d in (30.0, 3.0, 0.5):
    show(f"overlay D {d:g} mm2/yr", value(38, d, 7, 60, 1.0, 60, np.max))
print("# 3: deck of D 40 after 40 yr of 8 kg/m3; bar of 16 mm at 30 mm cover, removed to 65 mm (3/4 in clear under it), overlay")
print("#    material of D 20 to 38 mm above the old grade, no new salt: peak at the bar over 60 yr [kg/m3]")
deck = {"deck_d": 40.0, "exposure": 40.0}
show("old concrete below", value(38 + 65, 20.0, 65, 30, 0.0, 60, np.max, **deck))
show("clean concrete below", value(38 + 65, 20.0, 65, 30, 0.0, 60, np.max, old_surface=0.0, **deck))
