#!/bin/sh
# Prints the rows of $1 (tests/support/published.h) as a table, the values that are from memory, and
# their number. Fails on a row that disagrees, on a supposed misprint that agrees, and if there are
# too few rows.
set -eu
[ -s "$1" ] || { echo "validate: no rows" >&2; exit 1; }
sort -t '	' -k1,1 -s "$1" | awk -F '\t' '
function difference(printed, ours) {
    if (printed !~ /^[-+0-9.e]+$/ || ours !~ /^[-+0-9.e]+$/) return "-"
    return sprintf("%.2g", ours - printed)
}
{
    rows++
    if ($1 != source) { printf "\n%s\n", $1; source = $1; sources++; if ($1 ~ /memory/) remembered[++memories] = $1 }
    printf "  %-44s %22s %14s %10s %9s  %s\n", substr($2, 1, 44), $3, $4, difference($3, $4), $5, $6
    if ($1 ~ /memory/) memory_rows++
    if ($6 == "misprint") misprints++
    if ($6 != "agrees" && $6 != "misprint") bad[++bads] = $1 ": " $2
}
BEGIN { printf "%-46s %22s %14s %10s %9s  %s\n", "quantity", "printed", "ours", "difference", "tolerance", "verdict" }
END {
    printf "\nFrom memory, in whole or in part (not looked up when the row was written):\n"
    for (i = 1; i <= memories; i++) printf "  - %s\n", remembered[i]
    printf "\n%d rows of %d sources, %d rows with something from memory, %d known misprints, %d disagree\n", rows, sources, memory_rows, misprints, bads
    for (i = 1; i <= bads; i++) printf "DISAGREES: %s\n", bad[i]
    exit bads > 0 || rows < 300
}'
