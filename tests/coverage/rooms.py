#!/usr/bin/env python3
"""Lines and branches that the tests reached, by room (gcovr reads what gcc counted).

  cmake --preset coverage && cmake --build --preset coverage
  ctest --test-dir build/coverage
  tests/coverage/rooms.py [--files]        --files: every file below 95 % of its lines, too
"""
import collections
import json
import pathlib
import subprocess
import sys

SOURCES = pathlib.Path(__file__).resolve().parent.parent.parent
BUILD = SOURCES / "build/coverage"


def counted():
    """Per file: lines and branches, there and reached. Branches the compiler adds for exceptions
    are left out: nothing here throws."""
    done = subprocess.run(
        ["gcovr", "--root", SOURCES, "--filter", f"{SOURCES}/src/", "--object-directory", BUILD,
         "--exclude-throw-branches", "--exclude-unreachable-branches", "--json-summary", "-",
         BUILD], check=True, capture_output=True, text=True)
    return json.loads(done.stdout)["files"]


def share(reached, there):
    return f"{100 * reached / there:.1f}" if there else "-"


def main():
    files = counted()
    rooms = collections.defaultdict(lambda: [0, 0, 0, 0])
    for file in files:
        room = pathlib.Path(file["filename"]).parts[1]
        for at, key in enumerate(("line_covered", "line_total", "branch_covered", "branch_total")):
            rooms[room][at] += file[key]
    print("| room | lines | % | branches | % |\n|---|---|---|---|---|")
    for room, (lines, of_lines, branches, of_branches) in sorted(rooms.items()):
        print(f"| {room} | {of_lines} | {share(lines, of_lines)} | {of_branches} "
              f"| {share(branches, of_branches)} |")
    if "--files" in sys.argv:
        for file in sorted(files, key=lambda each: each["line_percent"] or 100):
            if (file["line_percent"] or 100) < 95:
                print(f'{file["line_percent"]:5.1f} %  {file["filename"]}')


if __name__ == "__main__":
    main()
