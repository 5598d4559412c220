#!/usr/bin/env python3
"""Makes demo-data/quillmarsh-crossing: an invented bridge deck with surveys that agree with each other.

Nothing here is measured. The script invents a deck as a plane of points: cover, surface chloride, diffusion
coefficient and threshold vary over it as smooth random fields with local scatter; each point corrodes by
Fick's second law and a fixed-median propagation time. It then does what a survey crew would do: grinds cores,
reads cover, measures half-cell potentials, sounds for hollows. Blemishes of real data are put in by hand and
are named in demo-data/README.md.

Needs Python 3.9 or newer and nothing else. The same seed writes the same bytes:

    python3 make-quillmarsh-crossing.py [FOLDER]
"""
import math
import random
import sys
from pathlib import Path

SEED = 20310516
LENGTH_M, WIDTH_M = 60.0, 12.0
FT = 0.3048
KG_PER_LB_YD3 = 0.45359237 / 0.764554857984
AGE_NOW, AGE_EARLIER = 40.5, 28.5  # years from the first salt to the two coring campaigns

# The invented truth (medians; s.d. of the logarithm, or s.d. in mm for cover).
COVER_MEAN_MM, COVER_SD_MM = 65.0, 9.0
CS_MEDIAN, CS_LN_SD = 6.4, 0.25  # kg/m3
D_MEDIAN, D_LN_SD = 15.5, 0.42  # mm2/yr, apparent, taken as constant
BACKGROUND = 0.12  # kg/m3
THRESHOLD_MEDIAN, THRESHOLD_LN_SD = 1.35, 0.35  # kg/m3
PROPAGATION_MEDIAN, PROPAGATION_LN_SD = 6.0, 0.35  # yr
LAB_CV, LAB_SD = 0.05, 0.03  # laboratory error: proportional part, constant part [kg/m3]
DETECTION_LIMIT = 0.25  # lb/yd3


CELL_M = 0.75  # local scatter is one value a cell, so that every survey of one place sees the same concrete


def local_scatter(name, x, y):
    return random.Random(f"{SEED} {name} {int(x // CELL_M)} {int(y // CELL_M)}").gauss(0, 1)


class Field:
    """A smooth standard normal field over the deck (random cosines) with a share of local scatter."""

    def __init__(self, rng, name, length_m, local_share, terms=48):
        self.name = name
        self.local = math.sqrt(local_share)
        self.smooth = math.sqrt(1 - local_share)
        self.waves = [
            (rng.gauss(0, 1 / length_m), rng.gauss(0, 1 / length_m), rng.uniform(0, 2 * math.pi)) for _ in range(terms)
        ]

    def at(self, x, y):
        total = sum(math.cos(kx * x + ky * y + phase) for kx, ky, phase in self.waves)
        return self.smooth * total * math.sqrt(2 / len(self.waves)) + self.local * local_scatter(self.name, x, y)


class InventedDeck:
    def __init__(self, rng):
        self.cover = Field(rng, "cover", 6.0, 0.35)
        self.cs = Field(rng, "surface chloride", 8.0, 0.40)
        self.d = Field(rng, "diffusion", 5.0, 0.45)
        self.threshold = Field(rng, "threshold", 3.0, 0.70)

    def point(self, x, y):
        """Cover, Cs, D, threshold and the times of initiation and damage at one place."""
        # Salt water stands in the gutter along y = 0: more chloride there.
        gutter = 0.25 * math.exp(-y / 1.2)
        cover = max(12.0, COVER_MEAN_MM + COVER_SD_MM * self.cover.at(x, y))
        cs = CS_MEDIAN * math.exp(CS_LN_SD * self.cs.at(x, y) + gutter)
        d = D_MEDIAN * math.exp(D_LN_SD * self.d.at(x, y))
        threshold = THRESHOLD_MEDIAN * math.exp(THRESHOLD_LN_SD * self.threshold.at(x, y))
        initiation = initiation_time(cover, cs, d, threshold)
        damage = initiation + PROPAGATION_MEDIAN * math.exp(PROPAGATION_LN_SD * local_scatter("propagation", x, y))
        return cover, cs, d, initiation, damage


def content(depth, cs, d, age):
    return BACKGROUND + (cs - BACKGROUND) * math.erfc(depth / (2 * math.sqrt(d * age)))


def initiation_time(cover, cs, d, threshold):
    """First time the content at the bar reaches the threshold, by bisection; infinity when it never does."""
    if threshold <= BACKGROUND:
        return 0.0
    if threshold >= cs:
        return math.inf
    low, high = 1e-6, 1e5
    if content(cover, cs, d, high) < threshold:
        return math.inf
    for _ in range(80):
        middle = math.sqrt(low * high)
        low, high = (low, middle) if content(cover, cs, d, middle) >= threshold else (middle, high)
    return high


def slice_mean(top, bottom, cs, d, age, parts=40):
    step = (bottom - top) / parts
    return sum(content(top + (i + 0.5) * step, cs, d, age) for i in range(parts)) / parts


def lab(rng, value):
    return max(0.0, value * (1 + LAB_CV * rng.gauss(0, 1)) + LAB_SD * rng.gauss(0, 1))


def write(path, head, rows):
    with open(path, "w", encoding="utf-8", newline="\n") as file:
        file.write(head + "\n")
        for row in rows:
            file.write(",".join(row) + "\n")


