#!/usr/bin/env bash
# Ten million draws of a closed-form limit state through the command: prints the peak of its memory and its time, and fails above 200 MB.
# DECKLIFE names the command; absent: the Release build of this tree.
set -euo pipefail
root=$(cd "$(dirname "$0")/../.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
if [ -z "${DECKLIFE:-}" ]; then
    dotnet build -c Release "$root/src/DeckLife.Cli" -v quiet
    DECKLIFE="$root/src/DeckLife.Cli/bin/Release/net10.0/decklife"
fi
cat >"$work/study.json" <<'JSON'
{
  "study": "ten million draws", "seed": 1,
  "section": { "ageing": "instantaneous", "referenceAge_yr": 0.0766598 },
  "inputs": [
    { "input": "cover", "unit": "mm", "distribution": "normal", "mean": 65, "standardDeviation": 8, "lower": 5 },
    { "input": "diffusionCoefficient", "unit": "mm2/yr", "distribution": "lognormal", "logMean": 4.838, "logStandardDeviation": 0.3 },
    { "input": "ageingExponent", "unit": "1", "distribution": "normal", "mean": 0.5, "standardDeviation": 0.08, "lower": 0.05, "upper": 0.9 },
    { "input": "surfaceChloride", "unit": "kg/m3", "distribution": "lognormal", "logMean": -0.693, "logStandardDeviation": 0.35 },
    { "input": "chlorideThreshold", "unit": "kg/m3", "distribution": "lognormal", "logMean": -2.408, "logStandardDeviation": 0.25 }
  ],
  "outputs": [ { "output": "initiatedBy", "age_yr": 50 }, { "output": "contentAtBar", "age_yr": 50 }, { "output": "timeToInitiation", "horizon_yr": 100 } ],
  "methods": [ { "method": "monteCarlo", "draws": 10000000 } ]
}
JSON
python3 - "$DECKLIFE" "$work" <<'PY'
import resource, subprocess, sys, time
start = time.monotonic()
subprocess.run([sys.argv[1], "study", sys.argv[2] + "/study.json", "--out", sys.argv[2] + "/out"], check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
used = resource.getrusage(resource.RUSAGE_CHILDREN)
peak = used.ru_maxrss / 1024
print(f"10,000,000 draws, 3 outputs: peak {peak:.0f} MB, {time.monotonic() - start:.1f} s by the clock, {used.ru_utime + used.ru_stime:.1f} s of processor")
sys.exit(0 if peak < 200 else 1)
PY
