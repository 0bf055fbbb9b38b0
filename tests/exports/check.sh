#!/bin/sh
# Compares the lists of src/exports with the headers, the objects and both shared libraries. Arguments: a scratch folder,
# libspalltime, libspalltime_run, the headers of each, the objects of the program and of the library.
set -eu
scratch=$1 library=$2 run=$3 headers=$4 run_headers=$5 program=$6 objects=$7 bad=0
LC_ALL=C
export LC_ALL
compare() { # what should be, what is, words
    diff -u "$1" "$2" >&2 || { echo "exports: $3; see \`make exports\`" >&2; bad=1; }
}
exported() { nm -D --defined-only "$1" | awk '$2 ~ /[TDBR]/ { sub(/@.*/, "", $3); print $3 }' | sort -u; }
# shellcheck disable=SC2086
tests/exports/list.sh public $headers >"$scratch/public"
# shellcheck disable=SC2086
tests/exports/list.sh public $run_headers >"$scratch/run"
compare src/exports/public.list "$scratch/public" "the public headers declare other functions than are listed"
compare src/exports/run.list "$scratch/run" "run.h declares other functions than are listed"
# shellcheck disable=SC2086
tests/exports/list.sh private src/exports/public.list $program -- $objects >"$scratch/private"
case $library in # sanitizer builds take more
*release/* | *debug/*) compare src/exports/private.list "$scratch/private" "the program takes other private names than are listed" ;;
esac
sort -u src/exports/public.list src/exports/private.list >"$scratch/all"
exported "$library" >"$scratch/library"
compare "$scratch/all" "$scratch/library" "libspalltime exports other names than are listed"
exported "$run" >"$scratch/run_library"
compare src/exports/run.list "$scratch/run_library" "libspalltime_run exports other names than are listed"
[ $bad = 0 ] && echo "exports: $(wc -l <src/exports/public.list) public, $(wc -l <src/exports/private.list) private, $(wc -l <src/exports/run.list) of libspalltime_run; no others"
exit $bad
