#!/bin/sh
# Starts Slurm with one node for the test, runs the job array of array.sbatch, and stops it again.
# Skipped if Slurm is not installed, cannot start, or is configured already.
set -eu
program=$PWD/$1
skip() { echo "sweep-slurm: skipped, $1"; exit 0; }
for tool in slurmctld slurmd sbatch squeue munged; do
    command -v $tool >/dev/null 2>&1 || [ -x /usr/sbin/$tool ] ||
        skip "there is no $tool here (Debian: apt-get install slurm-wlm munge)"
done
[ "$(id -u)" = 0 ] || skip "slurmd has to be started by root"
[ ! -e /etc/slurm/slurm.conf ] || skip "this machine has a Slurm of its own"
PATH=$PATH:/usr/sbin
scratch=$(mktemp -d)
chmod 755 "$scratch"
own=""
finish() {
    for id in $own; do kill "$id" 2>/dev/null || true; done
    wait || true
    rm -rf "$scratch"
}
trap finish EXIT
if [ ! -e /etc/munge/munge.key ]; then skip "munge has no key"; fi
mkdir -p "$scratch/munge" "$scratch/state" "$scratch/spool" "$scratch/parts"
chown munge "$scratch/munge"
setpriv --reuid=munge --regid=munge --clear-groups munged --foreground --force \
    --socket="$scratch/munge/socket" --pid-file="$scratch/munge/pid" \
    --log-file="$scratch/munge/log" --seed-file="$scratch/munge/seed" >/dev/null 2>&1 &
own="$own $!"
host=$(hostname -s)
cat >"$scratch/slurm.conf" <<CONF
ClusterName=test
SlurmctldHost=$host(127.0.0.1)
AuthType=auth/munge
AuthInfo=socket=$scratch/munge/socket
CredType=cred/munge
SlurmUser=root
SlurmctldPort=16817
SlurmdPort=16818
StateSaveLocation=$scratch/state
SlurmdSpoolDir=$scratch/spool
SlurmctldPidFile=$scratch/slurmctld.pid
SlurmdPidFile=$scratch/slurmd.pid
SlurmctldLogFile=$scratch/slurmctld.log
SlurmdLogFile=$scratch/slurmd.log
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
SelectType=select/cons_tres
SelectTypeParameters=CR_CPU
MpiDefault=none
ReturnToService=2
NodeName=$host NodeAddr=127.0.0.1 CPUs=$(nproc) State=UNKNOWN
PartitionName=all Nodes=$host Default=YES MaxTime=10 State=UP
CONF
SLURM_CONF=$scratch/slurm.conf
export SLURM_CONF
sleep 1
slurmctld -D >/dev/null 2>&1 &
own="$own $!"
sleep 1
slurmd -D >/dev/null 2>&1 &
own="$own $!"
i=0
until sinfo -h -o %T 2>/dev/null | grep -q idle; do
    i=$((i + 1))
    if [ $i -gt 20 ]; then
        tail -3 "$scratch/slurmctld.log" "$scratch/slurmd.log" 2>/dev/null || true
        skip "Slurm does not start in this environment"
    fi
    sleep 1
done
sweep=$PWD/tests/cli/inputs/sweep_large.yaml
"$program" sweep "$sweep" -o "$scratch/whole.csv"
SPALLTIME=$program SCENARIO=$sweep FOLDER=$scratch/parts timeout 120 \
    sbatch --wait --export=ALL --output="$scratch/parts/said%a" tests/sweep/array.sbatch
for k in 1 2 3 4 5 6 7 8; do cat "$scratch/parts/part$k.csv"; done | cmp - "$scratch/whole.csv"
echo "sweep-slurm: eight shards of a job array joined are the whole output, byte for byte"
