#!/usr/bin/env bash
# Growth of a network: time a deck and peak memory at 40, 400, 4000 and more decks, five strategies each (doing nothing among them),
# on two threads. Writes network-growth.md beside this script when run with no argument; `network-growth.sh 40 400` tries some sizes.
# Most decks have no cores, as in practice, so that chains of the few that have do not hide the rest: share 0.02. Sampling is that of
# network.json (20 draws) with 16 points, work may start in two years: what grows with the decks is under test, not the sampling.
# Needs the command built for Release. Times by the clock are noisy on a busy machine; processor time is shown beside them.
set -euo pipefail
here="$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)"
root="$(cd "$here/../.." && pwd)"
decklife="${DECKLIFE:-$root/src/DeckLife.Cli/bin/Release/net10.0/decklife}"
sizes=("$@")
[ ${#sizes[@]} -gt 0 ] || sizes=(40 400 4000 10000)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
table="$work/table"
{
  echo "| decks | options | processor time projecting [s] | ms a deck | peak memory [MB] | processor time merging [s] | peak memory [MB] | gap of the program | shards on disk [MB] |"
  echo "| --- | --- | --- | --- | --- | --- | --- | --- | --- |"
} >"$table"
for size in "${sizes[@]}"; do
  python3 "$root/demo-data/make-harrowmere-district.py" "$work/network" --decks "$size" --cored 0.02
  sed -i 's/"years": 10,/"years": 10, "startEvery": 5,/' "$work/network/network.json"
  sampling=(--draws 20 --points 16 --threads 2 --quiet)
  /usr/bin/time -f '%U %S %M' -o "$work/one" "$decklife" network "$work/network" "${sampling[@]}" --out "$work/out" --shard 1/1 2>/dev/null
  /usr/bin/time -f '%U %S %M' -o "$work/two" "$decklife" network merge "$work/network" "$work/out" "${sampling[@]}" --format json >"$work/result.json" 2>/dev/null
  read -r user1 system1 memory1 <"$work/one"
  read -r user2 system2 memory2 <"$work/two"
  disk=$(du -sm "$work/out" | cut -f1)
  python3 - "$size" "$work/result.json" "$user1" "$system1" "$memory1" "$user2" "$system2" "$memory2" "$disk" >>"$table" <<'PYTHON'
import json, sys
size, path, *numbers = sys.argv[1:]
u1, s1, m1, u2, s2, m2, disk = map(float, numbers)
result = json.load(open(path))
answered = sum(d["status"] == "projected" for d in result["decks"])
print(f"| {size} | {answered * (1 + 4 * 2)} | {u1 + s1:.1f} | {1000 * (u1 + s1) / int(size):.1f} | {m1 / 1024:.0f} | {u2 + s2:.1f} | {m2 / 1024:.0f} | {result['optimisation']['gap']:.1e} | {disk:.0f} |")
PYTHON
  tail -1 "$table"
  rm -rf "$work/network" "$work/out"
done
if [ $# -eq 0 ]; then
  {
    echo "# Growth of a network"
    echo
    echo "Written by \`network-growth.sh\` with $("$decklife" version | head -1), $(nproc) processors, two threads."
    echo
    cat "$table"
    echo
    echo "Projecting holds eight decks in memory at a time, merging one row group of them and the program itself: whole numbers of each option."
  } >"$here/network-growth.md"
fi
