"""Benches of transistor audio: a stereo receiver's supply and audio, a power amplifier, a transistor portable.

Circuits and values are our own, after stages that every textbook has; `sources` says where. "from memory" means that
the book was not opened while the values were chosen.
"""
from dataclasses import dataclass

from simulator import Bench

NEETS_6 = "US Navy NEETS Module 6 (NAVEDTRA 14178), power supplies: rectifiers and filters; from memory, not opened"
NEETS_7 = "US Navy NEETS Module 7 (NAVEDTRA 14179), transistor amplifiers: common emitter stage; from memory, not opened"
NEETS_8 = "US Navy NEETS Module 8 (NAVEDTRA 14180), audio amplifiers: coupling, push-pull; from memory, not opened"
PRACTICE = "common practice, no source: "


@dataclass
class Cause:
    """A fault that is no capacitor: what becomes of which parts."""
    cause: str
    block: str
    parts: dict


def split_supply(net, peak, ohm, farad, hertz, group="reservoirs", each=1):
    net.raw(f"vw1 w1 0 sin(0 {peak} {hertz})")
    net.raw(f"vw2 w2 0 sin(0 {-peak} {hertz})")
    net.resistor("RW1", "w1", "w1r", ohm, "transformer", 20)
    net.resistor("RW2", "w2", "w2r", ohm, "transformer", 20)
    net.diode("D1", "w1r", "plus", "dpower", "rectifier")
    net.diode("D2", "w2r", "plus", "dpower", "rectifier")
    net.diode("D3", "minus", "w1r", "dpower", "rectifier")
    net.diode("D4", "minus", "w2r", "dpower", "rectifier")
    for i in range(each):
        net.capacitor(f"CP{i}", "plus", "0", farad, group, "rectifier")
        net.capacitor(f"CM{i}", "0", "minus", farad, group, "rectifier")


def follower_regulator(net, name, source, out, volts, feed_ohm, group, farad, block="regulator"):
    """Zener and emitter follower, with a capacitor at the zener and one at the output."""
    net.raw(f".model dz{name} d(is=1e-12 bv={volts + 0.65:g} ibv=3m rs=8)")
    net.resistor(f"RZ{name}", source, f"z{name}", feed_ohm, block, 0.5)
    net.diode(f"DZ{name}", "0", f"z{name}", f"dz{name}", block)
    net.capacitor(f"CZ{name}", f"z{name}", "0", farad, group, block)
    net.transistor(f"QR{name}", source, f"z{name}", out, "qnd", block, 3.0)
    net.capacitor(f"CO{name}", out, "0", farad, group, block)


