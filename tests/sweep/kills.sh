#!/bin/sh
# Sweeps that are killed, or whose file operations fail, at each call that changes a file, and whose part is then damaged:
# the same command with --resume must end with the same bytes as an undisturbed run and leave no other file.
# Arguments: program, library of failing files, an empty folder, number of calls of each kind to try (0: all).
set -eu
program=$1 library=$2 scratch=$3 places=$4
bad=0 checks=0 seed=2385
work=$scratch/work

{
    sed '/^sweep:/,$d' tests/cli/inputs/sweep.yaml
    echo 'sweep: {speed: {from: 100 rpm, to: 900 rpm, steps: 101}, radial_load: {from: 1 kN, to: 9 kN, steps: 100}}'
} >"$scratch/grid.yaml"
{
    echo 'label,radial_load [kN],speed [rpm]'
    seq 30000 | awk '{printf "\"case %d, of the many that stand here\",%s,%d\n", $1, $1 % 700 ? 1 + $1 % 50 : "x", 20 + $1 % 900
        if ($1 % 900 == 0) print "\"a record\n\nof \"\"three\"\" lines\",3,300" }'
} >"$scratch/cases.csv"

say() {
    echo "sweep-kills: $1"
    bad=1
}
sweep() { # the variant in $variant, with more words
    case $variant in
    grid) "$program" sweep "$scratch/grid.yaml" -j 1 -o "$work/out" "$@" ;;
    shard) "$program" sweep "$scratch/grid.yaml" -j 2 --shard 2/3 -f jsonl -o "$work/out" "$@" ;;
    array) "$program" sweep tests/cli/inputs/sweep.yaml -j 1 --cases "$scratch/cases.csv" -f npy -o "$work/out" "$@" ;;
    cases) "$program" sweep tests/cli/inputs/sweep.yaml -j 2 --cases "$scratch/cases.csv" -o "$work/out" --rejects "$work/bad" "$@" ;;
    esac
}
run() { # leaves $status; environment before it
    status=0
    sweep "$@" >"$scratch/told" 2>&1 || status=$?
}
disturb() { # a variable of the library with its value, then words for the sweep
    setting=$1
    shift
    status=0
    (export LD_PRELOAD="$library" SPT_HURRY=1 "$setting"; [ -z "$late" ] || export SPT_KILL_LATE=1; sweep "$@") \
        >"$scratch/told" 2>&1 || status=$?
}
empty() {
    rm -rf "$work"
    mkdir "$work"
}
settle() { # what: the files must be those of the undisturbed run, and nothing else
    checks=$((checks + 1))
    if ! diff -r "$work" "$scratch/whole.$variant" >/dev/null 2>&1; then
        say "$variant, $1: not what an undisturbed run leaves: $(ls "$work" | tr '\n' ' ')$(tail -1 "$scratch/told")"
    fi
}
resume() { # what
    run --resume
    [ $status = $wanted ] || say "$variant, $1: --resume ends with $status, not $wanted: $(tail -1 "$scratch/told")"
    settle "$1"
}
random() { # a number from 1 to $1, in $drawn
    seed=$(((seed * 1103515245 + 12345) % 2147483648))
    drawn=$((seed / 65536 % $1 + 1))
}

# without --resume a part with rows is refused and left unchanged; a part without rows is overwritten
try_without() { # what
    cp -r "$work" "$scratch/kept"
    run
    checks=$((checks + 1))
    if [ $status = 2 ]; then
        grep -q 'add --resume' "$scratch/told" || say "$variant, $1: refused without a way on: $(tail -1 "$scratch/told")"
        diff -r "$work" "$scratch/kept" >/dev/null || say "$variant, $1: a refused part was changed"
    else
        [ $status = $wanted ] || say "$variant, $1: a fresh run ends with $status: $(tail -1 "$scratch/told")"
        settle "$1, fresh"
    fi
    rm -rf "$work"
    mv "$scratch/kept" "$work"
}

