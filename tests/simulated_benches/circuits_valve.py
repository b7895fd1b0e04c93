"""Benches with valves: a broadcast receiver, a communications receiver, a guitar amplifier.

Circuits and values are our own, after stages that every textbook has; `sources` says where. Valves follow Child and
Langmuir's three-halves law with an amplification factor; their constants give a usual working point.
"""
import math

from circuits_solid import NEETS_6, PRACTICE, Cause
from simulator import Bench

NEETS_6V = "US Navy NEETS Module 6 (NAVEDTRA 14178), electron tubes: bias, triode and pentode stages; from memory, not opened"
TERMAN = "F. E. Terman, Radio Engineers' Handbook (1943), vacuum-tube amplifiers and receivers; from memory, not opened"


def high_tension(net, peak, hertz, winding, reservoir, smoothing, henry, ohm, can, drop, group_can="can", buffer=None):
    """Full wave with a valve rectifier, reservoir, choke (or resistor), one section at `ht`, one at `ht2`."""
    net.raw(f"vw1 w1 0 sin(0 {peak} {hertz})")
    net.raw(f"vw2 w2 0 sin(0 {-peak} {hertz})")
    net.resistor("RW1", "w1", "w1r", winding, "transformer", 5)
    net.resistor("RW2", "w2", "w2r", winding, "transformer", 5)
    if buffer:
        net.capacitor("CBF1", "w1r", "0", buffer, "buffer", "rectifier", "paper")
        net.capacitor("CBF2", "w2r", "0", buffer, "buffer", "rectifier", "paper")
    net.diode("DR1", "w1r", "k1", "dpower", "rectifier")
    net.diode("DR2", "w2r", "k2", "dpower", "rectifier")
    net.resistor("RV1", "k1", "htraw", 180, "rectifier-valve", 5)
    net.resistor("RV2", "k2", "htraw", 180, "rectifier-valve", 5)
    net.capacitor("CRES", "htraw", "0", reservoir, "reservoir", "rectifier")
    if smoothing == "choke":
        net.inductor("LCH", "htraw", "ht", henry, ohm, "smoothing")
    else:
        net.resistor("RCH", "htraw", "ht", ohm, "smoothing", 5)
    net.capacitor("CAN1", "ht", "0", can, group_can, "smoothing")
    net.resistor("RD2", "ht", "ht2", drop, "smoothing", 2)
    net.capacitor("CAN2", "ht2", "0", can, group_can, "smoothing")


def radio_stages(net, v, g, feed):
    """Mixer and one intermediate stage, the level-control line to both, at the intermediate frequency."""
    hertz, mica = v["if"], 100e-12
    net.raw(f"vagc agcs 0 {v['agc']:g}")
    net.resistor("RAG1", "agcs", "agc", 1e6, "agc")
    net.capacitor("CAG1", "agc", "0", 50e-9, g["agc"], "agc", "paper")
    net.resistor("RAG2", "agc", "agcm", 470e3, "agc")
    net.capacitor("CAG2", "agcm", "0", 50e-9, g["agc"], "agc", "paper")
    last, line, out = "rfsig", "agcm", None
    for n, block, screen, supply, cathode in (("m", "mixer", g["mixer"], None, g["mixer"]),
                                              ("i", "if", g["screens"], g["feed"], g["cathode"])):
        net.raw(f"cg{n} {last} {n}g 100p")
        net.resistor(f"RG{n}", line, f"{n}g", 470e3, block)
        net.pentode(f"V{n}", f"{n}a", f"{n}g", f"{n}s", f"{n}k", 20, 0.55e-3, block, valve=v["valve_" + n])
        net.resistor(f"RK{n}", f"{n}k", "0", v["rk"], block)
        if cathode:
            net.capacitor(f"CK{n}", f"{n}k", "0", 100e-9, cathode, block, "paper")
        else:
            net.raw(f"ck{n} {n}k 0 100n")
        net.resistor(f"RS{n}", feed, f"{n}s", v["rs"], block, 1)
        net.capacitor(f"CS{n}", f"{n}s", "0", 100e-9, screen, block, "paper")
        net.resistor(f"RF{n}", feed, f"{n}f", 2200, block)
        if supply:
            net.capacitor(f"CF{n}", f"{n}f", "0", 100e-9, supply, block, "paper")
        else:
            net.raw(f"cf{n} {n}f 0 100n")
        tuned = net.capacitor(f"CT{n}", f"{n}f", f"{n}a", mica, g["micas"], "if", "mica")
        henry = 1 / ((2 * math.pi * hertz) ** 2 * tuned.value)  # the set was aligned with the parts it has
        net.raw(f"lt{n} {n}f {n}a {henry:g}")
        net.resistor(f"RL{n}", f"{n}f", f"{n}a", 120e3, None)
        last, line, out = f"{n}a", "agc", f"{n}a"
    return out


