#!/usr/bin/env bash
# Builds what is committed twice, in clones of different paths and without a compiler cache, and
# compares the installed programs and the packages byte by byte.
#
#   tests/package/twice_the_same.sh [FOLDER]
#
# Takes two whole release builds and half a gigabyte below FOLDER (a temporary folder by default).
set -euo pipefail
cd "$(dirname "$0")/../.."

place=${1:-$(mktemp -d)}
export CCACHE_DISABLE=1
SOURCE_DATE_EPOCH=$(git log -1 --format=%ct)  # the time that stands in the package
export SOURCE_DATE_EPOCH

for clone in "$place/one" "$place/elsewhere/a-longer-path/two"; do
  git clone --quiet . "$clone"
  (
    cd "$clone"
    cmake --preset release -DDRYOUT_TESTS=OFF -DDRYOUT_BENCHMARKS=OFF >/dev/null
    cmake --build --preset release
    DESTDIR="$clone/installed" cmake --install build/release --prefix /usr >/dev/null
    cpack --config build/release/CPackConfig.cmake -B package >/dev/null
  ) >&2
done

cd "$place"
sha256sum one/installed/usr/bin/dryout elsewhere/a-longer-path/two/installed/usr/bin/dryout \
  one/package/*.deb elsewhere/a-longer-path/two/package/*.deb
diff -r one/installed elsewhere/a-longer-path/two/installed
cmp one/package/*.deb elsewhere/a-longer-path/two/package/*.deb
echo "the same twice: everything that is installed, and the package"
