#!/bin/sh
# Runs every command on every shipped scenario, and the unit suites, under valgrind; fails on any error or definite leak.
# To keep this to some minutes it leaves out the published and property suites and those named below (millions of numbers
# in functions that use no heap, or tests that start the program), which the sanitizers cover, and `setting`, `report` and
# `compare` of lessons 2 to 6, which run the same code as lesson 1.
# Arguments: build folder.
set -eu
build=$1
logs=$build/valgrind
slow='cli|progress|schema|readme|shipped|lessons|number|npy|timeline|setting|sweep|sweep_hub|hub_bench|uncertainty|batch_build|markup|*_property|*_published|published_*'
rm -rf "$logs"
mkdir -p "$logs"
runs=0 bad=0 covered=""
watch() { # log, then a command
    log=$logs/$1.log
    shift
    status=0
    valgrind --quiet --error-exitcode=99 --leak-check=full --errors-for-leak-kinds=definite \
        --show-leak-kinds=definite --trace-children=yes \
        --trace-children-skip='/bin/*,/usr/bin/*' --log-file="$log.%p" "$@" >"$logs/out" 2>"$logs/err" || status=$?
}
command() { # words of a command of the program
    covered="$covered $1"
    runs=$((runs + 1))
    watch "$1.$runs" "$build/spalltime" "$@"
    [ $status -lt 4 ] || { echo "valgrind: spalltime $*: status $status: $(head -1 "$logs/err")"; bad=1; }
}

for scenario in scenarios/*.yaml; do
    for name in life compare reach timeline setting schedule spread report check; do
        case $scenario:$name in scenarios/lesson_[2-6]*:setting | scenarios/lesson_[2-6]*:report | scenarios/lesson_[2-6]*:compare) continue ;; esac
        case $name in
        life) command life --format json --explain --samples 300 "$scenario" ;;
        report) command report --samples 300 "$scenario" ;;
        spread) command spread --format json --samples 300 "$scenario" ;;
        *) command $name "$scenario" ;;
        esac
    done
    command damage --format json peeling "$scenario"
done
for name in life compare reach timeline setting schedule; do
    command $name --format csv scenarios/torn_seal_hub.yaml
done
for form in csv jsonl npy; do
    command sweep -j 2 --format $form -o "$logs/rows.$form" scenarios/fan_spindle_sweep.yaml
done
command sweep -j 2 -o "$logs/hub.csv" scenarios/trailer_hub_setting.yaml
command sweep -j 2 --cases scenarios/fan_spindle_cases.csv --rejects "$logs/rejects.csv" scenarios/fan_spindle_sweep.yaml
command schedule --format ical --start 2026-03-01 scenarios/torn_seal_hub.yaml
command fit scenarios/trailer_returns.csv --against scenarios/beet_trailer_fleet.yaml --variants scenarios/beet_trailer_fleet.yaml
command fit --format json scenarios/trailer_returns.csv
command duty --format json scenarios/log_infeed_history.csv scenarios/log_infeed.yaml
command life --format json --history scenarios/log_infeed_history.csv scenarios/log_infeed.yaml
command damage
command damage "rust streaks"
command catalog
command catalog --format json
command schema
command schema --format json
command help
command help --print man
for name in $("$build/spalltime" help | sed -n 's/^  \([a-z]*\)  .*/\1/p'); do
    case "$covered " in *" $name "*) ;; *) echo "valgrind: no run of \`$name\`"; bad=1 ;; esac
done
watch tests "$build/tests/spalltime_tests" --short-filename -j1 --filter "!($slow)/*"
[ $status = 0 ] || { echo "valgrind: the tests give status $status"; tail -20 "$logs/err"; bad=1; }
tests=$(sed -n 's/.*Tested: [^0-9]*\([0-9][0-9]*\).*/\1/p' "$logs/err")
find "$logs" -name '*.log.*' -size +0 -exec cat {} + >"$logs/all.txt"
if [ -s "$logs/all.txt" ]; then head -60 "$logs/all.txt"; bad=1; fi
[ $bad = 0 ] && echo "valgrind: $runs commands and the unit suites (${tests:-some} tests), no error, no definite leak"
exit $bad
