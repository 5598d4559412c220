#!/usr/bin/python3
"""Profile fits (8 slice means, Cs and D) by SciPy curve_fit and lmfit: processor time a fit, largest deviation from the library's D."""
import sys
import time

import lmfit
import numpy as np
from scipy.optimize import curve_fit
from scipy.special import erfc

data = np.loadtxt(sys.argv[1] + "/profiles.csv", delimiter=",")
Y, SPREAD = data[:, :8], data[:, 9]
EDGES = np.array([0, 5, 10, 15, 20, 30, 40, 50, 65.0])
WIDTH = np.diff(EDGES)


def means(s):
    length = 2 * np.sqrt(s)
    z = EDGES / length
    tail = length * (np.exp(-z * z) / np.sqrt(np.pi) - z * erfc(z))
    return -np.diff(tail) / WIDTH


def model(x, c, log_spread):
    return c * means(np.exp(log_spread))


def line(key, value, error, unit):
    print(f"peer|{key}|{value:.6g}|{error:.3g}|{unit}", flush=True)


x = np.arange(8.0)
count = 400
start = time.process_time()
found = [np.exp(curve_fit(model, x, Y[i], p0=(0.5, np.log(300)), xtol=1e-10, ftol=1e-10)[0][1]) for i in range(count)]
line("SciPy curve_fit", (time.process_time() - start) / count * 1e6, np.max(np.abs(np.array(found) / SPREAD[:count] - 1)), "us")
fit = lmfit.Model(model, independent_vars=["x"])
count = 100
start = time.process_time()
found = [np.exp(fit.fit(Y[i], x=x, c=0.5, log_spread=np.log(300)).params["log_spread"].value) for i in range(count)]
line("lmfit Model.fit", (time.process_time() - start) / count * 1e6, np.max(np.abs(np.array(found) / SPREAD[:count] - 1)), "us")
print(f"peer|versions fit|lmfit {lmfit.__version__}||")
