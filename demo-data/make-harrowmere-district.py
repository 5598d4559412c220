#!/usr/bin/env python3
"""Makes demo-data/harrowmere-district: an invented network of bridge decks of unlike data quality.

Nothing here is measured; no bridge, road, district or person is real. For each deck the script invents a truth (medians of
cover, surface content, diffusion coefficient, threshold), then does what a crew with more or less time and money would have done:
some decks have cores, cover readings, half-cell potentials and a sounding list; some have cores and a drawing; most have an age
and the share found hollow at the last sounding. Two folders of the forty are broken on purpose.

Needs Python 3.9 or newer and nothing else. The same seed and number of decks write the same bytes:

    python3 make-harrowmere-district.py [FOLDER] [--decks 40] [--seed 20320401] [--cored 0.4]
"""
import argparse
import json
import math
import random
from pathlib import Path

FT2_PER_M2 = 10.7639104167
KG_PER_LB_YD3 = 0.45359237 / 0.764554857984
FIRST_PARTS = ["Alder", "Bracken", "Cobble", "Dun", "Elder", "Fern", "Garner", "Heron", "Iron", "Juniper", "Knapp", "Linnet",
               "Marl", "Nettle", "Otter", "Plover", "Quarry", "Rook", "Sedge", "Teasel"]
LAST_PARTS = ["brook", "combe", "dale", "fold", "gate", "holm", "lock", "mere", "rigg", "shaw", "wath", "wick"]
KINDS = ["Viaduct", "Overbridge", "Crossing", "Bridge"]
# Exposure classes: median surface content [kg/m3], median D [mm2/yr], share of the district's decks.
CLASSES = [("upland, heavy salt", 7.6, 17.0, 0.30), ("valley, medium salt", 5.4, 15.0, 0.45), ("lowland, light salt", 3.4, 13.0, 0.25)]
ROADS = ["H1", "H2", "H7", "H12", "H31"]
FIRST_YEAR, YEARS, LAST_YEAR = 2032, 10, 2061

COMMON = {
    "deckThickness": "8.5 in",
    "structure": "cast-in-place",
    "topBars": {"type": "bare", "diameter": "0.625 in"},
    "concrete": {"density": "3915 lb/yd3", "binderContent": "635 lb/yd3"},
    "chlorides": {"extraction": "acid-soluble"},
    "threshold": {
        "content": {"mean": "2.4 lb/yd3", "cov": 0.40, "distribution": "lognormal"},
        "withinDeckShare": 0.5,
        "extraction": "acid-soluble",
        "source": "demonstration value; the literature range for uncoated bars spans 1 to more than 5 lb/yd3",
    },
    "propagation": {
        "period": {"mean": "6 yr", "cov": 0.35},
        "source": "demonstration value; 2 to 6 yr from initiation to delamination is common practice for uncoated bars",
    },
    "materials": [
        {
            "name": name,
            "diffusion": {
                "coefficient": {"mean": coefficient, "cov": 0.4},
                "ageingExponent": 0.2,
                "referenceAge": "28 d",
                "ageAtExposure": "28 d",
                "constantAfter": "25 yr",
            },
            "initialChloride": "0.1 lb/yd3",
            "serviceLife": {"mean": "26 yr", "cov": 0.3},
            "density": density,
            "source": "demonstration value; ask the supplier for tests of the mix",
        }
        for name, coefficient, density in [
            ("latex-modified concrete", "2.0e-12 m2/s", "3850 lb/yd3"),
            ("silica-fume concrete", "1.6e-12 m2/s", "3900 lb/yd3"),
        ]
    ],
    "strategies": [
        {"name": "repair hollow areas", "interventions": [{"at": "0 yr", "remove": {"rule": "unsound-areas"}}]},
        {
            "name": "scarify and overlay",
            "interventions": [
                {
                    "at": "0 yr",
                    "remove": {"rule": "fixed-depth", "depth": "0.25 in"},
                    "overlay": {"material": "latex-modified concrete", "thickness": "1.5 in"},
                }
            ],
        },
        {
            "name": "remove to chloride limit and overlay",
            "interventions": [
                {
                    "at": "0 yr",
                    "remove": {"rule": "chloride-limit", "limit": "2.0 lb/yd3", "minimumDepth": "0.5 in", "maximumDepth": "2.5 in"},
                    "overlay": {"material": "silica-fume concrete", "thickness": "2.25 in"},
                }
            ],
        },
        {
            "name": "deep removal and overlay",
            "interventions": [
                {
                    "at": "0 yr",
                    "remove": {"rule": "fixed-depth", "depth": "2.5 in"},
                    "overlay": {"material": "silica-fume concrete", "thickness": "3 in"},
                }
            ],
        },
    ],
    "prices": {
        "currency": "USD",
        "year": 2032,
        "items": [
            {"item": "mobilisation and traffic control (invented)", "per": "lump-sum", "price": "45000 each"},
            {"item": "removal of old concrete (invented)", "per": "removed-volume", "price": "2300 per yd3"},
            {"item": "repair of hollow and spalled areas (invented)", "per": "repaired-area", "price": "65 per ft2"},
            {"item": "latex-modified concrete in place (invented)", "per": "placed-volume", "price": "1900 per yd3", "material": "latex-modified concrete"},
            {"item": "silica-fume concrete in place (invented)", "per": "placed-volume", "price": "1500 per yd3", "material": "silica-fume concrete"},
        ],
    },
    "horizon": "40 yr",
    "discountRate": "3 %",
    "damageLimit": "10 %",
}


