"""Quantiles in both tails by SciPy, for the reference checks: python3 quantiles.py > quantiles.csv"""
import numpy
import scipy
from scipy import stats

CASES = [
    ("normal", "mean 50, s.d. 10", stats.norm(50, 10)),
    ("lognormal", "mean 0.05, s.d. 0.025", stats.lognorm(numpy.sqrt(numpy.log1p(0.25)), scale=0.05 / numpy.sqrt(1.25))),
    ("gamma", "mean 6, s.d. 3", stats.gamma(4, scale=1.5)),
    ("gamma-small", "shape 0.4, scale 2", stats.gamma(0.4, scale=2)),
    ("beta", "shapes 4.075 and 9.508333333333333 on 0 to 1", stats.beta(4.075, 9.508333333333333)),
    ("beta-interval", "shapes 1.898231505102041 and 8.765990433673469 on 0 to 50",
     stats.beta(1.898231505102041, 8.765990433673469, 0, 50)),
    ("weibull", "shape 1.8, scale 25", stats.weibull_min(1.8, scale=25)),
    ("gumbel", "location 1.2, scale 0.3", stats.gumbel_r(1.2, 0.3)),
    ("triangular", "0 to 4, most likely 1", stats.triang(0.25, 0, 4)),
    ("truncated-normal", "mean 2, s.d. 0.4, cut to 0.1 to infinity", stats.truncnorm((0.1 - 2) / 0.4, numpy.inf, 2, 0.4)),
]
# SciPy 1.10 takes some upper tails as 1 - p, which costs their digits: these go through the normal law's own or the closed form.
UPPER = {
    "lognormal": lambda q: numpy.exp(numpy.log(0.05 / numpy.sqrt(1.25)) + numpy.sqrt(numpy.log1p(0.25)) * stats.norm.isf(q)),
    "weibull": lambda q: 25 * (-numpy.log(q)) ** (1 / 1.8),
    "truncated-normal": lambda q: 2 + 0.4 * stats.norm.isf(q * stats.norm.sf((0.1 - 2) / 0.4)),
}
print(f"# SciPy {scipy.__version__}, NumPy {numpy.__version__}: quantiles.py")
print("case,parameters,tail,probability,quantile")
for name, words, law in CASES:
    for p in (1e-12, 1e-6, 0.05, 0.3):
        print(f'{name},"{words}",lower,{p!r},{float(law.ppf(p))!r}')
        print(f'{name},"{words}",upper,{p!r},{float(UPPER.get(name, law.isf)(p))!r}')
