#!/usr/bin/python3
"""Chebyshev coefficients of the scaled repeated integrals of erfc, computed with mpmath at 50 digits.

f_n(x) = (1 + 2x)^(n+1) exp(x^2) i^n erfc(x), x >= 0, as a series in t = (x - 3.75)/(x + 3.75) on [-1, 1]
(the map of Shepherd & Laframboise 1981, Mathematics of Computation 36:249-253). The scaled function is
U((n+1)/2, 1/2, x^2) / (2^n sqrt(pi)), U the confluent hypergeometric function (DLMF 7.18.10).
Prints the body of src/DeckLife.Numerics/SpecialFunctions/ScaledErfcSeries.cs.
"""
import mpmath as mp

mp.mp.dps = 50
K = mp.mpf("3.75")
NODES = 64


def scaled(n, x):
    return mp.hyperu(mp.mpf(n + 1) / 2, mp.mpf(1) / 2, x * x) / (mp.mpf(2) ** n * mp.sqrt(mp.pi))


def coefficients(n):
    theta = [mp.pi * (j + mp.mpf(1) / 2) / NODES for j in range(NODES)]
    values = []
    for angle in theta:
        t = mp.cos(angle)
        x = K * (1 + t) / (1 - t)
        values.append((1 + 2 * x) ** (n + 1) * scaled(n, x))
    c = [2 / mp.mpf(NODES) * sum(v * mp.cos(k * a) for v, a in zip(values, theta)) for k in range(NODES)]
    c[0] /= 2
    while abs(c[-1]) < mp.mpf("3e-18"):
        c.pop()
    return c


print("namespace DeckLife.Numerics.SpecialFunctions;\n")
print("/// <summary>Chebyshev coefficients of (1 + 2x)^(n+1) exp(x²) i^n erfc(x) in t = (x - 3.75)/(x + 3.75), x at least 0.</summary>")
print("/// <remarks>Computed with mpmath at 50 digits by reference-checks/peers/special-functions/chebyshev.py.</remarks>")
print("internal static class ScaledErfcSeries\n{")
for n, name in ((0, "Order0"), (1, "Order1"), (2, "Order2")):
    print(f"    /// <summary>Order n = {n}.</summary>")
    print(f"    internal static readonly double[] {name} =\n    [")
    for c in coefficients(n):
        print(f"        {mp.nstr(c, 20)},")
    print("    ];\n")
print("}")
