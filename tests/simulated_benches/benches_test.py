#!/usr/bin/env python3
"""The simulated benches against formulae of the trade, and their table of parts against the program's equipment.

The program itself is not asked anything here. Formulae, all from memory unless said: ripple I/(2 f C) behind a
full-wave rectifier, corner 1/(2 pi R C) (US Navy NEETS Module 6 and 8), stage gains (NEETS Module 7; Terman, Radio
Engineers' Handbook, 1943), nodal analysis against ngspice.
"""
import json
import math
import os
import pathlib
import sys
import unittest

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))

from faults import benches, faults, is_unseen  # noqa: E402
from parts import Net  # noqa: E402
from simulator import Bench, measure, run_ngspice  # noqa: E402

RULES = pathlib.Path(__file__).resolve().parent.parent.parent / "rules"


def bare(**facts):
    return Bench("formula", "x", 1970, "for a formula", [], **facts)


def rectifier(farad, ohm, broken=False):
    def supply(net):
        net.raw("vw1 w1 0 sin(0 40 50)")
        net.raw("vw2 w2 0 sin(0 -40 50)")
        net.resistor("RW1", "w1", "w1r", 0.05, tolerance=0)
        net.resistor("RW2", "w2", "w2r", 0.05, tolerance=0)
        net.diode("D1", "w1r", "plus", "dpower")
        if not broken:
            net.diode("D2", "w2r", "plus", "dpower")
        net.capacitor("C", "plus", "0", farad)
        net.parts[-1].value = farad
        net.resistor("RL", "plus", "0", ohm, tolerance=0)
    return bare(supply=supply, supply_stop=0.3)


class Formulae(unittest.TestCase):
    def test_ripple_behind_a_reservoir(self):
        for farad, ohm in ((4700e-6, 40), (1000e-6, 100), (10000e-6, 20)):
            plus = measure(rectifier(farad, ohm), 1).supply["plus"]
            formula = plus.mean / ohm / (2 * 50 * farad)
            # The formula lets the capacitor feed the load the whole half period: the truth lies a little below.
            self.assertLess(plus.swing, 1.02 * formula)
            self.assertGreater(plus.swing, 0.7 * formula)
            self.assertGreater(abs(plus.tones[100.0]), 20 * abs(plus.tones[50.0]))

    def test_an_open_diode_doubles_the_ripple_and_halves_its_rate(self):
        whole, half = (measure(rectifier(4700e-6, 40, broken), 1).supply["plus"] for broken in (False, True))
        self.assertGreater(half.swing, 1.8 * whole.swing)
        self.assertGreater(abs(half.tones[50.0]), 2 * abs(half.tones[100.0]))

    def test_a_coupling_part_and_its_load_have_their_corner_at_one_over_two_pi_r_c(self):
        def stage(net):
            net.capacitor("C", "sig", "out", 47e-9, kind="film")
            net.parts[-1].value = 47e-9
            net.resistor("R", "out", "0", 1 / (2 * math.pi * 100 * 47e-9), tolerance=0)
        found = measure(bare(stage=stage, outputs={"": "out"}), 1)
        self.assertAlmostEqual(abs(found.gain[100.0]["out"]), math.sqrt(0.5), delta=0.005)
        self.assertAlmostEqual(abs(found.gain[1000.0]["out"]), 10 / math.sqrt(101), delta=0.005)

    def common_emitter(self, bypassed):
        def stage(net):
            net.raw("vcc cc 0 20")
            net.raw("cin sig b 100u")
            net.resistor("R1", "cc", "b", 100e3, tolerance=0)
            net.resistor("R2", "b", "0", 22e3, tolerance=0)
            net.resistor("RC", "cc", "c", 4700, tolerance=0)
            net.resistor("RE", "e", "0", 1500, tolerance=0)
            net.transistor("Q", "c", "b", "e", "qn")
            if bypassed:
                net.raw("ce e 0 4700u")
        return measure(bare(stage=stage, outputs={"": "c"}), 1)

    def test_gain_of_a_common_emitter_stage(self):
        found = self.common_emitter(True)
        amperes = (20 - found.volts["c"]) / 4700
        gain = amperes / 0.02585 / (1 / 4700 + amperes / (100 + found.volts["c"] - found.volts["b"]))  # gm (Rc || Va/Ic)
        self.assertAlmostEqual(abs(found.gain[1000.0]["c"]) / gain, 1.0, delta=0.05)
        self.assertAlmostEqual(abs(self.common_emitter(False).gain[1000.0]["c"]) / (4700 / (1500 + 0.02585 / amperes)), 1.0,
                               delta=0.03)

    def test_gain_of_a_triode_stage(self):
        def stage(net):
            net.raw("vcc ht 0 250")
            net.resistor("RA", "ht", "a", 100e3, tolerance=0)
            net.resistor("RK", "k", "0", 1500, tolerance=0)
            net.raw("ck k 0 4700u")
            net.raw("cin sig g 1u")
            net.resistor("RG", "g", "0", 1e6, tolerance=0)
            net.triode("V", "a", "g", "k", 80, 2.5e-3)
        bench = bare(stage=stage, outputs={"": "a"})
        found = measure(bench, 1)
        perveance = next(p.value for p in bench.net("stage", 1).parts if p.sort == "T")
        volts = found.volts
        drive = volts["g"] - volts["k"] + (volts["a"] - volts["k"]) / 80
        steepness = 1.5 * perveance * math.sqrt(drive)
        inner = 80 / steepness
        self.assertAlmostEqual(abs(found.gain[1000.0]["a"]) / (80 * 100e3 / (100e3 + inner)), 1.0, delta=0.03)

    def test_a_power_amplifier_has_the_gain_that_its_feedback_sets(self):
        bench = next(b for b in benches() if b.name == "power-amplifier-a")
        found = measure(bench, 1)
        ohms = {p.name: p.value for p in bench.net("stage", 1).parts if p.sort == "R"}
        for s in "lr":
            self.assertAlmostEqual(abs(found.gain[1000.0][f"{s}out"] / found.gain[1000.0][f"{s}b1"]),
                                   1 + ohms[f"RF{s}"] / ohms[f"RG{s}"], delta=0.6)

    def test_what_a_meter_sees_in_circuit_is_what_ngspice_sees(self):
        bench = next(b for b in benches() if b.name == "valve-am-receiver-a")
        net = bench.net("supply", 1)
        net.parts = [p for p in net.parts if p.sort in "RCL"]
        net.lines = []
        for hertz in (120.0, 1e5):
            deck = "\n".join(["meter", net.text(), "imeter 0 ht dc 0 ac 1", ".options rshunt=1e12", ".control",
                              f"ac lin 1 {hertz:g} {hertz:g}", "echo section z", "print v(ht)", "quit", ".endc", ".end"])
            printed, _ = run_ngspice(deck)
            z = net.seen_across("ht", "0", hertz)
            self.assertAlmostEqual(abs(z - printed[("z", "v(ht)")]) / abs(z), 0, delta=1e-3)


