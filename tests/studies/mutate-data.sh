#!/usr/bin/env bash
# Mutation tests of src/DeckLife.Data, with the changes of dotnet-stryker 5.1.0 but in one process: its readers have thousands of places to change and
# tests of milliseconds, for which a test host a change costs more than everything else. usage: mutate-data.sh NAMESPACE... , such as Tables Json;
# each writes its row in mutate-data.md and its survivors to artifacts/mutation/Data.NAMESPACE.txt.
# MUTANTS: the changed assembly of an earlier run, for the same sources. Outside of what is checked on every change.
#
# Not tried, and why: sentences of messages, emptied (people and the tests of the catalogue read them); what runs once before any test, which in one
# process can't be changed later: names of columns and keys (held by ColumnNameTests, DeckJsonTests and StudySchemaTests). Names, units and codes elsewhere are tried.
set -euo pipefail
here="$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)"
root="$(cd "$here/../.." && pwd)"
tool="${STRYKER:-$root/artifacts/stryker}"
kept="$root/artifacts/mutation"
tests="$root/tests/DeckLife.Data.Tests"
bin="$tests/bin/Release/net10.0"
without='Mutation;DeckStudy;Hostile;LargeTable;RoundTrip;ThatUnpacks;AnyCulture;AnyBit'
[ -x "$tool/dotnet-stryker" ] || dotnet tool install dotnet-stryker --version 5.1.0 --tool-path "$tool"
mkdir -p "$kept"
changed="${MUTANTS:-$kept/DeckLife.Data.dll}"
if [ -z "${MUTANTS:-}" ]; then
  # Stryker changes and compiles; it is ended before its own tests begin.
  cat >"$kept/data.json" <<'JSON'
{ "stryker-config": { "project": "DeckLife.Data.csproj", "configuration": "Release", "mutate": ["**/*.cs"], "mutation-level": "Standard",
  "ignore-methods": ["*ThrowIfNull", "*ThrowIfNullOrEmpty"], "test-case-filter": "FullyQualifiedName~WholeFileTests", "reporters": ["json"] } }
JSON
  (cd "$tests" && exec nice -n 10 "$tool/dotnet-stryker" --skip-version-check -f "$kept/data.json" -O "$kept/data" >"$kept/data.log" 2>&1) &
  stryker=$!
  until grep -q 'mutants created' "$kept/data.log" 2>/dev/null; do
    kill -0 "$stryker" 2>/dev/null || { tail -5 "$kept/data.log"; exit 1; }
    sleep 2
  done
  cp "$bin/DeckLife.Data.dll" "$changed"
  kill "$stryker" && wait "$stryker" || true
  mv "$bin/DeckLife.Data.dll.stryker-unchanged" "$bin/DeckLife.Data.dll"
fi
nice -n 10 dotnet build -c Release "$tests"
nice -n 10 dotnet build -c Release "$here/mutants"
run="$kept/data-run"
rm -rf "$run"
cp -r "$bin" "$run"
cp "$here/mutants/bin/Release/net10.0/Mutants.dll" "$run"
cp "$changed" "$run/DeckLife.Data.dll"
# A change may make a loop that takes memory without end.
export DOTNET_GCHeapHardLimit=0x60000000
mutants() {
  nice -n 10 dotnet exec --depsfile "$run/DeckLife.Data.Tests.deps.json" --runtimeconfig "$run/DeckLife.Data.Tests.runtimeconfig.json" "$run/Mutants.dll" "$@"
}
mutants scan "$run/DeckLife.Data.dll" "$kept/data.scan"
for part in "$@"; do
  results="$run/$part"
  awk -v n="DeckLife.Data.$part" '$2 == n && ($3 == "code" || $3 == "word") { print $1 }' "$kept/data.scan" >"$results.numbers"
  until mutants try "$run/DeckLife.Data.Tests.dll" "$run/DeckLife.Data.dll" "$results" "$results.numbers" "$without"; do
    # 3: a test never ended, and is written down. Else the process itself ended under a change.
    now="$(cat "$results.now")"
    grep -q "^$now " "$results" || echo "$now Timeout" >>"$results"
  done
  python3 "$here/mutants/row.py" "$part" "$results" "$kept/data.scan" "$here/mutate-data.md" "$root/src/DeckLife.Data" "$without" | tee "$kept/Data.$part.txt"
done
