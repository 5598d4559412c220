"""Writes the row of a namespace in mutate-data.md and prints its survivors: row.py PART RESULTS SCAN TABLE SOURCES WITHOUT."""

import pathlib
import sys
from collections import Counter

part, results, scan, table, sources, without = sys.argv[1:]
table = pathlib.Path(table)
member = {line.split()[0]: line.split()[3] for line in open(scan)}
status = {line.split()[0]: line.split()[1] for line in open(results)}
count = Counter(status.values())
late, killed, survived, bare = (count[s] for s in ("Timeout", "Killed", "Survived", "NoCoverage"))
files = len(list((pathlib.Path(sources) / part).glob("*.cs")))
names = ", ".join(f"!~{w}" for w in without.split(";"))
score = 100 * (killed + late) / max(1, len(status))
row = f"| Data.{part} | {files} of {files} | {len(status)} | {killed} | {late} | {survived} | {bare} | {score:.1f} | {names} |"
lines = table.read_text().splitlines()
old = [i for i, line in enumerate(lines) if line.startswith(f"| Data.{part} |")]
last = max(i for i, line in enumerate(lines) if line.startswith("| "))
lines[old[0] if old else last + 1 : (old[0] if old else last) + 1] = [row]
table.write_text("\n".join(lines) + "\n")
print(row)
for number, what in sorted(status.items(), key=lambda s: int(s[0])):
    if what in ("Survived", "NoCoverage"):
        print(number, what, member[number])
