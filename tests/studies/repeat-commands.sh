#!/usr/bin/env bash
# Runs every command on the demonstration deck again and again: on 1, 2 and 8 threads, in other cultures and time zones, and without wide
# vectors. Threads, cultures and zones must not change a byte; vector widths may change last digits, which the table tells.
# usage: repeat-commands.sh [deck folder]; the table goes to standard output, exit code 1 where a byte differs that must not
set -uo pipefail
cd "$(dirname "$0")/../.."
deck="${1:-demo-data/quillmarsh-crossing}"
dotnet build -c Release src/DeckLife.Cli -v quiet --nologo || exit 1
decklife() { dotnet src/DeckLife.Cli/bin/Release/net10.0/DeckLife.Cli.dll "$@"; }
work="$(mktemp -d)"
trap 'rm -rf "$work"' EXIT
failed=0

# One file a command; what is printed to standard error (progress) does not count.
run_all() { # folder
  mkdir -p "$1"
  decklife check "$deck" > "$1/check.txt" 2> /dev/null
  for format in text json; do
    decklife fit "$deck" --format $format > "$1/fit.$format" 2> /dev/null
    decklife project "$deck" --format $format > "$1/project.$format" 2> /dev/null
  done
  for case in reference-checks/ingress-cases/*.json; do
    decklife ingress "$case" --format json > "$1/ingress-$(basename "$case")" 2> /dev/null
  done
  for study in demo-data/studies/*.json; do
    decklife study "$study" --format json > "$1/study-$(basename "$study")" 2> /dev/null
  done
  decklife report "$deck" --out "$1/report" --no-timestamp > /dev/null 2>&1
}

compare() { # name, must be equal?
  local differing
  differing="$(diff -rq "$work/first" "$work/$1" 2>&1 | sed -E 's/.*\/([^ /]+) differ$/\1/' | tr '\n' ' ')"
  if [ -z "$differing" ]; then
    echo "| $1 | same bytes |"
  elif [ "$2" = must ]; then
    echo "| $1 | DIFFERS: $differing |"
    failed=1
  else
    echo "| $1 | differs: $differing |"
  fi
}

echo "| run | against the first |"
echo "| --- | --- |"
run_all "$work/first"
run_all "$work/again" && compare again must
for threads in 1 2 8; do
  DOTNET_PROCESSOR_COUNT=$threads run_all "$work/threads-$threads" && compare "threads-$threads" must
done
for culture in de-DE tr-TR ar-SA fa-IR; do
  LC_ALL="${culture/-/_}.UTF-8" LANG="${culture/-/_}.UTF-8" run_all "$work/culture-$culture" && compare "culture-$culture" must
done
for zone in Pacific/Kiritimati America/St_Johns; do
  TZ=$zone run_all "$work/zone-${zone##*/}" && compare "zone-${zone##*/}" must
done
DOTNET_EnableAVX512=0 DOTNET_EnableAVX512F=0 run_all "$work/no-avx512" && compare no-avx512 may
DOTNET_EnableAVX2=0 run_all "$work/no-avx2" && compare no-avx2 may
DOTNET_EnableHWIntrinsic=0 run_all "$work/no-vectors" && compare no-vectors may
exit $failed
