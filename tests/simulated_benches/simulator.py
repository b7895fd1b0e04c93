"""Runs a simulated bench in ngspice and hands back what instruments would show.

A bench has two nets. The supply is run over time, loaded by what the stages draw; the stages are then worked out at the
volts that came of it: direct volts, gain at some frequencies, and from each feed to each output, so that hum at an
output is the sum of each feed's ripple times its way there. A stage's distortion comes from a run over time.
"""
import cmath
import math
import os
import re
import subprocess
import tempfile
from dataclasses import dataclass, field

from parts import OPEN_OHM, Net

FREQUENCIES = (50.0, 100.0, 1000.0, 10000.0)


class SimulationFailed(Exception):
    pass


@dataclass
class Bench:
    """One circuit: what it is, how it is built, and which node stands for which place of the program's equipment."""
    kind: str
    variant: str
    year: int
    title: str
    sources: list
    hertz: float = 50.0
    supply: object = None                            # function(net): source, rectifier, filters, regulators
    switching: bool = False                          # a switcher: no mains waves in it
    supply_step: float = 1e-4
    supply_stop: float = 0.5
    supply_window: float = 0.08
    supply_start: dict = field(default_factory=dict)  # volts at which nodes start
    heavy: dict = field(default_factory=dict)         # feed node: amperes drawn on top at full load
    stage: object = None                             # function(net): amplifier stages; signal at node "sig"
    feeds: tuple = ()                                # nodes which the supply makes and the stages draw from
    rails: dict = field(default_factory=dict)         # rail id: node
    blocks: dict = field(default_factory=dict)        # block id: [(input node, output node, side)]
    outputs: dict = field(default_factory=dict)       # side: node at which the owner listens
    output_block: dict = field(default_factory=dict)  # side: block id of the output stage
    points: dict = field(default_factory=dict)        # block id: [(node, node)] whose volts a chart would give
    wipers: dict = field(default_factory=dict)        # block id: [node]
    grids: dict = field(default_factory=dict)         # block id: [node]
    idle: dict = field(default_factory=dict)          # block id: [(node, node)] across an emitter or cathode resistor
    controls: tuple = ()                             # names of volume controls
    half: float = 0.15                               # part of the track below the wiper at half (audio taper)
    quiet: float = 0.05                              # volts at the output in soft listening, peak
    loud: float = 1.0                                # volts at the output that a sound set gives clean, peak
    radio: dict = field(default_factory=dict)         # {"node": .., "blocks": {id: (in, out)}, "hertz": ..}
    fuse: tuple = ()                                 # resistors in the windings, whose current the fuse feels
    hum_volts: float = 0.02                          # at twice the mains rate, peak, from where an owner complains
    kick: tuple = ()                                 # (seconds, step): looks for motorboating after a kick
    causes: list = field(default_factory=list)        # Cause
    valves: dict = field(default_factory=dict)        # block id of a valve: names of its parts
    protected: str = ""                              # block of the loudspeaker relay, if there is one
    missing: dict = field(default_factory=dict)       # rail id: what the owner says where it is missing
    output_rails: dict = field(default_factory=dict)  # rails that the owner uses: {rail id: full-load amperes}

    @property
    def name(self):
        return f"{self.kind}-{self.variant}"

    def net(self, which, seed, fault=None):
        net = Net(f"{self.name}/{which}", seed, fault)
        getattr(self, which)(net)
        return net


@dataclass
class Measured:
    volts: dict = field(default_factory=dict)        # node: direct volts of stages
    amperes: dict = field(default_factory=dict)      # feed node: amperes drawn
    gain: dict = field(default_factory=dict)         # hertz: {node: complex}, for 1 V at "sig"
    radio: dict = field(default_factory=dict)        # node: complex at the radio frequency
    hum: dict = field(default_factory=dict)          # "zero" or "half": {node: (at mains rate, at twice)}
    harmonics: dict = field(default_factory=dict)    # "quiet", "loud": {node: (fundamental, distortion)}
    supply: dict = field(default_factory=dict)       # node: Wave, light load
    full: dict = field(default_factory=dict)         # node: Wave, full load
    fuse_amperes: dict = field(default_factory=dict)  # resistor: amperes r.m.s. at full load
    swings: float = 0.0                              # volts peak to peak by itself, after a kick
    swing_hertz: float = 0.0


@dataclass
class Wave:
    mean: float
    least: float
    most: float
    rms: float
    tones: dict                                      # hertz: complex amplitude

    @property
    def swing(self):
        return self.most - self.least


