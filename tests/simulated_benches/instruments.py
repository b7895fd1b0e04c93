"""What each check of the program would show on a simulated bench: "good", "bad" or "unclear".

The figures are those which the check itself names for good and bad (`dryout list checks`); where it names none, the
figure stands here. A part is read as it is in circuit, with what lies across it.
"""
import math

from complaints import complaints, decibels, fuse_blown, hot_parts
from direct_looks import DIRECT, FINDS_NOTHING, LOOKS_AT_ITSELF, POWERED_DEAD_SET, SEEN_BY_EYE
from parts import draw
from simulator import SimulationFailed, measure

GOOD, BAD, UNCLEAR = "good", "bad", "unclear"


class Instruments:
    def __init__(self, bench, seed, fault, sound, now, told):
        self.bench, self.seed, self.fault = bench, seed, fault
        self.sound, self.now, self.told = sound, now, told
        self.nets = {w: bench.net(w, seed, fault.parts) for w in ("supply", "stage") if getattr(bench, w)}
        self.sound_nets = {w: bench.net(w, seed) for w in self.nets}
        self.groups = {}
        for which, net in self.nets.items():
            for part in net.parts:
                if part.group:
                    self.groups.setdefault(part.group, []).append((which, part))
        self.blown = fuse_blown(sound, now)
        self.kept = {}

    def chance(self, share, *words):
        return draw(self.seed, self.bench.name, self.fault.name, *words).random() < share

    # ---- whose fault is it -------------------------------------------------------------------------------

    def mode_of(self, group):
        for _, part in self.groups.get(group, ()):
            if part.name in self.fault.parts:
                return self.fault.parts[part.name]
        return None

    def answer(self, check, place, state):
        """The outcome of check@place; the same whenever it is asked again."""
        key = (check, place)
        if key not in self.kept:
            self.kept[key] = self._answer(check, place, state)
        return self.kept[key]

    def _answer(self, check, place, state):
        if self.blown and state == "powered" and check not in POWERED_DEAD_SET:
            return UNCLEAR
        if self.fault.cause and self.fault.block == place and check in DIRECT.get(self.fault.cause, {}):
            return BAD if self.chance(DIRECT[self.fault.cause][check], check) else GOOD
        method = getattr(self, check.replace("-", "_"), None)
        if method is None:
            if state != "powered" or check in LOOKS_AT_ITSELF | FINDS_NOTHING:
                return GOOD
            return UNCLEAR if self.fault.block == place or self.mode_of(place) else GOOD
        try:
            return method(place)
        except SimulationFailed:
            return UNCLEAR

    # ---- rails -------------------------------------------------------------------------------------------

    def rail(self, rail, full=False):
        """(now, sound) of a rail: waves of the supply, or direct volts where the stages make it."""
        node = self.bench.rails.get(rail)
        if node is None:
            return None
        if node in self.now.supply:
            run = self.now.full if full and self.now.full else self.now.supply
            before = self.sound.full if full and self.sound.full else self.sound.supply
            return run[node], before[node]
        return None

    def mean(self, rail, full=True):
        waves = self.rail(rail, full)
        if waves:
            return waves[0].mean, waves[1].mean
        node = self.bench.rails.get(rail)
        if node in self.now.volts:
            return self.now.volts[node], self.sound.volts[node]
        return None

    def rail_low(self, rail, share):
        volts = self.mean(rail)
        if volts is None:
            return GOOD
        return BAD if volts[0] / volts[1] < share else GOOD

    def rail_volts(self, rail):
        unregulated = ("plus", "minus", "small-raw", "raw", "aux-raw", "battery")
        return self.rail_low(rail, 0.80 if rail in unregulated else 0.95)

    def rail_volts_high_tension(self, rail):
        return self.rail_low(rail, 0.85)

    def rail_high(self, rail):
        volts = self.mean(rail, False)
        return BAD if volts and volts[0] / volts[1] > 1.06 else GOOD

    def ripple(self, rail, least):
        waves = self.rail(rail, True)
        if waves is None:
            return GOOD
        now, sound = waves
        if abs(now.mean) < 0.1 * abs(sound.mean):
            return UNCLEAR
        return BAD if now.swing > max(2 * sound.swing, least) else GOOD

    def ripple_raw(self, rail):
        waves = self.rail(rail, True)
        return self.ripple(rail, 0.02 * abs(waves[1].mean)) if waves else GOOD

    def ripple_regulated(self, rail):
        return self.ripple(rail, 0.02)

    def ripple_high_tension(self, rail):
        waves = self.rail(rail, True)
        return self.ripple(rail, 0.002 * abs(waves[1].mean)) if waves else GOOD

    def ripple_switching(self, rail):
        return self.ripple(rail, 0.03)

    rail_noise_at_board = ripple_switching

    def ripple_shape(self, rail):
        waves = self.rail(rail, True)
        if waves is None:
            return GOOD
        mains, twice = (abs(waves[0].tones[h]) for h in (self.bench.hertz, 2 * self.bench.hertz))
        return BAD if mains > 0.7 * twice and waves[0].swing > 0.01 * abs(waves[0].mean) else GOOD

    def trough_above_dropout(self, rail):
        needs = {"raw": "output", "aux-raw": "aux", "small-raw": "audio-24"}.get(rail)
        waves = self.rail(rail, True)
        if waves is None:
            return GOOD
        if needs:
            return BAD if 0.9 * waves[0].least < self.rail(needs, True)[1].mean + 2.0 else GOOD
        return BAD if abs(waves[0].mean) - waves[0].swing / 2 < 0.8 * abs(waves[1].mean) else GOOD

    def sag_at_full_output(self, rail):
        waves = self.rail(rail, True)
        if waves is None:
            return GOOD
        return BAD if abs(waves[0].mean) < 0.85 * abs(waves[1].mean) or waves[0].swing > 2 * waves[1].swing + 0.3 else GOOD

    def load_step(self, rail):
        light, full = self.mean(rail, False), self.mean(rail, True)
        if light is None:
            return GOOD
        waves = self.rail(rail, True)
        dips = abs(full[0]) < 0.95 * abs(light[0]) or (waves and waves[0].swing > 0.05 * abs(waves[1].mean))
        return BAD if dips or abs(light[0]) < 0.5 * abs(light[1]) else GOOD

    def rail_current(self, rail):
        node = self.bench.rails.get(rail)
        now, sound = self.now.amperes.get(node), self.sound.amperes.get(node)
        if now is None or abs(sound) < 1e-6:
            return GOOD if node else GOOD
        return BAD if abs(now) > 2 * abs(sound) else GOOD

    def unload_rails(self, rail):
        node = self.bench.rails.get(rail)
        drawn = self.rail_current(rail) == BAD
        in_load = any(p.name in self.fault.parts for p in self.nets["stage"].parts) if "stage" in self.nets else False
        return BAD if node and drawn and in_load else GOOD

    def rail_resistance_cold(self, rail):
        node = self.bench.rails.get(rail)
        for which, net in self.nets.items():
            if any(node in p.nodes for p in net.parts):
                now = abs(net.seen_across(node, "0", 0))
                sound = abs(self.sound_nets[which].seen_across(node, "0", 0))
                if now < 0.3 * sound and now < 20e3:
                    return BAD
        return GOOD

    def bring_up_high_tension(self, rail):
        return BAD if self.rail_resistance_cold(rail) == BAD or self.rail_current(rail) == BAD else GOOD

    # ---- stages ------------------------------------------------------------------------------------------

    def block_levels(self, block):
        """For each way through the block: decibels now and in the sound set, at each frequency."""
        for given, out, _side in self.bench.blocks.get(block, ()):
            levels = {}
            for hertz, nodes in self.now.gain.items():
                if abs(self.sound.gain[hertz][given]) < 1e-9:
                    continue
                before = decibels(self.sound.gain[hertz][out], self.sound.gain[hertz][given])
                if abs(nodes[given]) < 1e-3 * abs(self.sound.gain[hertz][given]):
                    levels = None  # nothing comes in: the stage cannot be told
                    break
                levels[hertz] = decibels(nodes[out], nodes[given]) - before
            yield levels

    def by_levels(self, block, judge):
        every = list(self.block_levels(block))
        if self.bench.radio.get("blocks", {}).get(block) and not every:
            return GOOD
        if any(levels and judge(levels) for levels in every):
            return BAD
        if every and all(levels is None for levels in every):
            return UNCLEAR
        return GOOD

    def trace_audio(self, block):
        return self.by_levels(block, lambda v: v[1000.0] < -6)

    def low_tones(self, block):
        return self.by_levels(block, lambda v: v[100.0] - v[1000.0] < -3 and v[1000.0] > -30)

    def high_tones(self, block):
        return self.by_levels(block, lambda v: v[10000.0] - v[1000.0] < -4 and v[1000.0] > -30)

    def swap_channels(self, block):
        if len(self.bench.outputs) < 2:
            return GOOD
        found = [self.trace_audio(block), self.low_tones(block), self.shape_audio(block)]
        return BAD if BAD in found else UNCLEAR if UNCLEAR in found else GOOD

    def distorting(self):
        return any(s.startswith("distorted") for s, _ in self.told)

    def shape_audio(self, block):
        """The stage whose working points are off distorts; the shape alone is seen at the output."""
        if not self.distorting():
            return GOOD
        return self.working_points(block)

    def working_points(self, block):
        worst = GOOD
        for a, b in self.bench.points.get(block, ()):
            at = lambda m, n: 0.0 if n == "0" else m.volts.get(n, m.supply[n].mean if n in m.supply else 0.0)
            now, sound = at(self.now, a) - at(self.now, b), at(self.sound, a) - at(self.sound, b)
            moved = abs(now - sound)
            if moved > 0.15 * abs(sound) and moved > 0.15:
                return BAD
            if moved > 0.1 * abs(sound) and moved > 0.1:
                worst = UNCLEAR
        return worst

    def idle_current(self, block):
        for a, b in self.bench.idle.get(block, ()):
            drop = lambda m: m.volts.get(a, 0.0) - (0.0 if b == "0" else m.volts.get(b, 0.0))
            if abs(drop(self.now) - drop(self.sound)) > 0.5 * abs(drop(self.sound)) + 1e-3:
                return BAD
        return GOOD

    def offset_at_output(self, block):
        sides = [s for s, b in self.bench.output_block.items() if b == block or block == f"out-{s}" or block == "speaker"]
        worst = max([abs(self.now.volts[self.bench.outputs[s]] - self.sound.volts[self.bench.outputs[s]]) for s in sides]
                    or [0])
        if block == "output" and "mid" in self.now.volts:
            worst = 0.3 if abs(self.now.volts["mid"] / self.sound.volts["mid"] - 1) > 0.2 else 0.0
        return BAD if worst > 0.2 else UNCLEAR if worst > 0.05 else GOOD

    def wiper_direct_volts(self, block):
        worst = max([abs(self.now.volts[n] - self.sound.volts[n]) for n in self.bench.wipers.get(block, ())] or [0])
        return BAD if worst > 0.01 else GOOD

    def grid_volts_valve_in(self, block):
        worst = max([self.now.volts[n] - self.sound.volts[n] for n in self.bench.grids.get(block, ())] or [0])
        return BAD if worst > 0.5 else GOOD

    def humming(self):
        return any(s in ("hum-steady", "hum-mains-rate", "input-hum") for s, _ in self.told)

    def hum_with_held(self, node):
        now = measure(self.bench, self.seed, self.fault.parts, self.sound, ground_ac=node)
        return {n: math.hypot(*now.hum["zero"][n]) for n in self.bench.outputs.values()}

    def hum_halving(self, block):
        """Hum stays with this stage's input held to common and goes with the next one's."""
        if not self.humming() or not self.now.hum or block not in self.bench.blocks:
            return GOOD
        there = {n: math.hypot(*self.now.hum["zero"][n]) for n in self.bench.outputs.values()}
        for given, out, side in self.bench.blocks[block]:
            node = self.bench.outputs.get(side) or next(iter(self.bench.outputs.values()))
            if there[node] < self.bench.hum_volts:
                continue
            if given == "sig" or self.hum_with_held(given)[node] > 0.5 * there[node]:
                last = block in self.bench.output_block.values()
                if last or self.hum_with_held(out)[node] < 0.3 * there[node]:
                    return BAD
        return GOOD

    def inject_receive(self, block):
        way = self.bench.radio.get("blocks", {}).get(block)
        if way is None:
            return self.trace_audio(block) if block == "detector" else GOOD
        given, out = way
        if abs(self.now.radio[given]) < 1e-6:
            return UNCLEAR
        gain = lambda m: decibels(m.radio[out], m.radio[given])
        return BAD if gain(self.now) - gain(self.sound) < -6 else GOOD

    def oscillator_heard(self, block):
        """An oscillator stands still where its rail is missing."""
        rails = [r for r, symptom in self.bench.missing.items() if symptom == "no-reception"]
        rails += ["filtered"] if self.bench.kind == "transistor-portable" else []
        rails += ["ht"] if "htraw" in self.bench.feeds else []
        return BAD if any(self.rail_low(rail, 0.5) == BAD for rail in rails) else GOOD

    def control_line(self, block):
        return self.working_points(block) if block in self.bench.points else GOOD

    def wideband_look(self, block):
        oscillates = self.now.swings > 0.05 * self.bench.loud and self.bench.stage
        return BAD if oscillates and block in self.bench.output_block.values() else GOOD

    def sight_burnt(self, block):
        hot = [b for _, b in hot_parts(self.bench, self.seed, self.fault.parts, self.now)]
        return BAD if block in hot and self.chance(0.8, "burnt", block) else GOOD

    def heat_picture(self, block):
        hot = [b for _, b in hot_parts(self.bench, self.seed, self.fault.parts, self.now)]
        return BAD if block in hot else GOOD

    def mute_time(self, block):
        return BAD if any(s == "relay-never-closes" for s, _ in self.told) else GOOD

    def protection_inputs(self, block):
        return self.mute_time(block)

    def reference_volts(self, block):
        if block == "reference-source":
            return self.rail_low("reference", 0.97)
        return GOOD

    # ---- the mains side ----------------------------------------------------------------------------------

    def fuse_glass(self, block):
        return BAD if self.blown and block == "entry" else GOOD

    fuse_and_lead = fuse_glass

    def series_lamp_start(self, block):
        return BAD if self.blown else GOOD

    def better_when_warm(self, _place):
        return GOOD

    def valve_glow(self, block):
        return GOOD

    # ---- parts -------------------------------------------------------------------------------------------

    def across(self, which, part, hertz, sound=False):
        net = (self.sound_nets if sound else self.nets)[which]
        return net.seen_across(part.nodes[0], part.nodes[1], hertz)

    def esr(self, group):
        """Over the limit: more than three times what the sound part shows in its place, and 0.3 ohm. A short reads
        as an excellent part."""
        for which, part in self.groups.get(group, ()):
            if abs(self.across(which, part, 1e5)) > max(3 * abs(self.across(which, part, 1e5, True)), 0.3):
                return BAD
        return GOOD

    esr_in_circuit = esr_small_parts = esr_startup = esr_reservoirs = esr

    def capacitance_in_circuit(self, group):
        for which, part in self.groups.get(group, ()):
            z = self.across(which, part, 120)
            if abs(z.imag) < 0.2 * abs(z.real):
                return BAD if abs(z) < 100 else UNCLEAR
            if -1 / (2 * math.pi * 120 * z.imag) < 0.7 * part.facts["marked"]:
                return BAD
        return GOOD

    def lifted_bridge(self, group):
        """Capacitance and loss at 120 Hz with a leg free."""
        mode = self.mode_of(group)
        if mode in (None, "leaky"):
            for which, part in self.groups.get(group, ()) if mode else ():
                farad, _, leak = self.nets[which].capacitor_now(part)
                if 1 / (2 * math.pi * 120 * leak * farad) > 0.2:
                    return BAD
            return GOOD
        return BAD

    lifted_bridge_electrolytic = lifted_bridge_big = lifted_bridge_film = lifted_x_capacitance = lifted_bridge
    run_capacitor = lifted_bridge

    def leaks(self, group):
        return BAD if self.mode_of(group) in ("leaky", "shorted") else GOOD

    lifted_leakage_electrolytic = lifted_leakage_big = lifted_insulation_paper = y_parts_lifted = leaks
    can_sections = suppressor_across_diode = plate_block_voltage = leaks

    def sight(self, group):
        mode = self.mode_of(group)
        return BAD if mode and self.chance(SEEN_BY_EYE[mode], "sight", group) else GOOD

    sight_electrolytics = sight_paper = sight_tantalum = sight_mains_parts = tracks_near_seep = sight

    def warm(self, group):
        for which, part in self.groups.get(group, ()):
            volts = self.now.volts if which == "stage" else {n: w.mean for n, w in self.now.supply.items()}
            a, b = (volts.get(n, 0.0) if n != "0" else 0.0 for n in part.nodes)
            if (a - b) ** 2 / self.nets[which].capacitor_now(part)[2] > 0.5:
                return BAD
        return GOOD

    can_warmth = thermal_short = warm

    def milliohm_hunt(self, group):
        return BAD if self.mode_of(group) == "shorted" else GOOD

    def bridged(self, group):
        """A good part is held across each of the group: does the complaint go?"""
        parts = [part.name for _, part in self.groups.get(group, ())]
        if not parts or not self.told:
            return GOOD
        now = measure(self.bench, self.seed, self.fault.parts, self.sound, bridge=parts)
        left = {s for s, _ in complaints(self.bench, self.seed, self.fault.parts, self.sound, now)}
        return BAD if self.told[0][0] not in left else GOOD

    bridge_decoupling = bridge_reservoir = bridge_coupling = bypass_add = suppressor_bridge = bridged

    def both_ends_coupling(self, group):
        worst = GOOD
        for which, part in self.groups.get(group, ()):
            a, b = part.nodes
            if which != "stage":
                continue
            if abs(self.now.gain[1000.0][a]) < 1e-9:
                worst = UNCLEAR
                continue
            lost = {f: decibels(self.now.gain[f][a], self.now.gain[f][b]) for f in (100.0, 1000.0)}
            before = {f: decibels(self.sound.gain[f][a], self.sound.gain[f][b]) for f in (100.0, 1000.0)}
            if lost[1000.0] > max(0.5, before[1000.0] + 0.5) or lost[100.0] > max(1.5, before[100.0] + 1.5):
                return BAD
        return worst

    def signal_across_bypass(self, group):
        """More than a tenth of the stage's input signal stands across the part, and plainly more than it should."""
        for which, part in self.groups.get(group, ()):
            if which != "stage":
                waves = self.now.full or self.now.supply
                node = next((n for n in part.nodes if n in waves), None)
                before = (self.sound.full or self.sound.supply).get(node)
                if node and waves[node].swing > max(3 * before.swing, 0.01 * abs(before.mean)):
                    return BAD
                continue
            node = next((n for n in part.nodes if n != "0"), None)
            ways = self.bench.blocks.get(part.block) or []
            way = next((w for w in ways if w[2][:1] == part.name[-1:]), ways[0] if ways else None)
            table, before = ((self.now.gain[1000.0], self.sound.gain[1000.0]) if way else (self.now.radio, self.sound.radio))
            given = way[0] if way else self.bench.radio.get("blocks", {}).get(part.block, (None,))[0]
            if node in table and given in table and abs(table[node]) > max(0.1 * abs(table[given]), 3 * abs(before[node])):
                return BAD
        return GOOD

    def direct_volts_behind_coupling(self, group):
        for which, part in self.groups.get(group, ()):
            if which == "stage":
                far = part.nodes[1]
                moved = abs(self.now.volts.get(far, 0.0) - self.sound.volts.get(far, 0.0))
                if moved > max(0.02, 0.1 * abs(self.sound.volts.get(far, 0.0))):
                    return BAD
        return GOOD

    def grid_volts_valve_out(self, group):
        for which, part in self.groups.get(group, ()):
            if "grid_leak" in part.facts:
                leak = self.nets[which].capacitor_now(part)[2]
                ohm = part.facts["grid_leak"]
                if self.now.volts[part.nodes[0]] * ohm / (ohm + leak) > 0.5:
                    return BAD
        return GOOD

    def screen_volts(self, group):
        for which, part in self.groups.get(group, ()):
            if which == "stage":
                now, sound = self.now.volts.get(part.nodes[0], 0.0), self.sound.volts.get(part.nodes[0], 0.0)
                if abs(now - sound) > 0.15 * abs(sound) and abs(now - sound) > 1:
                    return BAD
        return GOOD

    def timing_node(self, group):
        mode = self.mode_of(group)
        if mode == "leaky":
            return self.direct_volts_at(group)
        return BAD if mode else GOOD

    def direct_volts_at(self, group):
        for _, part in self.groups.get(group, ()):
            now, sound = self.now.volts.get(part.nodes[0], 0.0), self.sound.volts.get(part.nodes[0], 0.0)
            if abs(now - sound) > 0.1 * abs(sound):
                return BAD
        return GOOD

    def if_slug_peaks(self, group):
        return BAD if self.mode_of(group) in ("drifted", "open", "shorted") else GOOD

    def if_secondary_direct_volts(self, group):
        return GOOD