def valve_audio(net, v, g):
    """Detector load and volume, triode, output pentode with its transformer."""
    net.resistor("RDS", "sig", "det", 100e3, "detector")
    net.capacitor("CDET", "det", "0", 100e-12, g["detector"], "detector", "mica")
    if v["input_coupling"]:
        net.capacitor("C0", "det", "vtop", 20e-9, g["audio_coupling"], v["volume_block"], "paper")
    else:
        net.resistor("R0", "det", "vtop", 1.0, "detector")
    net.control("VOL", "vtop", "wip", "0", 500e3, v["volume_block"])
    net.capacitor("C1", "wip", "g1", v["c1"], g["audio_coupling"], "audio", "paper")
    net.resistor("R1", "g1", "0", v["leak"], "audio")
    net.triode("V1", "a1", "g1", "k1", 70, 2.2e-3, "audio", valve="audio-valve")
    net.resistor("R2", "k1", "0", v["k1"], "audio")
    net.raw("ck1 k1 0 25u")
    net.resistor("R3", "ad", "a1", 220e3, "audio")
    net.resistor("R4", "ht2", "ad", 47e3, "audio")
    net.capacitor("CAD", "ad", "0", v["cad"], g["audio_decoupling"], "audio", "paper")
    net.capacitor("C2", "a1", "g2", v["c2"], g["grid_coupling"], "output", "paper", grid_leak=470e3)
    net.resistor("R5", "g2", "0", 470e3, "output")
    net.pentode("V2", "a2", "g2", "ht", "k2", 10, 1.0e-3, "output", valve="output-valve", watt=12)
    net.resistor("R6", "k2", "0", v["k2"], "output", 1)
    net.capacitor("CK2", "k2", "0", 25e-6, g["output_bypass"], "output")
    net.inductor("LOT", v["anode_feed"], "a2", 10.0, 300, "output")
    net.resistor("RREF", v["anode_feed"], "a2", 5000, None, 20)
    if g.get("tone"):
        net.capacitor("CTN", "a2", "0", 5e-9, g["tone"], "output", "paper")
    net.raw(f"espk spk0 0 {v['anode_feed']} a2 0.025")
    net.resistor("RSJ", "spk0", "spk", 0.05, "speaker", 5)
    net.resistor("RSP", "spk", "0", 3, None, 10)


def valve_receiver(kind, variant, v, g, title, extra_supply=None, rails=None):
    feeds = ("htraw", "ht", "ht2")

    def supply(net):
        high_tension(net, v["peak"], v["f"], v["winding"], v["res"], v["smooth"], v["henry"], v["ohm"], v["can"],
                     v["drop"], buffer=v.get("buffer"))
        if extra_supply:
            extra_supply(net)

    def stage(net):
        radio_stages(net, v, g, "ht2")
        valve_audio(net, v, g)

    bench = Bench(kind, variant, v["year"], title, [NEETS_6, NEETS_6V, TERMAN], hertz=v["f"], supply=supply, stage=stage,
                  feeds=feeds, supply_start={"htraw": v["ht0"], "ht": v["ht1"], "ht2": v["ht1"] - 30},
                  supply_stop=0.8, rails={"ht-raw": "htraw", "ht": "ht"} | (rails or {}),
                  outputs={"": "spk"}, output_block={"": "output"}, controls=("VOL",), half=0.15, quiet=0.15, loud=1.2,
                  fuse=("RW1", "RW2"),
                  blocks={"detector": [("sig", "vtop" if v["volume_block"] == "audio" else "wip", "")],
                          "audio": [("vtop" if v["volume_block"] == "audio" else "wip", "g2", "")],
                          "output": [("g2", "spk0", "")], "speaker": [("spk0", "spk", "")]},
                  points={"audio": [("a1", "0"), ("ad", "0")], "output": [("k2", "0"), ("a2", "0"), ("g2", "0")],
                          "if": [("is", "0"), ("ik", "0"), ("ia", "0")], "mixer": [("ms", "0"), ("mk", "0"), ("ma", "0")],
                          "agc": [("agc", "0")]},
                  wipers={v["volume_block"]: ["wip"]}, grids={"output": ["g2"]}, idle={"output": [("k2", "0")]},
                  radio={"hertz": v["if"], "blocks": {"mixer": ("rfsig", "ma"), "if": ("ma", "ia")}},
                  valves={"rectifier-valve": ("RV1", "RV2"), "audio-valve": ("V1",), "output-valve": ("V2",),
                          v["valve_i"]: ("Vi",), v["valve_m"]: ("Vm",)})
    smoothing = {"LCH": "open"} if v["smooth"] == "choke" else {"RCH": "open"}
    bench.causes = [
        Cause("heater-open", "rectifier-valve", {"RV1": "open", "RV2": "open"}),
        Cause("heater-open", "audio-valve", {"V1": "dead"}), Cause("valve-weak", "output-valve", {"V2": "weak"}),
        Cause("heater-open", v["valve_i"], {"Vi": "dead"}), Cause("valve-weak", v["valve_i"], {"Vi": "weak"}),
        Cause("dropper-open", "smoothing", smoothing), Cause("resistor-drifted", "audio", {"R3": 5.0}),
        Cause("resistor-drifted", "audio", {"R4": "open"}), Cause("resistor-drifted", "output", {"R6": 6.0}),
        Cause("resistor-drifted", "if", {"RSi": 8.0}), Cause("worn-control", "audio", {"VOL": "worn"}),
        Cause("loudspeaker", "speaker", {"RSJ": "open"}), Cause("resistor-drifted", "detector", {"RDS": 60.0}),
        Cause("open-diode", "rectifier", {"DR1": "open"})]
    return bench


