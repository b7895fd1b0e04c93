#!/usr/bin/env python3
"""Plants the bugs of bugs.json one at a time in a copy of the sources and runs the tests of the
room: a bug that no test notices is a gap in the tests.

  tests/mutation/plant_bugs.py --check        only that each bug can still be planted (ctest runs this)
  tests/mutation/plant_bugs.py [WORDS...]     all of them, or those whose file or text has a word
"""
import itertools
import json
import pathlib
import shutil
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
SOURCES = HERE.parent.parent
# What takes long and measures rather than asserts, or waits for a clock.
LEFT_OUT = {
    "casestore": "KilledWriter*",
    "casework": "KilledWorkshop*:RandomCommands*:ShippedPractice*",
    "readings": "*Calibration*",
    "planning": "*OneThousand*:*Simulat*",
}
LONGEST_S = 300
BUILD = "build/dev"  # as in a clone, so that ccache may know the objects


def plantable(bugs):
    """Complaints about bugs whose text is not in its file exactly once."""
    for bug in bugs:
        found = (SOURCES / bug["file"]).read_text().count(bug["old"])
        if found != 1 or bug["old"] == bug["new"]:
            yield f'{bug["file"]}: {bug["bug"]}: the text to change is there {found} times, not once'


def room_of(bug):
    return bug["file"].split("/")[1]


def copy_of_sources(folder):
    listed = subprocess.run(["git", "-C", SOURCES, "ls-files", "-z"], check=True,
                            capture_output=True, text=True).stdout
    for name in filter(None, listed.split("\0")):
        to = pathlib.Path(folder) / name
        to.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy2(SOURCES / name, to)
    subprocess.run(["cmake", "-S", folder, "-B", f"{folder}/{BUILD}", "-G", "Ninja",
                    "-DCMAKE_BUILD_TYPE=Debug", "-DDRYOUT_BENCHMARKS=OFF", "-DDRYOUT_WINDOW=OFF",
                    "-DCMAKE_CXX_COMPILER_LAUNCHER=ccache"], check=True, capture_output=True)


def build(folder, room):
    done = subprocess.run(["cmake", "--build", f"{folder}/{BUILD}", "--target", f"test_{room}"],
                          capture_output=True, text=True)
    return done.returncode == 0


def first_failure(folder, room):
    """The name of a test that fails; "" where none does."""
    command = [f"{folder}/{BUILD}/tests/test_{room}", "--gtest_fail_fast", "--gtest_brief=1",
               f"--gtest_filter=-{LEFT_OUT.get(room, '')}"]
    try:
        done = subprocess.run(command, capture_output=True, text=True, errors="replace",
                              timeout=LONGEST_S, cwd=folder)
    except subprocess.TimeoutExpired:
        return "(never ends)"
    if done.returncode == 0:
        return ""
    named = [line.split("]")[1].split("(")[0].split(",")[0].strip()
             for line in done.stdout.splitlines() if line.startswith("[  FAILED  ]")]
    return named[0] if named else f"(ends with {done.returncode})"


def plant(folder, bug):
    file = pathlib.Path(folder) / bug["file"]
    sound = file.read_text()
    room = room_of(bug)
    file.write_text(sound.replace(bug["old"], bug["new"]))
    try:
        return first_failure(folder, room) if build(folder, room) else "(does not compile)"
    finally:
        file.write_text(sound)


def main():
    bugs = json.loads((HERE / "bugs.json").read_text())["bugs"]
    complaints = list(plantable(bugs))
    if complaints or sys.argv[1:] == ["--check"]:
        print("\n".join(complaints) or f"{len(bugs)} bugs can be planted")
        return 1 if complaints else 0
    words = sys.argv[1:]
    chosen = [b for b in bugs if not words or any(w in b["file"] + b["bug"] for w in words)]
    survivors = 0
    with tempfile.TemporaryDirectory(prefix="dryout-bugs-") as folder:
        copy_of_sources(folder)
        print("| file | bug | noticed by |\n|---|---|---|", flush=True)
        for room, planted in itertools.groupby(chosen, room_of):
            if not build(folder, room) or first_failure(folder, room):
                sys.exit(f"the tests of {room} fail before any bug is planted")
            for bug in planted:
                noticed = plant(folder, bug)
                survivors += noticed in ("", "(does not compile)")
                print(f'| {bug["file"]} | {bug["bug"]} | {noticed or "**nobody**"} |', flush=True)
    print(f"\n{len(chosen) - survivors} of {len(chosen)} noticed")
    return 1 if survivors else 0


if __name__ == "__main__":
    sys.exit(main())