def run_ngspice(deck, tables=()):
    """Prints of the deck as {name: [complex]}, and its tables as [rows]."""
    with tempfile.TemporaryDirectory(dir="/dev/shm" if os.path.isdir("/dev/shm") else None) as folder:
        path = os.path.join(folder, "deck.cir")
        with open(path, "w") as file:
            file.write(deck.replace("@FOLDER@", folder))
        try:
            run = subprocess.run(["ngspice", "-b", path], capture_output=True, text=True, timeout=300)
        except subprocess.TimeoutExpired as late:
            raise SimulationFailed("ngspice did not come to an end in five minutes") from late
        printed, section = {}, ""
        for line in run.stdout.splitlines():
            if line.startswith("section "):
                section = line.split()[1]
            elif " = " in line:
                name, _, value = line.partition(" = ")
                try:
                    numbers = [float(v) for v in value.replace(",", " ").split()[:2]]
                except ValueError:
                    continue
                if numbers:
                    value = complex(*numbers) if len(numbers) == 2 else numbers[0]
                    printed[(section, name.strip().lower())] = value
        rows = []
        for table in tables:
            file = os.path.join(folder, table)
            if not os.path.exists(file):
                raise SimulationFailed((run.stdout + run.stderr)[-2000:])
            with open(file) as lines:
                rows.append([[float(v) for v in line.split()] for line in lines])
        if not printed and not rows:
            raise SimulationFailed((run.stdout + run.stderr)[-2000:])
        return printed, rows


def wave(times, values, tones):
    """Mean, range and tones of what is periodic in the window; a slow drift is taken out first."""
    span = times[-1] - times[0]
    count = len(values) - 1
    period = max(1, round(count / (span * min(tones))))
    if 2 * period <= count:
        drift = (sum(values[-period:]) - sum(values[:period])) / period / (count + 1 - period)
        values = [v - drift * (i - count) for i, v in enumerate(values)]
    mean = sum(values[:-1]) / count
    found = {}
    for hertz in tones:
        turns = max(1, round(span * hertz))
        step = 2j * math.pi * turns / count
        found[hertz] = 2 / count * sum(v * cmath.exp(-step * i) for i, v in enumerate(values[:-1]))
    rms = math.sqrt(sum(v * v for v in values[:-1]) / count)
    return Wave(mean, min(values), max(values), rms, found)


def resting_volts(net, nodes, loads):
    """Where the supply's nodes come to rest with the windings at 0.9 of their peak, either way round: a start for the
    run over time that does not depend on charges which a real set would have lost long ago."""
    rest = {}
    for sign in (1, -1):
        text = re.sub(r"(?m)^(v\w+ \w+ 0) sin\(0 (-?[\d.]+) [\d.]+\)$",
                      lambda m: f"{m[1]} dc {0.9 * sign * float(m[2]):g}", net.text())
        lines = ["rest", text, *(f"rload{n} {n} 0 {ohm:g}" for n, ohm in loads.items()),
                 ".options gmin=1e-11 itl1=500", ".control", "op", "echo section op",
                 "print " + " ".join(f"v({n})" for n in nodes), "quit", ".endc", ".end"]
        try:
            printed, _ = run_ngspice("\n".join(lines))
        except SimulationFailed:
            continue
        for node in nodes:
            volts = complex(printed.get(("op", f"v({node.lower()})"), 0.0)).real
            if abs(volts) > abs(rest.get(node, 0.0)):
                rest[node] = volts
    return {n: v for n, v in rest.items() if not re.match(r"[wx]b?[12345]?r?$", n)}


def run_supply(bench, net, loads, heavy, before=None):
    """Waves of all nodes of the supply, by `loads` {feed node: ohm} and amperes on top. `before`: where an earlier run
    came to rest."""
    nodes = sorted({n for part in net.parts for n in part.nodes if n != "0"})
    if before:
        start_volts = {n: w.mean for n, w in before.items() if w.swing < 0.5 * abs(w.mean)}
    elif bench.switching:
        start_volts = dict(bench.supply_start)
    else:
        start_volts = resting_volts(net, nodes, loads)
    lines = ["supply", net.text()]
    for node, ohm in loads.items():
        lines.append(f"rload{node} {node} 0 {ohm:g}")
    for node, amperes in (heavy or {}).items():  # a resistor, so that a missing rail draws nothing
        volts = bench.supply_start.get(node, 10.0)
        lines.append(f"rheavy{node} {node} 0 {abs(volts / amperes):g}")
    for node, volts in start_volts.items():
        lines.append(f".ic v({node})={volts:g}")
    for part in net.parts:  # the capacitances stand behind their series resistances
        if part.sort == "C" and part.nodes[0] in start_volts:
            lines.append(f".ic v({part.name.lower()}x)={start_volts[part.nodes[0]]:g}")
    start = bench.supply_stop - bench.supply_window
    vectors = " ".join(f"v({n})" for n in nodes)
    lines += [".options reltol=0.003 method=gear gmin=1e-11 itl1=500 itl2=400 itl4=100", ".control",
              f"tran {bench.supply_step:g} {bench.supply_stop:g} {start:g} {bench.supply_step:g}",
              "linearize " + vectors, "set wr_singlescale", f"wrdata @FOLDER@/out {vectors}", "quit", ".endc", ".end"]
    _, (rows,) = run_ngspice("\n".join(lines), ["out"])
    times = [row[0] for row in rows]
    if times[-1] < bench.supply_stop * 0.99:
        raise SimulationFailed("the supply's run broke off")
    tones = (bench.hertz, 2 * bench.hertz)
    columns = {node: [row[i + 1] for row in rows] for i, node in enumerate(nodes)}
    found = {node: wave(times, values, tones) for node, values in columns.items()}
    for name in bench.fuse:
        part = next(p for p in net.parts if p.name == name)
        ohm = OPEN_OHM if net.fault.get(name) == "open" else part.value
        a, b = (columns[n] for n in part.nodes)
        found[f"fuse {name}"] = wave(times, [(x - y) / ohm for x, y in zip(a, b)], tones)
    return found


