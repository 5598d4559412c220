"""Posterior of the deck model on deck.csv by an affine-invariant ensemble (emcee), priors as documented in DeckPriors.

Run: /usr/bin/python3 posterior.py > posterior.txt      (half a minute of one core)
"""
import csv
import sys
import warnings

import emcee
import numpy as np
import scipy
from scipy.special import erfc

warnings.filterwarnings("ignore")
rows = list(csv.DictReader(open("deck.csv")))
cores = sorted({r["core"] for r in rows})
j = np.array([cores.index(r["core"]) for r in rows])
top, bottom, age, y = (np.array([float(r[k]) for r in rows]) for k in ("top_mm", "bottom_mm", "age_yr", "chloride_kg_per_m3"))
J = len(cores)


def anti(x, L):
    return x * erfc(x / L) - L / np.sqrt(np.pi) * np.exp(-((x / L) ** 2))


def log_posterior(p):
    """Walkers x parameters: mu_S, mu_D, ln tau_S, ln tau_D, artanh rho, ln C0, ln sigma, then ln Cs and ln D of the cores."""
    mu_s, mu_d, ls, ld, z, lc, lsig = p[:, :7].T
    s, d = p[:, 7 : 7 + J], p[:, 7 + J :]
    rho = np.tanh(z)
    a = (s - mu_s[:, None]) * np.exp(-ls)[:, None]
    b = ((d - mu_d[:, None]) * np.exp(-ld)[:, None] - rho[:, None] * a) / np.sqrt(1 - rho**2)[:, None]
    c0, sigma = np.exp(lc), np.exp(lsig)
    L = 2 * np.sqrt(np.exp(np.clip(d, -20, 20))[:, j] * age)
    mean = c0[:, None] + (np.exp(np.clip(s, -20, 20))[:, j] - c0[:, None]) * (anti(bottom, L) - anti(top, L)) / (bottom - top)
    lp = -0.5 * (((y - mean) / sigma[:, None]) ** 2).sum(axis=1) - len(y) * lsig
    lp += -0.5 * (a**2).sum(axis=1) - 0.5 * (b**2).sum(axis=1) - J * (ls + ld + 0.5 * np.log(1 - rho**2))
    lp += -0.5 * (mu_s - np.log(6)) ** 2 - 0.5 * ((mu_d - np.log(30)) / 1.2) ** 2
    lp += ls - 0.5 * (np.exp(ls) / 0.5) ** 2 + ld - 0.5 * (np.exp(ld) / 0.7) ** 2
    lp += 2 * np.log(1 - rho**2)
    lp += lc - 0.5 * (c0 / 0.5) ** 2
    lp += np.where(sigma >= 0.005, lsig - 0.5 * (sigma / 0.6) ** 2, -np.inf)
    return np.where(np.isfinite(lp), lp, -np.inf)


steps = int(sys.argv[1]) if len(sys.argv) > 1 else 5000
np.random.seed(5)
walkers, dim = 80, 7 + 2 * J
start = np.array([np.log(8), np.log(22), np.log(0.3), np.log(0.4), 0, np.log(0.3), np.log(0.2)] + [np.log(8)] * J + [np.log(22)] * J)
# Differential evolution alone: the snooker move of emcee 3.1.4 leaves a unit normal in 23 dimensions with variance 0.55, so it isn't used.
sampler = emcee.EnsembleSampler(walkers, dim, log_posterior, vectorize=True, moves=emcee.moves.DEMove())
sampler.run_mcmc(start + 0.1 * np.random.standard_normal((walkers, dim)), steps)
burn = steps // 5
tau = sampler.get_autocorr_time(discard=burn, quiet=True)
chain = sampler.get_chain(discard=burn, thin=10, flat=True)
print("python", sys.version.split()[0], "emcee", emcee.__version__, "numpy", np.__version__, "scipy", scipy.__version__, "steps", steps)
print("largest_autocorrelation_time %.4g" % tau.max())
print("effective_draws %.0f" % (walkers * (steps - burn) / tau.max()))
rho = np.tanh(chain[:, 4])
first_d = chain[:, 7 + J]
halves = np.array_split(chain, 2)
print("largest_difference_of_halves_in_sd %.3f" % max(abs(halves[0].mean(0) - halves[1].mean(0)) / chain.std(0)))
for name, v in [
    ("mean_S", chain[:, 0]), ("mean_D", chain[:, 1]), ("sd_S", np.exp(chain[:, 2])), ("sd_D", np.exp(chain[:, 3])),
    ("rho", rho), ("background", np.exp(chain[:, 5])), ("error", np.exp(chain[:, 6])), ("D_C1", first_d),
]:
    q = np.quantile(v, [0.025, 0.5, 0.975])
    print("%s mean %.5f sd %.5f q025 %.5f q500 %.5f q975 %.5f" % (name, v.mean(), v.std(), *q))
