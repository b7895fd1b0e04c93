"""Benches of supplies: a linear bench supply, the secondary side of a switcher.

Circuits and values are our own; `sources` says after what.
"""
from circuits_solid import NEETS_6, PRACTICE, Cause, follower_regulator
from simulator import Bench


def bench_supply(variant):
    v = {"a": dict(year=1974, f=50, peak=39, winding=0.5, res=4700e-6, volts=30, top=24e3, pull=1500, amps=1.0,
                   limit=0.33, aux_peak=23, can=470e-6),
         "b": dict(year=1988, f=60, peak=28, winding=0.3, res=6800e-6, volts=20, top=14e3, pull=1000, amps=1.5,
                   limit=0.22, aux_peak=24, can=220e-6)}[variant]

    def supply(net):
        for n, peak, ohm, raw, block in (("w", v["peak"], v["winding"], "raw", "rectifier"),
                                         ("x", v["aux_peak"], 6, "auxraw", "aux-rectifier")):
            net.raw(f"v{n}1 {n}1 0 sin(0 {peak} {v['f']})")
            net.raw(f"v{n}2 {n}2 0 sin(0 {-peak} {v['f']})")
            net.resistor(f"R{n.upper()}1", f"{n}1", f"{n}1r", ohm, "transformer", 20)
            net.resistor(f"R{n.upper()}2", f"{n}2", f"{n}2r", ohm, "transformer", 20)
            net.diode(f"D{n.upper()}1", f"{n}1r", raw, "dpower", block)
            net.diode(f"D{n.upper()}2", f"{n}2r", raw, "dpower", block)
        net.capacitor("CR1", "raw", "0", v["res"], "main-reservoir", "rectifier")
        net.capacitor("CR2", "raw", "0", v["res"], "main-reservoir", "rectifier")
        net.capacitor("CX1", "auxraw", "0", 470e-6, "aux-reservoirs", "aux-rectifier")
        net.capacitor("CX2", "auxraw", "0", 470e-6, "aux-reservoirs", "aux-rectifier")
        follower_regulator(net, "a", "auxraw", "aux", 12, 680, "aux-outputs", 47e-6, "aux-regulator")
        net.capacitor("CBEAD", "aux", "0", 10e-6, "aux-beads", "aux-regulator")
        net.raw(".model dref d(is=1e-12 bv=6.2 ibv=4m rs=8)")
        net.resistor("RREF", "aux", "ref", 1200, "reference-source")
        net.diode("DREF", "0", "ref", "dref", "reference-source")
        net.capacitor("CREF", "ref", "0", 10e-6, "reference-filter", "reference-source")
        net.resistor("RDV1", "out", "sense", v["top"], "pass")
        net.resistor("RDV2", "sense", "0", 6200, "pass")
        net.raw("bea ea 0 v=min(max(300*(v(sense)-v(ref))+1,0),max(v(aux)-1.5,0))")  # the comparing stage
        net.resistor("REA", "ea", "qb", 22e3, "pass")
        net.capacitor("CLP1", "pb", "qb", 2.2e-9, "loop-parts", "pass", "ceramic")
        net.transistor("QL", "pb", "qb", "0", "qnd", "pass", 1)
        net.resistor("RPU", "raw", "pb", v["pull"], "pass", 2)
        net.transistor("QP1", "raw", "pb", "pe", "qnd", "pass", 10)
        net.transistor("QP2", "raw", "pe", "outi", "qnp", "pass", 60)
        net.resistor("RBE", "pe", "outi", 220, "pass")
        net.resistor("RLIM", "outi", "out", v["limit"], "pass", 5)
        net.transistor("QLIM", "pb", "outi", "out", "qn", "pass", 0.3)
        net.capacitor("COUT", "out", "0", v["can"], "output-can", "pass")
        net.resistor("RBLD", "out", "0", 2200, "pass", 1)
        net.resistor("RTJ", "out", "post", 0.02, "terminals", 5)
        net.capacitor("CTF", "post", "0", 100e-9, "terminal-film", "terminals", "film")

    bench = Bench("bench-supply", variant, v["year"], "A linear bench supply", [NEETS_6,
                  "US Navy NEETS Module 7 (NAVEDTRA 14179), series regulators; from memory, not opened"],
                  hertz=v["f"], supply=supply, supply_stop=0.4,
                  supply_start={"raw": v["peak"] - 3, "auxraw": 20, "aux": 12, "za": 12.7, "ref": 6.2, "out": v["volts"],
                                "post": v["volts"], "outi": v["volts"]},
                  heavy={"post": v["amps"]},
                  rails={"raw": "raw", "aux-raw": "auxraw", "aux": "aux", "reference": "ref", "output": "post"},
                  fuse=("RW1", "RW2"), output_rails={"output": v["amps"]},
                  points={"pass": [("pb", "0"), ("sense", "0")], "aux-regulator": [("za", "0")],
                          "reference-source": [("ref", "0")]})
    bench.causes = [
        Cause("pass-shorted", "pass", {"QP2": "shorted"}), Cause("regulator-chip", "pass", {"QP2": "open"}),
        Cause("regulator-chip", "pass", {"QL": "open"}), Cause("reference-drift", "pass", {"RDV1": 1.4}),
        Cause("open-diode", "rectifier", {"DW1": "open"}), Cause("shorted-diode", "rectifier", {"DW2": "shorted"}),
        Cause("open-diode", "aux-rectifier", {"DX1": "open"}), Cause("regulator-chip", "aux-regulator", {"QRa": "open"}),
        Cause("dropper-open", "reference-source", {"RREF": "open"}), Cause("dropper-open", "pass", {"RPU": "open"}),
        Cause("cracked-joint", "terminals", {"RTJ": 100.0}), Cause("dropper-open", "rectifier", {"RW1": "open", "RW2": "open"})]
    return bench


