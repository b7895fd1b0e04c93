"""Parts of a simulated bench, the ways in which they fail, and their lines for ngspice.

A capacitor is a capacitance with a series resistance and a leak across it. Values of parts are drawn at random
within their tolerance, the same for the same seed, so that a play can be repeated.
"""
import math
import random

OPEN_OHM = 1e9

# kind: tolerance (low, high), loss factor, hertz at which it is stated, ohms times farads of a sound part's leak.
# The loss factors and leaks of sound parts: common practice, no source; 0.01 CV after minutes is the usual sheet rule.
CAPACITOR_KINDS = {
    "electrolytic": ((-0.10, 0.30), 0.10, 120.0, 100.0),
    "paper": ((-0.20, 0.20), 0.010, 1e4, 300.0),
    "film": ((-0.10, 0.10), 0.002, 1e4, 5000.0),
    "mica": ((-0.05, 0.05), 0.001, 1e6, 5000.0),
    "ceramic": ((-0.20, 0.20), 0.010, 1e5, 1000.0),
}

MODELS = """
.model dsi d(is=1e-12 n=1.05 rs=0.05)
.model dpower d(is=1e-9 n=1.2 rs=0.04)
.model dbias d(is=5e-14 n=1.0 rs=0.5)
.model dge d(is=1e-6 n=1.1 rs=5)
.model dschottky d(is=1e-5 n=1.05 rs=0.01)
.model dgrid d(is=1e-7 n=4 rs=800)
.model qn npn(is=1e-14 bf=200 vaf=100 rb=60 cjc=4p cje=8p tf=0.4n)
.model qp pnp(is=1e-14 bf=200 vaf=100 rb=60 cjc=5p cje=9p tf=0.6n)
.model qnd npn(is=5e-13 bf=100 vaf=100 rb=5 cjc=20p cje=60p tf=1.5n)
.model qpd pnp(is=5e-13 bf=100 vaf=100 rb=5 cjc=25p cje=60p tf=2n)
.model qnp npn(is=5e-12 bf=60 vaf=80 rb=1.5 cjc=300p cje=500p tf=40n)
.model qpp pnp(is=5e-12 bf=60 vaf=80 rb=1.5 cjc=300p cje=500p tf=40n)
.model qgp pnp(is=3e-7 bf=80 vaf=40 rb=50 cjc=15p cje=15p tf=30n)
.model qgn npn(is=3e-7 bf=80 vaf=40 rb=50 cjc=15p cje=15p tf=30n)
.model qgpp pnp(is=2e-6 bf=70 vaf=40 rb=5 cjc=80p cje=80p tf=200n)
.model qgnp npn(is=2e-6 bf=70 vaf=40 rb=5 cjc=80p cje=80p tf=200n)
"""


def draw(seed, *words):
    """A generator of its own for each thing drawn, so that one more part does not move the others."""
    return random.Random("/".join([str(seed), *map(str, words)]))


class Part:
    def __init__(self, sort, name, nodes, value=None, **facts):
        self.sort, self.name, self.nodes, self.value = sort, name, nodes, value
        self.block = facts.get("block")
        self.group = facts.get("group")
        self.kind = facts.get("kind")
        self.watt = facts.get("watt")
        self.facts = facts


