#!/usr/bin/python3
"""The closed-form limit state with five random variables by NumPy and OpenTURNS Monte Carlo: processor time a sample, error of P."""
import time

import numpy as np
import openturns as ot
from scipy.special import erfc

UNIT = 31.5576
D, CS, CT = np.log(4 * UNIT), np.log(0.5), np.log(0.09)
EXACT = 0.0829341530  # tensor Gauss-Hermite quadrature, 100^3 points


def line(key, value, error, unit):
    print(f"peer|{key}|{value:.6g}|{error:.3g}|{unit}", flush=True)


def failures(n, rng):
    z = rng.standard_normal((5, n))
    m = np.clip(0.5 + 0.08 * z[0], 0.05, 0.9)
    s = np.exp(D + 0.3 * z[1]) * (28 / 365.25) ** m / (1 - m) * 50 ** (1 - m)
    x = np.maximum(65 + 8 * z[2], 1)
    return np.count_nonzero(np.exp(CS + 0.35 * z[3]) * erfc(x / (2 * np.sqrt(s))) >= np.exp(CT + 0.25 * z[4]))


rng = np.random.default_rng(1)
chunk, chunks = 20000, 100
start = time.process_time()
p = sum(failures(chunk, rng) for _ in range(chunks)) / (chunk * chunks)
line("NumPy Monte Carlo in cache-sized chunks, a sample", (time.process_time() - start) / (chunk * chunks) * 1e9, abs(p - EXACT), "ns")

ot.Log.Show(ot.Log.NONE)
g = ot.SymbolicFunction(
    ["m", "d", "s", "x", "c"],
    ["exp(s)*(1-erf(x/(2*sqrt(exp(d+m*log(28/365.25)+(1-m)*log(50))/(1-m)))))-exp(c)"],
)
variables = ot.ComposedDistribution([ot.Normal(0.5, 0.08), ot.Normal(D, 0.3), ot.Normal(CS, 0.35), ot.Normal(65, 8), ot.Normal(CT, 0.25)])
event = ot.ThresholdEvent(ot.CompositeRandomVector(g, ot.RandomVector(variables)), ot.GreaterOrEqual(), 0.0)
run = ot.ProbabilitySimulationAlgorithm(event, ot.MonteCarloExperiment())
run.setMaximumOuterSampling(100)
run.setBlockSize(10000)
run.setMaximumCoefficientOfVariation(0.0)
start = time.process_time()
run.run()
line("OpenTURNS Monte Carlo, a sample", (time.process_time() - start) / 1e6 * 1e9, abs(run.getResult().getProbabilityEstimate() - EXACT), "ns")
print(f"peer|versions limit state|OpenTURNS {ot.__version__}||")