def stage_deck(bench, net, feeds, asked):
    """A deck of the stages, with what is `asked`: "op", "gain", "hum", "harmonics", "kick"."""
    nodes = sorted({n for part in net.parts for n in part.nodes if n != "0"} | set(bench.outputs.values()))
    lines = ["stages", net.text(), "vsig sig 0 dc 0 ac 0 sin(0 0 1000)"]
    for node, volts in feeds.items():
        lines += [f"vf{node} {node}i 0 dc {volts:g} ac 0", f"rf{node} {node}i {node} 0.02"]
    if bench.radio:
        lines.append("vrf rfsig 0 dc 0 ac 0")
    vectors = " ".join(f"v({n})" for n in nodes)
    control = [".options gmin=1e-11 itl1=500 itl2=400 reltol=0.002", ".control", "set noaskquit"]

    def volume(name, part):
        ohm = next(p.value for p in net.parts if p.name == name)
        return [f"alter r{name.lower()}hi = {max(ohm * (1 - part), 0.5):g}",
                f"alter r{name.lower()}lo = {max(ohm * part, 0.5):g}"]

    def all_volumes(part):
        return [line for name in bench.controls for line in volume(name, part)]

    control += all_volumes(bench.half)
    control += ["op", "echo section op", f"print {vectors}"]
    control += [f"print i(vf{node})" for node in feeds]
    if "gain" in asked:
        control.append("alter @vsig[acmag] = 1")
        for hertz in FREQUENCIES:
            control += [f"ac lin 1 {hertz:g} {hertz:g}", f"echo section gain{hertz:g}", f"print {vectors}"]
        control.append("alter @vsig[acmag] = 0")
        if bench.radio:
            hertz = bench.radio["hertz"]
            control += ["alter @vrf[acmag] = 1", f"ac lin 1 {hertz:g} {hertz:g}", "echo section radio",
                        f"print {vectors}", "alter @vrf[acmag] = 0"]
    if "hum" in asked:
        outs = " ".join(f"v({n})" for n in nodes)
        for where, part in (("half", bench.half), ("zero", 0.0)):
            control += all_volumes(part)
            for node in feeds:
                control.append(f"alter @vf{node}[acmag] = 1")
                for hertz in (bench.hertz, 2 * bench.hertz):
                    control += [f"ac lin 1 {hertz:g} {hertz:g}", f"echo section hum-{where}-{node}-{hertz:g}",
                                f"print {outs}"]
                control.append(f"alter @vf{node}[acmag] = 0")
        control += all_volumes(bench.half)
    tables = []
    outs = " ".join(f"v({n})" for n in bench.outputs.values())
    if "harmonics" in asked:
        for name, amplitude in asked["harmonics"].items():
            control += [f"alter @vsig[sin] = [ 0 {amplitude:g} 1000 ]", "tran 20u 5m 0 20u", f"linearize {outs}",
                        "set wr_singlescale", f"wrdata @FOLDER@/{name} {outs}"]
            tables.append(name)
    if "kick" in asked and bench.kick:
        seconds, step = bench.kick
        control += [f"alter @vsig[sin] = [ 0 {asked['kick']:g} 40 0 60 ]",
                    f"tran {step:g} {seconds:g} 0 {step:g}", f"linearize {outs}", "set wr_singlescale",
                    f"wrdata @FOLDER@/kick {outs}"]
        tables.append("kick")
    return "\n".join(lines + control + ["quit", ".endc", ".end"]), nodes, tables


