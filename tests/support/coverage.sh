#!/bin/sh
# Line coverage of the files after the first two arguments, from the gcov data in the build folder
# $1; fails below $2 percent.
set -eu
out=$1 least=$2
shift 2
for source in "$@"; do
    gcov --stdout --object-directory "$out/$(dirname "$source")" "$source" 2>/dev/null | awk -F : -v file="$source" '
        $2 + 0 > 0 && $1 !~ /-/ { lines++; if ($1 ~ /#####|=====/) { missed++; list = list " " $2 + 0 } }
        /^ *-: *0:Source:/ { wanted = index($0, file) > 0; if (!wanted) exit }
        END { printf "%s %d %d%s\n", file, lines, missed, list }'
done | awk -v least="$least" '
    { lines += $2; missed += $3
      printf "%-28s %5d lines %6.1f %%", $1, $2, $2 ? 100 * ($2 - $3) / $2 : 100
      if ($3) { printf "  not run:"; for (i = 4; i <= NF && i < 24; i++) printf " %s", $i }
      printf "\n" }
    END { share = lines ? 100 * (lines - missed) / lines : 0
          printf "\n%d of %d lines: %.2f %% (at least %g %% wanted)\n", lines - missed, lines, share, least
          exit share < least }'
