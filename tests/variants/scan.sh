#!/bin/sh
# Runs the analyzer of clang on a whole build in the folder $1. Findings on a line marked NOLINT, with a reason, are
# exceptions, as for clang-tidy; any other finding is a failure.
set -eu
folder=$1
rm -rf "$folder"
mkdir -p "$folder"
scan-build -o "$folder/pages" make --no-print-directory BUILD=debug OUT="$folder/build" CFLAGS=-O1 \
    "$folder/build/spalltime" "$folder/build/libspalltime.a" >"$folder/log" 2>&1 || { tail -20 "$folder/log"; exit 1; }
grep -E '^[^ ]+:[0-9]+:[0-9]+: warning:' "$folder/log" | sort -u >"$folder/findings" || true
bad=0 excepted=0
while IFS=: read -r file line rest; do
    if sed -n "${line}p" "$file" | grep -q NOLINT; then
        excepted=$((excepted + 1))
    else
        echo "$file:$line:$rest"
        bad=1
    fi
done <"$folder/findings"
files=$(find "$folder/build" -name '*.o' | wc -l)
[ $bad = 0 ] && echo "scan: $files files, nothing found but $excepted exceptions that are marked in the code"
exit $bad
