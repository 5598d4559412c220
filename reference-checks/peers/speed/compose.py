#!/usr/bin/python3
"""Turns the lines of run.sh into RESULTS.md: ratios with errors beside times, slopes of growth, distance to the machine's limit."""
import datetime
import math
import os
import sys

rows = [line.rstrip("\n").split("|") for line in open(sys.argv[1], encoding="utf-8") if line.count("|") >= 4]
table = {r[1]: r for r in rows}
number = lambda key: float(table[key][2])
error = lambda key: table[key][3]

print("# Speed beside general-purpose peers\n")
print("Written by `bash reference-checks/peers/speed/run.sh` on " + datetime.date.today().isoformat() + ". A ratio counts at its printed error only:")
print("errors are the largest over the cases, of the largest content, at 1 to 60 yr. Single-thread times are processor time.\n")
for key in ("processor", "load at the start", "load at the end", "version", "vectors"):
    if key in table:
        print(f"- {key}: {table[key][2]}")
if float(table["load at the start"][2].split()[0]) > 0.5:
    print("- **the machine was busy with other work when this was written: ratios and the two threads' figure are rough; run again on a quiet machine**")
if "DECKLIFE_BENCHMARK_SECONDS" in os.environ:
    print(f"- each measurement of DeckLife lasted {os.environ['DECKLIFE_BENCHMARK_SECONDS']} s of processor time (0.4 s unless shortened), the median of five")
for r in rows:
    if r[1].startswith("versions"):
        print(f"- {r[2]}")
    if r[0] == "missing":
        print(f"- **missing, left out: {r[1]}**")
for knob in ("DOTNET_EnableAVX512=0 gives", "DOTNET_EnableAVX2=0 gives"):
    print(f"- `{knob.split()[0]}` gives {table[knob][2]}")

print("\n## Times\n\n| work | time | error | unit |\n|---|---|---|---|")
for r in rows:
    if r[0] in ("decklife", "peer") and r[4] and not r[1].startswith(("growth", "memory")):
        who = "DeckLife: " if r[0] == "decklife" and not r[1].startswith("peer") else ""
        print(f"| {who}{r[1].removeprefix('peer: ')} | {float(r[2]):.4g} | {r[3]} | {r[4]} |")

print("\n## Ratios\n\n| DeckLife | error | peer | error | times as fast |\n|---|---|---|---|---|")


def ratio(own, peer, scale=1.0):
    for key in table:
        if key.startswith(peer) and own in table:
            print(f"| {own} | {error(own)} | {key} | {error(key)} | {number(key) / number(own) * scale:.3g} |")


for peer in ("SciPy LSODA", "SciPy BDF", "SUNDIALS CVODE", "R deSolve"):
    ratio("history scalar, level 0 only", peer)
for peer in ("SciPy LSODA", "SUNDIALS CVODE", "NumPy batched", "history scalar"):
    ratio("histories batched, level 0 only", peer)
for peer in ("SUNDIALS CVODE", "NumPy batched"):
    ratio("histories batched, one thread", peer)
for peer in ("NumPy Monte Carlo", "OpenTURNS"):
    ratio("limit state by counting, 5 variables", peer)
    ratio("limit state as a whole study, 5 variables, a draw", peer)
    ratio("limit state, threshold integrated", peer)
for peer in ("SciPy curve_fit", "lmfit", "peer: MathNet"):
    ratio("fit Cs and D, scalar", peer)
    ratio("fit Cs and D, batched", peer)
    ratio("fit Cs and D with limits of D, batched", peer)
    ratio("fit Cs and D with limits of both, batched", peer)
    ratio("fit Cs, D and C0 with limits of all, batched", peer)
key = "histories, 2 threads over 1 (wall)"
print(f"\nTwo threads: {number(key):.3g} times one, by the wall.")

print("\n## Growth\n\nLeast-squares slopes of log time against log size (1: proportional).\n\n| against | sizes | ms | slope |\n|---|---|---|---|")
groups = {}
for r in rows:
    if r[1].startswith("growth,"):
        _, what, size = r[1].split(",")
        groups.setdefault(what, []).append((float(size), float(r[2])))
for what, points in groups.items():
    x = [math.log(p[0]) for p in points]
    y = [math.log(p[1]) for p in points]
    mx, my = sum(x) / len(x), sum(y) / len(y)
    slope = sum((a - mx) * (b - my) for a, b in zip(x, y)) / sum((a - mx) ** 2 for a in x)
    print(f"| {what} | {', '.join(f'{p[0]:g}' for p in points)} | {', '.join(f'{p[1]:.4g}' for p in points)} | {slope:.2f} |")



