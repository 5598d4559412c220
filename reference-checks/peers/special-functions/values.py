#!/usr/bin/python3
"""Reference values of iⁿerfc, the inverse of erfc, Mejlbro-Poulsen's function and slice means, by mpmath at 60 digits.

Writes values.csv: quantity, first, second, third argument, value (20 digits). Arguments are exact doubles.
"""
import mpmath as mp

mp.mp.dps = 60


def scaled(n, x):
    return mp.hyperu((mp.mpf(n) + 1) / 2, mp.mpf(1) / 2, x * x) / (mp.mpf(2) ** n * mp.sqrt(mp.pi))


def inerfc(n, x):
    if n == 0:
        return mp.erfc(x)
    if n == -1:
        return 2 / mp.sqrt(mp.pi) * mp.exp(-x * x)
    if x >= 0:
        return mp.exp(-x * x) * scaled(n, x)
    return (inerfc(n - 2, x) - 2 * x * inerfc(n - 1, x)) / (2 * n)


rows = []


def add(name, a, b, c, value):
    rows.append(f"{name},{float(a)!r},{float(b)!r},{float(c)!r},{mp.nstr(value, 20)}")


for x in [-5, -2.5, -1, -0.3, -1e-3, 0, 1e-9, 0.01, 0.0499, 0.05, 0.1, 0.2, 0.249, 0.25, 0.26, 0.4, 0.59, 0.61, 0.8, 1, 1.3, 1.7,
          2.2, 3, 3.75, 4.5, 6, 8, 11, 15, 20, 23, 26]:
    for n in range(-1, 7):
        add("inerfc", n, x, 0, inerfc(n, mp.mpf(float(x))))
for x in [0, 0.2, 0.7, 1.5, 4, 10, 50, 1e3, 1e8]:
    for n in (0, 1, 2, 3, 6):
        add("scaled", n, x, 0, scaled(n, mp.mpf(float(x))) if x or n else mp.mpf(1))
for nu in (0.2, 0.6, 0.5, 1.5, 3.4):
    for x in (0, 0.1, 0.5, 1, 2, 4, 7, 20):
        add("realorder", nu, x, 0, mp.exp(-mp.mpf(float(x)) ** 2) * scaled(mp.mpf(float(nu)), mp.mpf(float(x))))
for p in (1e-300, 1e-100, 1e-20, 1e-8, 1e-3, 0.05, 0.2, 0.4, 0.4999, 0.5, 0.6, 0.75, 0.9, 0.99, 0.999999, 1.000001, 1.3, 1.6, 1.99):
    q = mp.mpf(float(p))
    if p < 0.5:
        x = mp.findroot(lambda y: mp.log(mp.erfc(y)) - mp.log(q), mp.sqrt(-mp.log(q)))
    else:
        x = mp.erfinv(1 - q)
    add("inverse", p, 0, 0, x)
for a, b, length in [(0, 6, 49), (0, 25.4, 49), (25.4, 50.8, 49), (50.8, 50.80001, 49), (10, 10, 30), (10, 10.000001, 30), (76.2, 101.6, 20),
                     (152.4, 177.8, 10), (152.4, 152.5, 10), (152.4, 155, 7), (0, 1e-6, 49), (0, 0, 49), (3, 13, 50), (3, 13.5, 50),
                     (100, 110, 5), (5, 200, 0.5)]:
    a_, b_, l_ = (mp.mpf(float(v)) for v in (a, b, length))
    g = lambda u: mp.erfc(a_ / (l_ * mp.exp(u / 2))) if a == b else \
        l_ * mp.exp(u / 2) * (inerfc(1, a_ / (l_ * mp.exp(u / 2))) - inerfc(1, b_ / (l_ * mp.exp(u / 2)))) / (b_ - a_)
    za, zb = a_ / l_, b_ / l_
    if a == b:
        d1 = za * mp.exp(-za * za) / mp.sqrt(mp.pi)
        d2 = za * (za * za - 0.5) * mp.exp(-za * za) / mp.sqrt(mp.pi)
    else:
        d1 = (mp.exp(-za**2) - mp.exp(-zb**2)) / (2 * mp.sqrt(mp.pi) * (zb - za))
        d2 = d1 / 2 + (za**2 * mp.exp(-za**2) - zb**2 * mp.exp(-zb**2)) / (2 * mp.sqrt(mp.pi) * (zb - za))
        check = mp.diff(g, 0)
        assert abs(check - d1) < 1e-15 * abs(d1), (a, b)
        check2 = mp.diff(g, 0, 2)
        assert abs(check2 - d2) < 1e-8 * abs(d2) + mp.mpf(10) ** -30, (a, b, check2, d2)
    add("slicemean", a, b, length, g(mp.mpf(0)))
    add("slicemean1", a, b, length, d1)
    add("slicemean2", a, b, length, d2)
with open(__file__.replace("values.py", "values.csv"), "w") as f:
    f.write(f"# mpmath {mp.__version__}, 60 digits; written by values.py\nquantity,first,second,third,value\n")
    f.write("\n".join(rows) + "\n")
