#!/bin/sh
# Writes reports and charts of every scenario with the program $1 into the folder $2 and checks them in a browser.
set -eu
program=$1
out=$2
tests/browser/bring.sh "$out"
rm -f "$out"/*.html "$out"/*.svg "$out"/*.png "$out"/*.pdf
for scenario in scenarios/*.yaml tests/browser/inputs/*.yaml; do
    code=0
    "$program" report "$scenario" -o "$out/$(basename "$scenario" .yaml).html" || code=$?
    [ $code -le 1 ] || exit $code # 1: a target is missed
done
for chart in variants phases loss film contamination survival; do
    "$program" report scenarios/beet_trailer_hub.yaml --chart $chart -o "$out/beet_$chart.svg"
done
"$program" report scenarios/torn_seal_hub.yaml --chart timeline -o "$out/torn_timeline.svg"
for chart in setting zones survival; do
    "$program" report scenarios/trailer_hub_setting.yaml --chart $chart -o "$out/trailer_$chart.svg"
done
"$program" report scenarios/trailer_hub_setting.yaml --chart zones --variant "preload too large" -o "$out/preload_zones.svg" || [ $? = 1 ] # it misses the target
"$program" report scenarios/beet_trailer_fleet.yaml --chart survival -o "$out/fleet_survival.svg"
node tests/browser/report_test.mjs "$out"
echo "screenshots and PDFs: $out"
