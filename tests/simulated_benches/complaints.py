"""What an owner would complain of, from what the simulation gives. The thresholds stand here and in the README."""
import math

# Thresholds. Common practice, no source, unless said.
DEAD_DB = -30.0
WEAK_DB = -6.0             # half the voltage: plainly heard side by side
BASS_DB = -4.0             # at 100 Hz against 1 kHz, beyond what the sound set does
TREBLE_DB = -5.0           # at 10 kHz against 1 kHz
DISTORTED = 0.06           # harmonics to fundamental
CLIPPED = 0.12
HUM_FACTOR = 3.0           # times what the sound set hums, and above the bench's own `hum_volts`
RELAY_OPENS_V = 1.0        # direct volts at which a loudspeaker protection stays open
SCRATCH_V = 0.03           # direct volts on a track that are heard when it is turned
GRID_SHIFT_V = 2.0         # a grid so far above its place reddens its valve in time
BURN_FACTOR = 4.0          # watts in a resistor against its rating
FUSE_FACTOR = 3.0          # times the full-load amperes of the sound set
RED_FACTOR = 1.25          # watts in an anode against its rating
RAIL_LOW, RAIL_HIGH, SAG = 0.95, 1.06, 0.97
UNSTEADY_V = 0.02          # peak to peak at a linear bench supply's posts
SWITCHER_RIPPLE = {"plus-5": 0.10, "plus-12": 0.24, "minus-12": 0.24}  # peak to peak: 2 % (sheets say 1 %)
RADIO_WEAK_DB, RADIO_DEAD_DB, RADIO_OVER_DB = -8.0, -30.0, 3.0


def decibels(now, before):
    return 20 * math.log10(max(abs(now), 1e-12) / max(abs(before), 1e-12))


def fuse_blown(sound, now):
    """A fuse is rated at about one and a half times the full load and goes at about twice its rating; a switcher's
    control trips at about the same."""
    return any(now.fuse_amperes[n] > FUSE_FACTOR * max(sound.fuse_amperes.values()) for n in now.fuse_amperes)


def watts_of(part, volts):
    a, b = (volts.get(n, 0.0) if n != "0" else 0.0 for n in part.nodes[:2])
    return (a - b) ** 2 / part.value


def hot_parts(bench, seed, fault, now):
    """Names and blocks of resistors and valves that take far more than they are made for."""
    found = []
    for which, volts in (("stage", now.volts), ("supply", {n: w.mean for n, w in now.supply.items()})):
        if getattr(bench, which) is None:
            continue
        net = bench.net(which, seed, fault)
        for part in net.parts:
            if part.sort == "R" and part.watt and part.name not in fault:
                if watts_of(part, volts) > BURN_FACTOR * part.watt:
                    found.append((part.name, part.block))
            elif part.sort == "P" and part.watt and part.name not in fault:
                at = lambda n: volts.get(n, 0.0) if n != "0" else 0.0
                anode, grid, screen, cathode = map(at, part.nodes)
                drive = grid - cathode + (screen - cathode) / part.facts["mu"]
                if drive > 0 and part.value * drive ** 1.5 * (anode - cathode) > RED_FACTOR * part.watt:
                    found.append((part.name, part.block))
    return found


def of_supplies(bench, sound, now, tell):
    worst = None
    for rail, amperes in bench.output_rails.items():
        node = bench.rails[rail]
        light, light_sound = now.supply[node], sound.supply[node]
        full, full_sound = now.full.get(node, light), sound.full.get(node, light_sound)
        ratio, loaded = light.mean / light_sound.mean, full.mean / full_sound.mean
        if ratio < 0.2:
            worst = "missing" if worst in (None, "missing") else worst
            if bench.kind == "bench-supply" or rail == "plus-5":
                tell("dead-fuse-good")
            else:
                tell("rail-low")
            continue
        if ratio > RAIL_HIGH:
            tell("rail-high")
        elif ratio < RAIL_LOW:
            tell("rail-low")
        elif loaded < SAG:
            tell("supply-sags")
        swing = max(light.swing, full.swing)
        swing_sound = max(light_sound.swing, full_sound.swing)
        if bench.kind == "bench-supply":
            if swing > max(UNSTEADY_V, 4 * swing_sound):
                tell("supply-unsteady")
        elif swing > max(SWITCHER_RIPPLE[rail], 2 * swing_sound):
            if rail == "plus-5":
                tell("resets-under-load")
            tell("supply-unsteady")