def content(depth, cs, d, age, background=0.12):
    return background + (cs - background) * math.erfc(depth / (2 * math.sqrt(d * age)))


class Deck:
    """The truth of one deck, and what its crew found."""

    def __init__(self, number, seed, cored):
        self.rng = rng = random.Random(f"{seed} deck {number}")
        self.number = number
        self.folder = f"d{number:05d}"
        self.name = f"{rng.choice(FIRST_PARTS)}{rng.choice(LAST_PARTS)} {rng.choice(KINDS)}"
        pick, total = rng.random(), 0.0
        for self.kind, cs, d, share in CLASSES:
            total += share
            if pick < total:
                break
        self.cs = cs * math.exp(rng.gauss(0, 0.22))
        self.d = d * math.exp(rng.gauss(0, 0.30))
        self.cover = rng.uniform(42, 60)
        self.cover_sd = rng.uniform(6, 10)
        self.threshold = 1.35 * math.exp(rng.gauss(0, 0.15))
        self.survey = rng.randint(FIRST_YEAR - 8, FIRST_YEAR)
        self.age = round(rng.uniform(20, 48), 1)
        self.length = rng.choice([18, 24, 30, 36, 45, 60, 75, 90])
        self.width = rng.choice([9, 10.5, 12, 13.5])
        self.area = self.length * self.width
        quality = rng.random()
        # What there is: cores, cover readings, half-cell nodes.
        self.has_cores = quality < cored
        self.has_cover = quality < 0.6 * cored or cored <= quality < cored + 0.25 * (1 - cored)
        self.has_half_cell = quality < 0.5 * cored
        places = [self.place() for _ in range(160)]
        hollow = sum(1 for cover, cs, d, threshold, wait in places
                     if self.age > wait and content(cover, cs, d, self.age - wait) >= threshold)
        self.hollow = 0.9 * hollow / len(places)  # one hollow in ten escapes the hammer

    def place(self):
        rng = self.rng
        return (max(12.0, rng.gauss(self.cover, self.cover_sd)), self.cs * math.exp(rng.gauss(0, 0.25)),
                self.d * math.exp(rng.gauss(0, 0.4)), self.threshold * math.exp(rng.gauss(0, 0.28)), 6 * math.exp(rng.gauss(0, 0.3)))

    def facts(self):
        facts = {
            "name": self.name,
            "surveyDate": f"{self.survey}-06-15",
            "firstSalt": {"age": f"{self.age} yr"},
            "area": f"{self.area * FT2_PER_M2:.0f} ft2",
        }
        if not self.has_cover:
            facts["cover"] = {"stated": {"mean": f"{self.rng.gauss(self.cover, 3) / 25.4:.1f} in", "cov": 0.17}}
        return facts

    def chlorides(self):
        edges = [0.25, 0.75, 1.25, 1.75, 2.25, 2.75, 3.25]
        rows = ["core,top_in,bottom_in,chloride_lb_per_yd3"]
        for core in range(self.rng.randint(4, 6)):
            _, cs, d, _, _ = self.place()
            for top, bottom in zip(edges, edges[1:]):
                mean = sum(content((top + (i + 0.5) * (bottom - top) / 10) * 25.4, cs, d, self.age) for i in range(10)) / 10
                found = max(0.02, mean * (1 + 0.05 * self.rng.gauss(0, 1)) + 0.03 * self.rng.gauss(0, 1)) / KG_PER_LB_YD3
                rows.append(f"C-{core + 1:02d},{top:.2f},{bottom:.2f},{found:.2f}")
        return rows

    def covers(self):
        rows = ["cover_in"]
        for _ in range(36):
            rows.append(f"{(self.place()[0] + self.rng.gauss(0, 1.5)) / 25.4:.2f}")
        return rows

    def half_cells(self):
        rows = ["x_ft,y_ft,potential_mv_cse"]
        step = self.length / 12
        for i in range(12):
            for j in range(4):
                cover, cs, d, threshold, _ = self.place()
                active = content(cover, cs, d, self.age) >= threshold
                potential = self.rng.gauss(-360, 65) if active else self.rng.gauss(-190, 65)
                rows.append(f"{(i + 0.5) * step / 0.3048:.1f},{(j + 0.5) * self.width / 4 / 0.3048:.1f},{min(20.0, potential):.0f}")
        return rows

    def soundings(self):
        return ["finding,area_ft2", f"delaminated,{max(1.0, self.hollow * self.area * FT2_PER_M2):.0f}"]

    def member(self):
        rng = self.rng
        member = {
            "folder": self.folder,
            "latitude": round(54.2 + 0.55 * rng.random(), 4),
            "longitude": round(-3.1 + 0.9 * rng.random(), 4),
            "corridor": rng.choice(ROADS),
            "weight": rng.choice([0.6, 1, 1, 1, 1.5, 2.5]),
        }
        if not self.has_cores:
            member["exposureClass"] = self.kind
        return member


