#!/bin/sh
# Prints the names that a shared library should export, one on each line, sorted:
#   list.sh public HEADER...                      functions and tables that the headers declare
#   list.sh private PUBLIC PROGRAM-OBJECTS -- LIBRARY-OBJECTS
#                                                 what the objects of the program use from those of the library, except the names in PUBLIC
set -eu
LC_ALL=C
export LC_ALL
what=$1
shift
case $what in
public)
    # removes comments and preprocessor lines; a name before a parenthesis or bracket is a declaration
    cat "$@" | tr '\n' '\001' | sed 's@/\*[^*]*\**\([^/*][^*]*\**\)*/@@g' | tr '\001' '\n' | grep -v '^ *#' |
        grep -v '^#define\|\\$' | grep -oE '\bspt_[a-z0-9_]+\(|^extern [^;]*\bspt_[a-z0-9_]+' |
        grep -oE 'spt_[a-z0-9_]+' | sort -u
    ;;
private)
    public=$1 program=""
    shift
    while [ "$1" != -- ]; do
        program="$program $1"
        shift
    done
    shift
    made=$(mktemp)
    nm --defined-only "$@" | awk 'NF == 3 && $2 ~ /[TDBR]/ { print $3 }' | sort -u >"$made"
    # shellcheck disable=SC2086
    nm -u $program | awk '$1 == "U" && $2 ~ /^spt_/ { print $2 }' | sort -u | comm -12 - "$made" | comm -23 - "$public"
    rm -f "$made"
    ;;
esac
