#!/bin/sh
# The tests and some commands of the build folder $1 under valgrind; fails on any error or definite leak.
set -eu
build=$1
rm -rf "$build/valgrind"
mkdir -p "$build/valgrind"
watch="valgrind --quiet --error-exitcode=99 --leak-check=full --errors-for-leak-kinds=definite --trace-children=yes \
    --trace-children-skip=/bin/*,/usr/bin/* --log-file=$build/valgrind/%p.log"
# the suites without the golden runs, which would start hundreds of programs
$watch "$build/tests/spalltime_tests" --short-filename -j1 --filter '!(cli*)/*' >"$build/valgrind/tests.txt" 2>&1 ||
    { tail -20 "$build/valgrind/tests.txt"; exit 1; }
for command in life compare reach timeline check; do
    status=0
    $watch "$build/spalltime" $command scenarios/torn_seal_hub.yaml >/dev/null 2>&1 || status=$?
    [ $status -lt 5 ] || { echo "valgrind: $command gives status $status"; cat "$build"/valgrind/*.log; exit 1; }
done
find "$build/valgrind" -name '*.log' -size +0 -exec cat {} + >"$build/valgrind/all.txt"
if [ -s "$build/valgrind/all.txt" ]; then head -60 "$build/valgrind/all.txt"; exit 1; fi
echo "valgrind: no error, no definite leak"