def write(path, text):
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8", newline="\n")


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("folder", nargs="?", type=Path, default=Path(__file__).resolve().parent / "harrowmere-district")
    parser.add_argument("--decks", type=int, default=40)
    parser.add_argument("--seed", type=int, default=20320401)
    parser.add_argument("--cored", type=float, default=0.4, help="share of decks with cores, 0 to 1")
    chosen = parser.parse_args()
    members, area = [], 0.0
    for number in range(1, chosen.decks + 1):
        deck = Deck(number, chosen.seed, chosen.cored)
        facts, home = deck.facts(), chosen.folder / deck.folder
        if number % 40 == 17:
            facts["cover"] = {"stated": "2.25"}  # broken on purpose: a quantity without its unit
        if number % 40 == 31:
            del facts["area"]  # broken on purpose: nobody wrote the area down
        write(home / "deck.json", json.dumps(facts, indent=1) + "\n")
        if deck.has_cores:
            write(home / "chlorides.csv", "\n".join(deck.chlorides()) + "\n")
        if deck.has_cover:
            write(home / "cover.csv", "\n".join(deck.covers()) + "\n")
        if deck.has_half_cell:
            write(home / "half-cell.csv", "\n".join(deck.half_cells()) + "\n")
        write(home / "sounding.csv", "\n".join(deck.soundings()) + "\n")
        members.append(deck.member())
        area += deck.area
    budget = int(round(area * 30, -4))  # a yearly budget that does not reach all
    network = {
        "name": "Harrowmere district",
        "story": "Invented for demonstration: the decks of a made-up highway district, known from much or from little. No bridge, road or person is real.",
        "program": {
            "firstYear": FIRST_YEAR,
            "years": YEARS,
            "budget": budget,
            "lastYear": LAST_YEAR,
            "closures": {"perYear": max(4, chosen.decks // 7), "perCorridorAndYear": max(2, chosen.decks // 20)},
        },
        "analysis": {"seed": chosen.seed, "draws": 20, "points": 256},
        "exposureClasses": [
            {
                "name": name,
                "surfaceChloride": {"mean": f"{cs} kg/m3", "cov": 0.35},
                "diffusionCoefficient": {"mean": f"{d} mm2/yr", "cov": 0.55},
                "withinDeckShare": 0.5,
                "background": "0.12 kg/m3",
                "source": "demonstration value; take it from the district's own cored decks",
            }
            for name, cs, d, _ in CLASSES
        ],
        "common": COMMON,
        "decks": members,
    }
    head = json.dumps({k: v for k, v in network.items() if k != "decks"}, indent=1)
    decks = ",\n".join("  " + json.dumps(m) for m in members)
    note = "// An invented network: no real bridge, road, district or person. Made by make-harrowmere-district.py.\n"
    write(chosen.folder / "network.json", note + head[:-2] + ',\n "decks": [\n' + decks + "\n ]\n}\n")


if __name__ == "__main__":
    main()
