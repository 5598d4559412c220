#!/usr/bin/env bash
# Mutation tests: dotnet-stryker changes the code of an area piece by piece (a sign, a limit, a call, a whole block), and the tests have to notice.
# usage: mutate-code.sh AREA... ; an area is a folder of src/DeckLife (Initiation, Economics, ...) or Data for src/DeckLife.Data; a part of one will
# do: Population/ExposureClock.cs, Data/Json. What was learned of a file stays in artifacts/mutation until the file changes, so that an area can be
# gone through file by file; the area's row in mutate-code.md sums up its files. Survivors go to artifacts/mutation/AREA.txt. Name areas of one
# project only. Outside of what is checked on every change.
#
# dotnet-stryker makes the mutants: one assembly that holds them all, each behind a switch, and their list. A test host a mutant would take hours;
# MutantRunner throws the switches one after another in one process instead and runs the tests that reach each. A mutant counts as killed where a
# test fails, as timed out where none comes to an end within 20 s and ten times what its tests take.
#
# Not mutated, and why:
# - texts (the mutator "string"): messages, item names and names of random streams; another stream gives other numbers of the same law, and the
#   texts of messages are read by people and by the tests of the catalogue. Data keeps this mutator for its keys and column names.
# - calls of ThrowIfNull: without them a null ends in an exception all the same, with a worse message.
# Equivalent mutants count as survivors in the score, and so do those in values made once for the whole process; mutate-code.md lists them.
set -euo pipefail
here="$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)"
root="$(cd "$here/../.." && pwd)"
tool="${STRYKER:-$root/artifacts/stryker}"
version=5.1.0
[ -x "$tool/dotnet-stryker" ] || dotnet tool install dotnet-stryker --version $version --tool-path "$tool"
kept="$root/artifacts/mutation"
mkdir -p "$kept"

# The tests that bear on an area, without those that project whole decks through it for seconds each: a mutant meets every test that reaches it
# until one fails. dotnet-stryker asks for a test of its own: any that reaches nothing of the areas.
project=DeckLife ignored='"string"' patterns='' include='' exclude='Calibration|StudyTests|\.Project_' idle=MessageTemplateTests
for part in "$@"; do
  area="${part%%/*}"
  folder="$part"
  tests="Tests\\.$area\\."
  # The slab that salt enters from both faces is tested beside its projection.
  [ "$area" != Population ] || tests+='|\.SoffitTests$'
  if [ "$area" = Data ]; then project=DeckLife.Data ignored='' folder="${part#Data}" tests='.' exclude='Mutation|DeckStudy|Hostile|LargeTable|RoundTrip|ThatUnpacks|AnyCulture|AnyBit' idle=MaterialTestJsonTests; fi
  folder="${folder#/}"
  sources="$root/src/$project${folder:+/$folder}"
  [ -e "$sources" ] || { echo "$part: no $sources"; exit 1; }
  [ -d "$sources" ] && folder="${folder:+$folder/}**/*.cs"
  patterns+="${patterns:+, }\"$folder\""
  case "|$include|" in *"|$tests|"*) ;; *) include+="${include:+|}$tests" ;; esac
done
run="$kept/run"
rm -rf "$run"
mkdir -p "$run"
cat >"$run/config.json" <<JSON
{ "stryker-config": {
  "project": "$project.csproj",
  "configuration": "Release",
  "mutate": [$patterns],
  "mutation-level": "Standard",
  "test-case-filter": "FullyQualifiedName~$idle",
  "ignore-mutations": [$ignored],
  "ignore-methods": ["*ThrowIfNull"],
  "concurrency": 1,
  "reporters": ["json"]
} }
JSON
tests="$root/tests/$project.Tests" built="$root/tests/$project.Tests/bin/Release/net10.0"
nice -n 10 dotnet build -c Release "$tests" --nologo -v quiet
nice -n 10 dotnet build -c Release "$here/MutantRunner" -o "$run/runner" --nologo -v quiet
cp -r "$built" "$run/mutated"
(cd "$tests" && nice -n 10 "$tool/dotnet-stryker" --skip-version-check -f "$run/config.json" -O "$run") &
stryker=$!
# The library with the mutants lies beside the tests only while dotnet-stryker runs.
while kill -0 $stryker 2>/dev/null; do
  grep -qsa MutantControl "$built/$project.dll" && cp "$built/$project.dll" "$run/mutated/"
  sleep 1
