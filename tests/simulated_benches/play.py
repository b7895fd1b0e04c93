#!/usr/bin/env python3
"""Plays the built program against simulated benches whose faults are known, and reports how it did.

    play.py --binary build/dev/src/dryout [--knowledge DIR] [-o plays.json]     the whole table (README.md)
    play.py --binary ... --only stereo-receiver-a/C2l                           faults whose name begins so
    play.py --binary ... --every 40                                             each fortieth fault
    play.py --binary ... --again plays.json --first-look                        only the complaint of those plays: who leads?
    play.py --report plays.json                                                 the tables once more
    play.py --circuits                                                          which capacitor is which group
"""
import argparse
import hashlib
import json
import multiprocessing
import os
import sys
import tempfile

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))

from complaints import complaints  # noqa: E402
from faults import benches, faults, is_unseen  # noqa: E402
from instruments import Instruments  # noqa: E402
from program import Program, Refused  # noqa: E402
from report import print_first_looks, print_report  # noqa: E402
from simulator import SimulationFailed, measure  # noqa: E402

MOST_CHECKS = 15
MOST_MENDS = 4
MENDS_FROM = 0.9


def equal_dead_check(first, others):
    """A check of the set without power that is worth as much, and costs no more, beside a dangerous one under power."""
    cost = first["minutes"] + first["access_minutes"]
    return first["dangerous"] and first["state"] == "powered" and any(
        o["state"] == "unpowered" and o["gain_bits"] >= 0.95 * first["gain_bits"]
        and o["minutes"] + o["access_minutes"] <= cost for o in others)


def leader_of(view):
    if not view["suspects"]:
        return "", 0.0
    first = view["suspects"][0]
    return first["id"], first.get("blame", first["probability"])


def play(program, bench, seed, fault, sound, trace=False):
    """One fault from the complaint to the cure: a record of what happened."""
    record = {"bench": bench.name, "kind": bench.kind, "half": "unseen" if is_unseen(bench) else "seen",
              "fault": fault.name, "truth": fault.truth, "mode": fault.mode or fault.cause, "state": "played"}
    try:
        now = measure(bench, seed, fault.parts, sound)
    except SimulationFailed as failed:
        return record | {"state": "not simulated", "why": str(failed)[-200:]}
    known = program.open_case(bench.kind, bench.year)
    told = [(s, w) for s, w in complaints(bench, seed, fault.parts, sound, now) if s in known]
    record["told"] = told
    if not told:
        return record | {"state": "does not show"}
    try:
        for symptom, where in told:
            view = program.tell(symptom, where)
    except Refused as refused:
        return record | {"state": "refused", "why": str(refused)}
    listed = {s["id"]: i for i, s in enumerate(view["suspects"])}
    record["first_place"] = listed.get(fault.truth, -1)
    if record["first_place"] < 0:
        return record | {"state": "not listed"}
    instruments = Instruments(bench, seed, fault, sound, now, told)
    steps, mends, minutes, dangerous, asked = [], [], 0.0, 0, set()
    leaders = [(*leader_of(view),)]
    pace = 0  # checks since the last mend
    while True:
        leader, share = leader_of(view)
        advice = program.advice()
        settled = advice["leading"]["settled"] or share >= MENDS_FROM
        checks = [c for c in advice["next"] if (c["check"], c["place"]) not in asked]
        if settled or len(steps) >= MOST_CHECKS or not checks:
            stopped = "settled" if settled else "checks" if len(steps) >= MOST_CHECKS else "nothing advised"
            cured = leader == fault.truth
            mends.append({"suspect": leader, "share": share, "cured": cured, "after": len(steps), "why": stopped})
            if trace:
                print(f"    mend {leader} ({share:.2f}, {stopped}): {'cured' if cured else 'still there'}")
            if cured or len(mends) == MOST_MENDS:
                break
            program.mend(leader, [s for s, _ in told], False)
            view = program.suspects()
            leaders.append(leader_of(view))
            if leader_of(view)[0] == leader:
                break  # it names again what was just replaced
            continue
        first = checks[0]
        outcome = instruments.answer(first["check"], first["place"], first["state"])
        asked.add((first["check"], first["place"]))
        minutes += first["minutes"] + first["access_minutes"]
        dangerous += equal_dead_check(first, checks[1:])
        view = program.look(first, outcome)
        leaders.append(leader_of(view))
        right = next((s.get("blame", s["probability"]) for s in view["suspects"] if s["id"] == fault.truth), 0.0)
        steps.append([first["check"], first["place"], outcome, leader_of(view)[0], leader_of(view)[1], right])
        if trace:
            print(f"    {first['check']}@{first['place']}: {outcome} -> {leader_of(view)[0]} {leader_of(view)[1]:.2f}"
                  f" (right one {right:.2f}; {first['gain_bits']:.2f} bit)")
    return record | {"steps": steps, "mends": mends, "minutes": minutes, "dangerous": dangerous,
                     "stated": [[share, leader == fault.truth] for leader, share in leaders],
                     "led": any(leader == fault.truth for leader, _ in leaders),
                     "arrived": mends[-1]["cured"], "needless": sum(not m["cured"] for m in mends)}


