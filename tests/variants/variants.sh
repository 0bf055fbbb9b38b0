#!/bin/sh
# Builds the program with each compiler of $1 and each optimisation level of $2, and compares every number of the JSON
# answers with the first build: relative tolerance 1e-12, absolute 1e-12 for numbers below 1.
set -eu
first=""
bad=0
for compiler in $1; do
    for level in $2; do
        out=build/variants/$compiler$level
        mkdir -p "$out"
        # shellcheck disable=SC2086
        make --no-print-directory -s BUILD=release OUT="$out" CC="$compiler" CFLAGS="$level" "$out/spalltime" >"$out.log" 2>&1 ||
            { tail -5 "$out.log"; exit 1; }
        cp "$out/spalltime" "build/variants/spalltime" # so that it finds the catalogs of the tree
        for scenario in scenarios/*.yaml; do
            for command in life compare reach timeline; do
                name=$command-$(basename "$scenario" .yaml)
                build/variants/spalltime $command --format json "$scenario" >"$out/$name.json" 2>/dev/null || true
                [ -s "$out/$name.json" ] || rm -f "$out/$name.json"
            done
        done
        [ -n "$first" ] || first=$out
        if [ "$out" != "$first" ]; then
            if "$first/compare_json" "$first" "$out"; then :; else bad=1; fi
        else
            "$compiler" -std=c11 -O1 -D_XOPEN_SOURCE=700 -Itests -o "$first/compare_json" \
                tests/variants/compare_json.c tests/support/golden.c -lm
        fi
    done
done
exit $bad