def valve_am_receiver(variant):
    common = dict(agc=-5, rk=330, rs=47e3, valve_m="mixer-valve", valve_i="if-valve", volume_block="audio",
                  input_coupling=False, leak=1e6, k1=2200)
    v = {"a": dict(year=1950, f=50, peak=345, winding=120, res=16e-6, smooth="choke", henry=12, ohm=350, can=16e-6,
                   drop=4700, ht0=285, ht1=265, c1=10e-9, c2=20e-9, cad=100e-9, k2=270, anode_feed="ht", buffer=10e-9, **{"if": 470e3}),
         "b": dict(year=1956, f=60, peak=350, winding=150, res=32e-6, smooth="resistor", henry=0, ohm=1500, can=32e-6,
                   drop=10e3, ht0=290, ht1=240, c1=5e-9, c2=10e-9, cad=100e-9, k2=330, anode_feed="htraw", buffer=10e-9, **{"if": 455e3})}[variant] | common
    g = dict(agc="agc-parts", mixer="mixer-screen", screens="screens", feed="rf-bypass", cathode="rf-bypass",
             micas="if-micas", detector="detector-parts", audio_coupling="audio-coupling",
             audio_decoupling="audio-decoupling", grid_coupling="grid-coupling", output_bypass="output-bypass",
             tone="tone-part")
    return valve_receiver("valve-am-receiver", variant, v, g, "A valve receiver's audio, high tension and one stage")


def communications_receiver(variant):
    common = dict(agc=-5, rs=68e3, valve_m="rf-valves", valve_i="if-valves", volume_block="audio",
                  input_coupling=True, k1=2200)
    v = {"a": dict(year=1952, f=50, peak=350, winding=100, res=16e-6, smooth="choke", henry=10, ohm=300, can=16e-6,
                   drop=2200, ht0=295, ht1=275, leak=470e3, c1=10e-9, c2=10e-9, cad=250e-9, k2=270, rk=300,
                   anode_feed="ht", **{"if": 455e3}),
         "b": dict(year=1961, f=60, peak=330, winding=110, res=20e-6, smooth="choke", henry=8, ohm=400, can=20e-6,
                   drop=4700, ht0=275, ht1=255, leak=1e6, c1=5e-9, c2=10e-9, cad=250e-9, k2=300, rk=390,
                   anode_feed="ht", **{"if": 465e3})}[variant] | common
    g = dict(agc="agc-parts", mixer="mixer-bypass", screens="if-bypass", feed="plate-feeds", cathode="if-bypass",
             micas="if-micas", detector="limiter-parts", audio_coupling="audio-coupling",
             audio_decoupling="audio-decoupling", grid_coupling="grid-coupling", output_bypass="output-bypass")

    def stabiliser(net):
        net.raw(".model dgas d(is=1e-12 bv=150 ibv=5m rs=150)")
        net.resistor("RST", "ht", "st", 4700, "stabiliser", 5)
        net.diode("DST", "0", "st", "dgas", "stabiliser")
        net.resistor("ROSC", "st", "0", 22e3, "oscillator", 3)

    bench = valve_receiver("communications-receiver", variant, v, g,
                           "A communications receiver's supply, audio and one stage", stabiliser, {"stabilised": "st"})
    bench.supply_start["st"] = 150
    bench.missing = {"stabilised": "no-reception"}
    return bench


