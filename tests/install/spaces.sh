#!/bin/sh
# A prefix that contains a blank: install, use, find with pkg-config, and uninstall without removing anything else.
# Arguments: a folder that does not exist yet, make.
set -eu
prefix=$1 make=$2
mkdir -p "${prefix%% *}" # what an unquoted removal would hit
echo mine >"${prefix%% *}/mine"
"$make" --no-print-directory -s install DESTDIR= PREFIX="$prefix" >/dev/null
(cd / && env -i PATH=/usr/bin:/bin "$prefix/bin/spalltime" catalog bearings >/dev/null)
flags=$(PKG_CONFIG_PATH="$prefix/lib/pkgconfig" pkg-config --cflags --libs spalltime)
echo '#include <spalltime/version.h>' | eval "cc -fsyntax-only -x c - $flags"
"$make" --no-print-directory -s uninstall DESTDIR= PREFIX="$prefix" >/dev/null
left=$(find "$prefix" ! -type d)
[ -z "$left" ] || { echo "install: left after uninstall: $left"; exit 1; }
[ -f "${prefix%% *}/mine" ] || { echo "install: uninstall removed other files"; exit 1; }
echo "install: a prefix with a blank works"
