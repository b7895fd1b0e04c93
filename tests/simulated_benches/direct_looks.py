"""What is seen of a fault by looking straight at it: no volts are simulated for these."""

# What shows a cause directly when its block is looked at so. A look that shows it only at times has its share: such
# shares are judgement, no source.
DIRECT = {
    "open-diode": {"diodes-cold": 1, "switch-and-bridge-cold": 1},
    "shorted-diode": {"diodes-cold": 1, "switch-and-bridge-cold": 1},
    "output-rectifier-shorted": {"diodes-cold": 1, "junctions-cold": 1},
    "regulator-chip": {"chip-by-pins": 1, "junctions-cold": 1, "substitute-device": 1},
    "pass-shorted": {"junctions-cold": 1, "chip-by-pins": 1, "substitute-device": 1},
    "dropper-open": {"resistors-in-block": 1},
    "device-dead": {"junctions-cold": 1, "substitute-device": 1},
    "device-weak": {"substitute-device": 1},
    "output-device-shorted": {"junctions-cold": 1, "switch-and-bridge-cold": 1, "chip-by-pins": 0.5},
    "resistor-drifted": {"resistors-in-block": 1},
    "reference-drift": {"reference-volts": 1, "resistors-in-block": 1},
    "optocoupler": {"chip-by-pins": 1},
    "heater-open": {"valve-glow": 1, "valve-heater-ohms": 1, "swap-valve": 1},
    "valve-weak": {"swap-valve": 1},
    "worn-control": {"control-travel": 1, "work-contacts": 0.3},
    "dirty-control": {"work-contacts": 1, "control-travel": 0.7},
    "dirty-switch": {"work-contacts": 1},
    "cracked-joint": {"wiggle-and-tap": 0.9, "reflow-joint": 1, "sight-joints": 0.6},
    "connector": {"reseat-connectors": 1, "wiggle-and-tap": 0.7, "work-contacts": 0.5, "contact-voltage-drop": 1},
    "loudspeaker": {"swap-speaker": 1},
    "load-short": {"short-into-block": 1},
    "battery-flat": {"battery-under-load": 1},
    "battery-contact": {"contact-voltage-drop": 1, "work-contacts": 1, "battery-under-load": 0.5},
}

# A part looked at: how often its state can be seen. Judgement, no source.
SEEN_BY_EYE = {"dried": 0.15, "leaky": 0.1, "shorted": 0.35, "open": 0.05, "drifted": 0.02}

LOOKS_AT_ITSELF = {check for checks in DIRECT.values() for check in checks}
# Nothing of the kind is simulated, so that a look for it finds nothing.
FINDS_NOTHING = {"noise-halving", "ground-wire", "swap-lead", "outside-hum", "antenna-rise", "cool-device", "burn-in",
                 "worse-when-warm", "insulation-mains", "touch-current", "alignment-peaks", "detector-centre",
                 "stereo-pilot", "frequency-log", "tap-oscillator", "settles-itself", "load-outside"}

POWERED_DEAD_SET = {"series-lamp-start"}  # what may be done with a set that blows its fuse
