#!/usr/bin/env bash
# Runs every command on small invented inputs again and again: on 1, 2 and 8 threads, in other cultures and time zones, and without wide
# vectors. Threads, cultures and zones must not change a byte. Vector widths may change last digits: how far is measured, and bounded.
# usage: repeat-commands.sh [deck folder]; the table goes to repeat-commands.md, exit code 1 where something differs that must not.
set -uo pipefail
here="$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)"
cd "$here/../.."
deck="${1:-demo-data/quillmarsh-crossing}"
bin=src/DeckLife.Cli/bin/Release/net10.0/DeckLife.Cli.dll
surroundings=tests/DeckLife.Benchmarks/bin/Release/net10.0/DeckLife.Benchmarks.dll
for project in src/DeckLife.Cli tests/DeckLife.Benchmarks; do dotnet build -c Release $project -v quiet --nologo || exit 1; done
work="$(mktemp -d)"
trap 'rm -rf "$work"' EXIT
failed=0
started=$SECONDS

# Small inputs: the same numbers go through the same code, only fewer of them.
cp -r "$deck" "$work/deck"
mkdir "$work/studies"
python3 - "$work" demo-data/studies/*.json <<'PY'
import json, pathlib, re, sys
work = pathlib.Path(sys.argv[1])
deck = work / "deck" / "deck.json"
text = deck.read_text()
assert '"analysis": {' in text
deck.write_text(text.replace('"analysis": {', '"analysis": { "draws": 60, "points": 32,'))
small = {"points": 64, "draws": 2000, "repetitions": 8, "bootstrap": 100, "keep": 20}
for name in sys.argv[2:]:
    study = json.loads(pathlib.Path(name).read_text())
    for method in study["methods"]:
        for key in small.keys() & method.keys():
            method[key] = min(method[key], small[key])
    if "deck" in study:
        study["deck"]["folder"] = "../deck"
        study["deck"]["points"] = 16
    (work / "studies" / pathlib.Path(name).name).write_text(json.dumps(study, indent=1))
PY
python3 demo-data/make-harrowmere-district.py "$work/network" --decks 4 --seed 41 --cored 1 >/dev/null

# One file a command; what goes to standard error (progress, problems) does not count, exit codes do.
run_all() { # folder
  local to="$1"
  mkdir -p "$to"
  keep() { # file, command...
    local file="$1"
    shift
    dotnet "$bin" "$@" >"$to/$file" 2>/dev/null
    echo "$file $?" >>"$to/exit-codes"
  }
  keep version version
  keep explain explain DL2001
  for form in deck study network; do keep "schema-$form.json" schema $form; done
  keep check.json check "$work/deck" --format json
  for format in text json csv; do
    keep "fit.$format" fit "$work/deck" --format $format
    keep "project.$format" project "$work/deck" --format $format
  done
  keep decisions.json project "$work/deck" --format json --depth-map --resurvey 5
  for case in reference-checks/ingress-cases/0[2579]*.json; do keep "ingress-$(basename "$case")" ingress "$case" --format json; done
  for study in "$work"/studies/*.json; do
    keep "study-$(basename "$study")" study "$study" --format json --out "$to/study-$(basename "$study" .json)"
  done
  keep network.json network "$work/network" --draws 20 --points 16 --quiet --format json --out "$to/network"
  keep placement.json placement-day --air "27 C" --concrete "31 C" --humidity "50 %" --wind "19 km/h" --evaporation-limit "0.10 lb/ft2/h" --format json
  keep report report "$work/deck" --out "$to/report" --no-timestamp
  # The only line that may name the folder of the run.
  sed -i "s|$to|OUT|g" "$to/report"
}

row() { # name, must be equal?
  local name="$1" differing seen
  seen="$(dotnet "$surroundings" surroundings)"
  run_all "$work/$name"
  differing="$(diff -rq "$work/first" "$work/$name" 2>&1 | sed -E 's/^Files .* and .*\/([^/]+) differ$/\1/' | tr '\n' ' ')"
  if [ -z "$differing" ]; then
    echo "| $name | $seen | same bytes |"
  elif [ "$2" = must ]; then
    echo "| $name | $seen | DIFFERS: $differing |"
    failed=1
  else
    echo "| $name | $seen | $(python3 "$here/largest-difference.py" "$work/first" "$work/$name") |" || failed=1
  fi
}

{
  echo "# Every command, again and again"
  echo
  echo "Written by \`bash tests/studies/repeat-commands.sh\`. Each row runs every command anew and compares all of its output with the first run's."
  echo "The middle column is what a process started in the same way says of itself: it shows that the setting took effect."
  echo
  echo "| run | a process sees | against the first |"
  echo "| --- | --- | --- |"
  seen="$(dotnet "$surroundings" surroundings)"
  run_all "$work/first"
  echo "| first | $seen | $(find "$work/first" -type f | wc -l) files |"
  row again must
  for threads in 1 2 8; do DOTNET_PROCESSOR_COUNT=$threads row "threads-$threads" must; done
  LC_ALL=de_DE.UTF-8 TZ=Pacific/Kiritimati row de-DE must
  LC_ALL=tr_TR.UTF-8 TZ=America/St_Johns row tr-TR must
  LC_ALL=ar_SA.UTF-8 TZ=Asia/Riyadh row ar-SA must
  LC_ALL=fa_IR.UTF-8 TZ=Asia/Tehran row fa-IR must
  DOTNET_EnableAVX512=0 row no-avx512 may
  DOTNET_EnableAVX2=0 row no-avx2 may
  DOTNET_EnableHWIntrinsic=0 row no-vectors may
  echo
  python3 "$here/largest-difference.py" --rule
} | tee "$here/repeat-commands.md"
grep -q DIFFERS "$here/repeat-commands.md" && failed=1
echo "took $((SECONDS - started)) s"
exit $failed
