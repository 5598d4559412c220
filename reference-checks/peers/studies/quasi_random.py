"""Error of the mean content at the bar (smooth erfc case, three random quantities) by SciPy's scrambled Sobol points:
python3 quasi_random.py > quasi_random.csv"""
import numpy as np
import scipy
from scipy.special import erfc, ndtri
from scipy.stats import qmc

COVER, S_COVER, D, V_D, CS, V_CS, AGE = 50.0, 8.0, 30.0, 0.3, 8.0, 0.2, 30.0


def moments(mean, variation):
    s2 = np.log1p(variation**2)
    return np.log(mean) - s2 / 2, np.sqrt(s2)


MU_D, SD_D = moments(D, V_D)
MU_C, SD_C = moments(CS, V_CS)


def content(z):
    x = COVER + S_COVER * z[0]
    d = np.exp(MU_D + SD_D * z[1])
    return np.exp(MU_C + SD_C * z[2]) * erfc(x / (2 * np.sqrt(d * AGE)))


node, weight = np.polynomial.hermite_e.hermegauss(60)
weight = weight / weight.sum()
grid = np.meshgrid(node, node, node, indexing="ij")
exact = np.einsum("i,j,k,ijk->", weight, weight, weight, content(grid))
print(f"# SciPy {scipy.__version__}, NumPy {np.__version__}: quasi_random.py, 32 scramblings; plain: 32 random samples")
print("points,exact,rmse_sobol,rmse_plain")
for m in range(6, 15):
    sobol, plain = [], []
    for seed in range(32):
        points = np.clip(qmc.Sobol(3, scramble=True, seed=seed).random_base2(m), 1e-15, 1 - 1e-15)
        sobol.append(content(ndtri(points.T)).mean() - exact)
        plain.append(content(np.random.default_rng(seed).standard_normal((3, 1 << m))).mean() - exact)
    print(f"{1 << m},{exact:.12f},{np.sqrt(np.mean(np.square(sobol))):.4e},{np.sqrt(np.mean(np.square(plain))):.4e}")
