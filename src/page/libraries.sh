#!/bin/sh
# Builds the GNU Scientific Library and libyaml for the browser into the folder $1, from the source packages of the
# distribution, as far as the program needs them. Installs the compiler and its libraries if they are missing and says
# which. The sources stay in $1/sources, so that a second build needs no network.
set -eu
out=$1
packages="clang lld llvm wasi-libc libclang-rt-dev-wasm32 dpkg-dev"

# Ends with 2 where this machine cannot have what the page is built with; 1 is a mistake of the build.
lack() {
    echo "the page needs $1" >&2
    exit 2
}

missing=""
for package in $packages; do
    dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null | grep -qx installed || missing="$missing $package"
done
if [ -n "$missing" ]; then
    command -v apt-get >/dev/null 2>&1 || lack "packages of Debian or Ubuntu:$missing"
    root=""
    [ "$(id -u)" = 0 ] || root=sudo
    [ -z "$root" ] || command -v $root >/dev/null 2>&1 || lack "root, to install:$missing"
    echo "installing for the page: $root apt-get install$missing"
    $root apt-get update -qq || true
    # shellcheck disable=SC2086
    $root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing >/dev/null ||
        lack "the packages$missing, which could not be installed"
fi
[ -e "$out/libyaml.a" ] && [ "$out/libgsl.a" -nt "$0" ] &&
    [ "$out/libgsl.a" -nt "${0%/*}/gsl.list" ] && exit 0

mkdir -p "$out/sources" "$out/apt/lists/partial" "$out/apt/cache/archives/partial" "$out/apt/parts"
out=$(cd "$out" && pwd)
flags="-O2 -msimd128 -fno-math-errno"

# A copy of the machine's list of archives that asks for sources; its own setup stays as it is.
bring_sources() {
    for list in /etc/apt/sources.list.d/*.sources; do
        [ -e "$list" ] && sed 's/^Types:.*/Types: deb-src/' "$list" >"$out/apt/parts/${list##*/}"
    done
    if [ -e /etc/apt/sources.list ]; then
        sed -n 's/^deb /deb-src /p' /etc/apt/sources.list >"$out/apt/parts/main.list"
    fi
    set -- -o Dir::Etc::sourcelist=/dev/null -o Dir::Etc::sourceparts="$out/apt/parts" \
        -o Dir::State::lists="$out/apt/lists" -o Dir::Cache="$out/apt/cache" -o APT::Sandbox::User=root
    echo "fetching the source packages gsl and libyaml"
    apt-get "$@" update -qq
    (cd "$out/sources" && apt-get "$@" source -qq --download-only gsl libyaml >/dev/null)
}
ls "$out"/sources/gsl_*.dsc "$out"/sources/libyaml_*.dsc >/dev/null 2>&1 || (bring_sources) ||
    lack "the source packages gsl and libyaml, which could not be fetched"

rm -rf "$out/libgsl.part.a" "$out/gsl" "$out/yaml"
dpkg-source --no-check -x "$out"/sources/gsl_*.dsc "$out/gsl" >/dev/null
dpkg-source --no-check -x "$out"/sources/libyaml_*.dsc "$out/yaml" >/dev/null

# The files of GSL that the program needs are lines of gsl.list; what its own `configure` would find out about the
# browser's C library is the list of words below. That takes a sixth of the time of `configure` and `make`.
echo "building the GNU Scientific Library for the browser"
have="RELEASED HAVE_INLINE HAVE_C99_INLINE HAVE_COMPLEX_H HAVE_IEEE_COMPARISONS HAVE_IEEE_DENORMALS
    HAVE_EXIT_SUCCESS_AND_FAILURE HAVE_MEMCPY HAVE_MEMMOVE HAVE_STRDUP HAVE_STRTOL HAVE_STRTOUL HAVE_VPRINTF STDC_HEADERS
    HAVE_DECL_ACOSH HAVE_DECL_ASINH HAVE_DECL_ATANH HAVE_DECL_EXPM1 HAVE_DECL_FINITE HAVE_DECL_FREXP HAVE_DECL_HYPOT
    HAVE_DECL_ISFINITE HAVE_DECL_ISINF HAVE_DECL_ISNAN HAVE_DECL_LDEXP HAVE_DECL_LOG1P"
list=$(cd "$(dirname "$0")" && pwd)/gsl.list
(
    cd "$out/gsl"
    for word in $have; do echo "s/#undef $word\$/#define $word 1/"; done | sed -f - config.h.in >config.h
    mkdir -p built
    for header in gsl_*.h */gsl_*.h; do ln -s "../$header" gsl/; done
    # shellcheck disable=SC2016,SC2086
    while read -r part files; do
        for file in $files; do echo "$part $file"; done
    done <"$list" |
        xargs -P "$(nproc)" -n 2 sh -c 'clang --target=wasm32-wasi '"$flags"' -w -DHAVE_CONFIG_H -I. -I"$0" -c "$0/$1.c" \
            -o "built/${0#.}_$1.o"'
    llvm-ar rcs "$out/libgsl.part.a" built/*.o
)
echo "building libyaml for the browser"
(
    cd "$out/yaml/src"
    for part in api loader parser reader scanner; do
        # shellcheck disable=SC2086
        clang --target=wasm32-wasi $flags -I../include -DYAML_DECLARE_STATIC -DYAML_VERSION_MAJOR=0 \
            -DYAML_VERSION_MINOR=2 -DYAML_VERSION_PATCH=5 -DYAML_VERSION_STRING='"0.2.5"' -c $part.c -o $part.o
    done
    llvm-ar rcs "$out/libyaml.a" api.o loader.o parser.o reader.o scanner.o
)
mv "$out/libgsl.part.a" "$out/libgsl.a"