def look_first(job):
    """The complaint of a play kept before, told anew: where does the right suspect stand before any check?"""
    record, options = job
    with tempfile.TemporaryDirectory(dir="/dev/shm" if os.path.isdir("/dev/shm") else None) as folder:
        program = Program(options["binary"], os.path.join(folder, "store"), options["knowledge"])
        program.open_case(record["kind"], next(b.year for b in benches() if b.name == record["bench"]))
        for symptom, where in record["told"]:
            view = program.tell(symptom, where)
    listed = {s["id"]: i for i, s in enumerate(view["suspects"])}
    shares = {s["id"]: s.get("blame", s["probability"]) for s in view["suspects"]}
    return {k: record[k] for k in ("bench", "kind", "half", "fault", "truth", "mode", "told")} | {
        "first_place": listed.get(record["truth"], 999), "share": shares.get(record["truth"], 0.0)}


def play_bench(job):
    name, names, options = job
    bench = next(b for b in benches() if b.name == name)
    sound = measure(bench, options["seed"])
    sound = measure(bench, options["seed"], sound=sound)
    records = []
    with tempfile.TemporaryDirectory(dir="/dev/shm" if os.path.isdir("/dev/shm") else None) as folder:
        for i, fault in enumerate(f for f in faults(bench, options["seed"]) if f.name in names):
            program = Program(options["binary"], os.path.join(folder, f"store{i}"), options["knowledge"])
            if options["trace"]:
                print(f"{name}/{fault.name} ({fault.truth})")
            try:
                record = play(program, bench, options["seed"], fault, sound, options["trace"])
            except (Refused, KeyError, ZeroDivisionError) as failed:  # one play that fails does not end a long run
                record = {"bench": name, "kind": bench.kind, "half": "unseen" if is_unseen(bench) else "seen",
                          "fault": fault.name, "truth": fault.truth, "state": "refused", "why": repr(failed)[-300:]}
            if options["trace"]:
                print(f"    told {record.get('told')}; {record['state']} {record.get('why', '')}")
            records.append(record)
    return records


def chosen(options):
    """[(bench, {names of faults})] of what is asked for, in pieces of eight faults."""
    jobs, count = [], 0
    for bench in benches():
        names = []
        for fault in faults(bench, options.seed):
            whole = f"{bench.name}/{fault.name}"
            if options.only and not any(whole.startswith(o) for o in options.only):
                continue
            count += 1
            if (count - 1) % options.every == 0:
                names.append(fault.name)
        names.sort(key=lambda name: hashlib.sha256((bench.name + name).encode()).hexdigest())
        jobs += [(bench.name, set(names[i:i + 8])) for i in range(0, len(names), 8)]
    # In an order that a digest gives, so that a run which is stopped has taken a fair sample.
    return sorted(jobs, key=lambda job: hashlib.sha256((job[0] + sorted(job[1])[0]).encode()).hexdigest())


