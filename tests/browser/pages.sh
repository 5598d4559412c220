#!/usr/bin/env bash
# Makes every kind of page and opens each in a browser with the network blocked: a deck's report, the list of several decks of which
# one can't be read, and the report of a network of a few decks.
#   bash tests/browser/pages.sh [SCREENSHOTS]      the built command: DECKLIFE, else the one under src/DeckLife.Cli/bin/Release
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
root=$(cd "$here/../.." && pwd)
decklife=${DECKLIFE:-$root/src/DeckLife.Cli/bin/Release/net10.0/decklife}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
screenshots=$([ -z "${1:-}" ] || realpath -m "$1")

cd "$here"
[ -d node_modules ] || npm ci --no-audit --no-fund --ignore-scripts

# Exit code 2: the second folder is meant to be unusable, and the first is reported all the same.
code=0
"$decklife" report "$root/demo-data/quillmarsh-crossing" "$root/tests/DeckLife.Data.Tests/Inputs/broken-deck" --out "$work/list" >"$work/log" 2>&1 || code=$?
[ "$code" -eq 2 ] || { cat "$work/log"; exit 1; }

# Decks known from much and from little, and one that can't be read; two years of program.
python3 - "$root/demo-data/harrowmere-district" "$work/network" <<'PYTHON'
import json, os, re, shutil, sys
source, target = sys.argv[1:]
kept = ["d00001", "d00004", "d00007", "d00012", "d00017", "d00034"]
text = open(os.path.join(source, "network.json"), encoding="utf-8").read()
network = json.loads(re.sub(r"^\s*//.*$", "", text, flags=re.M))
network["decks"] = [d for d in network["decks"] if d["folder"] in kept]
network["program"]["years"] = 4
network["program"]["lastYear"] = 2050
assert len(network["decks"]) == len(kept)
for folder in kept:
    shutil.copytree(os.path.join(source, folder), os.path.join(target, folder))
json.dump(network, open(os.path.join(target, "network.json"), "w", encoding="utf-8"))
PYTHON
"$decklife" network "$work/network" --out "$work/program" --page --points 64 --quiet >"$work/log" 2>&1 || { cat "$work/log"; exit 1; }

failed=0
open_page() { # name, page, options...
  local name=$1 page=$2
  shift 2
  [ -z "$screenshots" ] || set -- "$@" --screenshots "$screenshots/$name"
  printf '%s: ' "$name"
  node check-page.mjs "$page" "$@" || failed=1
}
open_page report "$work/list/quillmarsh-crossing/report.html" --expect-charts 20
open_page list "$work/list/index.html" --expect-charts 0 --expect-reports 1
open_page network "$work/program/network.html" --expect-charts 4 --expect-sortable 1
exit "$failed"
