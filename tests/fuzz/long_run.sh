#!/usr/bin/env bash
# Every fuzz target in turn for so many seconds each, on one core, from its corpus and from what
# earlier runs found; prints a row of the table in README.md for each. Stops at a finding: the input
# lies beside the target then, and belongs in corpus/ with the mend.
#
#   cmake --preset asan-ubsan && cmake --build --preset asan-ubsan
#   tests/fuzz/long_run.sh 600 [TARGETS...]
set -euo pipefail
here=$(dirname "$(readlink -f "$0")")
seconds=${1:?so many seconds each}
shift
cd "$here/../../build/asan-ubsan/tests/fuzz"
[ $# -gt 0 ] || set -- quantity marking document parts_list settings knowledge netlist network problem case_file

for target in "$@"; do
  length=4096
  case "$target" in quantity | marking) length=64 ;; esac  # what is printed on a part is short
  began=$SECONDS
  if ! "./fuzz_$target" -max_total_time="$seconds" -max_len=$length -timeout=20 -rss_limit_mb=4096 \
    -print_final_stats=1 -close_fd_mask=1 "found/$target" "$here/corpus/$target" >"$target.log" 2>&1; then
    echo "a finding in $target: see $PWD/$target.log" >&2
    exit 1
  fi
  echo "| $target | $(sed -n 's/^stat::number_of_executed_units: *//p' "$target.log") | $((SECONDS - began)) |"
done
