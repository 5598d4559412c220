"""Life of an overlay on clean concrete, by images in two layers.

Layer 1 (0 to l, D1) lies on a half space (D2), both clean; the surface is held at Cs from time 0. With sigma = sqrt(D2/D1),
alpha = (sigma - 1)/(sigma + 1), x from the interface down and k = sqrt(D1/D2), in the half space

    C = Cs 2/(sigma + 1) sum_n alpha^n erfc(((2n + 1) l + k x) / (2 sqrt(D1 t)))

(Carslaw and Jaeger, Conduction of Heat in Solids, 2nd ed., section 12.8, composite solid; from memory, and held here against an
explicit check of the equations: content and flux continuous at the interface, and the single half space where D1 = D2).
The threshold is lognormal over the deck, the time from initiation to damage is fixed: a share F is damaged when the content at the bar
passed its F point that time before. Run: /usr/bin/python3 overlay_life.py > overlay_life.txt
"""
import platform

import numpy as np
import scipy
from scipy.optimize import brentq
from scipy.special import erfc
from scipy.stats import norm

N = np.arange(60)


def lower(x, t, l, d1, d2, cs):
    sigma = np.sqrt(d2 / d1)
    alpha = (sigma - 1) / (sigma + 1)
    k = np.sqrt(d1 / d2)
    return cs * 2 / (sigma + 1) * np.sum(alpha**N * erfc(((2 * N + 1) * l + k * x) / (2 * np.sqrt(d1 * t))))


def upper(z, t, l, d1, d2, cs):
    """z from the surface down, 0 to l."""
    sigma = np.sqrt(d2 / d1)
    alpha = (sigma - 1) / (sigma + 1)
    s = 2 * np.sqrt(d1 * t)
    return cs * np.sum(alpha**N * (erfc((2 * N * l + z) / s) - alpha * erfc((2 * (N + 1) * l - z) / s)))


def check(l, d1, d2, cs):
    for t in (10.0, 40.0):
        jump = lower(0, t, l, d1, d2, cs) - upper(l, t, l, d1, d2, cs)
        h = 1e-4
        above = d1 * (upper(l, t, l, d1, d2, cs) - upper(l - h, t, l, d1, d2, cs)) / h
        below = d2 * (lower(h, t, l, d1, d2, cs) - lower(0, t, l, d1, d2, cs)) / h
        print(f"  t {t:g} yr: jump of content {jump:.1e}, flux above {above:.6f}, below {below:.6f}")
    plain = lower(25, 30, l, d1, d1, cs) - cs * erfc((l + 25) / (2 * np.sqrt(d1 * 30)))
    print(f"  one material: less the half space {plain:.1e}")


print(f"Python {platform.python_version()}, NumPy {np.__version__}, SciPy {scipy.__version__}")
CS, MEAN, COV, PERIOD, BAR = 6.0, 1.0, 0.3, 5.0, 25.0
for l, d1, d2 in ((30.0, 15.0, 25.0), (40.0, 45.0, 12.0)):
    print(f"overlay {l:g} mm of D {d1:g} mm2/yr, old concrete D {d2:g} mm2/yr, bar {BAR:g} mm below the interface, Cs {CS:g} kg/m3")
    check(l, d1, d2, CS)
    s = np.sqrt(np.log(1 + COV**2))
    for share in (0.1, 0.25, 0.5):
        ct = np.exp(np.log(MEAN) - s * s / 2 + s * norm.ppf(share))
        t = brentq(lambda t: lower(BAR, t, l, d1, d2, CS) - ct, 1e-3, 400, xtol=1e-12)
        print(f"  share {share:g} damaged: threshold {ct:.9f} kg/m3, initiated at {t:.6f} yr, life {t + PERIOD:.6f} yr")