def switch_mode_supply(variant):
    """Secondary side: half-wave forward outputs with a choke each. The control is averaged: it sets the height of the
    pulses, not their width, so that a run takes seconds."""
    v = {"a": dict(year=1989, f=40e3, choke5=25e-6, choke12=60e-6, c5=2200e-6, c12=1000e-6, post=1e-6, load5=1.0, load12=6.0),
         "b": dict(year=2001, f=60e3, choke5=15e-6, choke12=40e-6, c5=1500e-6, c12=680e-6, post=0.2e-6, load5=0.7, load12=8.0)}[variant]

    def supply(net):
        period = 1 / v["f"]
        net.raw(f"vpul pul 0 pulse(0 1 0 {period / 200:g} {period / 200:g} {0.37 * period:g} {period:g})")
        # the error amplifier and its slow pole; the optocoupler's current is the resistor ROPT's
        net.resistor("RDV1", "o5", "sense", 2500, "control")
        net.resistor("RDV2", "sense", "0", 2500, "control")
        net.raw("berr err 0 v=min(max(1+12*(2.5-v(sense)),0),1.6)")
        net.resistor("ROPT", "err", "ctl", 1000, "control")
        net.resistor("ROP2", "ctl", "0", 100e3, "control")
        net.capacitor("CFB", "ctl", "0", 0.1e-6, "feedback", "control")
        for n, height, choke, cap, group, load, rail in (("5", 17.0, v["choke5"], v["c5"], "filter-5", v["load5"], "o5"),
                                                         ("12", 37.5, v["choke12"], v["c12"], "filter-12", v["load12"], "o12")):
            net.raw(f"bs{n} s{n} 0 v=v(pul)*v(ctl)*{height}")
            net.resistor(f"RS{n}", f"s{n}", f"s{n}r", 0.02, "outputs", 5)
            net.diode(f"DF{n}", f"s{n}r", f"x{n}", "dschottky", "outputs")
            net.diode(f"DW{n}", "0", f"x{n}", "dschottky", "outputs")
            net.inductor(f"L{n}", f"x{n}", f"f{n}", choke, 0.01, "outputs")
            net.capacitor(f"CA{n}", f"f{n}", "0", cap, group, "outputs")
            net.inductor(f"LP{n}", f"f{n}", f"p{n}", v["post"], 0.005, "outputs")
            net.capacitor(f"CC{n}", f"p{n}", "0", cap, group, "outputs")
            net.resistor(f"RJ{n}", f"p{n}", rail, 0.002, "load-logic")
            net.resistor(f"RL{n}", rail, "0", load, None, 50)
        net.raw("bsm sm 0 v=-v(pul)*v(ctl)*37.5")
        net.resistor("RSM", "sm", "smr", 0.1, "outputs", 2)
        net.diode("DFM", "xm", "smr", "dsi", "outputs")
        net.diode("DWM", "xm", "0", "dsi", "outputs")
        net.inductor("LM", "xm", "om", 2e-3, 0.2, "outputs")
        net.capacitor("CM", "0", "om", 470e-6, "filter-minus", "outputs")
        net.resistor("RLM", "om", "0", 100, None, 5)

    bench = Bench("switch-mode-supply", variant, v["year"], "A switcher's secondary side", [
        PRACTICE + "forward converter outputs with choke, capacitors, second small choke and capacitor"],
        hertz=v["f"], supply=supply, supply_step=0.02 / v["f"], supply_stop=400 / v["f"], supply_window=20 / v["f"],
        supply_start={"o5": 5, "p5": 5, "f5": 5, "o12": 12, "p12": 12, "f12": 12, "om": -12, "ctl": 1.0},
        rails={"plus-5": "o5", "plus-12": "o12", "minus-12": "om"}, fuse=("RS5", "RS12"), switching=True,
        output_rails={"plus-5": 5.0, "plus-12": 2.0, "minus-12": 0.1})
    bench.causes = [
        Cause("output-rectifier-shorted", "outputs", {"DF5": "shorted"}),
        Cause("output-rectifier-shorted", "outputs", {"DW12": "shorted"}),
        Cause("cracked-joint", "outputs", {"L12": "open"}), Cause("cracked-joint", "outputs", {"LM": "open"}),
        Cause("connector", "load-logic", {"RJ5": 60.0}), Cause("connector", "load-logic", {"RJ12": 800.0}),
        Cause("reference-drift", "control", {"RDV1": 1.25}), Cause("reference-drift", "control", {"RDV2": 1.3}),
        Cause("optocoupler", "control", {"ROPT": 40.0}), Cause("load-short", "load-logic", {"RL5": 0.01}),
        Cause("optocoupler", "control", {"ROPT": "open"})]
    return bench
