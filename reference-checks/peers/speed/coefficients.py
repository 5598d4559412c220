#!/usr/bin/python3
"""Polynomials of DeckLife.Numerics.Vectors: Chebyshev interpolation in 50-digit arithmetic (mpmath).

Run: /usr/bin/python3 coefficients.py  -> prints every table that LaneMath.cs holds, lowest power first, with the largest
error of the polynomial itself (before rounding to double) on its interval.
"""
import mpmath as mp

mp.mp.dps = 50


def fit(f, a, b, degree):
    """Interpolates f at the Chebyshev points of [a, b]; returns power coefficients and the largest error."""
    nodes = [(a + b) / 2 + (b - a) / 2 * mp.cos(mp.pi * (2 * k + 1) / (2 * degree + 2)) for k in range(degree + 1)]
    matrix = mp.matrix(degree + 1, degree + 1)
    right = mp.matrix(degree + 1, 1)
    for i, y in enumerate(nodes):
        for j in range(degree + 1):
            matrix[i, j] = y**j
        right[i] = f(y)
    c = list(mp.lu_solve(matrix, right))
    worst = mp.mpf(0)
    for i in range(1, 400):
        y = a + (b - a) * mp.mpf(i) / 400
        worst = max(worst, abs(mp.polyval(c[::-1], y) / f(y) - 1))
    return c, worst


def show(name, c, worst):
    print(f"// {name}: relative error {mp.nstr(worst, 2)}")
    print(", ".join(mp.nstr(v, 20) for v in c))


def erfcx(z):
    return mp.exp(z * z) * mp.erfc(z)


def central(w):
    """sqrt(2) erfinv(x) / x with w = -ln(1 - x^2)."""
    x2 = -mp.expm1(-w)
    if x2 == 0:
        return mp.sqrt(mp.pi / 2)
    # Newton on the upper tail keeps the digits
    x = mp.sqrt(x2)
    tail = mp.exp(-w) / (1 + x)  # 1 - x
    z = mp.sqrt(w) if w > 1 else x
    for _ in range(60):
        z += (mp.erfc(z) - tail) * mp.sqrt(mp.pi) / 2 * mp.exp(z * z)
    return mp.sqrt(2) * z / x


if __name__ == "__main__":
    import sys

    K = mp.mpf(sys.argv[1]) if len(sys.argv) > 1 else mp.mpf("3.25")
    far = (mp.mpf("26.6") - K) / (mp.mpf("26.6") + K)
    z_of = lambda y: K * (1 + y) / (1 - y)
    for degree in (20, 22, 24):
        show(f"erfcx, y = (z - {K})/(z + {K}), z in [0, 26.6], degree {degree}", *fit(lambda y: erfcx(z_of(y)), mp.mpf(-1), far, degree))
    show("exp on [-ln2/2, ln2/2], degree 11", *fit(mp.exp, -mp.log(2) / 2, mp.log(2) / 2, 11))
    top = ((mp.sqrt(2) - 1) / (mp.sqrt(2) + 1)) ** 2
    g = lambda q: 2 * mp.atanh(mp.sqrt(q)) / mp.sqrt(q) if q > 0 else mp.mpf(2)
    for degree in (7, 8):
        show(f"2 atanh(s)/s in q = s^2, degree {degree}", *fit(g, mp.mpf("1e-40"), top, degree))
    for degree in (18, 20, 22):
        show(f"quantile centre, t = w - 3, w in [0, 6], degree {degree}", *fit(lambda t: central(t + 3), mp.mpf(-3), mp.mpf(3), degree))
    for degree in (13, 15, 17):
        show(f"quantile tail, t = sqrt(w) - 4.25, w in [6, 36.5], degree {degree}", *fit(lambda t: central((t + mp.mpf("4.25")) ** 2), mp.sqrt(6) - mp.mpf("4.25"), mp.mpf("6.05") - mp.mpf("4.25"), degree))
    # What the counted limit state (LimitStateLanes) holds: errors of 1e-10, far below what a count can tell.
    quarter = mp.pi / 2
    short_far = (mp.mpf("26.6") - mp.mpf("3.75")) / (mp.mpf("26.6") + mp.mpf("3.75"))
    short_z = lambda y: mp.mpf("3.75") * (1 + y) / (1 - y)
    show("short erfcx, K = 3.75, degree 15", *fit(lambda y: erfcx(short_z(y)), mp.mpf(-1), short_far, 15))
    show("short exp, degree 8", *fit(mp.exp, -mp.log(2) / 2, mp.log(2) / 2, 8))
    show("short 2 atanh(s)/s in q, degree 4", *fit(g, mp.mpf("1e-40"), top, 4))
    show("sin(pi r/2)/r in q = r^2, r to 1/2, degree 4", *fit(lambda q: mp.sin(quarter * mp.sqrt(q)) / mp.sqrt(q), mp.mpf("1e-40"), mp.mpf("0.25"), 4))
    show("cos(pi r/2) in q, degree 5", *fit(lambda q: mp.cos(quarter * mp.sqrt(q)), mp.mpf("1e-40"), mp.mpf("0.25"), 5))