class Table(unittest.TestCase):
    def test_every_part_stands_for_something_the_equipment_has(self):
        for bench in benches():
            file = RULES / "equipment" / (bench.kind.replace("-", "_") + ".json")
            equipment = json.loads(file.read_text())["equipment"][0]
            groups = {g["id"]: g for g in equipment["groups"]}
            blocks = {b["id"] for b in equipment["blocks"]}
            for fault in faults(bench):
                sort, _, name = fault.truth.partition(":")
                if sort == "group":
                    self.assertIn(name, groups, bench.name)
                else:
                    self.assertIn(name.partition("@")[2], blocks, bench.name)
            self.assertLessEqual(set(bench.rails), {r["id"] for r in equipment["rails"]})
            self.assertLessEqual(set(bench.blocks) | set(bench.points) | set(bench.wipers), blocks)
            self.assertTrue(bench.year >= equipment["year_from"] and bench.year <= equipment["year_to"])

    def test_one_variant_of_each_kind_is_unseen(self):
        kinds = {b.kind for b in benches()}
        self.assertEqual(len(kinds), 8)
        for kind in kinds:
            self.assertEqual(sorted(is_unseen(b) for b in benches() if b.kind == kind), [False, True])

    def test_each_bench_has_ten_causes_that_are_no_capacitor(self):
        for bench in benches():
            self.assertGreaterEqual(len(bench.causes), 10, bench.name)

    def test_a_dried_part_has_less_and_resists_more_and_a_leaky_one_leaks(self):
        net = Net("x", 1)
        part = net.capacitor("C", "a", "0", 10e-6)
        farad, esr, leak = net.capacitor_now(part)
        for state, test in (("dried", lambda f, e, l: f < 0.4 * farad and e > 5 * esr and l == leak),
                            ("leaky", lambda f, e, l: f == farad and l < leak / 50),
                            ("open", lambda f, e, l: f < 1e-3 * farad), ("shorted", lambda f, e, l: l <= 0.5)):
            net.fault = {"C": state}
            self.assertTrue(test(*net.capacitor_now(part)), state)


if __name__ == "__main__":
    unittest.main()
