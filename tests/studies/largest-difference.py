#!/usr/bin/env python3
"""How far the numbers of two runs of the same commands lie apart: largest-difference.py FIRST OTHER, or --rule to print what is allowed."""
import pathlib, re, sys

# Contents agree to 1e-11 of the largest (VectorKnobTests). A share of the area that rests on them moves by some 1e-9, a small one by more of itself,
# and what is a small difference of such shares, the points' part of an error budget, by 1e-7 of itself. All of it lies far below the solver's own 2e-4.
ALLOWED = 1e-6
# The accuracy of the contents themselves: the solver's part of an error budget, 3e-7 of the variance, is the square of a difference of two solutions and
# moves by 2e-12, which is 6e-6 of itself and means nothing.
NOTHING = 1e-11
RULE = """## The last-digit rule

Another vector width sums in another order and uses the fused multiply-add or not, so a number may differ in its last digits. The rule: same files, same exit codes,
same words, the same count of numbers, and every number within %g of the first run's, relative to the larger of the two (a difference below %g counts as none).
Why so much: contents agree to 1e-11 of the largest, shares of the area to some 1e-9, and what is a small difference of shares to 1e-7 of itself; the equations
themselves are solved to 2e-4 of the largest content. Counts, choices, statuses and messages are the same.

The last column says how far the worst number of all files was; a text that rounds to a few digits may round the other way. A row says DIFFERS where the rule is broken.
""" % (ALLOWED, NOTHING)

NUMBER = re.compile(r"-?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?")


def numbers(text):
    return NUMBER.findall(text), NUMBER.sub("#", text)


def main(first, other):
    first, other = pathlib.Path(first), pathlib.Path(other)
    names = sorted(p.relative_to(first) for p in first.rglob("*") if p.is_file())
    if names != sorted(p.relative_to(other) for p in other.rglob("*") if p.is_file()):
        return "DIFFERS: other files"
    worst, where, rounded, differing = 0.0, "", 0, 0
    for name in names:
        a, b = (first / name).read_bytes(), (other / name).read_bytes()
        if a == b:
            continue
        differing += 1
        if name.suffix == ".parquet":
            continue  # the same numbers stand in results.csv and draws.csv
        one, words = numbers(a.decode())
        two, other_words = numbers(b.decode())
        if words != other_words or len(one) != len(two):
            return f"DIFFERS: other words in {name}"
        for x, y in zip(one, two):
            if x == y:
                continue
            u, v = float(x), float(y)
            if abs(u - v) < NOTHING:
                continue
            apart = abs(u - v) / max(abs(u), abs(v))
            # A rounded number may fall to the neighbour in its own last digit.
            unit = 10.0 ** -len(x.partition(".")[2]) if "e" not in x.lower() else 0
            if len(x) < 12 and abs(u - v) <= unit * 1.000001:
                rounded += 1
                continue
            if apart > worst:
                worst, where = apart, str(name)
    if worst > ALLOWED:
        return f"DIFFERS: {worst:.1e} in {where}"
    text = f"{differing} files differ, largest relative difference {worst:.1e}" + (f" ({where})" if where else "")
    return text + (f", {rounded} rounded numbers fall to a neighbour" if rounded else "")


if sys.argv[1:] == ["--rule"]:
    print(RULE)
else:
    print(main(*sys.argv[1:]))