def power_channel(net, s, side, v):
    """Differential pair, voltage stage with bootstrapped load, complementary followers, one loop of feedback around
    them: the plan of most transistor power amplifiers (common practice, no source)."""
    driver, power, tail = f"driver-{side}", f"power-{side}", v["tail"]
    plus, minus = v.get(f"plus_{s}", "plusd"), v.get(f"minus_{s}", "minusd")
    net.resistor(f"RJ{s}", f"{s}in", f"{s}inj", 0.01, driver)  # the joint of the input part
    net.capacitor(f"CI{s}", f"{s}inj", f"{s}b1", v["input"], f"{side}-input", driver)
    net.resistor(f"RB{s}", f"{s}b1", "0", 22e3, driver)
    net.resistor(f"RT{s}", plus, f"{s}ta", tail, driver)
    net.transistor(f"QA{s}", f"{s}vb", f"{s}b1", f"{s}ta", "qp", driver, 0.3)
    net.transistor(f"QB{s}", minus, f"{s}fb", f"{s}ta", "qp", driver, 0.3)
    net.resistor(f"RV{s}", f"{s}vb", minus, v["vas"], driver)
    net.transistor(f"QV{s}", f"{s}lo", f"{s}vb", minus, "qnd", driver, 1.5)
    net.capacitor(f"CC{s}", f"{s}lo", f"{s}vb", v["comp"], f"{side}-compensation", driver, "ceramic")
    net.resistor(f"RS1{s}", "plus", f"{s}bs", v["boot_r"], power, 1)
    net.resistor(f"RS2{s}", f"{s}bs", f"{s}hi", v["boot_r"], power, 1)
    net.capacitor(f"CS{s}", f"{s}bs", f"{s}out", v["boot"], f"{side}-bootstrap", power)
    for i, (a, b) in enumerate((("hi", "x1"), ("x1", "x2"), ("x2", "x3"), ("x3", "lo"))):
        net.diode(f"DB{i}{s}", s + a, s + b, "dstack", power)
    net.transistor(f"QD1{s}", "plus", f"{s}hi", f"{s}d1", "qnd", power, 5)
    net.transistor(f"QO1{s}", "plus", f"{s}d1", f"{s}e1", "qnp", power, 30)
    net.transistor(f"QD2{s}", "minus", f"{s}lo", f"{s}d2", "qpd", power, 5)
    net.transistor(f"QO2{s}", "minus", f"{s}d2", f"{s}e2", "qpp", power, 30)
    net.resistor(f"RD{s}", f"{s}d1", f"{s}d2", 100, power)
    net.resistor(f"RE1{s}", f"{s}e1", f"{s}out", 0.33, power, 5)
    net.resistor(f"RE2{s}", f"{s}e2", f"{s}out", 0.33, power, 5)
    net.resistor(f"RF{s}", f"{s}out", f"{s}fb", 22e3, driver)
    net.resistor(f"RG{s}", f"{s}fb", f"{s}fg", v["rg"], driver)
    net.capacitor(f"CF{s}", f"{s}fg", "0", v["feedback"], f"{side}-feedback", driver)
    net.resistor(f"RN{s}", f"{s}out", f"{s}z", 10, power, 2)
    net.capacitor(f"CN{s}", f"{s}z", "0", v["zobel"], f"{side}-zobel", power, "film")
    net.resistor(f"RL{s}", f"{s}out", f"{s}spk", 0.05, f"out-{side}", 50)
    net.resistor(f"RLL{s}", f"{s}spk", "0", 8, None, 100)


