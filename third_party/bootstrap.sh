#!/usr/bin/env bash
# Installs what is missing, builds, and then runs the main job or the tests.
#
#   third_party/bootstrap.sh run    the bench window; the guided session where there is no display
#   third_party/bootstrap.sh test   the whole test suite
#   third_party/bootstrap.sh deps   only installs what is missing
#
# Made for Debian 12. Where packages may not be installed it says which are missing and stops.
set -euo pipefail
cd "$(dirname "$0")/.."

build_packages=(g++ cmake ninja-build pkg-config
  libimgui-dev libglfw3-dev libgl-dev libegl-dev nlohmann-json3-dev libsqlite3-dev
  libeigen3-dev libstemmer-dev libcli11-dev libcairo2-dev libpango1.0-dev)
run_packages=(libgl1-mesa-dri libegl1 libegl-mesa0 fonts-inter fonts-jetbrains-mono fonts-dejavu-core)
test_packages=(libgtest-dev libgmock-dev librapidcheck-dev libbenchmark-dev libx11-dev ngspice xvfb xauth xdotool
  imagemagick poppler-utils python3-jsonschema sqlite3)

missing() {
  local package
  for package in "$@"; do
    dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || echo "$package"
  done
}

install() {
  local wanted
  mapfile -t wanted < <(missing "$@")
  [ "${#wanted[@]}" -eq 0 ] && return
  local as_root=()
  if [ "$(id -u)" -ne 0 ]; then
    if command -v sudo >/dev/null && sudo -n true 2>/dev/null; then
      as_root=(sudo)
    else
      echo "These packages are missing and this user may not install them:" >&2
      echo "  ${wanted[*]}" >&2
      echo "Ask for: apt-get install ${wanted[*]}" >&2
      exit 2
    fi
  fi
  echo "Installing: ${wanted[*]}" >&2
  if ! "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive sh -c \
    'apt-get update -qq && apt-get install -y -qq --no-install-recommends "$@" >/dev/null' apt "${wanted[@]}"; then
    echo "apt-get could not install: ${wanted[*]}" >&2
    exit 2
  fi
}

build() {
  local preset=$1 log
  shift
  log=$(mktemp)
  cmake --preset "$preset" "$@" >"$log" 2>&1 || { cat "$log" >&2; exit 2; }
  rm -f "$log"
  cmake --build --preset "$preset"
}

case "${1:-}" in
  run)
    install "${build_packages[@]}" "${run_packages[@]}"
    build release -DDRYOUT_TESTS=OFF >&2
    if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
      exec build/release/src/dryout
    fi
    exec build/release/src/dryout guide
    ;;
  test)
    install "${build_packages[@]}" "${run_packages[@]}" "${test_packages[@]}"
    # Ten files of a room as one unit: a third of the time where everything is built.
    build dev -DCMAKE_UNITY_BUILD=ON -DCMAKE_UNITY_BUILD_BATCH_SIZE=10
    ctest --preset dev -j "$(nproc)"
    ;;
  deps)
    install "${build_packages[@]}" "${run_packages[@]}" "${test_packages[@]}"
    ;;
  *)
    sed -n '2,8p' "$0" >&2
    exit 2
    ;;
esac
