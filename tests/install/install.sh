#!/bin/sh
# Checks the tree installed in $1 with prefix $2 and uses it like a user: the program, a C program built with pkg-config
# and the compiler $3, a C++ program, a Python script. Only the inputs may come from the source tree.
set -eu
# reported here, and at the end of `make test`
leave_out() { echo "$1; left out"; echo "$1" >>"${SPT_LEFT_OUT:-/dev/null}"; }
root=$1 prefix=$2 compiler=$3 here=$(pwd)
tree=$root$prefix
scenario=$here/scenarios/gravel_conveyor_drum.yaml # its bearing and grease stand in the installed catalogs
bad=0
complain() { echo "install: $1"; bad=1; }

# no private header is installed; every public one is, and compiles by itself
for header in include/spalltime/*.h; do
    [ -f "$tree/$header" ] || complain "$header is not installed"
    printf '#include <spalltime/%s>\nint main(void) { return 0; }\n' "$(basename "$header")" |
        "$compiler" -std=c11 -Wall -Wextra -Werror -fsyntax-only -I"$tree/include" -x c - || complain "$header does not stand alone"
done
[ "$(find "$tree/include" -name '*.h' | wc -l)" = "$(ls include/spalltime/*.h | wc -l)" ] || complain "other headers than the public ones are installed"
[ -z "$(find "$tree" -name '*internal*')" ] || complain "something internal is installed"
grep -rlE '#include "(model|study|scenario|report|cli)/' "$tree/include" && complain "a public header includes a private one"

for name in libspalltime libspalltime_run; do
    library=$tree/lib/$name.so
    soname=$(readelf -d "$library" | sed -n 's/.*SONAME.*\[\(.*\)\]/\1/p')
    case $soname in $name.so.[0-9]*) [ -e "$tree/lib/$soname" ] || complain "$soname has no link" ;; *) complain "soname of $name: $soname" ;; esac
    strays=$(nm -D --defined-only "$library" | awk '$2 ~ /[TDBR]/ { print $3 }' | grep -v '^spt_' || true)
    [ -z "$strays" ] || complain "$name exports $strays"
done

# the program outside the source tree, with its own catalogs
(cd / && env -i PATH=/usr/bin:/bin "$tree/bin/spalltime" catalog bearings >/dev/null) || complain "the program finds no catalog"
[ -s "$tree/share/man/man1/spalltime.1" ] && [ -s "$tree/share/man/man1/spalltime-life.1" ] || complain "no manual page"

PKG_CONFIG_SYSROOT_DIR=$root PKG_CONFIG_PATH=$tree/lib/pkgconfig
export PKG_CONFIG_SYSROOT_DIR PKG_CONFIG_PATH
# shellcheck disable=SC2046
"$compiler" -std=c11 -o "$root/consumer" tests/install/consumer.c $(pkg-config --cflags spalltime) \
    $(pkg-config --libs spalltime) -lspalltime_run -lm || complain "the C program does not build"
(cd / && LD_LIBRARY_PATH=$tree/lib "$root/consumer" "$scenario") || complain "the C program fails"
if command -v c++ >/dev/null; then
    # shellcheck disable=SC2046
    c++ -std=c++17 -o "$root/consumer++" tests/install/consumer.cpp $(pkg-config --cflags spalltime) \
        $(pkg-config --libs spalltime) -lspalltime_run || complain "the C++ program does not build"
    LD_LIBRARY_PATH=$tree/lib "$root/consumer++" || complain "the C++ program fails"
else
    leave_out "install: no c++ here for the C++ program (Debian: apt-get install g++)"
fi
if command -v python3 >/dev/null; then
    (cd / && python3 "$here/tests/install/consumer.py" "$tree/lib" "$scenario") || complain "the Python script fails"
    package=$(find "$tree" -type d -path '*python*/spalltime')
    (cd / && PYTHONPATH=${package%/spalltime} PYTHONDONTWRITEBYTECODE=1 python3 -c '
import pathlib, sys, spalltime
print("Python package:", spalltime.life(pathlib.Path(sys.argv[1])))' "$scenario") || complain "the Python package fails"
else
    leave_out "install: no python3 here for the Python script"
fi
[ $bad = 0 ] && echo "install: the installed tree is complete and works by itself"
exit $bad
