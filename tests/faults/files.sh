#!/bin/sh
# Files and devices that fail: full disk, closed pipe, read-only folder, unreadable catalog, a signal, unusual
# names and bytes. Arguments: program, an empty folder, library of failing files.
set -eu
# reported here, and at the end of `make test`
leave_out() { echo "$1; left out"; echo "$1" >>"${SPT_LEFT_OUT:-/dev/null}"; }
program=$1 scratch=$2 library=$3
bad=0 checks=0
scenario=scenarios/beet_trailer_hub.yaml

expect() { # what, wanted status, status
    checks=$((checks + 1))
    [ "$3" = "$2" ] || { echo "files: $1: status $3, not $2: $(head -1 "$scratch/err" 2>/dev/null)"; bad=1; }
}
holds() { # what, then a command that must succeed
    what=$1
    shift
    checks=$((checks + 1))
    "$@" || { echo "files: $what"; bad=1; }
}
run() { # a command of the program; leaves $status
    status=0
    "$program" "$@" >"$scratch/out" 2>"$scratch/err" || status=$?
}

wanted=0
"$program" life --format json $scenario >"$scratch/whole" || wanted=$?

# a full device
for command in life compare reach check schema catalog help version; do
    case $command in
    life | compare | reach | check) words="$command $scenario" ;;
    version) words=--version ;;
    *) words=$command ;;
    esac
    status=0
    "$program" $words >/dev/full 2>"$scratch/err" || status=$?
    [ $command = check ] && [ $status = 0 ] && continue # it may have nothing to say
    expect "$command to a full device" 4 $status
    holds "$command to a full device says nothing" test -s "$scratch/err"
done
run life $scenario -o /dev/full
expect "-o /dev/full" 4 $status

# a full disk: the old answer is unchanged, and no other file is left
if [ "$(id -u)" = 0 ] && mkdir "$scratch/tiny" && mount -t tmpfs -o size=16k,mode=0755 none "$scratch/tiny" 2>/dev/null; then
    echo old >"$scratch/tiny/answer"
    head -c 8192 /dev/zero >"$scratch/tiny/filler"
    run life --explain --format json $scenario -o "$scratch/tiny/answer"
    expect "full disk" 4 $status
    holds "full disk: old answer lost" test "$(cat "$scratch/tiny/answer")" = old
    holds "full disk: something left beside" test "$(ls "$scratch/tiny" | wc -l)" = 2
    umount "$scratch/tiny"
else
    leave_out "files: no tiny disk could be mounted here"
fi

# when the reader of its output closes the pipe, the program ends silently, like other tools; if the caller ignores
# SIGPIPE this is a write error
for command in "life --format json $scenario" "sweep scenarios/fan_spindle_sweep.yaml" help "check $scenario"; do
    (sleep 0.2; set +e; "$program" $command 2>"$scratch/err"; echo $? >"$scratch/status") | true
    expect "closed pipe, $command" 141 "$(cat "$scratch/status")" # 128 and SIGPIPE, 13
    holds "closed pipe, $command: not in silence" test ! -s "$scratch/err"
    (sleep 0.2; set +e; trap '' PIPE; "$program" $command 2>"$scratch/err"; echo $? >"$scratch/status") | true
    expect "closed pipe without SIGPIPE, $command" 4 "$(cat "$scratch/status")"
    holds "closed pipe without SIGPIPE, $command, says nothing" test -s "$scratch/err"
done

# a folder without write permission, a file without read permission; root may use both, so run as nobody if possible
as=""
if [ "$(id -u)" = 0 ]; then as="setpriv --reuid=65534 --regid=65534 --clear-groups"; fi
if $as true 2>/dev/null; then
    mkdir -p "$scratch/locked" "$scratch/shop"
    mkdir -m 0777 "$scratch/open"
    echo old >"$scratch/locked/answer"
    chmod 0555 "$scratch/locked"
    cp "$program" "$scratch/program"
    cp $scenario "$scratch/in.yaml"
    cp scenarios/fan_spindle_sweep.yaml "$scratch/sweep.yaml"
    chmod 0755 "$scratch" "$scratch/program"
    status=0
    $as "$scratch/program" life "$scratch/in.yaml" -o "$scratch/locked/answer" 2>"$scratch/err" || status=$?
    expect "read-only folder" 4 $status
    holds "read-only folder: old answer lost" test "$(cat "$scratch/locked/answer")" = old
    chmod 0755 "$scratch/locked"
    echo old >"$scratch/open/protected"
    chmod 0444 "$scratch/open/protected"
    for command in "life $scratch/in.yaml" "sweep $scratch/sweep.yaml"; do
        status=0
        $as "$scratch/program" $command -o "$scratch/open/protected" 2>"$scratch/err" || status=$?
        expect "protected old answer, ${command%% *}" 4 $status
        holds "protected old answer lost, ${command%% *}" test "$(cat "$scratch/open/protected")" = old
    done
    echo "bearings: {}" >"$scratch/shop/a.yaml"
    chmod 0 "$scratch/shop/a.yaml"
    status=0
    $as "$scratch/program" life --catalog "$scratch/shop" "$scratch/in.yaml" >"$scratch/out" 2>"$scratch/err" || status=$?
    expect "unreadable catalog file" 3 $status
    holds "unreadable catalog file not named" grep -q "shop/a.yaml: cannot be read" "$scratch/err"
    chmod 0 "$scratch/shop"
    status=0
    $as "$scratch/program" life --catalog "$scratch/shop" "$scratch/in.yaml" >"$scratch/out" 2>"$scratch/err" || status=$?
    expect "unreadable catalog folder" 3 $status
    chmod 0 "$scratch/in.yaml"
    status=0
    $as "$scratch/program" life "$scratch/in.yaml" >"$scratch/out" 2>"$scratch/err" || status=$?
    expect "unreadable scenario" 4 $status
    chmod 0755 "$scratch/shop" "$scratch/in.yaml"
