#!/usr/bin/env bash
# What the command does when the system fails it: a full disk, a read-only folder, missing rights, and kills (kill -9) at random moments.
# Nothing half-written may bear the name of a result, nothing half-written may be read back, and every refusal is told with a code.
# usage: faults.sh [kills of a study] [kills of a report]; 60 and 40 where not given. Needs root (mounts, another user) and the command built for
# Release, or DECKLIFE naming a folder that holds it. Writes faults.md. The moments are drawn with a seed; where they hit hangs on the machine.
set -uo pipefail
studies=${1:-60} reports=${2:-40}
here="$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)"
root="$(cd "$here/../.." && pwd)"
work=$(mktemp -d)
failed=0
# The command where another user can run it.
cp -r "${DECKLIFE:-$root/src/DeckLife.Cli/bin/Release/net10.0}" "$work/bin"
mkdir "$work/full" "$work/home"
mount -t tmpfs -o size=96k tmpfs "$work/full"
trap 'umount "$work/full"; rm -rf "$work"' EXIT
chmod -R a+rX "$work"; chmod 777 "$work/home"
decklife() { dotnet "$work/bin/DeckLife.Cli.dll" "$@"; }
as_nobody() { HOME="$work/home" setpriv --reuid=65534 --regid=65534 --clear-groups dotnet "$work/bin/DeckLife.Cli.dll" "$@"; }

cp -r "$root/demo-data/quillmarsh-crossing" "$work/deck"
sed -i 's/"analysis": {/"analysis": { "draws": 100, "points": 16,/' "$work/deck/deck.json"
python3 "$root/demo-data/make-harrowmere-district.py" "$work/network" --decks 4 --seed 41 --cored 0 >/dev/null
cp "$root/demo-data/studies/bare-deck.json" "$work/study.json"
chmod -R a+rX "$work"
{
  echo "# When the system fails"
  echo
  echo "Written by \`bash tests/studies/faults.sh $studies $reports\`. Each fault must end in the exit code and the diagnostic named, without a stack trace, and leave"
  echo "nothing under the name of a result."
  echo
  echo "| fault | command | exit code | diagnostic | left behind |"
  echo "| --- | --- | --- | --- | --- |"
} >"$here/faults.md"

fault() { # name, wanted exit code, wanted diagnostic, folder that must hold no result, command...
  local name="$1" code="$2" wanted="$3" place="$4"
  shift 4
  "$@" >"$work/o" 2>"$work/e"
  local got=$?
  local left="" mark="ok"
  [ -d "$place" ] && left=$(find "$place" -type f ! -name '*.part' ! -name '*.tmp' ! -name 'lost+found' -printf '%f ')
  if [ $got -ne "$code" ] || ! cat "$work/o" "$work/e" | grep -q "$wanted" || grep -q '^ *at DeckLife\|Unhandled' "$work/e" || [ -n "$left" ]; then
    mark="FAILED"
    failed=1
    head -5 "$work/e"
  fi
  echo "| $name | ${*:2:1} | $got | $wanted | ${left:-nothing} ($mark) |" | tee -a "$here/faults.md"
}

# Read-only and missing rights, as another user: root may write anywhere.
mkdir "$work/read-only"
cp -r "$work/deck" "$work/locked"; chmod 700 "$work/locked"
cp -r "$work/deck" "$work/half"; chmod 000 "$work/half/cover.csv"
cp "$work/study.json" "$work/locked.json"; chmod 600 "$work/locked.json"
cp -r "$work/network" "$work/unlisted"; chmod 711 "$work/unlisted"
fault "read-only output" 2 DL5005 "$work/read-only" as_nobody study "$work/study.json" --out "$work/read-only/out"
fault "read-only output" 2 DL5005 "$work/read-only" as_nobody network "$work/network" --draws 20 --points 16 --quiet --out "$work/read-only/out"
fault "read-only output" 2 DL5005 "$work/read-only" as_nobody report "$work/deck" --out "$work/read-only/out"
for verb in check fit project; do fault "folder without rights" 2 DL1002 "$work/none" as_nobody $verb "$work/locked"; done
fault "one table without rights" 1 DL1002 "$work/none" as_nobody check "$work/half"
fault "study file without rights" 2 DL6001 "$work/none" as_nobody study "$work/locked.json"
fault "case without rights" 2 DL3019 "$work/none" as_nobody ingress "$work/locked.json"
fault "network folder that can't be listed" 2 DL1002 "$work/none" as_nobody network "$work/unlisted" --draws 20 --points 16 --quiet