damage() { # zeros, one byte or a cut at a random place of the part
    size=$(stat -c %s "$1")
    [ "$size" -gt 0 ] || return 0
    random "$size"
    at=$((drawn - 1))
    random 3
    case $drawn in
    1) head -c 64 /dev/zero | dd of="$1" bs=1 seek=$at count=$((size - at < 64 ? size - at : 64)) conv=notrunc 2>/dev/null ;;
    2) printf '~' | dd of="$1" bs=1 seek=$at conv=notrunc 2>/dev/null ;;
    3) truncate -s $at "$1" ;;
    esac
}

for variant in grid shard array cases; do
    late=""
    empty
    run
    wanted=$status
    rm -rf "$scratch/whole.$variant"
    mv "$work" "$scratch/whole.$variant"
    empty
    disturb "SPT_CALLS=$scratch/calls"
    settle "counted"
    total=$(cat "$scratch/calls")
    [ "$total" -gt 20 ] || say "$variant: only $total calls"
    step=$((places == 0 || places >= total ? 1 : total / places))
    place=1
    while [ $place -le "$total" ]; do
        for late in "" 1; do
            empty
            disturb SPT_KILL_AT=$place
            [ $status = 137 ] || say "$variant: killed at $place${late:+, late} ends with $status"
            try_without "killed at $place${late:+, late}"
            resume "killed at $place${late:+, late}"
        done
        late=""
        empty
        disturb SPT_ERROR_AT=$place
        [ $status = 4 ] || [ $status = $wanted ] || say "$variant: an error at $place ends with $status"
        resume "an error at $place"
        empty
        disturb SPT_KILL_AT=$place
        for file in "$work"/*.part; do [ ! -f "$file" ] || damage "$file"; done
        resume "killed at $place and damaged"
        place=$((place + step))
    done
    # killed repeatedly
    for chain in 1 2 3 4 5; do
        empty
        for link in 1 2 3 4 5 6; do
            random 2
            late=${drawn#1}
            random "$total"
            disturb SPT_KILL_AT=$drawn --resume
        done
        resume "chain $chain"
    done
done

# a run that gets its lock only after another run has finished must not change the finished file
variant=grid wanted=0 late=""
for kill in 0 8; do
    empty
    rm -f "$scratch/go" "$scratch/go.waits"
    (export LD_PRELOAD="$library" SPT_KILL_AT=$kill SPT_LOCK_WAITS="$scratch/go"; sweep >/dev/null 2>&1) &
    job=$!
    while [ ! -e "$scratch/go.waits" ]; do sleep 0.01; done
    run
    : >"$scratch/go"
    wait $job || true
    checks=$((checks + 1))
    cmp -s "$work/out" "$scratch/whole.grid/out" || say "a late lock, killed at $kill: the finished file was rewritten"
done

# no file descriptor left for the state: no file is left, and the next run needs no --resume
empty
status=0
(ulimit -n 4; sweep) >"$scratch/told" 2>&1 || status=$?
[ $status = 4 ] || say "with 4 descriptors it ends with $status"
run
settle "after a run with too few descriptors"

# damage is reported, and the run continues at a position before it
empty
disturb SPT_KILL_AT=35
printf 'x' | dd of="$work/out.part" bs=1 seek=300000 conv=notrunc 2>/dev/null
resume "damaged in the middle"
checks=$((checks + 2))
grep -q 'is damaged' "$scratch/told" || say "damage is not told: $(cat "$scratch/told")"
grep -q 'goes on after the [1-9]' "$scratch/told" || say "damage costs every row: $(cat "$scratch/told")"
empty
disturb SPT_KILL_AT=35
truncate -s 300000 "$work/out.part"
resume "cut"
checks=$((checks + 1))
grep -q 'is shorter than' "$scratch/told" || say "a cut part is not told as one: $(cat "$scratch/told")"

[ $bad = 0 ] && echo "sweep-kills: $checks runs that were killed, failed or damaged end with the bytes of an undisturbed run"
exit $bad