else
    leave_out "files: cannot work as another user here: no locked folders"
fi

# a signal while it waits for its input: nothing is written, and the old answer is unchanged
echo old >"$scratch/answer"
for signal in 15 2; do # TERM, INT
    mkfifo "$scratch/pipe"
    env --default-signal=INT "$program" life - -o "$scratch/answer" <"$scratch/pipe" 2>"$scratch/err" &
    job=$!
    exec 3>"$scratch/pipe"
    head -3 $scenario >&3
    # repeated, because a signal that arrives before the program runs may be lost
    tries=0
    while kill -$signal $job 2>/dev/null && [ $tries -lt 100 ]; do
        sleep 0.1
        tries=$((tries + 1))
    done
    kill -9 $job 2>/dev/null || true
    status=0
    wait $job || status=$?
    exec 3>&-
    rm "$scratch/pipe"
    expect "signal $signal" $((128 + signal)) $status
    holds "signal $signal: old answer lost" test "$(cat "$scratch/answer")" = old
    holds "signal $signal: something left beside" test "$(ls "$scratch" | grep -c answer)" = 1
done

# names with blanks and non-ASCII characters, for every kind of path
odd="$scratch/a folder – größer 轴承"
mkdir -p "$odd/shop files"
cp catalogs/*.yaml "$odd/shop files/"
cp $scenario "$odd/the hub.yaml"
run life --format json --catalog "$odd/shop files" "$odd/the hub.yaml" -o "$odd/my answer.json"
expect "odd names" $wanted $status
holds "odd names: another answer" cmp -s "$scratch/whole" "$odd/my answer.json"
run life "$odd/no such.yaml"
expect "odd name of a missing file" 4 $status
holds "odd name of a missing file not shown" grep -q "größer 轴承/no such.yaml" "$scratch/err"

# line ends and byte-order mark of other systems
sed 's/$/\r/' $scenario >"$scratch/crlf.yaml"
printf '\357\273\277' | cat - $scenario >"$scratch/bom.yaml"
printf '\357\273\277' | cat - "$scratch/crlf.yaml" >"$scratch/both.yaml"
for name in crlf bom both; do
    run life --format json "$scratch/$name.yaml"
    expect "$name" $wanted $status
    holds "$name: another answer" cmp -s "$scratch/whole" "$scratch/out"
    mkdir "$scratch/$name"
    for file in catalogs/*.yaml; do
        case $name in crlf) sed 's/$/\r/' "$file" ;; bom) printf '\357\273\277' | cat - "$file" ;; *) (printf '\357\273\277'; sed 's/$/\r/' "$file") ;; esac >"$scratch/$name/$(basename "$file")"
    done
    run catalog --format csv --catalog "$scratch/$name"
    expect "$name catalog" 0 $status
done

# without any catalog folder; left out if one is installed
mkdir -p "$scratch/alone/a/b"
cp "$program" "$scratch/alone/a/b/spalltime"
alone() {
    status=0
    (unset SPALLTIME_CATALOGS; "$scratch/alone/a/b/spalltime" "$@") >"$scratch/out" 2>"$scratch/err" || status=$?
}
echo 'bearing: great wheel' >"$scratch/alone/s.yaml"
alone catalog
if [ $status != 0 ]; then
    expect "no catalog folder" 4 $status
    holds "no catalog folder: nothing is answered" test ! -s "$scratch/out"
    holds "no catalog folder: what to do is said" grep -q 'give --catalog FOLDER or set SPALLTIME_CATALOGS' "$scratch/err"
    holds "no catalog folder: where it looked is said" grep -q "looked in $scratch/alone/a/b/" "$scratch/err"
    alone check "$scratch/alone/s.yaml"
    expect "a name without a catalog folder" 3 $status
    holds "a name without a catalog folder says so" grep -q '`great wheel` names a catalog entry, but no catalog folder was found; give --catalog' "$scratch/err"
    alone damage
    holds "a guide without a catalog folder says so" grep -q 'no catalog folder was found; give --catalog' "$scratch/err"
    alone catalog --catalog catalogs
    expect "a catalog folder that is given" 0 $status
else
    leave_out "files: a catalog folder is installed here: not tried without one"
fi

# a read error in a folder must not give an incomplete catalog
for item in 1 2 3; do
    status=0
    LD_PRELOAD="$library" SPT_READDIR_FAILS=$item "$program" catalog --catalog "$odd/shop files" >"$scratch/out" \
        2>"$scratch/err" || status=$?
    expect "a folder that fails at item $item" 3 $status
    holds "a folder that fails at item $item is not named" grep -q 'shop files: the catalog folder cannot be read: ' "$scratch/err"
    holds "a folder that fails at item $item: something is answered" test ! -s "$scratch/out"
done

# all standard streams closed
status=0
"$program" life $scenario >&- 2>"$scratch/err" || status=$?
expect "closed standard output" 4 $status
status=0
"$program" life - <&- >"$scratch/out" 2>"$scratch/err" || status=$?
expect "closed standard input" 4 $status
[ $bad = 0 ] && echo "files: $checks checks of failing files, unusual names and bytes passed"
exit $bad
