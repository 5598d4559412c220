"""Split R-hat and effective sample sizes of Vehtari et al. (Bayesian Analysis 16, 2021), written from the equations.

Run: /usr/bin/python3 chain_diagnostics.py > chain_diagnostics.txt
"""
import numpy as np
import scipy
from scipy.stats import norm, rankdata


def series(chain, n=200):
    values, last = [], 0.0
    for i in range(n):
        k = i + 1.0 + 1000 * chain
        x = k * k * 0.6180339887498949
        last = 0.6 * last + 0.4 * (x - np.floor(x)) + chain * 0.004
        values.append(last)
    return values


def split(c):
    half = c.shape[1] // 2
    return np.vstack([c[:, :half], c[:, -half:]])


def parts(c):
    n = c.shape[1]
    w = c.var(axis=1, ddof=1).mean()
    return w, w * (n - 1) / n + c.mean(axis=1).var(ddof=1)


def rhat(c):
    w, plus = parts(c)
    return np.sqrt(plus / w)


def z(c):
    r = rankdata(c).reshape(c.shape)
    return norm.ppf((r - 0.375) / (c.size + 0.25))


def ess(c):
    m, n = c.shape
    w, plus = parts(c)
    d = c - c.mean(axis=1, keepdims=True)
    acov = np.array([(d[:, : n - t] * d[:, t:]).sum(axis=1).mean() / n for t in range(n)])
    rho = 1 - (w - acov) / plus
    rho[0] = 1
    pairs, t = [], 0
    while t + 1 < n - 2 and (t == 0 or rho[t] + rho[t + 1] > 0):
        pairs.append(rho[t] + rho[t + 1])
        t += 2
    tau = -1 + 2 * np.minimum.accumulate(pairs).sum() + max(0, rho[t])
    return c.size / max(tau, 1 / np.log10(c.size))


c = split(np.array([series(k) for k in range(3)]))
print("numpy", np.__version__, "scipy", scipy.__version__)
print("split R-hat %.15g" % rhat(c))
print("rank-normalised R-hat %.15g" % max(rhat(z(c)), rhat(z(abs(c - np.median(c))))))
print("effective sample size %.15g" % ess(c))
print("bulk effective sample size %.15g" % ess(z(c)))
