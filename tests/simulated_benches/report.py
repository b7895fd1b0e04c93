"""Tables of plays: per kind and half, by what failed, and what stated probabilities were worth."""
import statistics


def ninetieth(values):
    ordered = sorted(values)
    return ordered[min(len(ordered) - 1, int(0.9 * len(ordered)))] if ordered else 0


def row(name, plays):
    if not plays:
        return f"| {name} | 0 | | | | | | | |"
    share = lambda test: f"{100 * sum(map(test, plays)) / len(plays):.0f} %"
    checks = [len(p["steps"]) for p in plays]
    return (f"| {name} | {len(plays)} | {share(lambda p: p['arrived'])} | {share(lambda p: p['mends'][0]['cured'])} | "
            f"{sum(p['needless'] for p in plays) / len(plays):.2f} | {statistics.median(checks):g} | {ninetieth(checks)} | "
            f"{statistics.median(p['minutes'] for p in plays):.0f} | {sum(p['dangerous'] for p in plays)} |")


def mistakes(play):
    """Kinds of mistakes that a play shows, each with the check that shows it."""
    own = play["truth"].partition(":")[2]
    places = {own, own.partition("@")[2]}
    found, before = {}, None
    proved = None
    for i, (check, place, outcome, leader, share, right) in enumerate(play["steps"]):
        mine = place in places
        if mine and outcome == "bad":
            proved = i if proved is None else proved
            if leader != play["truth"]:
                found.setdefault("a bad reading of the part itself, and another leads after it", f"{check}@{place}")
        if before is not None and outcome == "bad" and right < 0.8 * before:
            found.setdefault("a bad reading lowers the guilty one", f"{check}@{place}, {before:.2f} to {right:.2f}")
        if before is not None and mine and outcome == "good" and right < 0.5 * before and before > 0.02:
            found.setdefault("a good reading acquits the guilty one", f"{check}@{place}, {before:.2f} to {right:.2f}")
        before = right
    if play["steps"] and proved is None:
        found["its own place is never read bad"] = f"{len(play['steps'])} checks elsewhere"
    if proved is not None and len(play["steps"]) - 1 - proved >= 4:
        found["checks go on after the part itself read bad"] = f"{len(play['steps']) - 1 - proved} more"
    if play["steps"] and max(step[5] for step in play["steps"]) < 0.02:
        found["the guilty one never has two in a hundred: no way leads from it to the complaint"] = ""
    if any(m["why"] == "settled" and not m["cured"] for m in play["mends"]):
        found["a sound part is called with confidence"] = play["mends"][0]["suspect"]
    return found


def print_mistakes(plays):
    kinds = {}
    for play in plays:
        for kind, what in mistakes(play).items():
            kinds.setdefault(kind, []).append((play, what))
    print("\nKinds of mistakes, by how many plays show them (of these not arrived)\n")
    print("| kind | plays | not arrived | for instance |\n|---|---|---|---|")
    for kind, those in sorted(kinds.items(), key=lambda item: -len(item[1])):
        lost = [t for t in those if not t[0]["arrived"]]
        play, what = sorted(lost or those, key=lambda t: t[0]["half"])[0]
        print(f"| {kind} | {len(those)} | {len(lost)} | {play['bench']}/{play['fault']}: {what} |")


HEAD = ("| | plays | arrived | first mend right | needless parts | checks, median | nine in ten | minutes, median | "
        "dangerous ones |\n|---|---|---|---|---|---|---|---|---|")


def print_report(records):
    plays = [r for r in records if r["state"] == "played"]
    print("Faults by what became of them:")
    for state in sorted({r["state"] for r in records}):
        print(f"  {state}: {sum(r['state'] == state for r in records)}")
    for half in ("seen", "unseen"):
        print(f"\n{half.capitalize()} half\n\n{HEAD}")
        for kind in sorted({r["kind"] for r in records}):
            print(row(kind, [p for p in plays if p["kind"] == kind and p["half"] == half]))
        print(row("all", [p for p in plays if p["half"] == half]))
    print("\nBy what failed, both halves\n\n" + HEAD)
    for mode in sorted({p["mode"] for p in plays}):
        print(row(mode, [p for p in plays if p["mode"] == mode]))
    print("\nStated probability of the leader against how often it was right (every look at the list)\n")
    print("| stated | looks | right | | settled mends | right |\n|---|---|---|---|---|---|")
    stated = [s for p in plays for s in p["stated"]]
    mends = [(m["share"], m["cured"]) for p in plays for m in p["mends"] if m["why"] == "settled"]
    for i in range(10):
        inside = lambda s: min(int(s * 10), 9) == i
        those, mended = [r for s, r in stated if inside(s)], [r for s, r in mends if inside(s)]
        percent = lambda rs: f"{100 * sum(rs) / len(rs):.0f} %" if rs else ""
        print(f"| {i / 10:.1f} to {(i + 1) / 10:.1f} | {len(those)} | {percent(those)} | | {len(mended)} | {percent(mended)} |")
    bad = sum(step[2] == "bad" for p in plays for step in p["steps"])
    every = sum(len(p["steps"]) for p in plays)
    print(f"\nChecks asked: {every}, of which bad: {bad}, unclear: "
          f"{sum(step[2] == 'unclear' for p in plays for step in p['steps'])}.")
    before = [p["first_place"] for p in plays]
    if plays:
        print(f"Right leader before any check: {sum(b == 0 for b in before)} of {len(plays)}, "
              f"in the first three: {sum(b < 3 for b in before)}.")
    print_mistakes(plays)
    print("\nFaults whose own part never leads:")
    for p in plays:
        if not p["led"]:
            told = ", ".join(s for s, _ in p["told"])
            print(f"  {p['half']:6} {p['bench']}/{p['fault']} ({p['truth']}): {told}; "
                  f"place before any check {p['first_place'] + 1}, mended {', '.join(m['suspect'] for m in p['mends'])}")
    for state in ("not listed", "refused", "not simulated"):
        for r in records:
            if r["state"] == state:
                print(f"  {state}: {r['bench']}/{r['fault']} ({r['truth']}) {r.get('why', '')}")


def print_first_looks(looks):
    """Where the right suspect stands before any check, and how much of the chance it has (mean)."""
    print("| | complaints | leads | in the first three | in the first ten | mean share of the right one |\n|---|---|---|---|---|---|")
    for half in ("seen", "unseen"):
        for kind in [*sorted({r["kind"] for r in looks}), "all"]:
            those = [r for r in looks if r["half"] == half and kind in (r["kind"], "all")]
            if those:
                count = lambda most: sum(r["first_place"] < most for r in those)
                print(f"| {half}, {kind} | {len(those)} | {count(1)} | {count(3)} | {count(10)} | "
                      f"{sum(r['share'] for r in those) / len(those):.3f} |")