def stereo_receiver(variant):
    v = {"a": dict(peak=42, f=50, res=10e-3, small=1e-3, tail=22e3, vas=680, boot_r=2200, boot=100e-6, rg=1000,
                   comp=50e-12, input=2.2e-6, feedback=100e-6, zobel=47e-9, mix=470, year=1976, volts=38),
         "b": dict(peak=33, f=60, res=6.8e-3, small=1e-3, tail=18e3, vas=750, boot_r=1800, boot=47e-6, rg=820,
                   comp=68e-12, input=1e-6, feedback=47e-6, zobel=100e-9, mix=1000, year=1984, volts=29)}[variant]

    def supply(net):
        split_supply(net, v["peak"], 0.4, v["res"], v["f"])
        net.raw(f"vw3 w3 0 sin(0 {v['peak'] * 0.86:g} {v['f']})")
        net.raw(f"vw4 w4 0 sin(0 {-v['peak'] * 0.86:g} {v['f']})")
        net.resistor("RW3", "w3", "w3r", 4, "transformer", 5)
        net.resistor("RW4", "w4", "w4r", 4, "transformer", 5)
        net.diode("D5", "w3r", "small", "dpower", "rectifier")
        net.diode("D6", "w4r", "small", "dpower", "rectifier")
        net.capacitor("CSR", "small", "0", v["small"], "small-reservoir", "rectifier")
        follower_regulator(net, "24", "small", "a24", 24 if variant == "a" else 20, 470, "reg-out-24", 220e-6)
        follower_regulator(net, "12", "small", "t12", 12, 1200, "reg-out-12", 220e-6)
        net.resistor("RTUN", "t12", "0", 220, "front-end", 2)

    def stage(net):
        net.raw(".model dstack d(is=3e-13 n=1.0 rs=0.4)")
        net.resistor("RPD", "plus", "plusd", 100, "driver-left")
        net.resistor("RMD", "minus", "minusd", 100, "driver-left")
        net.capacitor("CPD", "plusd", "0", 47e-6, "main-decoupling", "driver-left")
        net.capacitor("CMD", "0", "minusd", 47e-6, "main-decoupling", "driver-left")
        for s, side in (("l", "left"), ("r", "right")):
            net.resistor(f"RQ{s}", "sig", f"{s}src", 10e3, "selector")      # the selector's contact is in this
            net.capacitor(f"C1{s}", f"{s}src", f"{s}q1b", 4.7e-6, "selector-coupling", "selector")
            net.resistor(f"R1{s}", "a24", f"{s}q1b", 220e3, "selector")
            net.resistor(f"R2{s}", f"{s}q1b", "0", 33e3, "selector")
            net.resistor(f"R3{s}", "a24", f"{s}q1c", 8200, "selector")
            net.transistor(f"Q1{s}", f"{s}q1c", f"{s}q1b", f"{s}q1e", "qn", "selector", 0.2)
            net.resistor(f"R4{s}", f"{s}q1e", f"{s}q1f", 220, "selector")
            net.resistor(f"R5{s}", f"{s}q1f", "0", 2000, "selector")
            net.capacitor(f"C2{s}", f"{s}q1f", "0", 47e-6, "selector-bypass", "selector")
            net.capacitor(f"C3{s}", f"{s}q1c", f"{s}vol", 4.7e-6, "selector-coupling", "selector")
            net.control(f"VOL{s}", f"{s}vol", f"{s}wip", "0", 50e3, "tone")
            net.resistor(f"R6{s}", "a24", f"{s}t24", v["mix"], "tone")
            net.capacitor(f"C4{s}", f"{s}t24", "0", 100e-6, "tone-decoupling", "tone")
            net.capacitor(f"C5{s}", f"{s}wip", f"{s}q2b", 2.2e-6, "tone-coupling", "tone")
            net.resistor(f"R7{s}", f"{s}t24", f"{s}q2b", 470e3, "tone")
            net.resistor(f"R8{s}", f"{s}q2b", "0", 100e3, "tone")
            net.transistor(f"Q2{s}", f"{s}q2c", f"{s}q2b", f"{s}q2e", "qn", "tone", 0.2)
            net.resistor(f"R9{s}", f"{s}t24", f"{s}q2c", 10e3, "tone")
            net.resistor(f"R10{s}", f"{s}q2e", "0", 3300, "tone")
            net.capacitor(f"C6{s}", f"{s}q2c", f"{s}ton", 2.2e-6, "tone-coupling", "tone")
            net.resistor(f"R11{s}", f"{s}ton", f"{s}in", 4700, "tone")
            net.capacitor(f"C7{s}", f"{s}in", f"{s}trm", 22e-9, "tone-parts", "tone", "film")
            net.resistor(f"R12{s}", f"{s}trm", "0", 22e3, "tone")
            power_channel(net, s, side, v)

    bench = Bench("stereo-receiver", variant, v["year"], "A stereo receiver's supply and audio, split rails",
                  [NEETS_6, NEETS_7, PRACTICE + "power amplifier with differential input and bootstrapped driver"],
                  hertz=v["f"], supply=supply, stage=stage, feeds=("plus", "minus", "a24"),
                  supply_start={"plus": v["volts"], "minus": -v["volts"], "small": 0.84 * v["volts"],
                                "a24": 23.5 if variant == "a" else 19.5, "z24": 24.2 if variant == "a" else 20.2,
                                "t12": 12, "z12": 12.6},
                  heavy={"plus": 1.5, "minus": -1.5},
                  rails={"plus": "plus", "minus": "minus", "small-raw": "small", "audio-24": "a24", "tuner-12": "t12"},
                  outputs={"left": "lspk", "right": "rspk"},
                  output_block={"left": "power-left", "right": "power-right"},
                  controls=("VOLl", "VOLr"), quiet=0.4, loud=0.75 * v["volts"], hum_volts=0.01, fuse=("RW1", "RW2"),
                  protected="protection", missing={"tuner-12": "no-reception"})
    for s, side in (("l", "left"), ("r", "right")):
        bench.blocks.setdefault("selector", []).append(("sig", f"{s}vol", side))
        bench.blocks.setdefault("tone", []).append((f"{s}vol", f"{s}in", side))
        bench.blocks[f"driver-{side}"] = [(f"{s}in", f"{s}lo", side)]
        bench.blocks[f"power-{side}"] = [(f"{s}lo", f"{s}out", side)]
        bench.blocks[f"out-{side}"] = [(f"{s}out", f"{s}spk", side)]
        bench.points.setdefault("selector", []).extend([(f"{s}q1c", "0"), (f"{s}q1e", "0"), (f"{s}q1b", "0")])
        bench.points.setdefault("tone", []).extend([(f"{s}q2c", "0"), (f"{s}q2e", "0"), (f"{s}q2b", "0")])
        bench.points[f"driver-{side}"] = [(f"{s}vb", "minus"), (f"{s}ta", "0"), (f"{s}lo", "0")]
        bench.points[f"power-{side}"] = [(f"{s}hi", f"{s}lo"), (f"{s}bs", "0"), (f"{s}d1", f"{s}e1")]
        bench.wipers.setdefault("tone", []).append(f"{s}wip")
        bench.idle[f"power-{side}"] = [(f"{s}e1", f"{s}out"), (f"{s}out", f"{s}e2")]
    bench.causes = [
        Cause("open-diode", "rectifier", {"D1": "open"}), Cause("shorted-diode", "rectifier", {"D3": "shorted"}),
        Cause("regulator-chip", "regulator", {"QR24": "open"}), Cause("pass-shorted", "regulator", {"QR24": "shorted"}),
        Cause("dropper-open", "regulator", {"RZ24": "open"}), Cause("device-dead", "selector", {"Q1l": "open"}),
        Cause("device-dead", "driver-left", {"QVl": "open"}), Cause("output-device-shorted", "power-right", {"QO1r": "shorted"}),
        Cause("resistor-drifted", "selector", {"R5r": 6.0}), Cause("resistor-drifted", "driver-right", {"RGr": 5.0}),
        Cause("worn-control", "tone", {"VOLl": "worn"}), Cause("dirty-switch", "selector", {"RQl": 300.0}),
        Cause("cracked-joint", "driver-left", {"RJl": "open"}), Cause("device-weak", "selector", {"Q1r": "weak"}),
        Cause("loudspeaker", "out-right", {"RLr": "open"})]
    return bench


