#!/bin/sh
# Runs sweeps and spreads on several threads; any report of the thread sanitizer gives exit status 66.
set -eu
program=$1
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
"$program" sweep tests/cli/inputs/sweep_large.yaml --threads 4 -o "$scratch/grid"
{ echo 'radial_load [kN]'; seq 90000 | sed 's/^7.*/x/'; } >"$scratch/cases"
status=0
"$program" sweep tests/cli/inputs/sweep.yaml --cases "$scratch/cases" --rejects "$scratch/bad" \
    --threads 4 -o "$scratch/out" 2>"$scratch/said" || status=$?
[ "$status" = 3 ] || { cat "$scratch/said" >&2; exit 1; }
# a signal is handled by one thread, at a different moment in each run
for delay in 0.1 0.2 0.3 0.4; do
    "$program" sweep tests/cli/inputs/sweep_slow.yaml --threads 3 -o "$scratch/slow$delay" &
    job=$!
    sleep $delay
    kill -TERM $job 2>/dev/null || true
    status=0
    wait $job || status=$?
    case $status in 0 | 143) ;; *) exit 1 ;; esac
    [ $status = 0 ] || "$program" sweep tests/cli/inputs/sweep_slow.yaml --threads 3 -o "$scratch/slow$delay" --resume
done
"$program" spread --catalog catalogs --samples 3000 scenarios/beet_trailer_fleet.yaml >/dev/null
{
    cat scenarios/trailer_hub_setting.yaml
    echo 'uncertainty: {end_play: {normal: 0.02 mm}, load: {normal: 6 %}, temperature: {normal: 3 K}}'
} | "$program" spread --catalog catalogs --samples 3000 --shares - >/dev/null
echo "sweep-tsan: no report"
