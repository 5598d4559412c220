"""Times whole processes of the published command: python3 startup.py root folder-with-ready-and-plain runs."""
import os
import statistics
import subprocess
import sys
import tempfile
import time

root, folder, runs = sys.argv[1], sys.argv[2], int(sys.argv[3])
deck = os.path.join(root, "demo-data", "quillmarsh-crossing")
out = tempfile.mkdtemp()
work = [
    ("start alone: `version`", ["version"], runs),
    ("`fit` of one file", ["fit", os.path.join(deck, "chlorides.csv")], runs),
    ("`check` of a deck", ["check", deck], runs),
    ("`project` of a deck", ["project", deck], max(3, runs // 3)),
    ("`report` of a deck", ["report", deck, "--out", out, "--force"], max(3, runs // 3)),
]


def once(command, arguments):
    start = time.perf_counter()
    process = subprocess.Popen([command, *arguments], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    return time.perf_counter() - start, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024, process.returncode


print("# Time to start the published command\n")
print(f"Written by `bash reference-checks/peers/speed/startup.sh`; load {open('/proc/loadavg').read().split()[0]} on {os.cpu_count()} cores when it began.")
print("Whole processes, least and median; ReadyToRun leaves methods with 512-bit vectors to the compiler at run time. Goal: `fit` within 0.3 s.\n")
print("| work | code | wall, least [s] | wall, median [s] | processor, least [s] | peak memory [MB] | exit code |\n|---|---|---|---|---|---|---|")
least = {}
for what, arguments, count in work:
    for kind, name in (("ready", "ReadyToRun"), ("plain", "compiled when run")):
        command = os.path.join(folder, kind, "decklife")
        if not os.path.exists(command):
            continue
        found = [once(command, arguments) for _ in range(count)]
        wall, spent = [f[0] for f in found], [f[1] for f in found]
        least[what, kind] = min(spent)
        print(f"| {what} | {name} | {min(wall):.3f} | {statistics.median(wall):.3f} | {min(spent):.3f} | {max(f[2] for f in found):.0f} | {found[0][3]} |", flush=True)
if ("`report` of a deck", "ready") in least:
    start, fit, project, report = (least[w[0], "ready"] for w in (work[0], work[1], work[3], work[4]))
    print(f"\nOf the report's {report:.2f} s of processor time (ReadyToRun): {start:.2f} s to start, {max(0, project - start):.2f} s to read, fit and project the deck as `project` does,")
    print(f"{max(0, report - project):.2f} s for the rest: the notebook's engine, strategies, charts and writing.")
