"""The benches, the faults that each is given, and which half of the benches stays unseen."""
import hashlib
from dataclasses import dataclass

from circuits_solid import power_amplifier, stereo_receiver, transistor_portable
from circuits_supply import bench_supply, switch_mode_supply
from circuits_valve import communications_receiver, valve_am_receiver, valve_guitar_amplifier

CIRCUITS = (stereo_receiver, power_amplifier, bench_supply, switch_mode_supply, valve_am_receiver,
            valve_guitar_amplifier, transistor_portable, communications_receiver)
VARIANTS = ("a", "b")


@dataclass
class Fault:
    name: str
    truth: str           # the suspect's id as the program names it
    parts: dict          # name of part: what has become of it
    cause: str = ""      # of a fault that is no capacitor
    block: str = ""
    mode: str = ""


def benches():
    return [circuit(variant) for circuit in CIRCUITS for variant in VARIANTS]


def is_unseen(bench):
    """One variant of each kind is unseen: which one, the digest of the kind's name decides, so that nobody chose."""
    first = int(hashlib.sha256(bench.kind.encode()).hexdigest()[0], 16) % 2 == 0
    return (bench.variant == "a") == first


def twin(name, names):
    """The like part of the other channel, if there is one."""
    other = {"l": "r", "r": "l"}.get(name[-1:])
    return name[:-1] + other if other and name[:-1] + other in names else None


def faults(bench, seed=1):
    """Every capacitor that has a group, in each of four states, and the causes that are no capacitor. Of two like
    parts in two channels one is taken, left or right as the digest of its name says."""
    found = []
    for which in ("supply", "stage"):
        if not getattr(bench, which):
            continue
        net = bench.net(which, seed)
        names = {p.name for p in net.parts}
        for part in net.parts:
            if part.sort != "C" or not part.group:
                continue
            if len(bench.outputs) == 2 and twin(part.name, names):
                left = int(hashlib.sha256((bench.name + part.name[:-1]).encode()).hexdigest()[0], 16) % 2 == 0
                if (part.name[-1] == "l") != left:
                    continue
            first = "dried" if part.kind == "electrolytic" else "drifted"
            for mode in (first, "leaky", "shorted", "open"):
                found.append(Fault(f"{part.name}-{mode}", f"group:{part.group}", {part.name: mode},
                                   block=part.block, mode=mode))
    for cause in bench.causes:
        name = f"{cause.cause}@{cause.block}-{'-'.join(cause.parts)}"
        found.append(Fault(name, f"cause:{cause.cause}@{cause.block}", dict(cause.parts), cause.cause, cause.block))
    return found
