#!/usr/bin/env bash
# A million random changes to every kind of input: tables, workbooks, JSON files, shards and parts. Ends at the first exception, at an input that
# takes longer than 10 s of processor time, and where the process passes 1 GB. usage: mutate-inputs.sh [count] [first seed]; writes mutate-inputs.md, chunk by chunk.
set -euo pipefail
here="$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)"
cd "$here/../.."
count="${1:-1000000}" first="${2:-1}"
chunk=$((count < 25000 ? count : 25000))
log=$(mktemp -d)
trap 'rm -rf "$log"' EXIT
dotnet build -c Release tests/DeckLife.Data.Tests --nologo -v quiet
done=0
while [ $done -lt "$count" ]; do
  DECKLIFE_MUTATIONS=$chunk DECKLIFE_MUTATION_SEED=$((first + done)) dotnet test -c Release --no-build tests/DeckLife.Data.Tests \
    --filter "FullyQualifiedName~ReaderMutationTests" --logger "console;verbosity=detailed" >"$log/now" || { cat "$log/now"; exit 1; }
  done=$((done + chunk))
  grep -E '^ *\| ' "$log/now" | sed 's/^ *//' | awk '!seen[$0]++' >"$log/$(printf '%06d' $((done / chunk)))"
  python3 - "$here/mutate-inputs.md" "$first" "$log"/[0-9]* <<'PY'
import pathlib, sys
rows, memory, seconds = {}, 0, 0.0
for file in sys.argv[3:]:
    for line in pathlib.Path(file).read_text().splitlines():
        cells = [c.strip() for c in line.strip().strip("|").split("|")]
        if cells[0] == "all":
            memory = max(memory, int(cells[-1].split()[-2]))
            continue
        name, inputs, read, refused, kinds, slowest, most, speed = cells
        row = rows.setdefault(name, [0, 0, 0, 0, (0, ""), 0.0, 0.0])
        row[0] += int(inputs)
        row[1] += int(read)
        row[2] += int(refused)
        row[3] = max(row[3], int(kinds))
        row[4] = max(row[4], (int(slowest.split()[0]), slowest.split(" ", 1)[1]))
        row[5] = max(row[5], float(most))
        row[6] += int(inputs) / max(1, int(speed.split()[0]))
total = sum(r[0] for r in rows.values())
out = [
    "# Random changes to every kind of input", "",
    f"Written by `bash tests/studies/mutate-inputs.sh`: {total:,} inputs from seed {sys.argv[2]} on, on a shared machine of two cores.",
    "An exception, an input of more than 10 s of processor time, a result together with errors, a problem without words, or 1 GB of memory would have ended the run.", "",
    "| reader | inputs | still read | refused | most kinds of problems in a chunk | slowest [ms of processor] | most memory asked for by one input, garbage counted [MB] | inputs a second of processor |",
    "| --- | --- | --- | --- | --- | --- | --- | --- |",
]
for name, r in rows.items():
    out.append(f"| {name} | {r[0]:,} | {r[1]:,} | {r[2]:,} | {r[3] or ''} | {r[4][0]} {r[4][1]} | {r[5]:.1f} | {r[0] / max(r[6], 1e-9):.0f} |")
out.append(f"| all | {total:,} | {sum(r[1] for r in rows.values()):,} | {sum(r[2] for r in rows.values()):,} | | | | |")
out += ["", f"Largest memory of a process, test host included: {memory} MB."]
pathlib.Path(sys.argv[1]).write_text("\n".join(out) + "\n")
PY
done
cat "$here/mutate-inputs.md"