def of_outputs(bench, sound, now, tell):
    dead, weak, sides = [], [], list(bench.outputs)
    for side, node in bench.outputs.items():
        level = decibels(now.gain[1000.0][node], sound.gain[1000.0][node])
        if level < DEAD_DB:
            dead.append(side)
        elif level < WEAK_DB:
            weak.append(side)
    channel = lambda those: {"channel": those[0]} if len(sides) > 1 and len(those) == 1 else {}
    if len(dead) == len(sides):
        tell("dead-fuse-good" if bench.kind == "transistor-portable" and abs(now.volts.get("bat", 9)) < 2
             else "no-sound-lamps-lit")
    elif dead:
        tell("one-channel-dead", channel=dead[0])
    if len(weak) == len(sides):
        tell("weak-audio")
    elif weak and not dead:
        tell("imbalance", channel=weak[0])
    found = {}
    for side, node in bench.outputs.items():
        if side in dead:
            continue
        middle, before = now.gain[1000.0][node], sound.gain[1000.0][node]
        low = decibels(now.gain[100.0][node], middle) - decibels(sound.gain[100.0][node], before)
        high = decibels(now.gain[10000.0][node], middle) - decibels(sound.gain[10000.0][node], before)
        if low < BASS_DB:
            found.setdefault("no-bass", []).append(side)
        if high < TREBLE_DB:
            found.setdefault("no-treble", []).append(side)
        if now.harmonics:
            ratio = {n: now.harmonics[n][node][1] / max(now.harmonics[n][node][0], 1e-9) for n in ("quiet", "loud")}
            good = {n: sound.harmonics[n][node][1] / max(sound.harmonics[n][node][0], 1e-9) for n in ("quiet", "loud")}
            quiet = ratio["quiet"] > max(DISTORTED, 2 * good["quiet"])
            loud = ratio["loud"] > max(CLIPPED, 2 * good["loud"])
            if quiet and ratio["loud"] > DISTORTED:
                found.setdefault("distorted-always", []).append(side)
            elif quiet:
                found.setdefault("distorted-quiet", []).append(side)
            elif loud:
                found.setdefault("distorted-loud", []).append(side)
        for where in ("zero", "half") if now.hum else ():
            mains, twice = now.hum[where][node]
            limit = max(bench.hum_volts, HUM_FACTOR * math.hypot(*sound.hum[where][node]))
            if math.hypot(mains, twice) > limit:
                name = "hum-mains-rate" if mains > 1.5 * twice else "hum-steady"
                found.setdefault((name, "not" if where == "zero" else "volume"), []).append(side)
                break
    for what, those in found.items():
        if isinstance(what, tuple):
            name, follows = what
            tell(name, follows=follows, rate="mains" if name == "hum-mains-rate" else "twice", **channel(those))
        else:
            tell(what, **channel(those))


def of_radio(bench, sound, now, tell):
    last = list(bench.radio["blocks"].values())[-1][1]
    level = decibels(now.radio[last], sound.radio[last])
    if level < RADIO_DEAD_DB:
        tell("no-reception")
    elif level < RADIO_WEAK_DB:
        tell("weak-all-bands")
    elif level > RADIO_OVER_DB:
        tell("overloads-strong")


def complaints(bench, seed, fault, sound, now):
    """[(symptom id, {"channel": .., "follows": .., "rate": ..})], the plainest first, at most three."""
    told = {}

    def tell(symptom, **where):
        told.setdefault(symptom, where)

    if fuse_blown(sound, now):
        tell("ticks-never-starts" if bench.kind == "switch-mode-supply" else "dead-fuse-blown")
        return list(told.items())
    if bench.output_rails:
        of_supplies(bench, sound, now, tell)
    for rail, symptom in bench.missing.items():
        node = bench.rails[rail]
        if abs(now.supply[node].mean) < 0.6 * abs(sound.supply[node].mean):
            tell(symptom)
            if symptom == "relay-never-closes":
                return list(told.items())
    if bench.stage:
        offset = max(abs(now.volts[n] - sound.volts[n]) for n in bench.outputs.values())
        if bench.protected and offset > RELAY_OPENS_V:
            tell("relay-never-closes")
            return list(told.items())
        if now.swings > 0.1 * bench.loud:
            tell("motorboating" if now.swing_hertz < 100 else "amplifier-oscillates")
        bias = now.volts.get("bias", 0.0) - sound.volts.get("bias", 0.0)
        if any(now.volts[g] - sound.volts[g] - bias > GRID_SHIFT_V for nodes in bench.grids.values() for g in nodes):
            tell("distorted-when-warm")  # the owner says this, and not also that it is distorted
        of_outputs(bench, sound, now, lambda s, **w: None if s.startswith("distorted") and "distorted-when-warm" in told
                   else tell(s, **w))
        if bench.radio and "no-sound-lamps-lit" not in told and "dead-fuse-good" not in told:
            of_radio(bench, sound, now, tell)
        if any(abs(now.volts[w] - sound.volts[w]) > SCRATCH_V for nodes in bench.wipers.values() for w in nodes):
            tell("scratchy-controls")
    if hot_parts(bench, seed, fault, now):
        tell("burning-smell")
    return list(told.items())[:3]
