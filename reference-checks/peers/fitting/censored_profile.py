"""Censored and Student-t profile fits by SciPy's Nelder-Mead on the full likelihood, independent of DeckLife's code.

Run: /usr/bin/python3 reference-checks/peers/fitting/censored_profile.py > reference-checks/peers/fitting/censored_profile.txt
"""
import numpy as np
import scipy
from scipy.optimize import minimize
from scipy.special import erfc, log_ndtr

LB, INCH = 0.593276421257783, 25.4


def share(top, bottom, length):
    def antiderivative(x):
        return x * erfc(x / length) - length / np.sqrt(np.pi) * np.exp(-((x / length) ** 2))

    return (antiderivative(bottom) - antiderivative(top)) / (bottom - top)


def likelihood(p, top, bottom, y, censored, years, student):
    excess, background, ln_d, ln_s = p
    if excess < 0 or background < 0:
        return 1e9
    u = (y - background - excess * share(top, bottom, 2 * np.sqrt(np.exp(ln_d) * years))) / np.exp(ln_s)
    measured = ~censored
    value = (measured.sum() - 3) * ln_s - log_ndtr(u[censored]).sum()
    if student:
        return value + 2.5 * np.log1p(u[measured] ** 2 / 4).sum()
    return value + 0.5 * (u[measured] ** 2).sum()


def fit(name, pounds, censored, years, student=False):
    y, censored = np.array(pounds) * LB, np.array(censored, bool)
    top = (0.25 + 0.5 * np.arange(len(y))) * INCH
    bottom = top + 0.5 * INCH
    args = (top, bottom, y, censored, years, student)
    options = dict(xatol=1e-10, fatol=1e-14, maxiter=4000, maxfev=4000)
    best = None
    for ln_d in np.log([10, 30]):
        for background in (0.05, 0.4):
            for ln_s in (np.log(0.06),):
                r = minimize(likelihood, [y[0] * 1.3, background, ln_d, ln_s], args, method="Nelder-Mead", options=options)
                for _ in range(2):
                    r = minimize(likelihood, r.x, args, method="Nelder-Mead", options=options)
                if best is None or r.fun < best.fun:
                    best = r
    excess, background, ln_d, ln_s = best.x
    print(f"{name}: Cs {excess + background:.9f} C0 {background:.9f} D {np.exp(ln_d):.8f} scale {np.exp(ln_s):.9f} value {best.fun:.12f}")


print("SciPy", scipy.__version__, "NumPy", np.__version__)
none = [0] * 9
fit("censored", [8.7, 6.0, 3.9, 2.4, 1.5, 1.2, 0.95, 0.9], [0, 0, 0, 0, 0, 1, 0, 1], 25)
fit("student", [9.4, 7.6, 5.1, 4.9, 2.6, 1.62, 1.1, 0.78, 0.66], none, 25, student=True)
for u in (-40, -30, -25.5, -24.5, -10, -3, 0, 2, 6, 9):
    print(f"log_ndtr({u}) = {log_ndtr(u):.16g}")
