#!/bin/sh
# Arrows point down only: cli > report > study > model, cli > scenario > model, report > scenario.
# Includes are read from the sources, symbols from the objects of $1. Sanitizer builds add names of
# their own, so only release and debug objects are looked at.
set -eu
out=$1
bad=0
forbid() { # layer, pattern of includes it may not have
    if grep -nE "^#include [\"<]($2)" "src/$1"/*.[ch] 2>/dev/null; then
        echo "layers: src/$1 includes what lies above it" >&2
        bad=1
    fi
}
forbid model 'study/|scenario/|report/|cli/|stdio.h|yaml.h|spalltime/(assess|fit|loss|reach|timeline|setting|schedule|uncertainty|sweep|suspect)\.h'
forbid study 'scenario/|report/|cli/|yaml.h'
forbid scenario 'report/|cli/'
forbid report 'cli/|yaml.h'
case $out in
*release | *debug)
    for object in "$out"/src/model/*.o; do
        [ -e "$object" ] || continue
        if nm -u "$object" | awk '{print $2}' |
            grep -E '^(malloc|calloc|realloc|free|printf|fprintf|snprintf|sprintf|puts|fputs|fwrite|fopen|exit|abort|getenv|time|gsl_.*_alloc)(@|$)'; then
            echo "layers: $object uses the heap, files or the process" >&2
            bad=1
        fi
    done
    ;;
esac
[ $bad = 0 ] && echo "layers: includes and symbols point down only"
exit $bad
