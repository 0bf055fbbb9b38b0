#!/bin/sh
# The example of `spalltime help load-cases` for GNU parallel: eight shards, two at a time, then joined in order.
set -eu
program=$1
if ! command -v parallel >/dev/null 2>&1; then
    echo "sweep-parallel: skipped, there is no GNU parallel here (Debian: apt-get install parallel)"
    exit 0
fi
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
sweep=tests/cli/inputs/sweep_large.yaml
"$program" sweep $sweep -o "$scratch/whole.csv"
parallel --will-cite -j 2 "$program" sweep $sweep --threads 1 --shard {}/8 --resume \
    -o "$scratch/part{}.csv" ::: 1 2 3 4 5 6 7 8
for k in 1 2 3 4 5 6 7 8; do cat "$scratch/part$k.csv"; done | cmp - "$scratch/whole.csv"
echo "sweep-parallel: eight shards joined are the whole output, byte for byte"
