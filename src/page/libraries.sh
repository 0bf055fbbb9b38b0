#!/bin/sh
# Builds the GNU Scientific Library and libyaml for the browser into the folder $1, from the source packages of the
# distribution, as far as the program needs them. Installs the compiler and its libraries if they are missing and says
# which. The sources stay in $1/sources, so that a second build needs no network.
set -eu
out=$1
unset MAKEFLAGS MFLAGS MAKEOVERRIDES # settings of the program are not those of the libraries
packages="clang lld llvm wasi-libc libclang-rt-dev-wasm32 autotools-dev dpkg-dev"

missing=""
for package in $packages; do
    dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null | grep -qx installed || missing="$missing $package"
done
if [ -n "$missing" ]; then
    command -v apt-get >/dev/null 2>&1 || {
        echo "the page is built with packages of Debian or Ubuntu:$missing" >&2
        exit 1
    }
    root=""
    [ "$(id -u)" = 0 ] || root=sudo
    echo "installing: $root apt-get install$missing"
    $root apt-get update -qq
    # shellcheck disable=SC2086
    $root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing >/dev/null
fi
[ -e "$out/libyaml.a" ] && [ "$out/libgsl.a" -nt "$0" ] && exit 0

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
        -o Dir::State::lists="$out/apt/lists" -o Dir::Cache="$out/apt/cache"
    echo "fetching the source packages gsl and libyaml"
    apt-get "$@" update -qq
    (cd "$out/sources" && apt-get "$@" source -qq --download-only gsl libyaml >/dev/null)
}
ls "$out"/sources/gsl_*.dsc "$out"/sources/libyaml_*.dsc >/dev/null 2>&1 || bring_sources

rm -rf "$out/gsl" "$out/yaml"
dpkg-source --no-check -x "$out"/sources/gsl_*.dsc "$out/gsl" >/dev/null
dpkg-source --no-check -x "$out"/sources/libyaml_*.dsc "$out/yaml" >/dev/null

# The folders of GSL that hold what the program calls; those that it does not need are left out of
# the module by the linker.
parts="err sys block vector matrix permutation sort min roots integration specfunc cdf randist qrng statistics fit rng
    complex cblas blas linalg"
echo "building the GNU Scientific Library for the browser"
cp /usr/share/misc/config.sub /usr/share/misc/config.guess "$out/gsl/"
(
    cd "$out/gsl"
    ./configure --host=wasm32-unknown-wasi --disable-shared CC="clang --target=wasm32-wasi" AR=llvm-ar \
        RANLIB=llvm-ranlib CFLAGS="$flags" >configure.log 2>&1
    make -C gsl >make.log 2>&1 # links to the headers
    for part in $parts; do
        make -k -j2 -C $part >>make.log 2>&1 || echo "$part is not whole" >>make.log
    done
    make version.lo >>make.log 2>&1
    llvm-ar rcs "$out/libgsl.part.a" version.o
    # shellcheck disable=SC2086
    find $parts -name '*.o' ! -name 'test*' -exec llvm-ar rcs "$out/libgsl.part.a" {} +
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
