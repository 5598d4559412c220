#!/usr/bin/env bash
# Kills a network run (kill -9) at random moments and goes on with --resume: nothing that was done is lost or done twice, and the
# results are those of a run that nobody touched, byte for byte. A whole run kills 50 times; CI kills 5 times (first argument).
# The moments are drawn with a seed; how far the run has come by then hangs on the machine, what must hold does not.
# Writes kill-network.txt beside this script when all 50 are done. Needs the command built for Release.
set -euo pipefail
kills=${1:-50}
here="$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)"
root="$(cd "$here/../.." && pwd)"
decklife="${DECKLIFE:-$root/src/DeckLife.Cli/bin/Release/net10.0/decklife}"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
python3 "$root/demo-data/make-harrowmere-district.py" "$work/network" --decks 32 --seed 41 --cored 0
# Each process also keeps a count of the shards it found done and the ones it did.
command=("$decklife" network "$work/network" --draws 20 --points 32 --threads 1 --quiet --format json)

start=$(date +%s%N)
"${command[@]}" --out "$work/clean" >"$work/clean.json" 2>"$work/clean.err"
took=$((($(date +%s%N) - start) / 1000000))
shards=$(ls "$work/clean/shards" | wc -l)
RANDOM=20320401
killed=0 finished=0 rounds=0 kept_before=0
out="$work/torn"
while [ $killed -lt "$kills" ]; do
  rounds=$((rounds + 1))
  # Begun without a function: its number must be that of the process itself, not of a shell around it.
  "${command[@]}" --out "$out" --resume >"$work/torn.json" 2>"$work/torn.err" &
  pid=$!
  moment=$((took * (RANDOM % 1000) / 1000 * 9 / 10))
  sleep "$(printf '%d.%03d' $((moment / 1000)) $((moment % 1000)))"
  if kill -9 $pid 2>/dev/null; then killed=$((killed + 1)); else finished=$((finished + 1)); fi
  wait $pid 2>/dev/null || true
  kept=0
  for shard in "$out"/shards/shard-*.parquet; do
    [ -e "$shard" ] || continue
    cmp "$shard" "$work/clean/shards/$(basename "$shard")" || { echo "FAILED: $shard differs after kill $killed"; exit 1; }
    kept=$((kept + 1))
  done
  if [ $kept -lt $kept_before ]; then echo "FAILED: $kept_before shards were done, $kept are left after kill $killed"; exit 1; fi
  kept_before=$kept
  # A result that bears its own name is whole, at any moment.
  for file in program.json decks.csv condition.csv money.csv decks.parquet condition.parquet; do
    if [ -e "$out/$file" ]; then cmp "$out/$file" "$work/clean/$file" || { echo "FAILED: $file is torn"; exit 1; }; fi
  done
  # Done: begin anew, so that every kill meets a run with work before it.
  if [ $kept -eq "$shards" ] && [ $killed -lt "$kills" ]; then rm -rf "$out"; kept_before=0; fi
done
"${command[@]}" --out "$out" --resume >"$work/torn.json" 2>"$work/torn.err"
cmp "$work/clean.json" "$work/torn.json"
for file in program.json decks.csv condition.csv money.csv decks.parquet condition.parquet; do cmp "$work/clean/$file" "$out/$file"; done
said="killed $killed times in $rounds runs of $shards shards; $finished ended before their kill; every shard kept, all results equal byte for byte"
echo "$said"
if [ "$kills" -ge 50 ]; then
  { echo "# Written by kill-network.sh $kills"; "$decklife" version; echo "$said"; } >"$here/kill-network.txt"
fi
