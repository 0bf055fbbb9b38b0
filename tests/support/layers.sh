#!/bin/sh
# Checks the layers of src: which folder may include from which others (only as in the table below),
# that public headers include public headers alone, that base, words, model and study do no input or
# output, and that no folder has too many files. Includes are read from the sources, symbols from the
# objects of $1. Sanitizer builds add names of their own, so only release and debug objects are
# looked at.
set -eu
out=$1
bad=0
complain() { echo "layers: $1" >&2; bad=1; }

# folder: the folders that it may include, in addition to itself and the public headers
table='
platform:
base:
words: base
model: base platform
study: base words model platform
file: base platform
scenario: base words file platform
format: base
sentence: base words format
chart: base study format sentence
answer: base words study scenario format sentence chart
history: base file scenario format answer
sweep: base file scenario format sentence platform
manual: base format
cli: base manual platform words study file scenario format sentence chart answer history sweep
'
for folder in src/*/; do
    name=$(basename "$folder")
    case $name in exports | page | python) continue ;; esac # no C of their own
    row=$(echo "$table" | grep "^$name:") || { complain "src/$name is not in the table of layers"; continue; }
    allowed=$(echo "$name ${row#*:} spalltime" | tr -s ' ' '|' | sed 's/|$//')
    strays=$(grep -rnE '^#include "' "$folder" | grep -vE "#include \"($allowed)/" || true)
    [ -z "$strays" ] || { echo "$strays" >&2; complain "src/$name includes from a folder that it may not use"; }
done
grep -nE '^#include "' include/spalltime/*.h | grep -v '#include "spalltime/' && complain "a public header includes a private one"

# the models do no input or output, and YAML is read in one place
grep -rnE '^#include <(stdio|unistd)\.h>' src/words src/model && complain "words and models are pure"
grep -rlE '^#include <yaml\.h>' src | grep -vE '^src/(scenario/|cli/version.c)' && complain "YAML is read in src/scenario alone"

case $out in
*release | *debug)
    for object in $(find "$out/src/model" "$out/src/words" -name '*.o'); do
        if nm -u "$object" | awk '{print $2}' |
            grep -E '^(malloc|calloc|realloc|free|printf|fprintf|puts|fputs|fwrite|fopen|exit|abort|getenv|time|gsl_.*_alloc)(@|$)'; then
            complain "$object uses the heap, files or the process"
        fi
    done
    for object in $(find "$out/src/study" -name '*.o'); do
        if nm -u "$object" | awk '{print $2}' | grep -E '^(malloc|calloc|realloc|printf|fprintf|puts|fputs|fwrite|fopen|exit|abort|getenv)(@|$)'; then
            complain "$object allocates memory other than from the arena of the caller, or does input or output"
        fi
    done
    ;;
esac

# a folder with more source files probably has more than one subject
for folder in $(find src include -type d); do
    count=$(find "$folder" -maxdepth 1 -name '*.[ch]' | wc -l)
    [ "$count" -le 27 ] || complain "$folder holds $count files: divide it by its nouns"
done
[ $bad = 0 ] && echo "layers: all includes and symbols agree with the table of layers"
exit $bad
