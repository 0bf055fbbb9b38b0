# SPDX-License-Identifier: GPL-3.0-or-later
# Makes C of the texts of the manual: each file an array of its lines, and the table of the files.
function end_text() { if (texts) print "};" }
BEGIN { print "#include \"manual/manual.h\"" }
FNR == 1 {
    end_text()
    name = FILENAME
    sub(/.*\//, "", name)
    sub(/\.md$/, "", name)
    names[++texts] = name
    printf "static const char *const text_%d[] = {\n", texts
}
{
    count = split($0, parts, /\\/)
    line = parts[1]
    for (i = 2; i <= count; i++) line = line "\\\\" parts[i]
    count = split(line, parts, /"/)
    line = parts[1]
    for (i = 2; i <= count; i++) line = line "\\\"" parts[i]
    printf "    \"%s\",\n", line
    lines[texts]++
}
END {
    end_text()
    print "const struct spt_manual_text spt_manual_texts[] = {"
    for (i = 1; i <= texts; i++) printf "    {\"%s\", text_%d, %d},\n", names[i], i, lines[i]
    print "};"
    printf "const int spt_manual_count = %d;\n", texts
}