class Net:
    """A list of parts; `fault` maps names of parts to what has become of them."""

    def __init__(self, circuit_id, seed, fault=None):
        self.circuit_id, self.seed = circuit_id, seed
        self.fault = fault or {}
        self.parts = []
        self.lines = []

    def _add(self, *args, **facts):
        part = Part(*args, **facts)
        self.parts.append(part)
        return part

    def drawn(self, name, value, low, high):
        return value * (1 + draw(self.seed, self.circuit_id, name).uniform(low, high))

    def resistor(self, name, a, b, ohm, block=None, watt=0.5, tolerance=0.05):
        value = self.drawn(name, ohm, -tolerance, tolerance)
        return self._add("R", name, (a, b), value, block=block, watt=watt, marked=ohm)

    def capacitor(self, name, a, b, farad, group=None, block=None, kind="electrolytic", **facts):
        """`b` is the far side: the control, grid, base or common behind it."""
        (low, high), _, _, _ = CAPACITOR_KINDS[kind]
        value = self.drawn(name, farad, low, high)
        return self._add("C", name, (a, b), value, block=block, group=group, kind=kind, marked=farad, **facts)

    def inductor(self, name, a, b, henry, ohm, block=None):
        return self._add("L", name, (a, b), henry, block=block, ohm=ohm)

    def diode(self, name, a, k, model="dsi", block=None):
        return self._add("D", name, (a, k), None, block=block, model=model)

    def transistor(self, name, c, b, e, model, block=None, watt=None):
        return self._add("Q", name, (c, b, e), None, block=block, model=model, watt=watt)

    def triode(self, name, anode, grid, cathode, mu, perveance, block=None, valve=None):
        """Anode current G (Vg + Va/mu)^1.5, Child and Langmuir's law with an amplification factor."""
        value = self.drawn(name, perveance, -0.1, 0.1)
        return self._add("T", name, (anode, grid, cathode), value, block=block, mu=mu, valve=valve)

    def pentode(self, name, anode, grid, screen, cathode, mu, perveance, block=None, valve=None, watt=None):
        value = self.drawn(name, perveance, -0.1, 0.1)
        return self._add("P", name, (anode, grid, screen, cathode), value, block=block, mu=mu, valve=valve, watt=watt)

    def control(self, name, top, wiper, bottom, ohm, block=None):
        """A volume control: two resistors that the simulator sets anew (rNAMEhi, rNAMElo)."""
        return self._add("POT", name, (top, wiper, bottom), ohm, block=block)

    def raw(self, text):
        self.lines.append(text)

    # ---- what becomes of parts -------------------------------------------------------------------------

    def capacitor_now(self, part):
        """Capacitance, series resistance and leak of a capacitor as it is now."""
        _, loss, at_hertz, ohm_farad = CAPACITOR_KINDS[part.kind]
        farad = part.value
        esr = loss / (2 * math.pi * at_hertz * part.facts["marked"])
        if part.kind == "electrolytic":
            esr = 0.02 + 0.5 * esr
        leak = min(ohm_farad / part.facts["marked"], 1e11)
        state = self.fault.get(part.name)
        dice = draw(self.seed, self.circuit_id, part.name, "fault")
        log = lambda low, high: math.exp(dice.uniform(math.log(low), math.log(high)))
        if state == "dried":  # dry electrolytics keep 3 to 30 % and gain a loss factor above one
            farad = part.value * log(0.03, 0.3)
            esr = log(1.0, 3.0) / (2 * math.pi * 120 * farad)
        elif state == "drifted":
            farad = part.value * dice.uniform(0.3, 0.55)
        elif state == "open":
            farad, esr = min(2e-12, part.value / 50), 1.0
        elif state == "shorted":
            leak = log(0.02, 0.5)
        elif state == "leaky":
            if part.kind == "electrolytic":  # a tenth to one ohm-farad: 10 uF leaks through 10 to 100 kohm
                leak = max(log(0.1, 1.0) / part.facts["marked"], 40.0)
            elif part.kind in ("paper", "film"):
                leak = log(0.3e6, 4e6)
            else:
                leak = log(0.1e6, 1e6)
        return farad, esr, leak

    def lines_of(self, part):
        n, nodes, state = part.name.lower(), part.nodes, self.fault.get(part.name)
        if part.sort == "R":
            ohm = part.value
            if state == "open":
                ohm = OPEN_OHM
            elif isinstance(state, float):
                ohm *= state
            return [f"r{n} {nodes[0]} {nodes[1]} {ohm:g}"]
        if part.sort == "C":
            farad, esr, leak = self.capacitor_now(part)
            a, b = nodes
            return [f"r{n}s {a} {n}x {esr:g}", f"c{n} {n}x {b} {farad:g}", f"r{n}p {a} {b} {leak:g}"]
        if part.sort == "L":
            ohm = OPEN_OHM if state == "open" else part.facts["ohm"]
            return [f"l{n} {nodes[0]} {n}x {part.value:g}", f"r{n}w {n}x {nodes[1]} {ohm:g}"]
        if part.sort == "D":
            if state == "open":
                return [f"r{n}o {nodes[0]} {nodes[1]} {OPEN_OHM:g}"]
            if state == "shorted":
                return [f"r{n}o {nodes[0]} {nodes[1]} 0.1"]
            return [f"d{n} {nodes[0]} {nodes[1]} {part.facts['model']}"]
        if part.sort == "Q":
            c, b, e = nodes
            if state == "open":
                return [f"r{n}o {c} {e} {OPEN_OHM:g}", f"r{n}q {b} {e} {OPEN_OHM:g}"]
            lines = [f"q{n} {c} {b} {e} {part.facts['model']}"]
            if state == "shorted":
                lines.append(f"r{n}o {c} {e} 0.3")
            elif state == "weak":
                lines = [f"q{n} {c} {b} {e} {part.facts['model']}weak"]
            return lines
        if part.sort in "TP":
            gain = {None: 1.0, "dead": 1e-6, "weak": 0.25}.get(state, 1.0) * part.value
            anode, grid, cathode = nodes[0], nodes[1], nodes[-1]
            pull = nodes[2] if part.sort == "P" else anode
            drive = f"v({grid},{cathode})+v({pull},{cathode})/{part.facts['mu']:g}"
            drive = f"(0.5*(({drive})+sqrt(({drive})*({drive})+1e-4)))"  # a soft corner at cut-off
            lines = []
            if part.sort == "P":
                knee = f"(0.6366*atan(v({anode},{cathode})/15))*(1+v({anode},{cathode})/4000)"
                lines += [f"b{n}a {anode} {cathode} i={gain:g}*pow({drive},1.5)*{knee}",
                          f"b{n}s {pull} {cathode} i={0.12 * gain:g}*pow({drive},1.5)"]
            else:
                there = f"0.5*(1+tanh(2*v({anode},{cathode})-6))"  # no current without volts at the anode
                lines += [f"b{n}a {anode} {cathode} i={gain:g}*pow({drive},1.5)*{there}"]
            if state != "dead":
                lines.append(f"d{n}g {grid} {cathode} dgrid")
            lines += [f"r{n}g {grid} {cathode} 1e9", f"c{n}g {grid} {cathode} 3p"]
            return lines
        if part.sort == "POT":
            top, wiper, bottom = nodes
            worn = 8 * part.value if state == "worn" else 0.5  # a track worn thin above the wiper's usual place
            return [f"r{n}top {top} {n}t {worn:g}", f"r{n}hi {n}t {wiper} {part.value / 2:g}",
                    f"r{n}lo {wiper} {bottom} {part.value / 2:g}"]
        raise ValueError(part.sort)

    def text(self):
        out = [MODELS]
        for part in self.parts:
            out += self.lines_of(part)
        for model in ("qn npn", "qp pnp", "qgp pnp", "qgn npn"):
            name, sort = model.split()
            if any(self.fault.get(p.name) == "weak" and p.facts.get("model") == name for p in self.parts):
                leak = "3e-7" if name.startswith("qg") else "1e-14"
                out.append(f".model {name}weak {sort}(is={leak} bf=8 vaf=15 rb=200 cjc=5p cje=9p)")
        return "\n".join(out + self.lines)

    # ---- what a meter sees in circuit, power off -------------------------------------------------------

    def seen_across(self, a, b, hertz):
        """Impedance between two nodes, power off. Junctions do not conduct at a meter's small volts, except
        those that are shorted. Nodal analysis, one ampere through the tips."""
        admittances = []
        for part in self.parts:
            n, state = part.nodes, self.fault.get(part.name)
            if part.sort == "R":
                ohm = OPEN_OHM if state == "open" else part.value * (state if isinstance(state, float) else 1)
                admittances.append((n[0], n[1], 1 / ohm))
            elif part.sort == "C":
                farad, esr, leak = self.capacitor_now(part)
                y = 1 / leak
                if hertz:
                    y += 1 / (esr + 1 / (2j * math.pi * hertz * farad))
                admittances.append((n[0], n[1], y))
            elif part.sort == "L":
                ohm = OPEN_OHM if state == "open" else part.facts["ohm"]
                admittances.append((n[0], n[1], 1 / (ohm + 2j * math.pi * hertz * part.value)))
            elif part.sort in "DQ" and state == "shorted":
                admittances.append((n[0], n[-1], 10.0))
            elif part.sort == "POT":
                admittances += [(n[0], n[1], 2 / part.value), (n[1], n[2], 2 / part.value)]
        nodes = {a, b}
        edges = {}
        for x, y, value in admittances:
            edges.setdefault(x, []).append((y, value))
            edges.setdefault(y, []).append((x, value))
        reached, todo = {a}, [a]
        while todo:
            for other, _ in edges.get(todo.pop(), []):
                if other not in reached:
                    reached.add(other)
                    todo.append(other)
        if b not in reached:
            return complex(OPEN_OHM)
        nodes = sorted(reached - {b})
        index = {node: i for i, node in enumerate(nodes)}
        rows = [{} for _ in nodes]
        for x, y, value in admittances:
            for p, q in ((x, y), (y, x)):
                if p in index:
                    row = rows[index[p]]
                    row[index[p]] = row.get(index[p], 0) + value
                    if q in index:
                        row[index[q]] = row.get(index[q], 0) - value
        right = [0j] * len(nodes)
        right[index[a]] = 1
        return solve(rows, right)[index[a]]


def solve(rows, right):
    """Gauss with sparse rows; the matrix is diagonally dominant, so the diagonal serves as pivot."""
    count = len(rows)
    for i in range(count):
        pivot = rows[i].get(i, 0) + 1e-15
        for j in [j for j in range(i + 1, count) if i in rows[j]]:
            factor = rows[j].pop(i) / pivot
            for k, value in rows[i].items():
                if k > i:
                    rows[j][k] = rows[j].get(k, 0) - factor * value
            right[j] -= factor * right[i]
    answer = [0j] * count
    for i in reversed(range(count)):
        total = right[i] - sum(value * answer[k] for k, value in rows[i].items() if k > i)
        answer[i] = total / (rows[i].get(i, 0) + 1e-15)
    return answer