def keep(records, path):
    if path:
        with open(path, "w") as file:
            json.dump(records, file, indent=0)


def main():
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--binary", help="the built program")
    asked.add_argument("--knowledge", help="knowledge tree to use instead of the one built in")
    asked.add_argument("--only", action="append", help="BENCH or BENCH/FAULT, or the beginning of one")
    asked.add_argument("--every", type=int, default=1)
    asked.add_argument("--seed", type=int, default=1, help="of the values drawn within the parts' tolerance")
    asked.add_argument("--jobs", type=int, default=2)
    asked.add_argument("--trace", action="store_true", help="every check as it is asked")
    asked.add_argument("--must-arrive", action="store_true", help="exit 1 unless every play arrives")
    asked.add_argument("-o", "--output", help="keep the plays in this file")
    asked.add_argument("--resume", action="store_true", help="goes on where the run that wrote -o was stopped")
    asked.add_argument("--report", metavar="FILE", help="print the tables of plays kept before")
    asked.add_argument("--again", metavar="FILE", help="the faults that were played in this file, and no others")
    asked.add_argument("--first-look", action="store_true", help="with --again: tells the complaint and plays no check")
    asked.add_argument("--circuits", action="store_true")
    options = asked.parse_args()
    if options.report:
        with open(options.report) as file:
            print_report(json.load(file))
        return 0
    if options.circuits:
        for bench in benches():
            print(f"\n{bench.name} ({'unseen' if is_unseen(bench) else 'seen'}): {bench.title}, {bench.year}")
            for source in bench.sources:
                print(f"    after {source}")
            for which in ("supply", "stage"):
                for part in bench.net(which, options.seed).parts if getattr(bench, which) else ():
                    if part.group:
                        print(f"    {part.name:6} {part.facts['marked'] * 1e6:10g} uF {part.kind:13} = group:{part.group}")
            for cause in bench.causes:
                print(f"    {'+'.join(cause.parts):13} {'':15} = cause:{cause.cause}@{cause.block}")
        return 0
    if not options.binary:
        asked.error("--binary is needed to play")
    kept = []
    if options.again:
        with open(options.again) as file:
            kept = [r for r in json.load(file) if r["state"] == "played"]
    settings = {"binary": os.path.abspath(options.binary), "knowledge": options.knowledge, "seed": options.seed,
                "trace": options.trace}
    if options.first_look:
        with multiprocessing.Pool(options.jobs) as pool:
            looks = pool.map(look_first, [(r, settings) for r in kept], 1)
        keep(looks, options.output)
        print_first_looks(looks)
        return 0
    jobs = [(name, names, settings) for name, names in chosen(options)]
    records = []
    if options.resume and options.output and os.path.exists(options.output):
        with open(options.output) as file:
            records = json.load(file)
        done = {(r["bench"], r["fault"]) for r in records}
        jobs = [(name, {n for n in names if (name, n) not in done}, s) for name, names, s in jobs]
        jobs = [job for job in jobs if job[1]]
    if kept:
        again = {}
        for record in kept:
            again.setdefault(record["bench"], set()).add(record["fault"])
        jobs = [(name, set(sorted(those)[i:i + 4]), settings) for name, those in again.items() for i in range(0, len(those), 4)]
    if options.jobs == 1 or options.trace:
        for job in jobs:
            records += play_bench(job)
    else:
        with multiprocessing.Pool(options.jobs) as pool:
            for part in pool.imap_unordered(play_bench, jobs):
                records += part
                print(f"\r{len(records)} faults", end="", file=sys.stderr, flush=True)
                keep(records, options.output)
        print(file=sys.stderr)
    keep(records, options.output)
    print_report(records)
    if options.must_arrive:
        return 0 if records and all(r.get("arrived") for r in records) else 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
