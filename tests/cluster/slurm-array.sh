#!/usr/bin/env bash
# Runs the documented job array on a real Slurm on this one host: an array of 8, two tasks killed on the way and requeued, the merged
# result byte for byte that of one machine. Needs root, slurm-wlm and munge (installed here where apt-get can), the command built for
# Release. Daemons run under a folder of their own and are stopped by their own pid files.
set -euo pipefail
here="$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)"
root="$(cd "$here/../.." && pwd)"
export DECKLIFE="${DECKLIFE:-$root/src/DeckLife.Cli/bin/Release/net10.0/decklife}"
template="$root/src/Documentation/cluster/network-array.sbatch"
missing=()
for package in slurm-wlm munge; do dpkg -s "$package" >/dev/null 2>&1 || missing+=("$package"); done
if [ ${#missing[@]} -gt 0 ]; then
  export DEBIAN_FRONTEND=noninteractive
  apt-get update -qq && apt-get install -y --no-install-recommends "${missing[@]}" >/dev/null
fi

work=$(mktemp -d)
host=$(hostname -s)
stop() {
  for pid in slurmd slurmctld munged; do
    [ -f "$work/$pid.pid" ] && kill "$(cat "$work/$pid.pid")" 2>/dev/null || true
  done
  sleep 1
  rm -rf "$work"
}
trap stop EXIT
chmod 755 "$work"

# munge: a key and a socket of this run's own.
mkdir -p "$work/munge" "$work/state" "$work/spool"
dd if=/dev/urandom of="$work/munge/key" bs=1024 count=1 2>/dev/null
chown -R munge:munge "$work/munge"
chmod 700 "$work/munge"
chmod 600 "$work/munge/key"
mkdir -p "$work/run" && chown munge:munge "$work/run" && chmod 755 "$work/run"
touch "$work/munged.pid" && chown munge:munge "$work/munged.pid"
runuser -u munge -- munged --key-file "$work/munge/key" --socket "$work/run/munge.socket" --pid-file "$work/run/munged.pid" \
  --log-file "$work/munge/log" --seed-file "$work/munge/seed"
for _ in $(seq 50); do [ -S "$work/run/munge.socket" ] && break; sleep 0.2; done
cp "$work/run/munged.pid" "$work/munged.pid"

cat >"$work/slurm.conf" <<CONF
ClusterName=onehost
SlurmctldHost=$host(127.0.0.1)
AuthType=auth/munge
AuthInfo=socket=$work/run/munge.socket
SlurmUser=root
SlurmdUser=root
SlurmctldPort=26817
SlurmdPort=26818
StateSaveLocation=$work/state
SlurmdSpoolDir=$work/spool
SlurmctldPidFile=$work/slurmctld.pid
SlurmdPidFile=$work/slurmd.pid
SlurmctldLogFile=$work/slurmctld.log
SlurmdLogFile=$work/slurmd.log
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
SelectType=select/cons_tres
SelectTypeParameters=CR_Core
ReturnToService=2
JobRequeue=1
MpiDefault=none
KillWait=1
NodeName=$host NodeAddr=127.0.0.1 CPUs=2 RealMemory=8000 State=UNKNOWN
PartitionName=main Nodes=ALL Default=YES MaxTime=INFINITE State=UP
CONF
export SLURM_CONF="$work/slurm.conf"
slurmctld
slurmd
for _ in $(seq 60); do sinfo -h -o %T 2>/dev/null | grep -q idle && break; sleep 1; done
sinfo

python3 "$root/demo-data/make-harrowmere-district.py" "$work/network" --decks 24 --seed 42 --cored 0.1
# The template runs the network as its file says: the smaller sampling goes into the file.
sed -i 's/"points": 256/"points": 64/' "$work/network/network.json"

cd "$work"
job=$(sbatch --parsable --array=1-8 --output="$work/task-%a.log" "$template" "$work/network" "$work/out")
echo "array $job of 8 submitted"
# Two tasks are killed while they run, whichever those are, and put back into the queue.
killed=0
seen=""
for _ in $(seq 600); do
  for task in $(squeue -h -t R -j "$job" -o %K 2>/dev/null); do
    case " $seen " in *" $task "*) continue ;; esac
    [ -e "$work/out/shards/$(printf 'shard-%05d-of-00008.parquet' "$task")" ] && continue
    pid=$(scontrol listpids 2>/dev/null | awk -v t="${job}_$task" 'NR > 1 && $2 == t { print $1; exit }')
    if scontrol requeue "${job}_$task" 2>/dev/null; then
      seen="$seen $task"
      killed=$((killed + 1))
      echo "task $task killed while it ran (pid ${pid:-unknown}) and requeued"
    fi
    [ $killed -ge 2 ] && break 2
  done
  sleep 0.3
done
[ $killed -eq 2 ] || { echo "FAILED: only $killed tasks could be killed while they ran"; exit 1; }
for _ in $(seq 900); do [ -z "$(squeue -h -j "$job" 2>/dev/null)" ] && break; sleep 1; done
[ -z "$(squeue -h -j "$job" 2>/dev/null)" ] || { squeue; echo "FAILED: tasks are left in the queue"; exit 1; }
ls "$work/out/shards"
for task in $seen; do
  restarts=$(scontrol show job "${job}_$task" | grep -o 'Restarts=[0-9]*')
  echo "task $task: $restarts, $(scontrol show job "${job}_$task" | grep -o 'JobState=[A-Z]*')"
  [ "$restarts" = "Restarts=1" ] || { echo "FAILED: task $task was not restarted"; exit 1; }
done

"$DECKLIFE" network merge "$work/network" "$work/out" --out "$work/whole" --format json >"$work/merged.json" 2>"$work/merged.err"
"$DECKLIFE" network "$work/network" --out "$work/alone" --quiet --format json >"$work/alone.json" 2>"$work/alone.err"
cmp "$work/merged.json" "$work/alone.json"
for file in program.json decks.csv condition.csv money.csv decks.parquet condition.parquet; do
  cmp "$work/whole/$file" "$work/alone/$file"
  echo "$file: equal, $(stat -c %s "$work/alone/$file") bytes"
done
echo "array of 8 on Slurm $(slurmctld -V | cut -d' ' -f2), two tasks killed and requeued: merged result equal to that of one machine, byte for byte"
