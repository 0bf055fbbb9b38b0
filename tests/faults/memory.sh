#!/bin/sh
# For every n, the n-th allocation of a whole run fails, or all from the n-th on. The program must report this and end
# with exit status 4 without any answer, or manage without the memory and give the complete answer; an older answer must
# be unchanged. Arguments: program, preloaded library, an empty folder, runs for each command (0: every allocation).
# Most allocations are made while the catalogs are read, in the same way by every command: with 0 the first command tries
# each of these, the others every 199th of them and each of their own allocations.
set -eu
program=$1 library=$2 scratch=$3 most=$4
bad=0 runs=0
SHARED_STEP=199

run() { # request, all from there on; the command stands in $command
    (
        export LD_PRELOAD="$library" SPT_FAIL_AT="$1"
        [ -z "$2" ] || export SPT_FAIL_ON=1
        exec "$program" $command
    )
}

try() { # n, mode
    status=0
    rm -f "$scratch"/answer*
    echo old >"$scratch/answer"
    run "$1" "$2" >"$scratch/out" 2>"$scratch/err" || status=$?
    runs=$((runs + 1))
    if [ "$status" = 4 ]; then
        read -r answer <"$scratch/answer" || true
        [ -s "$scratch/err" ] && [ "$answer" = old ] && return
    elif [ "$status" = "$wanted" ]; then
        cmp -s "$scratch/$written" "$scratch/whole" && return
    fi
    echo "memory: $command: request $1 ${2:-} failing: status $status, $(wc -c <"$scratch/$written") bytes: $(head -1 "$scratch/err")"
    bad=1
}

count_requests() {
    SPT_FAIL_COUNT="$scratch/count" run 0 "" >"$scratch/out" 2>"$scratch/err" || true
    count=$(cat "$scratch/count")
}

# a fleet with costs, without the many samples of its uncertainty and some of its variants
certain=$scratch/fleet.yaml
sed '/^uncertainty:/,/^variants:/{/^variants:/!d;}; /- name: wash water/,$d' scenarios/beet_trailer_fleet.yaml >"$certain"

# the allocations made while the catalogs are read, except some at the end that may belong to the answer
command="catalog conditions"
count_requests
shared=$((count > 800 ? count - 400 : 0))

first=yes
covered=""
while read -r command; do
    [ -n "$command" ] || continue
    covered="$covered ${command%% *}"
    wanted=0 written=answer
    case $command in
    help* | check*) written=out ;;
    *) command="$command -o $scratch/answer" ;;
    esac
    rm -f "$scratch"/answer*
    "$program" $command >"$scratch/out" 2>"$scratch/err" || wanted=$?
    cp "$scratch/$written" "$scratch/whole"
    count_requests
    [ "$count" -gt 0 ] || { echo "memory: no allocation counted in $command"; bad=1; }
    [ "$wanted" -lt 2 ] || { echo "memory: $command: status $wanted: $(head -1 "$scratch/err")"; bad=1; }
    # a sample: the first and the last allocations, and others between them at equal steps
    stride=1
    [ "$most" = 0 ] || stride=$((count / most + 1))
    n=1
    while [ $n -le "$count" ]; do
        try $n ""
        # every seventh run also lets all later allocations fail
        [ $((runs % 7)) = 0 ] && try $n on
        step=$stride
        if [ $n -le 12 ] || [ $n -gt $((count - 12)) ]; then step=1; fi
        if [ $step = 1 ] && [ -z "$first" ] && [ $n -gt 12 ] && [ "$count" -gt $shared ] && [ $n -lt $shared ]; then step=$SHARED_STEP; fi
        if [ $step -gt 1 ] && [ $n -le $((count - 12)) ] && [ $((n + step)) -gt $((count - 12)) ]; then step=$((count - 11 - n)); fi
        n=$((n + step))
    done
    first=""
done <<END
life --format json --explain scenarios/beet_trailer_hub.yaml
life scenarios/feed_mixer_gearbox.yaml
timeline --format csv scenarios/torn_seal_hub.yaml
reach --format json scenarios/gravel_conveyor_drum.yaml
compare --format json scenarios/stock_trailer_hub.yaml
catalog --format csv
example --format json
example lesson_2_debris
schema --format json
report scenarios/beet_trailer_hub.yaml
report --samples 300 scenarios/beet_trailer_fleet.yaml
report --chart zones scenarios/trailer_hub_setting.yaml
setting --format json scenarios/trailer_hub_setting.yaml
schedule --format json scenarios/torn_seal_hub.yaml
reach --format json $certain
timeline --format json scenarios/beet_trailer_fleet.yaml
compare --format json $certain
schedule --format json $certain
spread --format json --samples 300 scenarios/beet_trailer_fleet.yaml
fit --format json scenarios/trailer_returns.csv --against scenarios/lesson_2_debris.yaml --variants scenarios/trailer_hub_setting.yaml
damage --format json fluting scenarios/beet_trailer_hub.yaml
damage --format json milky grease
diagnose --format html scenarios/damaged/tight_hub.yaml
diagnose --format json --past tests/cli/damaged/counts.csv scenarios/damaged/launched_trailer.yaml
choose --format json --from scenarios/invented_bearings.csv scenarios/gravel_conveyor_drum.yaml
sweep -j 1 scenarios/fan_spindle_sweep.yaml
sweep -j 2 --cases scenarios/fan_spindle_cases.csv scenarios/fan_spindle_sweep.yaml
duty --format json scenarios/log_infeed_history.csv scenarios/log_infeed.yaml
life --format json --history scenarios/log_infeed_history.csv scenarios/log_infeed.yaml
sweep -j 2 scenarios/trailer_hub_setting.yaml
check scenarios/torn_seal_hub.yaml
check --explain scenarios/torn_seal_hub.yaml
check --explain --format html scenarios/torn_seal_hub.yaml
life --explain scenarios/feed_mixer_gearbox.yaml
help sweep
END
for name in $("$program" help | sed -n '/^TOPICS/q;s/^  \([a-z]*\)  .*/\1/p'); do
    case "$covered " in *" $name "*) ;; *) echo "memory: no run of \`$name\`"; bad=1 ;; esac
done
[ $bad = 0 ] && echo "memory: $runs runs with a failing allocation, each with a message or a complete answer"
exit $bad