def valve_guitar_amplifier(variant):
    v = {"a": dict(year=1965, f=60, peak=395, res=47e-6, choke=4.0, chohm=120, drop_c=4700, drop_d=10e3, bias=-42,
                   ht=430, couple=22e-9, out=100e-9, bypass=25e-6, k=1500),
         "b": dict(year=1978, f=50, peak=350, res=32e-6, choke=6.0, chohm=200, drop_c=10e3, drop_d=22e3, bias=-36,
                   ht=380, couple=10e-9, out=47e-9, bypass=22e-6, k=1800)}[variant]

    def supply(net):
        net.raw(f"vw1 w1 0 sin(0 {v['peak']} {v['f']})")
        net.raw(f"vw2 w2 0 sin(0 {-v['peak']} {v['f']})")
        net.resistor("RW1", "w1", "w1r", 45, "transformer", 10)
        net.resistor("RW2", "w2", "w2r", 45, "transformer", 10)
        net.diode("DR1", "w1r", "r1", "dpower", "rectifier")
        net.diode("DR2", "w2r", "r2", "dpower", "rectifier")
        net.resistor("RV1", "r1", "hta", 60, "rectifier-valve", 5)
        net.resistor("RV2", "r2", "hta", 60, "rectifier-valve", 5)
        net.capacitor("CRA", "hta", "0", v["res"], "reservoir", "rectifier")
        net.capacitor("CRB", "hta", "0", v["res"], "reservoir", "rectifier")
        net.inductor("LCH", "hta", "htb", v["choke"], v["chohm"], "chain")
        net.capacitor("CB", "htb", "0", 20e-6, "screen-section", "chain")
        net.resistor("RC", "htb", "htc", v["drop_c"], "chain", 2)
        net.capacitor("CC", "htc", "0", 20e-6, "splitter-section", "chain")
        net.resistor("RD", "htc", "htd", v["drop_d"], "chain", 1)
        net.capacitor("CD1", "htd", "0", 20e-6, "preamp-section", "chain")
        net.raw(f"vwb wb 0 sin(0 75 {v['f']})")
        net.resistor("RWB", "wb", "wbr", 100, "transformer", 1)
        net.diode("DB", "bs1", "wbr", "dpower", "bias-source")
        net.resistor("RB0", "bs1", "bs2", 470, "bias-source")
        net.capacitor("CBI1", "0", "bs2", 50e-6, "bias-filter", "bias-source")
        net.resistor("RB1", "bs2", "bias", 15e3, "bias-source")
        net.resistor("RB2", "bias", "0", 15e3 * abs(v["bias"]) / (73 - abs(v["bias"])), "bias-source")
        net.capacitor("CBI2", "0", "bias", 50e-6, "bias-filter", "bias-source")

    def stage(net):
        net.resistor("RIN", "sig", "g1", 33e3, "preamp")
        net.resistor("RG1", "g1", "0", 1e6, "preamp")
        net.triode("V1", "a1", "g1", "k1", 90, 2.6e-3, "preamp", valve="preamp-valves")
        net.resistor("RA1", "htd", "a1", 100e3, "preamp")
        net.resistor("RK1", "k1", "0", v["k"], "preamp")
        net.capacitor("CK1", "k1", "0", v["bypass"], "cathode-bypasses", "preamp")
        net.capacitor("C1", "a1", "t1", v["couple"], "early-couplings", "preamp", "film")
        net.resistor("RT1", "t1", "t2", 56e3, "tone")
        net.capacitor("CT1", "t2", "0", 470e-12, "bright-part", "tone", "mica")
        net.capacitor("CT2", "t2", "t3", 22e-9, "tone-parts", "tone", "film")
        net.resistor("RT3", "t3", "0", 150e3, "tone")
        net.resistor("RT4", "t2", "0", 1e6, "tone")
        net.control("VOL", "t3", "wip", "0", 1e6, "tone")
        net.triode("V2", "a2", "wip", "k2", 90, 2.6e-3, "preamp", valve="preamp-valves")
        net.resistor("RA2", "htd", "a2", 100e3, "preamp")
        net.resistor("RK2", "k2", "0", v["k"], "preamp")
        net.capacitor("CK2", "k2", "0", v["bypass"], "cathode-bypasses", "preamp")
        net.capacitor("C2", "a2", "g3", v["couple"], "early-couplings", "preamp", "film")
        net.resistor("RG3", "g3", "j3", 1e6, "splitter")
        net.triode("V3", "a3", "g3", "k3", 60, 2.6e-3, "splitter", valve="splitter-valve")
        net.resistor("RA3", "htc", "a3", 56e3, "splitter")
        net.resistor("RK3", "k3", "j3", 1500, "splitter")
        net.resistor("RJ3", "j3", "0", 56e3, "splitter")
        for s, source in (("p", "a3"), ("n", "j3")):
            net.capacitor(f"CG{s}", source, f"g4{s}", v["out"], "grid-couplings", "output", "film", grid_leak=220e3)
            net.resistor(f"RG4{s}", f"g4{s}", "bias", 220e3, "output")
            net.pentode(f"V4{s}", f"a4{s}", f"g4{s}", f"s4{s}", f"k4{s}", 8.5, 1.45e-3, "output", valve="output-valves", watt=25)
            net.resistor(f"RS4{s}", "htb", f"s4{s}", 470, "output", 1)
            net.resistor(f"RK4{s}", f"k4{s}", "0", 1.0, "output", 1)
        net.raw("lp1 hta p1 8")
        net.raw("lp2 p2 hta 8")
        net.raw("klp lp1 lp2 0.9998")
        net.resistor("RP1", "p1", "a4p", 60, "output", 10)
        net.resistor("RP2", "p2", "a4n", 60, "output", 10)
        net.resistor("RREF", "a4p", "a4n", 4000, None, 50)
        net.raw("espk spk0 0 a4p a4n 0.0447")
        net.resistor("RSJ", "spk0", "spk", 0.05, "speaker", 20)
        net.resistor("RSP", "spk", "0", 8, None, 50)

    bench = Bench("valve-guitar-amplifier", variant, v["year"], "A guitar amplifier: chain, bias, preamplifier, push-pull output",
                  [NEETS_6, NEETS_6V, TERMAN, PRACTICE + "split-load phase splitter and fixed bias"], hertz=v["f"],
                  supply=supply, stage=stage, feeds=("hta", "htb", "htc", "htd", "bias"),
                  supply_start={"hta": v["ht"], "htb": v["ht"] - 8, "htc": v["ht"] - 40, "htd": v["ht"] - 80, "bias": v["bias"],
                                "bs2": -73},
                  supply_stop=1.0, rails={"ht-a": "hta", "ht-b": "htb", "ht-c": "htc", "ht-d": "htd", "bias": "bias"},
                  outputs={"": "spk"}, output_block={"": "output"}, controls=("VOL",), half=0.15, quiet=0.7, loud=9.0, hum_volts=0.08,
                  fuse=("RW1", "RW2"),
                  blocks={"preamp": [("sig", "t1", "")], "tone": [("t1", "wip", "")],
                          "splitter": [("g3", "a3", ""), ("g3", "j3", "")], "output": [("g4p", "spk0", "")],
                          "speaker": [("spk0", "spk", "")]},
                  points={"preamp": [("a1", "0"), ("k1", "0"), ("a2", "0"), ("k2", "0")], "splitter": [("a3", "0"), ("j3", "0")],
                          "output": [("g4p", "0"), ("g4n", "0"), ("s4p", "0")]},
                  wipers={"tone": ["wip"]}, grids={"output": ["g4p", "g4n"]}, idle={"output": [("k4p", "0"), ("k4n", "0")]},
                  valves={"rectifier-valve": ("RV1", "RV2"), "preamp-valves": ("V1", "V2"), "splitter-valve": ("V3",),
                          "output-valves": ("V4p", "V4n")})
    bench.causes = [
        Cause("heater-open", "rectifier-valve", {"RV1": "open", "RV2": "open"}),
        Cause("heater-open", "preamp-valves", {"V1": "dead"}), Cause("heater-open", "splitter-valve", {"V3": "dead"}),
        Cause("valve-weak", "output-valves", {"V4p": "weak"}), Cause("dropper-open", "chain", {"RD": "open"}),
        Cause("dropper-open", "chain", {"RC": "open"}), Cause("open-diode", "bias-source", {"DB": "open"}),
        Cause("resistor-drifted", "preamp", {"RA1": 6.0}), Cause("resistor-drifted", "splitter", {"RA3": 6.0}),
        Cause("resistor-drifted", "output", {"RG4p": "open"}), Cause("worn-control", "tone", {"VOL": "worn"}),
        Cause("loudspeaker", "speaker", {"RSJ": "open"}), Cause("open-diode", "rectifier", {"DR2": "open"})]
    return bench
