"""Sobol indices of demo-data/studies/bare-deck.json by OpenTURNS: python3 sobol_openturns.py > sobol_openturns.csv"""
import numpy as np
import openturns as ot
import scipy
from scipy.special import erfc, erfcinv

LB = 0.45359237 / 0.764554857984
SIZE = 1 << 15


def lognormal(mean, variation):
    return ot.LogNormalMuSigma(mean, variation * mean).getDistribution()


cover = ot.TruncatedDistribution(ot.Normal(2.0 * 25.4, 0.4 * 25.4), 0.5 * 25.4, ot.TruncatedDistribution.LOWER)
inputs = ot.ComposedDistribution(
    [cover, lognormal(12 * LB, 0.2), lognormal(0.05 * 645.16, 0.3), lognormal(2.0 * LB, 0.2)]
)
initial = 0.2 * LB


def content(sample):
    x, cs, d, _ = np.asarray(sample).T
    return (initial + (cs - initial) * erfc(x / (2 * np.sqrt(d * 30)))).reshape(-1, 1)


def time(sample):
    x, cs, d, ct = np.asarray(sample).T
    ratio = (ct - initial) / (cs - initial)
    inverse = erfcinv(np.clip(ratio, 1e-300, 1))
    with np.errstate(divide="ignore"):
        t = np.where(ratio >= 1, np.inf, (x / (2 * inverse)) ** 2 / d)
    return np.minimum(t, 100).reshape(-1, 1)


print(f"# OpenTURNS {ot.__version__}, NumPy {np.__version__}, SciPy {scipy.__version__}: sobol_openturns.py, {SIZE} points, seed 1")
print("output,input,kind,value,lower95,upper95")
for name, function in (("contentAtBar_30yr", content), ("timeToInitiation_100yr", time)):
    ot.RandomGenerator.SetSeed(1)
    algorithm = ot.SaltelliSensitivityAlgorithm(inputs, SIZE, ot.PythonFunction(4, 1, func_sample=function))
    algorithm.setUseAsymptoticDistribution(True)
    for kind, values, interval in (
        ("first", algorithm.getFirstOrderIndices(), algorithm.getFirstOrderIndicesInterval()),
        ("total", algorithm.getTotalOrderIndices(), algorithm.getTotalOrderIndicesInterval()),
    ):
        for i, label in enumerate(("cover", "surfaceChloride", "diffusionCoefficient", "chlorideThreshold")):
            low, high = interval.getLowerBound()[i], interval.getUpperBound()[i]
            print(f"{name},{label},{kind},{values[i]:.6f},{low:.6f},{high:.6f}")
