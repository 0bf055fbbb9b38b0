#!/bin/sh
# Writes the page to standard output: page.html with its parts put in. $1: the program of this machine, which gives the
# style of answers, the cautions and the version; $2: the module; then the files that the page holds.
set -eu
program=$1
module=$2
shift 2
here=$(dirname "$0")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# A file as a JSON string that may stand in a script element.
quote() { sed -e 's/\\/\\\\/g' -e 's/"/\\"/g' -e 's/	/\\t/g' -e 's/</\\u003c/g' "$1" | awk '{ printf "%s\\n", $0 }'; }
# The hash of a file as a Content Security Policy names it.
hash() {
    sha256sum "$1" | awk '{ for (i = 1; i < 64; i += 2) printf "\\%03o",
        16 * (index("0123456789abcdef", substr($1, i, 1)) - 1) + index("0123456789abcdef", substr($1, i + 1, 1)) - 1 }' >"$work/octal"
    # shellcheck disable=SC2059
    printf "sha256-%s" "$(printf "$(cat "$work/octal")" | base64)"
}

code=0
"$program" life --format html scenarios/beet_trailer_hub.yaml >"$work/answer.html" || code=$?
[ $code -le 1 ] # 1: a target is missed
sed -n '/<style>/,/<\/style>/p' "$work/answer.html" | sed '/style>/d' >"$work/whole-style"
# the answers of the page stand in roots of their own, which take the place of document and body
sed -e 's/:root/:host/g' -e 's/^body{/:host{display:block;/' -e 's/body{/:host{/g' "$work/whole-style" >"$work/answer-style"
printf '%s\n' 'pre.plain{overflow-x:auto;white-space:pre-wrap;overflow-wrap:anywhere;font:13px/1.45 ui-monospace,"DejaVu Sans Mono",monospace}' \
    'button.svg{font:inherit;font-size:.8rem;color:var(--ink);background:none;border:1px solid var(--rule);padding:.2rem .6rem;cursor:pointer;min-height:1.7rem}' \
    'h2:first-child{margin-top:1rem}.repeated{display:none}@media print{button.svg{display:none}.repeated{display:block}}' >>"$work/answer-style"
# the colours of the page are those of its answers
{ grep -E '^(:root|@media \(prefers-color-scheme|@media print\{:root)' "$work/whole-style"; cat "$here/page.css"; } >"$work/style"
sed -n '/<h2>Cautions/,/<\/section>/p' "$work/answer.html" | sed -n '/<ul>/,/<\/ul>/p' >"$work/cautions"
# what each command does: its name, a tab and a line
"$program" help | awk '/^COMMANDS/ { on = 1; next } on && !NF { exit }
    on { name = $1; sub(/^ *[^ ]+ +/, ""); print name "\t" $0 }' >"$work/summaries"
[ -s "$work/summaries" ]
"$program" --version | sed -n '1s/.* //p' | tr -d '\n' >"$work/version"
{
    printf '['
    for file in "$@"; do
        [ "$file" = "$1" ] || printf ',\n'
        printf '{"name":"%s","text":"' "$file"
        quote "$file"
        printf '"}'
    done
    printf ']'
} >"$work/files"
gzip -9nc "$module" | base64 -w 0 >"$work/module"
cp "$here/worker.js" "$work/worker"
cp "$here/page.js" "$work/script"
hash "$work/style" >"$work/style-hash"
hash "$work/script" >"$work/script-hash"

# @@NAME@@ is what the file of this name holds
awk -v work="$work" '
function take(name,   line, all, first) {
    first = 1
    while ((getline line < (work "/" name)) > 0) {
        all = all (first ? "" : "\n") line
        first = 0
    }
    # what a file ends with is in the hashes of style and script too
    return all (name == "style" || name == "script" ? "\n" : "")
}
{
    while (match($0, /@@[a-z-]+@@/)) {
        printf "%s", substr($0, 1, RSTART - 1)
        name = substr($0, RSTART + 2, RLENGTH - 4)
        $0 = substr($0, RSTART + RLENGTH)
        printf "%s", take(name)
    }
    print
}' "$here/page.html"