done
wait $stryker
grep -qa MutantControl "$run/mutated/$project.dll"
report=$(find "$run" -name mutation-report.json)
results="$run/results.tsv"
while true; do
  code=0
  nice -n 10 dotnet "$run/runner/MutantRunner.dll" "$run/mutated" "$project.Tests" "$include" "$exclude" "$report" "$results" || code=$?
  [ $code -ne 0 ] || break
  # Not its own end: the mutant took the process with it.
  [ $code -eq 3 ] || printf '%s\tKilled\tthe process\n' "$(cat "$results.now")" >>"$results"
done
python3 - "$root" "$report" "$here/mutate-code.md" "$results" "$include, without $exclude" "$@" <<'PY'
import hashlib, json, pathlib, sys
root, report, table, results = map(pathlib.Path, sys.argv[1:5])
tests, parts = sys.argv[5].replace("|", "\\|"), sys.argv[6:]
report = json.loads(report.read_text())
fates = dict(line.split("\t")[:2] for line in results.read_text().splitlines())
for entry in report["files"].values():
    for mutant in entry["mutants"]:
        mutant["status"] = fates.get(mutant["id"], mutant["status"])
found = {pathlib.Path(file).resolve(): entry["mutants"] for file, entry in report["files"].items()}
digest = lambda file: hashlib.sha256(file.read_bytes()).hexdigest()
code = lambda place: [f for f in sorted(place.rglob("*.cs")) if not {"bin", "obj"} & set(f.parts)] if place.is_dir() else [place]
for area in dict.fromkeys(part.split("/")[0] for part in parts):
    whole = root / "src" / ("DeckLife.Data" if area == "Data" else f"DeckLife/{area}")
    files = {str(f.relative_to(whole)): f for f in code(whole)}
    store = root / "artifacts" / "mutation" / f"{area}.json"
    known = json.loads(store.read_text()) if store.exists() else {}
    for part in parts:
        if part.split("/")[0] == area:
            for file in code(whole / part[len(area) + 1 :]):
                known[str(file.relative_to(whole))] = {"digest": digest(file), "mutants": found.get(file.resolve(), [])}
    known = {n: k for n, k in known.items() if n in files and k["digest"] == digest(files[n])}
    store.write_text(json.dumps(known))
    count = lambda status: sum(m["status"] == status for k in known.values() for m in k["mutants"])
    killed, late, survived, bare = map(count, ("Killed", "Timeout", "Survived", "NoCoverage"))
    total = killed + late + survived + bare
    with store.with_suffix(".txt").open("w") as out:
        for n, k in sorted(known.items()):
            lines = files[n].read_text().splitlines()
            for m in k["mutants"]:
                if m["status"] in ("Survived", "NoCoverage"):
                    a, b = m["location"]["start"], m["location"]["end"]
                    text = lines[a["line"] - 1][a["column"] - 1 : b["column"] - 1 if a["line"] == b["line"] else None]
                    print(f"{n}:{a['line']} {m['status']} {m['mutatorName']}: {text} -> {' '.join(m['replacement'].split())[:160]}", file=out)
    row = f"| {area} | {len(known)} of {len(files)} | {total} | {killed} | {late} | {survived} | {bare} | {100 * (killed + late) / max(1, total):.1f} | `{tests}` |"
    lines = table.read_text().splitlines()
    heads = [i for i, line in enumerate(lines) if line.startswith("| --- ")]
    rows = {i: line.split("|")[1].strip() for i, line in enumerate(lines) if line.startswith("| ") and i > heads[0]}
    at = [i for i, name in rows.items() if name == area]
    if at:
        lines[at[0]] = row
    else:
        lines.insert(max([heads[0], *rows]) + 1, row)
    table.write_text("\n".join(lines) + "\n")
    print(row)
    print(store.with_suffix(".txt").read_text(), end="")
PY