def chlorides(deck, rng):
    edges_in = [0.0, 0.25, 0.75, 1.25, 1.75, 2.25, 2.75, 3.25]
    places = [
        ("C-01", 7.0, 1.5, AGE_EARLIER), ("C-02", 29.5, 6.0, AGE_EARLIER), ("C-03", 51.0, 9.5, AGE_EARLIER),
        ("C-04", 4.5, 8.0, AGE_NOW), ("C-05", 14.0, 3.0, AGE_NOW), ("C-06", 22.5, 10.5, AGE_NOW),
        ("C-07", 33.0, 1.0, AGE_NOW), ("C-08", 38.5, 5.0, AGE_NOW), ("C-09", 47.0, 7.5, AGE_NOW),
        ("C-10", 55.5, 4.0, AGE_NOW), ("C-11", 42.0, 11.0, AGE_NOW), ("C-12", 18.0, 6.5, AGE_NOW),
    ]
    rows = []
    for name, x, y, age in places:
        _, cs, d, _, _ = deck.point(x, y)
        if name == "C-06":
            d *= 0.30  # a tight spot: the deep slices fall below the detection limit
        for i in range(1 if name != "C-04" else 0, len(edges_in) - 1):
            top, bottom = edges_in[i] * 25.4, edges_in[i + 1] * 25.4
            if name == "C-08":  # on a crack: salt came in from the side as well
                value = slice_mean(top, bottom, cs, d, age) + 0.55 * cs * math.exp(-0.5 * (top + bottom) / 90)
            elif name == "C-10":  # taken through an unmapped patch: old salt below, fresh mortar above
                value = 1.9 + 0.25 * i
            else:
                value = slice_mean(top, bottom, cs, d, age)
                if name == "C-04" and i == 0:
                    value *= 0.42  # skin washed out by rain
            value_lb = lab(rng, value) / KG_PER_LB_YD3
            text = f"<{DETECTION_LIMIT:.2f}" if value_lb < DETECTION_LIMIT else f"{value_lb:.2f}"
            rows.append([name, f"{edges_in[i]:.2f}", f"{edges_in[i + 1]:.2f}", text, f"{age:.1f}",
                         f"{x / FT:.1f}", f"{y / FT:.1f}", "yes" if name == "C-08" else "no"])
    return rows


def covers(deck, rng):
    rows = []
    for i in range(24):
        for j in range(6):
            x = 1.25 + 2.5 * i + rng.uniform(-0.4, 0.4)
            y = 1.0 + 2.0 * j + rng.uniform(-0.3, 0.3)
            cover = deck.point(x, y)[0] + rng.gauss(0, 1.5)
            rows.append([f"{x / FT:.1f}", f"{y / FT:.1f}", f"{cover / 25.4:.2f}"])
    return rows


def half_cells(deck, rng, hollow):
    rows = []
    for i in range(40):
        for j in range(8):
            x, y = 1.1 + 1.5 * i, 1.1 + 1.5 * j
            if any(x0 <= x <= x1 and y0 <= y <= y1 for x0, y0, x1, y1 in hollow):
                active = True
            else:
                active = deck.point(x, y)[3] <= AGE_NOW
            potential = rng.gauss(-385, 65) if active else rng.gauss(-165, 60)
            rows.append([f"{x / FT:.1f}", f"{y / FT:.1f}", f"{min(20.0, potential):.0f}"])
    return rows


def soundings(deck, rng):
    """Rectangles of hollow concrete: runs of damaged cells along the deck, as a crew would box them."""
    cell = CELL_M
    boxes, found = [], []
    for j in range(int(WIDTH_M / cell)):
        run = None
        for i in range(int(LENGTH_M / cell) + 1):
            x, y = (i + 0.5) * cell, (j + 0.5) * cell
            bad = i < int(LENGTH_M / cell) and deck.point(x, y)[4] <= AGE_NOW
            if bad and run is None:
                run = i
            elif not bad and run is not None:
                boxes.append((run * cell, j * cell, i * cell, (j + 1) * cell))
                run = None
    for number, (x0, y0, x1, y1) in enumerate(boxes):
        if rng.random() > 0.90:
            continue  # one hollow in ten escapes the hammer
        kind = "spalled" if number % 11 == 4 else "delaminated"
        found.append((kind, x0, y0, x1, y1))
    rows = [[kind] + [f"{v / FT:.1f}" for v in (x0, y0, x1, y1)] for kind, x0, y0, x1, y1 in found]
    rows.append(["patched"] + [f"{v / FT:.1f}" for v in (54.6, 3.4, 56.4, 4.6)])
    return rows, [(x0, y0, x1, y1) for _, x0, y0, x1, y1 in found]


def main():
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).resolve().parent / "quillmarsh-crossing"
    folder.mkdir(parents=True, exist_ok=True)
    deck = InventedDeck(random.Random(SEED))
    write(folder / "chlorides.csv", "core,top_in,bottom_in,chloride_lb_per_yd3,age_yr,x_ft,y_ft,on_crack",
          chlorides(deck, random.Random(SEED + 1)))
    write(folder / "cover.csv", "x_ft,y_ft,cover_in", covers(deck, random.Random(SEED + 2)))
    areas, hollow = soundings(deck, random.Random(SEED + 3))
    write(folder / "sounding.csv", "finding,x1_ft,y1_ft,x2_ft,y2_ft", areas)
    write(folder / "half-cell.csv", "x_ft,y_ft,potential_mv_cse", half_cells(deck, random.Random(SEED + 4), hollow))

    rng, total, counts = random.Random(SEED + 5), 40000, [0, 0]
    for _ in range(total):
        point = deck.point(rng.uniform(0, LENGTH_M), rng.uniform(0, WIDTH_M))
        counts[0] += point[3] <= AGE_NOW
        counts[1] += point[4] <= AGE_NOW
    print(f"invented truth at the survey: initiated {counts[0] / total:.1%}, damaged {counts[1] / total:.1%} of the area")


if __name__ == "__main__":
    main()