def chart(path):
    """Time against size on logarithmic axes, every line over its own first point."""
    lines = {what: [(x / points[0][0], y / points[0][1]) for x, y in points] for what, points in groups.items()}
    across = max(math.log10(x) for line in lines.values() for x, _ in line)
    up = max(math.log10(y) for line in lines.values() for _, y in line)
    place = lambda x, y: (60 + 440 * math.log10(x) / across, 360 - 320 * max(0.0, math.log10(y)) / up)
    out = ['<svg xmlns="http://www.w3.org/2000/svg" width="680" height="420" font-family="sans-serif" font-size="12">']
    out.append('<rect width="680" height="420" fill="white"/>')
    for axis in range(int(across) + 1):
        x, y = place(10.0**axis, 1)
        out.append(f'<line x1="{x:.1f}" y1="40" x2="{x:.1f}" y2="360" stroke="#ddd"/><text x="{x:.1f}" y="378" text-anchor="middle">{10**axis}</text>')
    for axis in range(int(up) + 1):
        x, y = place(1, 10.0**axis)
        out.append(f'<line x1="60" y1="{y:.1f}" x2="500" y2="{y:.1f}" stroke="#ddd"/><text x="52" y="{y + 4:.1f}" text-anchor="end">{10**axis}</text>')
    out.append('<text x="280" y="405" text-anchor="middle">size over the smallest (logarithmic)</text>')
    out.append('<text x="60" y="25">time over that of the smallest (logarithmic)</text>')
    for (what, line), colour in zip(lines.items(), ("#0072b2", "#d55e00", "#009e73", "#cc79a7")):
        places = [place(*point) for point in line]
        out.append(f'<polyline points="{" ".join(f"{x:.1f},{y:.1f}" for x, y in places)}" fill="none" stroke="{colour}" stroke-width="2"/>')
        out += [f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3" fill="{colour}"/>' for x, y in places]
        out.append(f'<text x="{places[-1][0] + 8:.1f}" y="{places[-1][1] + 4:.1f}" fill="{colour}">{what}</text>')
    out.append("</svg>")
    with open(path, "w", encoding="utf-8") as file:
        file.write("\n".join(out) + "\n")


if groups:
    chart(os.path.join(os.path.dirname(os.path.abspath(__file__)), "growth.svg"))
    print("\n![Time against size, both over the smallest's](growth.svg)")

memory = [r for r in rows if r[1].startswith("memory,")]
if memory:
    print("\n## Memory\n\nKilobytes that one thread allocates: working memory of a solver's first run, a further run into the same histories, and the histories themselves.")
    print("The working memory is that of one chunk of samples: it follows cells, steps and times asked, never the number of samples.\n")
    print("| against | size | working memory | a further run | results |\n|---|---|---|---|---|")
    for r in memory:
        _, what, size = r[1].split(",")
        print(f"| {what} | {size} | " + " | ".join(f"{float(v) / 1024:.4g}" for v in r[2:5]) + " |")

key = "bare stepping of two 512-bit vectors, a node and step"
if key in table:
    peak = number("fused multiply-add of a 512-bit vector, peak")
    node = number(key)
    # Arithmetic instructions a vector, an inner node and step, counted in LayeredCore512 (negations fold into the fused operations):
    first, back, second, last = 8, 2, 5, 1  # half a division of the first elimination counted apart
    count = first + back + second + last
    print("\n## Distance to the machine's limit\n")
    print(f"An inner node costs, a vector and step: first elimination {first} and half a division (two nodes share one), back substitution {back}, second elimination {second},")
    print(f"last substitution {last}: {count} sums, products or fused multiply-adds, and half a division. Measured peak: one fused multiply-add of a 512-bit vector every {peak:.3g} ns (both pipes busy, 512 bits split in two).")
    print("A division of 512 bits occupies its own unit for 10 multiply-adds' time on this kind of core (Agner Fog's instruction tables, Zen 4: VDIVPD ymm 5 cycles, twice), beside the others.")
    bound = 2 * count * peak
    print(f"Bound by multiply-adds: 2 x {count} x {peak:.3g} = {bound:.3g} ns a node and step of 16 samples; found {node:.3g} ns: {100 * bound / node:.0f} % of the arithmetic bound.")
    sums = 4.5  # of the count, plain sums
    print(f"{sums} of the {count} are plain sums, which two further pipes of this core take: with them set aside the bound is {2 * (count - sums) * peak:.3g} ns, {200 * (count - sums) * peak / node:.0f} %.")
    print("All arrays of a batch (some 3 x 37 nodes x 128 bytes) stay in the first-level cache; no memory traffic bounds it.")
