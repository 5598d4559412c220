#!/usr/bin/env bash
# Times DeckLife and its general-purpose peers on the same work, one after another on this machine, and writes RESULTS.md beside itself.
# Needs Debian's python3-scipy, python3-lmfit, python3-openturns, r-cran-desolve, libsundials-dev, gcc. A peer that is missing is named and left out.
# Single-thread times are processor time, which other work on the machine disturbs little; still, run it on a quiet one.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../../.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export OMP_NUM_THREADS=1 OPENBLAS_NUM_THREADS=1 LC_ALL=C
python=${PYTHON:-/usr/bin/python3}

dotnet build -c Release "$root/tests/DeckLife.Benchmarks" -v quiet
program="$root/tests/DeckLife.Benchmarks/bin/Release/net10.0/DeckLife.Benchmarks.dll"
{
    echo "machine|load at the start|$(cut -d' ' -f1-3 /proc/loadavg)||"
    echo "machine|processor|$(sed -n 's/^model name[^:]*: //p' /proc/cpuinfo | head -1), $(getconf _NPROCESSORS_ONLN) cores||"
    dotnet "$program" peers "$work"
    echo "decklife|DOTNET_EnableAVX512=0 gives|$(DOTNET_EnableAVX512=0 dotnet "$program" width)||"
    echo "decklife|DOTNET_EnableAVX2=0 gives|$(DOTNET_EnableAVX2=0 dotnet "$program" width)||"
    try() { "$@" || echo "missing|$*|||"; }
    try "$python" "$here/peer_histories.py" "$work"
    if gcc -O3 -march=native -o "$work/peer_cvode" "$here/peer_cvode.c" -lsundials_cvode -lsundials_nvecserial -lsundials_sunmatrixband -lsundials_sunlinsolband -lm; then
        try "$work/peer_cvode" "$work"
    else
        echo "missing|SUNDIALS CVODE|||"
    fi
    try Rscript "$here/peer_desolve.R" "$work"
    try "$python" "$here/peer_fits.py" "$work"
    try "$python" "$here/peer_limit_state.py"
    echo "machine|load at the end|$(cut -d' ' -f1-3 /proc/loadavg)||"
} | tee "$work/lines.txt"
"$python" "$here/compose.py" "$work/lines.txt" >"$here/RESULTS.md"
echo "written: $here/RESULTS.md"
