#!/bin/sh
# Brings Chromium if possible (Debian and Ubuntu, as root) and, into the folder $1, outside the source tree, what drives
# it and looks for barriers: npm packages.
set -eu
for tool in node npm; do
    command -v $tool >/dev/null 2>&1 || {
        echo "the browser test needs $tool" >&2
        exit 1
    }
done
CHROMIUM=${CHROMIUM:-/usr/bin/chromium}
if [ ! -x "$CHROMIUM" ]; then
    if [ "$(id -u)" != 0 ] || ! command -v apt-get >/dev/null 2>&1; then
        echo "the browser test needs Chromium; set CHROMIUM to its path" >&2
        exit 1
    fi
    echo "installing chromium"
    apt-get update -qq
    DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends chromium >/dev/null
fi
mkdir -p "$1"
if [ ! -d "$1/node_modules/axe-core" ] || ! cmp -s tests/browser/package.json "$1/package.json"; then
    cp tests/browser/package.json "$1/package.json"
    (cd "$1" && npm install --no-audit --no-fund --no-package-lock --loglevel=error)
fi
