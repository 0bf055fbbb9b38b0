#!/bin/sh
# For every n, the n-th request for memory of a whole run fails, or all from the n-th on. The program must say
# so and give exit status 4 without any answer, or do without and answer in full; an older answer stays whole.
# Arguments: program, preloaded library, an empty folder, runs for each command (0: every request).
set -eu
program=$1 library=$2 scratch=$3 most=$4
bad=0 runs=0

try() { # name, n, mode; the command stands in $command
    status=0
    echo old >"$scratch/answer"
    env LD_PRELOAD="$library" SPT_FAIL_AT="$2" ${3:+"$3"} "$program" $command -o "$scratch/answer" \
        >"$scratch/out" 2>"$scratch/err" || status=$?
    runs=$((runs + 1))
    if [ "$status" = 4 ]; then
        [ -s "$scratch/err" ] && [ "$(cat "$scratch/answer")" = old ] && return
    elif [ "$status" = "$wanted" ]; then
        cmp -s "$scratch/answer" "$scratch/whole" && return
    fi
    echo "memory: $1, request $2 ${3:-} failing: status $status, $(wc -c <"$scratch/answer") bytes: $(head -1 "$scratch/err")"
    bad=1
}

while read -r command; do
    wanted=0
    "$program" $command >"$scratch/whole" || wanted=$?
    env LD_PRELOAD="$library" SPT_FAIL_COUNT="$scratch/count" "$program" $command >/dev/null || true
    count=$(cat "$scratch/count")
    [ "$count" -gt 3 ] || { echo "memory: only $count requests counted in $command"; bad=1; }
    # a sample: the first and the last requests, others at equal steps between
    stride=1
    [ "$most" = 0 ] || stride=$((count / most + 1))
    n=1
    while [ $n -le "$count" ]; do
        try "$command" $n ""
        # all from there on: every seventh run does, the way up to there being the same
        [ $((runs % 7)) = 0 ] && try "$command" $n SPT_FAIL_ON=1
        if [ $n -ge $((count - 12)) ] || [ $n -le 12 ]; then n=$((n + 1)); else n=$((n + stride)); fi
        if [ $n -gt $((count - 12)) ] && [ $((n - stride)) -lt $((count - 12)) ] && [ $stride -gt 1 ]; then n=$((count - 12)); stride=1; fi
    done
done <<END
life --format json --explain scenarios/beet_trailer_hub.yaml
life scenarios/feed_mixer_gearbox.yaml
timeline --format csv scenarios/torn_seal_hub.yaml
reach --format json scenarios/gravel_conveyor_drum.yaml
compare --format json scenarios/stock_trailer_hub.yaml
catalog --format csv
schema --format json
report scenarios/beet_trailer_hub.yaml
END
[ $bad = 0 ] && echo "memory: $runs runs with a failing request, each said so or answered in full"
exit $bad