def power_amplifier(variant):
    v = {"a": dict(peak=64, f=50, res=10e-3, tail=33e3, vas=680, boot_r=3300, boot=100e-6, rg=750, comp=50e-12,
                   input=4.7e-6, feedback=220e-6, zobel=100e-9, year=1979, volts=60),
         "b": dict(peak=50, f=60, res=4.7e-3, tail=27e3, vas=620, boot_r=2700, boot=220e-6, rg=1000, comp=82e-12,
                   input=2.2e-6, feedback=100e-6, zobel=100e-9, year=1991, volts=46)}[variant]
    v |= {"plus_l": "plusdl", "plus_r": "plusdr", "minus_l": "minusdl", "minus_r": "minusdr"}

    def supply(net):
        split_supply(net, v["peak"], 0.25, v["res"], v["f"], each=2)
        follower_regulator(net, "24", "plus", "r24", 24, 3900, "relay-supply", 220e-6)
        net.resistor("RREL", "r24", "0", 400, "protection", 3)

    def stage(net):
        net.raw(".model dstack d(is=3e-13 n=1.0 rs=0.4)")
        for s, side in (("l", "left"), ("r", "right")):
            net.resistor(f"RQ{s}", "sig", f"{s}src", 600, "input")
            net.control(f"VOL{s}", f"{s}src", f"{s}in", "0", 10e3, "input")
            net.resistor(f"RPD{s}", "plus", f"plusd{s}", 100, f"driver-{side}")
            net.resistor(f"RMD{s}", "minus", f"minusd{s}", 100, f"driver-{side}")
            net.capacitor(f"CPD{s}", f"plusd{s}", "0", 100e-6, f"{side}-decoupling", f"driver-{side}")
            net.capacitor(f"CMD{s}", "0", f"minusd{s}", 100e-6, f"{side}-decoupling", f"driver-{side}")
            power_channel(net, s, side, v)

    bench = Bench("power-amplifier", variant, v["year"], "A two-channel power amplifier, split rails",
                  [NEETS_6, PRACTICE + "power amplifier with differential input and bootstrapped driver"],
                  hertz=v["f"], supply=supply, stage=stage, feeds=("plus", "minus"),
                  supply_start={"plus": v["volts"], "minus": -v["volts"], "r24": 23.8, "z24": 24.5},
                  heavy={"plus": 3.0, "minus": -3.0}, rails={"plus": "plus", "minus": "minus", "control-24": "r24"},
                  outputs={"left": "lspk", "right": "rspk"},
                  output_block={"left": "power-left", "right": "power-right"}, controls=("VOLl", "VOLr"), half=0.5,
                  quiet=0.5, loud=0.75 * v["volts"], hum_volts=0.01, fuse=("RW1", "RW2"),
                  protected="protection", missing={"control-24": "relay-never-closes"})
    for s, side in (("l", "left"), ("r", "right")):
        bench.blocks.setdefault("input", []).append(("sig", f"{s}in", side))
        bench.blocks[f"driver-{side}"] = [(f"{s}in", f"{s}lo", side)]
        bench.blocks[f"power-{side}"] = [(f"{s}lo", f"{s}out", side)]
        bench.blocks[f"out-{side}"] = [(f"{s}out", f"{s}spk", side)]
        bench.points[f"driver-{side}"] = [(f"{s}vb", "minus"), (f"{s}ta", "0"), (f"{s}lo", "0")]
        bench.points[f"power-{side}"] = [(f"{s}hi", f"{s}lo"), (f"{s}bs", "0"), (f"{s}d1", f"{s}e1")]
        bench.wipers.setdefault("input", []).append(f"{s}in")
        bench.idle[f"power-{side}"] = [(f"{s}e1", f"{s}out"), (f"{s}out", f"{s}e2")]
    bench.causes = [
        Cause("open-diode", "rectifier", {"D2": "open"}), Cause("shorted-diode", "rectifier", {"D1": "shorted"}),
        Cause("regulator-chip", "regulator", {"QR24": "open"}), Cause("dropper-open", "regulator", {"RZ24": "open"}),
        Cause("device-dead", "driver-right", {"QVr": "open"}), Cause("device-dead", "driver-left", {"QAl": "open"}),
        Cause("output-device-shorted", "power-left", {"QO2l": "shorted"}),
        Cause("resistor-drifted", "driver-left", {"RFl": 8.0}), Cause("resistor-drifted", "power-right", {"RS1r": 6.0}),
        Cause("worn-control", "input", {"VOLr": "worn"}), Cause("dirty-control", "input", {"RQl": 1000.0}),
        Cause("cracked-joint", "driver-right", {"RJr": "open"}), Cause("loudspeaker", "out-left", {"RLl": "open"})]
    return bench


