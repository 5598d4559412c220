#!/usr/bin/env bash
# Runs every command on small invented inputs again and again: on 1, 2 and 8 threads, in other cultures and time zones, and without wide
# vectors. Threads, cultures and zones must not change a byte. Vector widths may change last digits: how far is measured, and bounded.
# usage: repeat-commands.sh [quick]; the table goes to repeat-commands.md, exit code 1 where something differs that must not. About 70 s of
# processor a row; "quick" leaves out the report, the network and the dearer studies (15 s a row) and says so in the table.
set -uo pipefail
here="$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)"
cd "$here/../.."
deck=demo-data/quillmarsh-crossing
quick="${1:-}"
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
deck.write_text(text.replace('"analysis": {', '"analysis": { "draws": 100, "points": 32,'))
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
    dotnet "$bin" "$@" >"$to/$file" 2>"$work/errors"
    local code=$?
    echo "$file $code" >>"$to/exit-codes"
    [ $code -eq 0 ] || { echo "$file:"; tail -3 "$work/errors"; } >&2
  }
  keep version version
  keep explain explain DL2001
  for form in deck study network; do keep "schema-$form.json" schema $form; done
  keep check.json check "$work/deck" --format json
  keep fit.json fit "$work/deck" --format json
  keep fit.csv fit "$work/deck/chlorides.csv" --age "31 yr" --format csv
  keep project.json project "$work/deck" --format json
  for case in reference-checks/ingress-cases/0[259]*.json; do keep "ingress-$(basename "$case")" ingress "$case" --format json; done
  local studies=("$work"/studies/*.json)
  [ -n "$quick" ] && studies=("$work"/studies/bare-deck.json)
  local study
  for study in "${studies[@]}"; do
    keep "study-$(basename "$study")" study "$study" --format json --out "$to/study-$(basename "$study" .json)"
  done
  keep placement.json placement-day --air "27 C" --concrete "31 C" --humidity "50 %" --wind "19 km/h" --evaporation-limit "0.10 lb/ft2/h" --format json
  [ -n "$quick" ] && return
  keep network.json network "$work/network" --draws 20 --points 16 --quiet --format json --out "$to/network"
  keep project.txt project "$work/deck"
  keep report.txt report "$work/deck" --out "$to/report" --no-timestamp
  # The only line that may name the folder of the run.
  sed -i "s|$to|OUT|g" "$to/report.txt"
}

row() { # name, must be equal?
  local name="$1" differing seen
  seen="$(dotnet "$surroundings" surroundings)"
  rm -rf "$work/other"
  run_all "$work/other"
  differing="$(diff -rq "$work/first" "$work/other" 2>&1 | sed -E 's/^Files .* and .*\/([^/]+) differ$/\1/' | tr '\n' ' ')"
  if [ -z "$differing" ]; then
    echo "| $name | $seen | same bytes |"
  elif [ "$2" = must ]; then
    echo "| $name | $seen | DIFFERS: $differing |"
    failed=1
  else
    echo "| $name | $seen | $(python3 "$here/largest-difference.py" "$work/first" "$work/other") |" || failed=1
  fi
}

{
  echo "# Every command, again and again"
  echo
  echo "Written by \`bash tests/studies/repeat-commands.sh${quick:+ quick}\`. Each row runs every command anew and compares all of its output with the first run's."
  echo "The middle column is what a process started in the same way says of itself: it shows that the setting took effect."
  echo
  echo "| run | a process sees | against the first |"
  echo "| --- | --- | --- |"
  seen="$(dotnet "$surroundings" surroundings)"
  run_all "$work/first"
  echo "| first | $seen | $(find "$work/first" -type f | wc -l) files of $(wc -l <"$work/first/exit-codes") commands |"
  if grep -v ' 0$' "$work/first/exit-codes"; then
    echo "DIFFERS: these commands did not end well, so the comparison would say nothing of them"
  fi
  # Nothing of these may change a byte, so they are set together.
  DOTNET_PROCESSOR_COUNT=1 LC_ALL=de_DE.UTF-8 TZ=Pacific/Kiritimati row "1 processor, German, UTC+14" must
  DOTNET_PROCESSOR_COUNT=2 LC_ALL=tr_TR.UTF-8 TZ=America/St_Johns row "2 processors, Turkish, UTC-3:30" must
  DOTNET_PROCESSOR_COUNT=8 LC_ALL=ar_SA.UTF-8 TZ=Asia/Riyadh row "8 processors, Arabic (other digits, other calendar)" must
  LC_ALL=fa_IR.UTF-8 TZ=Asia/Tehran row "again, Persian (other digits, other calendar)" must
  DOTNET_EnableAVX512=0 row "no 512-bit vectors" may
  DOTNET_EnableAVX2=0 row "no AVX2" may
  DOTNET_EnableHWIntrinsic=0 row "no vector instructions at all" may
  echo
  python3 "$here/largest-difference.py" --rule
} | tee "$here/repeat-commands.md"
grep -q DIFFERS "$here/repeat-commands.md" && failed=1
echo "took $((SECONDS - started)) s"
exit $failed
