#!/usr/bin/env bash
# Publishes the command with ReadyToRun code and without, and times it on the invented deck: wall and processor time of whole processes, the
# least and the median of several runs, written to STARTUP.md beside itself. What it costs to start, to fit one file, to project and to report.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../../.." && pwd)
work=${1:-$(mktemp -d)}
runs=${RUNS:-11}
for kind in ready plain; do
    dotnet publish "$root/src/DeckLife.Cli" -c Release -r linux-x64 --self-contained false -v quiet \
        -p:PublishReadyToRun=$([ $kind = ready ] && echo true || echo false) \
        -p:NuGetLockFilePath=obj/published.lock.json --artifacts-path "$work/artifacts-$kind" -o "$work/$kind"
done
"${PYTHON:-/usr/bin/python3}" "$here/startup.py" "$root" "$work" "$runs" | tee "$here/STARTUP.md"