def run_stages(bench, net, feeds, ripples, asked):
    deck, nodes, tables = stage_deck(bench, net, feeds, asked)
    printed, rows = run_ngspice(deck, tables)
    found = Measured()
    section = lambda s: {n: printed.get((s, f"v({n.lower()})"), 0.0) for n in nodes}
    if ("op", f"v({nodes[0].lower()})") not in printed:
        raise SimulationFailed("no working point")
    found.volts = {n: complex(v).real for n, v in section("op").items()}
    found.amperes = {n: -complex(printed.get(("op", f"i(vf{n.lower()})"), 0.0)).real for n in feeds}
    if "gain" in asked:
        found.gain = {f: section(f"gain{f:g}") for f in FREQUENCIES}
        if bench.radio:
            found.radio = section("radio") | {"rfsig": 1.0}
    if "hum" in asked:
        for where in ("half", "zero"):
            sums = {n: [0j, 0j] for n in nodes}
            for feed in feeds:
                for i, hertz in enumerate((bench.hertz, 2 * bench.hertz)):
                    way = section(f"hum-{where}-{feed}-{hertz:g}")
                    for n in nodes:
                        sums[n][i] += way[n] * ripples.get(feed, {}).get(hertz, 0)
            found.hum[where] = {n: (abs(a), abs(b)) for n, (a, b) in sums.items()}
    for name, table in zip(tables, rows):
        times = [row[0] for row in table]
        if name == "kick":
            late = [row[1] for row in table if row[0] > 0.6 * times[-1]]
            found.swings = max(late) - min(late)
            middle = sum(late) / len(late)
            turns = sum(1 for a, b in zip(late, late[1:]) if (a - middle) * (b - middle) < 0)
            found.swing_hertz = turns / 2 / (0.4 * times[-1])
            continue
        last = [row for row in table if row[0] >= times[-1] - 2.0001e-3]
        harmonics = {}
        for i, node in enumerate(bench.outputs.values()):
            tones = wave([r[0] for r in last], [r[i + 1] for r in last], [1000.0 * k for k in range(1, 8)]).tones
            rest = math.sqrt(sum(abs(tones[1000.0 * k]) ** 2 for k in range(2, 8)))
            harmonics[node] = (abs(tones[1000.0]), rest)
        found.harmonics[name] = harmonics
    return found


def measure(bench, seed, fault=None, sound=None, bridge=(), short=None, ground_ac=None):
    """All that instruments show of the bench with `fault`. `sound` is the same bench's measure without a fault: it
    gives the level at which the generator is set. `bridge`: names of capacitors across which a good one is held.
    `ground_ac`: a node held to common through a large capacitor."""
    fault = dict(fault or {})
    supply_net = bench.net("supply", seed, fault) if bench.supply else None
    stage_net = bench.net("stage", seed, fault) if bench.stage else None
    for net in filter(None, (supply_net, stage_net)):
        for part in [p for p in net.parts if p.name in bridge]:
            net.raw(f"cbridge{part.name} {part.nodes[0]} {part.nodes[1]} {part.facts['marked']:g}")
    if ground_ac:
        stage_net.raw(f"cground {ground_ac} 0 1")
    starts = bench.supply_start
    feeds = {n: starts[n] for n in bench.feeds}
    waves = {}
    found = Measured()
    full = {}
    for turn in range(3):
        loads = {}
        if stage_net:
            try:
                drawn = run_stages(bench, stage_net, feeds, {}, {"op": True}).amperes
            except SimulationFailed:
                feeds = {n: 0.8 * v for n, v in feeds.items()}
                continue
            loads = {n: max(abs(feeds[n] / i) if abs(i) > 1e-9 else 1e9, 0.05) for n, i in drawn.items()}
        if not supply_net:
            break
        waves = run_supply(bench, supply_net, loads, None, waves)
        now = {n: waves[n].mean for n in bench.feeds}
        moved = max([abs(now[n] - feeds[n]) / max(abs(feeds[n]), 1.0) for n in now] or [0])
        feeds = now
        if moved < 0.03:
            break
    if supply_net and bench.heavy:
        full = run_supply(bench, supply_net, loads, bench.heavy, waves)
    if stage_net:
        asked = {"op": True, "gain": True, "hum": bool(supply_net)}
        if not asked["hum"]:
            del asked["hum"]
        if sound:
            per_volt = max(abs(sound.gain[1000.0][n]) for n in bench.outputs.values())
            asked["harmonics"] = {"quiet": bench.quiet / per_volt, "loud": bench.loud / per_volt}
        if bench.kick:
            per_volt = max(abs(sound.gain[1000.0][n]) for n in bench.outputs.values()) if sound else 100.0
            asked["kick"] = 0.2 * bench.loud / per_volt
        ripples = {n: waves[n].tones for n in bench.feeds} if waves else {}
        found = run_stages(bench, stage_net, feeds, ripples, asked)
    found.supply, found.full = waves, full
    found.fuse_amperes = {n: max(run[f"fuse {n}"].rms for run in (waves, full) if run) for n in bench.fuse}
    return found