# A disk of 96 kB, part of it taken: the largest file of each command does not fit.
fill() { rm -rf "$work/full"/*; head -c "$1" /dev/zero >"$work/full/taken.part"; }
fill 90000; fault "disk full" 3 DL5008 "$work/full" decklife study "$work/study.json" --out "$work/full/out"
fill 60000; fault "disk full at the results" 3 DL5008 "$work/full/nothing" decklife study "$work/study.json" --out "$work/full/out"
for file in "$work"/full/out/*.json; do [ -e "$file" ] && { python3 -m json.tool "$file" >/dev/null || { echo "FAILED: $file is torn"; failed=1; }; }; done
fill 90000; fault "disk full" 3 DL5008 "$work/full" decklife network "$work/network" --draws 20 --points 16 --quiet --out "$work/full/out"
fill 10000; fault "disk full" 3 DL5005 "$work/full" decklife report "$work/deck" --out "$work/full/out"

# Kills.
RANDOM=20310516
milliseconds() { echo $(($(date +%s%N) / 1000000)); }
kill_at_random() { # longest wait [ms], command...
  local longest="$1"
  shift
  "$@" >"$work/o" 2>"$work/e" &
  local pid=$! wait=$((longest * (RANDOM % 1000) / 1000))
  sleep "$(printf '%d.%03d' $((wait / 1000)) $((wait % 1000)))"
  if kill -9 $pid 2>/dev/null; then killed=$((killed + 1)); else ended=$((ended + 1)); fi
  wait $pid 2>/dev/null
}
whole() { # folder, clean folder: every file that bears the name of a result is that of the clean run
  local file
  for file in "$1"/*; do
    [ -e "$file" ] || continue
    case "$file" in *.part | *.tmp) continue ;; esac
    cmp -s "$file" "$2/$(basename "$file")" || { echo "FAILED: $file is torn"; failed=1; }
  done
}

killed=0 ended=0 continued=0
start=$(milliseconds)
dotnet "$work/bin/DeckLife.Cli.dll" study "$work/study.json" --out "$work/clean-study" >/dev/null 2>&1
took=$(($(milliseconds) - start))
while [ $killed -lt "$studies" ]; do
  kill_at_random "$took" dotnet "$work/bin/DeckLife.Cli.dll" study "$work/study.json" --out "$work/torn" --force
  whole "$work/torn" "$work/clean-study"
  # Every fifth time it goes on to the end, from what the kills left.
  if [ $(((killed + ended) % 5)) -eq 0 ]; then
    decklife study "$work/study.json" --out "$work/torn" --force >/dev/null 2>"$work/e" || { echo "FAILED: could not go on"; cat "$work/e"; failed=1; }
    grep -q '^continued' "$work/e" && continued=$((continued + 1))
    diff -rq "$work/torn" "$work/clean-study" -x '*.tmp' || failed=1
    rm -rf "$work/torn"
  fi
done
{
  echo
  echo "A study was killed $killed times at random moments of its $took ms ($ended runs ended before their kill). After each kill every file under the name of a result was that of"
  echo "a run that nobody touched; $continued runs went on from the pieces that a killed one had left, and their results were the same bytes."
} | tee -a "$here/faults.md"

killed=0 ended=0
start=$(milliseconds)
decklife report "$work/deck" --out "$work/clean-report" --no-timestamp >/dev/null 2>&1
took=$(($(milliseconds) - start))
while [ $killed -lt "$reports" ]; do
  kill_at_random "$took" dotnet "$work/bin/DeckLife.Cli.dll" report "$work/deck" --out "$work/torn-report" --no-timestamp --force
  [ -d "$work/torn-report" ] && whole "$work/torn-report" "$work/clean-report"
  [ $((killed % 4)) -eq 0 ] && rm -rf "$work/torn-report"
done
decklife report "$work/deck" --out "$work/torn-report" --no-timestamp --force >/dev/null 2>&1 || failed=1
whole "$work/torn-report" "$work/clean-report"
{
  echo
  echo "A report was killed $killed times at random moments of its $took ms ($ended ended before their kill): page and notebook were whole or not there, and the next run wrote"
  echo "them over whatever was left. Kills of a network: \`kill-network.sh\`."
} | tee -a "$here/faults.md"
[ $failed -eq 0 ] && echo "all as it must be" || echo "FAILED"
exit $failed