def transistor_portable(variant):
    """Germanium, two stages of audio before a complementary output that is coupled by a capacitor, and one stage of
    intermediate frequency. Variant b draws less and has a larger loudspeaker resistance and feed resistor."""
    v = {"a": dict(year=1966, feed=220, rc=3900, bias=56e3, speaker=220e-6, coupling=5e-6, load=8, bulk=100e-6,
                   re=470, boot=680, batt=10.0),
         "b": dict(year=1972, feed=330, rc=4700, bias=68e3, speaker=100e-6, coupling=2e-6, load=16, bulk=220e-6,
                   re=560, boot=1000, batt=15.0)}[variant]

    def stage(net):
        net.raw("vbat bat0 0 9")
        net.resistor("RBAT", "bat0", "bat1", v["batt"], "entry")
        net.resistor("RBC", "bat1", "bat", 0.1, "entry")      # the contacts of the holder
        net.capacitor("CB", "bat", "0", v["bulk"], "battery-bulk", "output")
        net.resistor("RF", "bat", "fil", v["feed"], "feed")
        net.capacitor("CFD", "fil", "0", 100e-6, "feed-can", "feed")
        net.resistor("RCONV", "fil", "0", 6800, "converter")
        # intermediate frequency: one stage at 455 kHz, biased by the level-control line
        net.resistor("RA1", "fil", "agc", 68e3, "agc")
        net.resistor("RA2", "agc", "0", 15e3, "agc")
        net.capacitor("CAGC", "agc", "0", 10e-6, "agc-can", "agc")
        net.resistor("RA3", "agc", "ifb", 470, "if")
        net.raw("crf rfsig ifs 1n")
        net.resistor("RIFS", "ifs", "ifb", 1000, "if")
        net.transistor("QIF", "ifc", "ifb", "ife", "qgn", "if", 0.1)
        net.resistor("RIFE", "ife", "0", 680, "if")
        net.capacitor("CIFE", "ife", "0", 40e-9, "if-decoupling", "if", "ceramic")
        net.resistor("RIFD", "fil", "ifd", 1000, "if")
        net.capacitor("CIFD", "ifd", "0", 40e-9, "if-decoupling", "if", "ceramic")
        net.raw("lif ifd ifc 120u")
        net.raw("cif ifd ifc 1.02n")
        net.resistor("RIFL", "ifd", "ifc", 15e3, "if")
        # detector load, volume, two stages, complementary output
        net.resistor("RDS", "sig", "det", 2200, "detector")
        net.capacitor("CDET", "det", "0", 20e-9, "detector-part", "detector", "ceramic")
        net.control("VOL", "det", "wip", "0", 5000, "detector")
        net.capacitor("C1", "wip", "b1", v["coupling"], "driver-coupling", "driver")
        net.resistor("R1", "fil", "b1", v["bias"], "driver")
        net.resistor("R2", "b1", "0", 10e3, "driver")
        net.resistor("R3", "fil", "c1", v["rc"], "driver")
        net.transistor("Q1", "c1", "b1", "e1", "qgn", "driver", 0.1)
        net.resistor("R4", "e1", "0", 820, "driver")
        net.capacitor("CE1", "e1", "0", 50e-6, "driver-bypass", "driver")
        net.capacitor("C2", "c1", "b2", v["coupling"], "driver-coupling", "driver")
        net.resistor("R5", "mid", "b2", 30e3 if variant == "a" else 37e3, "driver")
        net.resistor("R6", "b2", "0", 5600, "driver")
        net.transistor("Q2", "lo", "b2", "e2", "qgn", "driver", 0.2)
        net.resistor("R7", "e2", "0", 68, "driver")
        net.resistor("R8", "bat", "hi", v["boot"], "output")
        net.diode("DB1", "hi", "hx", "dge", "output")
        net.resistor("RDB", "hx", "lo", 15, "output")
        net.transistor("Q3", "bat", "hi", "oe1", "qgnp", "output", 0.4)
        net.transistor("Q4", "0", "lo", "oe2", "qgpp", "output", 0.4)
        net.resistor("RE1", "oe1", "mid", 2.2, "output")
        net.resistor("RE2", "oe2", "mid", 2.2, "output")
        net.capacitor("CSP", "mid", "spk0", v["speaker"], "speaker-coupling", "output")
        net.resistor("RSJ", "spk0", "spk", 0.05, "speaker", 2)
        net.resistor("RSP", "spk", "0", v["load"], None, 2)

    bench = Bench("transistor-portable", variant, v["year"], "A transistor portable's audio and intermediate stage",
                  [NEETS_7, NEETS_8], stage=stage, rails={"battery": "bat", "filtered": "fil"},
                  outputs={"": "spk"}, output_block={"": "output"}, controls=("VOL",), half=0.3, quiet=0.1, loud=0.8,
                  kick=(0.6, 1e-4),
                  blocks={"detector": [("sig", "wip", "")], "driver": [("wip", "lo", "")],
                          "output": [("lo", "mid", "")], "speaker": [("mid", "spk", "")]},
                  points={"driver": [("c1", "0"), ("e1", "0"), ("b2", "0"), ("e2", "0")],
                          "output": [("mid", "0"), ("hi", "lo")], "if": [("ife", "0"), ("ifc", "0")],
                          "agc": [("agc", "0")]},
                  wipers={"detector": ["wip"]}, idle={"output": [("oe1", "mid"), ("mid", "oe2")]},
                  radio={"hertz": 455e3, "blocks": {"if": ("ifs", "ifc")}})
    bench.causes = [
        Cause("battery-flat", "entry", {"RBAT": 30.0}), Cause("battery-contact", "entry", {"RBC": 4000.0}),
        Cause("device-dead", "driver", {"Q1": "open"}), Cause("device-dead", "if", {"QIF": "open"}),
        Cause("output-device-shorted", "output", {"Q4": "shorted"}), Cause("dropper-open", "feed", {"RF": "open"}),
        Cause("resistor-drifted", "driver", {"R3": 8.0}), Cause("resistor-drifted", "output", {"R8": 6.0}),
        Cause("loudspeaker", "speaker", {"RSJ": "open"}), Cause("device-weak", "driver", {"Q1": "weak"}),
        Cause("resistor-drifted", "detector", {"RDS": 100.0})]
    return bench
