#!/bin/sh
# Writes reports and charts of scenarios with the program $1 into the folder $2 and checks them in a browser: of each kind
# of page one, or of every scenario where $3 is "whole".
set -eu
program=$1
out=$2
tests/browser/bring.sh "$out"
rm -f "$out"/*.html "$out"/*.svg "$out"/*.png "$out"/*.pdf
# report SCENARIO NAME [OPTION]...: writes into the file NAME; status 1 means that a target is missed
report() {
    scenario=$1
    name=$2
    shift 2
    code=0
    "$program" report "$scenario" "$@" -o "$out/$name" || code=$?
    [ $code -le 1 ] || exit $code
}
scenarios=""
for name in beet_trailer_fleet lesson_2_debris mixer_gearbox_shaft torn_seal_hub trailer_hub_setting; do
    scenarios="$scenarios scenarios/$name.yaml"
done
[ "${3:-}" != whole ] || scenarios=$(echo scenarios/*.yaml)
for scenario in $scenarios tests/browser/inputs/*.yaml; do
    report "$scenario" "$(basename "$scenario" .yaml).html"
done
for name in beet_trailer_hub trailer_hub_setting gravel_conveyor_drum torn_seal_hub; do
    report scenarios/$name.yaml front_$name.html --front
done
for chart in stairs variants phases loss film contamination survival; do
    report scenarios/beet_trailer_hub.yaml beet_$chart.svg --chart $chart
done
report scenarios/torn_seal_hub.yaml torn_timeline.svg --chart timeline
for chart in setting zones survival; do
    report scenarios/trailer_hub_setting.yaml trailer_$chart.svg --chart $chart
done
report scenarios/trailer_hub_setting.yaml preload_zones.svg --chart zones --variant "preload too large"
report scenarios/beet_trailer_fleet.yaml fleet_survival.svg --chart survival
node tests/browser/report_test.mjs "$out"
echo "screenshots and PDFs: $out"
