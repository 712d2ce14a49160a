"""Integrates the model of the arm a second time, with SciPy.

Written from the equations in the package comments of sim/tissue,
sim/circulation and sim/line and from the table of symbols, which comes in as
JSON; no number of the model stands here. One request a line on standard
input, one reply a line on standard output:

    {"symbols": [{"name", "unit", "value"}, ...], "case": {...}}

A symbol that this file does not know is an error. Times are seconds, volumes
mL, amounts the drug's base unit, pressures mmHg.
"""
import json
import math
import sys
import time

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

RTOL = 1e-11
# The file's own name of each symbol of the model.
KNOWN = {
    # tissue
    "kOut": "k_out", "floor": "floor", "kV": "k_v", "elevation": "elevation", "V0": "v0", "w": "w",
    "Ka": "ka", "Kb": "kb", "kAnt": "k_ant", "nitrate": "nitrate", "warmth": "warmth", "tauN": "tau_n",
    "pressFrom": "press_from", "pressSpan": "press_span", "h": "height", "ischaemicUnder": "ischaemic_under",
    "drawnShare": "drawn_share", "drawnFade": "drawn_fade", "feltMM": "felt", "seenMM": "seen",
    "tightMM": "tight", "deepTightML": "deep_tight", "soreML": "sore", "paleUnder": "pale",
    "coolUnder": "cool", "burnsUnder": "burns", "burnsFromML": "burns_from", "slowUnder": "slow",
    "reach": "reach", "burnAfter": "burn_after", "paleGain": "pale_gain", "paleEdge": "pale_edge",
    # circulation
    "ke": "ke", "Emax": "emax", "betaMost": "beta_most", "reflex": "reflex", "slowest": "slowest",
    "ppRise": "pp_rise", "ppBeta": "pp_beta",
    # all drugs
    "SAPS II lowest": "saps_least", "SAPS II highest": "saps_most",
    # vein, and leaking by hazard
    "ratioPer5": "ratio_per_5", "leastStudied": "least_studied", "mostStudied": "most_studied",
    "referenceShare": "reference_share", "perPuncture": "per_puncture", "proximalHole": "proximal_hole",
    "distalHole": "distal_hole", "cuffOn": "cuff_on", "tourniquetOn": "tourniquet_on", "restless": "restless",
    "leak at hand": "at hand", "leak at wrist": "at wrist", "leak at forearm": "at forearm",
    "leak at fossa": "at fossa", "leak at upper-arm": "at upper-arm", "leak at neck": "at neck",
    "leakOverLeast": "leak_over_least", "leakOverMost": "leak_over_most", "leakShareLeast": "leak_share_least",
    # lines and patients
    "bore": "bore", "usualRate": "usual_rate", "usualPulse": "usual_pulse",
}
for gauge in (14, 16, 18, 20, 22, 24, 26):
    KNOWN["outer %d gauge" % gauge] = "outer %d" % gauge
for drug in ("norepinephrine", "epinephrine", "phenylephrine", "dopamine", "vasopressin", "phentolamine"):
    for what in ("CL", "CL20", "CL power", "CL power of SAPS II", "CL power of weight", "V", "E50",
                 "beta E50", "tissue E50", "kLocal", "blocks"):
        KNOWN[drug + " " + what] = drug + " " + what

# Factors to seconds, mL, and L/s.
UNITS = {"1/min": 1 / 60, "min": 60.0, "L/min": 1 / 60, "L/h": 1 / 3600}
PER_MINUTE_AS_SAID = {"betaMost", "slowest", "usualRate", "reflex"}  # heart rates stay a minute

SCAN = 4.0  # s, the widest stretch over which a crossing is looked for by its ends


class Table:
    """The values of the symbols, and which of them a case has used."""

    def __init__(self, rows):
        self.value, self.symbol, self.used = {}, {}, set()
        for row in rows:
            name = row["name"]
            if name not in KNOWN:
                raise KeyError("the oracle knows no symbol %r" % name)
            factor = 1.0 if name in PER_MINUTE_AS_SAID else UNITS.get(row["unit"], 1.0)
            self.value[KNOWN[name]] = row["value"] * factor
            self.symbol[KNOWN[name]] = name

    def __getitem__(self, key):
        self.used.add(self.symbol[key])
        return self.value[key]

    def __contains__(self, key):
        return key in self.value


class Drug:
    """What one drug is in one patient."""

    def __init__(self, par, name, base, kg, saps2):
        self.name, self.v1, self.blocker = name, base == "units", (name + " blocks") in par
        self.volume = par[name + " V"]
        if name + " CL20" in par:
            score = self.score(par, saps2)
            cl = par[name + " CL20"] * (score / 20) ** par[name + " CL power"]
        else:
            cl = par[name + " CL"]
            if name + " CL power of SAPS II" in par:
                cl *= (self.score(par, saps2) / 50) ** par[name + " CL power of SAPS II"]
            if name + " CL power of weight" in par:
                cl *= (kg / 70) ** par[name + " CL power of weight"]
        self.k = cl / self.volume
        if self.blocker:
            self.blocks = par[name + " blocks"]
            return
        self.e50 = par[name + " E50"]
        self.beta50 = par[name + " beta E50"] if name + " beta E50" in par else math.inf
        self.tissue50 = par[name + " tissue E50"]
        self.k_local = par[name + " kLocal"]

    @staticmethod
    def score(par, saps2):
        if saps2 < par["saps_least"]:
            return par["saps_least"]
        if saps2 > par["saps_most"]:
            return par["saps_most"]
        return saps2


class Tube:
    """Plug flow: stretches [mL, drug, concentration], the patient's end first."""

    def __init__(self, ml):
        self.ml, self.parts = ml, [[ml, None, 0.0]]

    def fill(self, drug, conc):
        self.parts = [[self.ml, drug, conc]]

    def front(self):
        return self.parts[0][0]

    def out(self):
        return self.parts[0][1], self.parts[0][2]

    def push(self, ml, drug, conc):
        """Pushes ml in at the far end; what comes out, patient's end first."""
        last = self.parts[-1]
        if (last[1], last[2]) == (drug, conc):
            last[0] += ml
        else:
            self.parts.append([ml, drug, conc])
        gone = []
        while ml > 0 and self.parts:
            first = self.parts[0]
            take = min(ml, first[0])
            gone.append([take, first[1], first[2]])
            first[0] -= take
            ml -= take
            if first[0] <= 1e-12 * self.ml and len(self.parts) > 1:
                self.parts.pop(0)
        return gone

    def replace_far(self, new):
        keep, near = self.ml - sum(p[0] for p in new), []
        for ml, drug, conc in self.parts:
            if keep > 0:
                near.append([min(ml, keep), drug, conc])
                keep -= ml
        self.parts = near + new


class Line:
    def __init__(self, row, place, par):
        self.id, self.side, self.depth, self.central = row["id"], row["side"], row["depth"], row["central"]
        self.placed, self.removed = row["placed"], math.inf
        if self.central:
            dead = place["central_ml"]
        else:
            outer = par["outer %d" % row["gauge"]]
            bore = par["bore"] * outer
            dead = place["extension_ml"] + math.pi / 4 * bore * bore * row["length"] / 1000
            path = row["depth"] / math.sin(math.radians(row["angle"]))
            inside = max(0.0, row["length"] - path)
            if row["straight"] > 0:
                inside = min(inside, row["straight"])
            self.share = inside / row["length"]
        self.row, self.tube = row, Tube(dead)
        self.pump, self.held, self.flush = None, 0, 0.0
        self.carried, self.nth, self.hazard = False, 0, 0.0
        self.leak_at, self.leak_over, self.leak_to = math.inf, 0.0, 0.0
        self.last_flow, self.nitrate = 0.0, False

    def lost(self, t):
        """Share of the flow that goes beside the vein."""
        if t < self.leak_at:
            return 0.0
        if t >= self.leak_at + self.leak_over:
            return self.leak_to
        return self.leak_to * (t - self.leak_at) / self.leak_over

    def per_second(self, par, base, cuffed, tied, restless):
        """Hazard of leaking."""
        share = self.share
        if share < par["least_studied"]:
            share = par["least_studied"]
        elif share > par["most_studied"]:
            share = par["most_studied"]
        h = base * par["ratio_per_5"] ** ((share - par["reference_share"]) / 0.05) * par["at " + self.row["site"]]
        for factor, times in (("per_puncture", "punctures"), ("proximal_hole", "proximal"), ("distal_hole", "distal")):
            if self.row[times]:
                h *= par[factor] ** self.row[times]
        if cuffed:
            h *= par["cuff_on"]
        if tied:
            h *= par["tourniquet_on"]
        if restless:
            h *= par["restless"]
        return h / 3600


class Pump:
    def __init__(self, place):
        self.rate, self.running, self.bag, self.line, self.resumes = 0.0, False, None, None, False
        self.tube = Tube(place["tubing_ml"])

    def flows(self):
        return self.running and self.rate > 0 and self.bag and self.bag["left"] > 0 and self.line and not self.line.held


class Arm:
    def __init__(self):
        self.raised = self.warm = self.hot = self.tied = False
        self.since = math.inf


class Run:
    """One case: what flows is worked out first, event by event, and the
    differential equations are integrated over each stretch between events."""

    def __init__(self, case, par):
        self.case, self.par = case, par
        patient = case["patient"]
        self.drugs = [Drug(par, d["name"], d["base"], patient["kg"], patient["saps2"]) for d in case["drugs"]]
        self.number = {d.name: i for i, d in enumerate(self.drugs)}
        self.block = next((i for i, d in enumerate(self.drugs) if d.blocker), None)
        self.lines = {row["id"]: Line(row, case["place"], par) for row in case["lines"]}
        self.pumps = {name: Pump(case["place"]) for name in case["pumps"]}
        self.bags, self.arms = {}, {"left": Arm(), "right": Arm()}
        self.carriers, self.first_run, self.leak_placed = 0, None, False
        self.heart = patient["heart"] or par["usual_rate"]
        self.pulse = patient["pulse"] or par["usual_pulse"]
        self.treated = [math.inf] * len(case["strains"])
        self.depots = []  # lines with a depot, in the order it began
        self.antidote, self.spread, self.sights, self.glances = set(), {}, {}, {}
        self.y = np.zeros(2 * len(self.drugs))
        self.asked, self.samples = sorted(case["ask"]), []
        self.out = dict(under=0.0, under_area=0.0, over=0.0, over_area=0.0, first_drug=None, drug_free=0.0,
                        tissue_amount=0.0, tissue_ml=0.0, ischaemic=0.0, widest=0.0, flushed=0.0)
        self.empties, self.burned, self.leaks = [], [], {}
        self.width_of = 5 + len(self.drugs)
        # Constants of the right-hand side, looked up once.
        self.c = {k: par[k] for k in ("k_out", "floor", "k_v", "v0", "w", "k_ant", "tau_n", "ke")}
        self.dilators = None

    # What acts do.

    def effects(self):
        """Each effect of each act as (time, order, function)."""
        todo = []

        def at(t, what):
            todo.append((t, len(todo), what))

        for act in self.case["acts"]:
            begin, end, name = act["began"], act["ends"], act["name"]
            if name == "blood-return":
                at(begin, lambda a=act: self.hold(a, 1))
                at(end, lambda a=act: self.hold(a, -1))
            elif name == "flush":
                at(begin, lambda a=act: self.hold(a, 1, a["ml"] / (a["ends"] - a["began"])))
                at(end, lambda a=act: self.hold(a, -1))
            elif name in ("move", "move-primed"):
                at(act["turn"] if name == "move-primed" else begin, lambda a=act: self.pause(a))
                at(end, lambda a=act: self.moved(a))
            else:
                at(end, lambda a=act, do=getattr(self, "do_" + name.replace("-", "_")): do(a))
        return sorted(todo, key=lambda e: (e[0], e[1]))

    def hold(self, act, by, flush=0.0):
        line = self.lines[act["line"]]
        line.held += by
        line.flush = flush

    def pause(self, act):
        pump = self.pumps[act["pump"]]
        pump.resumes, pump.running = pump.running, False

    def moved(self, act):
        pump = self.pumps[act["pump"]]
        self.join(pump, self.lines[act["line"]])
        if act["name"] == "move-primed":
            self.prime_extension(pump)
        pump.running = bool(pump.resumes and pump.bag and pump.bag["left"] > 0)

    def join(self, pump, line):
        if pump.line:
            pump.line.pump = None
        pump.line, line.pump = line, pump

    def prime_extension(self, pump):
        ml = self.case["place"]["extension_ml"]
        pump.line.tube.replace_far(pump.tube.push(ml, pump.bag["drug"], pump.bag["conc"]))
        pump.bag["left"] -= ml

    def do_mix(self, act):
        volume = act["bag_ml"] + (0.0 if act["withdrawn"] else act["drug_ml"])
        drug = self.number[act["drug"]]
        self.bags[act["bag"]] = {"drug": drug, "conc": act["amount"] / volume, "left": volume}

    def do_draw_up(self, act):
        self.bags[act["bag"]] = {"name": act["drug"], "conc": act["amount"] / act["bag_ml"], "left": act["bag_ml"]}

    def do_hang(self, act):
        self.pumps[act["pump"]].bag = self.bags[act["bag"]]

    def do_prime(self, act):
        pump = self.pumps[act["pump"]]
        pump.tube.fill(pump.bag["drug"], pump.bag["conc"])
        pump.bag["left"] -= pump.tube.ml

    def do_connect(self, act):
        self.join(self.pumps[act["pump"]], self.lines[act["line"]])

    def do_connect_primed(self, act):
        self.do_connect(act)
        self.prime_extension(self.pumps[act["pump"]])

    def do_set(self, act):
        self.pumps[act["pump"]].rate = act["rate"] / 3600

    def do_start(self, act):
        self.pumps[act["pump"]].running = True

    def do_stop(self, act):
        self.pumps[act["pump"]].running = False

    def do_disconnect(self, act):
        pump = self.pumps[act["pump"]]
        pump.running = False
        pump.line.pump = pump.line = None

    def do_raise(self, act):
        self.arms[act["arm"]].raised = True

    def do_warm(self, act):
        arm = self.arms[act["arm"]]
        arm.warm, arm.hot, arm.since = True, act["hot"], act["ends"]

    def do_cool_off(self, act):
        arm = self.arms[act["arm"]]
        arm.warm = arm.hot = False

    def do_tie(self, act):
        self.arms[act["arm"]].tied = True

    def do_untie(self, act):
        self.arms[act["arm"]].tied = False

    def do_nitrate(self, act):
        self.lines[act["line"]].nitrate = True

    def do_nitrate_off(self, act):
        self.lines[act["line"]].nitrate = False

    def do_pull(self, act):
        line = self.lines[act["line"]]
        line.removed = act["ends"]
        line.tube.fill(None, 0.0)

    def do_draw_back(self, act):
        line = self.lines[act["line"]]
        line.tube.fill(None, 0.0)
        if line in self.depots:
            delay = max(0.0, act["ends"] - line.last_flow)
            left = 1 - self.par["drawn_share"] * math.exp(-delay / self.par["drawn_fade"])
            i = self.place(line)
            self.y[i:i + 4] *= left
            self.y[i + 5:i + self.width_of] *= left

    def do_infiltrate(self, act):
        line, syringe = self.lines[act["line"]], self.bags[act["bag"]]
        syringe["left"] -= act["ml"]
        self.need_depot(line)
        i = self.place(line)
        self.y[i + 1] += act["ml"]
        self.y[i + (2 if syringe["name"] in self.number else 3)] += act["ml"] * syringe["conc"]
        self.antidote.add(line.id)
        self.widen(line, self.y)

    def do_antidote_through(self, act):
        if self.lines[act["line"]].lost(act["ends"]) > 0:
            self.do_infiltrate(act)

    def do_treat(self, act):
        for i, strain in enumerate(self.case["strains"]):
            if strain["by"] == act["by"] and strain["at"] <= act["ends"] and self.treated[i] == math.inf:
                self.treated[i] = act["ends"]

    # What flows.

    def flow(self, line):
        """(mL/s, drug and concentration at the hub, at the tip, mL until that changes, pump)."""
        if line.flush > 0:
            q, pump, hub, until = line.flush, None, (None, 0.0), math.inf
        elif line.pump and line.pump.flows():
            pump = line.pump
            q, hub = pump.rate, pump.tube.out()
            until = pump.bag["left"]
            if len(pump.tube.parts) > 1 or hub != (pump.bag["drug"], pump.bag["conc"]):
                until = min(until, pump.tube.front())
        else:
            return None
        tip = line.tube.out()
        if len(line.tube.parts) > 1 or tip != hub:
            until = min(until, line.tube.front())
        return q, hub, tip, until, pump

    def hazard(self, line):
        """Per second of running."""
        cuffed = line.side == self.case["cuff"] and line.row["site"] != "neck"
        return line.per_second(self.par, self.case["leak"]["per_hour"], cuffed, self.arms[line.side].tied,
                               self.case["patient"]["restless"])

    def next_leak(self, line, t):
        leak = self.case["leak"]
        if not line.carried or line.central or line.leak_at < math.inf or t >= line.removed:
            return math.inf
        if leak["kind"] == "hazard":
            return t + max(0.0, leak["limits"][line.nth - 1] - line.hazard) / self.hazard(line)
        if leak["kind"] == "placed" and not self.leak_placed:
            return max(t, self.first_run + leak["begins"])
        return math.inf

    def begin_leak(self, line, t):
        leak = self.case["leak"]
        if leak["kind"] == "placed":
            self.leak_placed = True
            line.leak_over, line.leak_to = leak["over"], leak["fraction"]
        else:
            draw, par = leak["draws"][line.nth - 1], self.par
            line.leak_over = 0.0
            if not draw["sudden"]:
                least, most = par["leak_over_least"], par["leak_over_most"]
                line.leak_over = least + draw["over"] * (most - least)
            line.leak_to = par["leak_share_least"] + draw["share"] * (1 - par["leak_share_least"])
        line.leak_at = t
        self.leaks[line.id] = t
        self.need_depot(line)

    def need_depot(self, line):
        if line not in self.depots:
            self.depots.append(line)
            self.y = np.append(self.y, np.zeros(self.width_of))
            self.spread.setdefault(line.row["id"], 0.0)

    def place(self, line):
        return 2 * len(self.drugs) + self.depots.index(line) * self.width_of

    def settle(self, t):
        for line in self.lines.values():
            f = self.flow(line)
            if f is None:
                continue
            if f[4] and not line.carried:
                line.carried = True
                if not line.central:
                    self.carriers += 1
                    line.nth = self.carriers
                if self.first_run is None:
                    self.first_run = t
            if f[2][1] > 0 and line.lost(t) < 1 and t < line.removed and self.out["first_drug"] is None:
                self.out["first_drug"] = t

    def go(self):
        t, todo, i = 0.0, self.effects(), 0
        end = self.case["end"]
        while t < end:
            while i < len(todo) and todo[i][0] <= t:
                todo[i][2]()
                i += 1
            self.settle(t)
            stop = min(end, todo[i][0] if i < len(todo) else end)
            flows, why = {}, None
            for line in self.lines.values():
                f = self.flow(line)
                if f is not None:
                    flows[line] = f
                    if t + f[3] / f[0] < stop:
                        stop, why = t + f[3] / f[0], "front"
                    if f[4] and self.next_leak(line, t) < stop:
                        stop, why = self.next_leak(line, t), line
                if t < line.leak_at + line.leak_over < stop:
                    stop, why = line.leak_at + line.leak_over, "full"
            for arm in self.arms.values():
                if arm.hot and t < arm.since + self.par["burn_after"] <= stop:
                    stop, why = arm.since + self.par["burn_after"], "hot"
            if stop > t or why == "front":
                self.stretch(t, stop, flows)
            if why == "hot":
                self.burn(stop)
            if isinstance(why, Line):
                self.begin_leak(why, stop)
            t = stop
        return self.reply()

    def stretch(self, a, b, flows):
        dt = b - a
        if dt > 0:
            self.integrate(a, b, flows)
        reached = False
        for line, (q, hub, tip, until, pump) in flows.items():
            ml = min(q * dt, until)
            if until - ml < 1e-9:
                ml = until
            share = (line.lost(a) + (line.lost(b) if line.leak_at < b else 0.0)) / 2 if line.leak_at < b else 0.0
            if a < line.removed:
                self.out["tissue_ml"] += ml * share
                if tip[0] is not None and self.drugs[tip[0]].name == self.case["order"]["drug"]:
                    self.out["tissue_amount"] += ml * share * tip[1]
                if share > 0:
                    line.last_flow = b
                reached = reached or (tip[1] > 0 and share < 1)
            line.tube.push(ml, *hub)
            if pump:
                bag = pump.bag
                pump.tube.push(ml, bag["drug"], bag["conc"])
                bag["left"] -= ml
                if bag["left"] <= 1e-9:
                    bag["left"], pump.running = 0.0, False
                    self.empties.append(b)
                if line.carried and not line.central and self.case["leak"]["kind"] == "hazard":
                    line.hazard += self.hazard(line) * dt
            else:
                self.out["flushed"] += ml * tip[1]
        if self.out["first_drug"] is not None and not reached:
            self.out["drug_free"] += dt

    # The equations.

    def divisor(self, line):
        n = 0.0
        if line.nitrate:
            n += self.par["nitrate"]
        if self.arms[line.side].warm:
            n += self.par["warmth"]
        return n

    def rate_of_fluid(self, line):
        k = self.c["k_v"]
        if self.arms[line.side].raised:
            k *= self.par["elevation"]
        return k

    def perfusion(self, line, y):
        """Share of normal blood flow; y may hold many instants."""
        i = self.place(line)
        room = y[i] + self.c["v0"] + self.c["w"] * y[i]
        alpha = v1 = 0.0
        for j, d in enumerate(self.drugs):
            if d.blocker:
                continue
            x = y[i + 5 + j] / room / d.tissue50
            if d.v1:
                v1 = v1 + x
            else:
                alpha = alpha + x
        ca = cb = 0.0
        if line.id in self.antidote:
            ca, cb = y[i + 2] / room / self.par["ka"], y[i + 3] / room / self.par["kb"]
        x = (alpha / (1 + ca) + v1) / (1 + cb + y[i + 4])
        p = 1 / (1 + x * x)
        fluid = y[i] + y[i + 1]
        if np.max(fluid) > self.par["press_from"]:
            over = np.maximum(0.0, fluid - self.par["press_from"]) / self.par["press_span"]
            p = p * (1 - over ** 2 / (1 + over ** 2))
        return p

    def integrate(self, a, b, flows):
        n, w, c, drugs = len(self.drugs), self.width_of, self.c, self.drugs
        sites = []
        for line in self.depots:
            q = drug = conc = 0
            if line in flows and a < line.removed:
                q, (drug, conc) = flows[line][0], flows[line][2]
            sites.append((line, self.place(line), q, drug, conc, self.rate_of_fluid(line), self.divisor(line)))
        direct = []
        for line, (q, hub, tip, _, _) in flows.items():
            if tip[0] is not None and a < line.removed:
                direct.append((line, tip[0], q * tip[1]))
        k_out, floor, k_ant, tau_n, ke = c["k_out"], c["floor"], c["k_ant"], c["tau_n"], c["ke"]
        vaso = [j for j, d in enumerate(drugs) if not d.blocker]

        def rhs(t, y):
            y = y.tolist()
            f = [0.0] * len(y)
            for line, drug, amount in direct:
                f[2 * drug] += amount * (1 - lost(line, t))
            for line, i, q, drug, conc, kv, target in sites:
                into = q * lost(line, t) if q else 0.0
                p = self.perfusion(line, y)
                wash = k_out * (floor + (1 - floor) * p) + kv
                f[i] = into - kv * y[i]
                f[i + 1] = -kv * y[i + 1]
                f[i + 2] = -k_ant * y[i + 2]
                f[i + 3] = -k_ant * y[i + 3]
                f[i + 4] = (target - y[i + 4]) / tau_n
                for j in vaso:
                    m = y[i + 5 + j]
                    if m or into:
                        f[i + 5 + j] = -(wash + drugs[j].k_local) * m
                        f[2 * j] += wash * m
                if into and drug is not None:
                    f[i + 5 + drug] += into * conc
                if self.block is not None:
                    f[2 * self.block] += k_ant * y[i + 2]
            for j, d in enumerate(drugs):
                f[2 * j] -= d.k * y[2 * j]
                f[2 * j + 1] = ke * (y[2 * j] / d.volume - y[2 * j + 1])
            return f

        def lost(line, t):
            # The stretch ends where the ramp does, so its formula holds throughout.
            if line.leak_at > a:
                return 0.0
            if line.leak_over <= 0 or a >= line.leak_at + line.leak_over:
                return line.leak_to
            return line.leak_to * (t - line.leak_at) / line.leak_over

        scale = np.ones(len(self.y))
        for j, d in enumerate(drugs):
            one = d.blocks if d.blocker else d.e50
            scale[2 * j], scale[2 * j + 1] = one * d.volume, one
            for _, i, *_ in sites:
                scale[i + 5 + j] = 1.0 if d.blocker else d.tissue50
        if not np.any(self.y) and not direct and not any(s[2] or s[6] for s in sites):
            self.look(a, b, None)
            return
        got = solve_ivp(rhs, (a, b), self.y, method="DOP853", rtol=RTOL, atol=1e-12 * scale, dense_output=True)
        if not got.success:
            raise RuntimeError(got.message)
        self.look(a, b, got.sol)
        self.y = got.y[:, -1].copy()
        for line in self.depots:
            key = line.row["id"]
            self.spread[key] = max(self.spread[key], self.y[self.place(line)])

    # What is read off the solution.

    def untreated(self, t):
        pts = self.case["patient"]["untreated"]
        v = np.interp(t, [p[0] for p in pts], [p[1] for p in pts])
        for strain, treated in zip(self.case["strains"], self.treated):
            on = ramp(t - strain["at"], strain["over"])
            if treated < math.inf:
                on = on * (1 - ramp(t - treated, strain["eases"]))
            v = v + strain["mmhg"] * on
        return v

    def answer(self, y):
        """(rise in mean pressure, share of the beta effect)."""
        alpha = v1 = block = beta = 0.0
        for j, d in enumerate(self.drugs):
            e = np.maximum(0.0, y[2 * j + 1])
            if d.blocker:
                block = block + e / d.blocks
            elif d.v1:
                v1 = v1 + e / d.e50
            else:
                alpha = alpha + e / d.e50
            if not d.blocker and d.beta50 < math.inf:
                beta = beta + e / d.beta50
        x = alpha / (1 + block) + v1
        return self.par["emax"] * x / (1 + x), beta / (1 + beta)

    def across(self, ml):
        return 2 * np.sqrt(np.maximum(0.0, ml) * 1000 / math.pi / self.par["height"])

    def margins(self, line, y):
        """How far each sign is from showing: it shows from 0 on."""
        par, i = self.par, self.place(line)
        v, fluid, p = y[i], y[i] + y[i + 1], self.perfusion(line, y)
        wide = self.across(fluid)
        out = self.across(np.maximum(v, self.spread[line.row["id"]])) / 2 - par["reach"] * line.depth
        margin = {
            "swelling": np.minimum(wide - par["felt"], out),
            "blanching": np.minimum(par["pale"] - p, out),
            "coolness": np.minimum(par["cool"] - p, out),
            "slow-refill": np.minimum(par["slow"] - p, out),
        }
        surfaced = np.minimum(out, wide - par["tight"])
        hidden = np.minimum(-out, v - par["deep_tight"])
        margin["tightness"] = np.maximum(surfaced, hidden)
        if self.case["patient"]["tells"]:
            stings = np.minimum(par["burns"] - p, v - par["burns_from"])
            margin["pain"] = np.maximum(v - par["sore"], stings)
        any_leak = None
        for sign in ("swelling", "blanching", "coolness", "tightness", "pain"):
            if sign in margin:
                any_leak = margin[sign] if any_leak is None else np.maximum(any_leak, margin[sign])
        margin["leak"] = any_leak
        return margin

    def glance(self, line, y):
        i = self.place(line)
        out = self.across(np.maximum(y[i], self.spread[line.row["id"]])) / 2 - self.par["reach"] * line.depth
        under = self.par["ischaemic_under"] if self.case["patient"]["skin"] == "dark" else self.par["pale"]
        return {
            "swollen": np.minimum(out, self.across(y[i] + y[i + 1]) - self.par["seen"]),
            "pale": np.minimum(out, under - self.perfusion(line, y)),
        }

    def widen(self, line, y):
        i = self.place(line)
        self.out["widest"] = max(self.out["widest"], float(np.max(self.across(y[i]))))

    def look(self, a, b, sol):
        at = (lambda t: self.y) if sol is None else sol
        ts = np.linspace(a, b, max(2 + int((b - a) / SCAN), min(60, 2 + int(b - a) * 8)))
        ys = np.repeat(self.y[:, None], len(ts), axis=1) if sol is None else sol(ts)
        ys[:, 0] = self.y
        if self.out["first_drug"] is not None:
            self.pressure(a, b, ts, ys, at)
        for line in self.depots:
            self.widen(line, ys)
            under = self.par["ischaemic_under"]
            g = under - self.perfusion(line, ys)
            roots = crossings(ts, g, lambda t: under - float(self.perfusion(line, at(t))))
            self.out["ischaemic"] += length(a, b, roots, g[0] > 0)
            if line.id not in self.antidote:
                self.first(self.sights, line, ts, self.margins(line, ys), lambda t: self.margins(line, at(t)))
            swollen = lambda y: {"swollen": self.glance(line, y)["swollen"]}
            self.first(self.glances, line, ts, swollen(ys), lambda t: swollen(at(t)))
        while self.asked and self.asked[0] <= b:
            t = self.asked.pop(0)
            self.samples.append(self.sample(t, np.array(at(t) if t > a else self.y)))

    def first(self, found, line, ts, margins, again):
        """Keeps from when and until when each sign showed, the first few times."""
        for sign, g in margins.items():
            spells = found.setdefault(line.id + " " + sign, [])
            shows = g >= 0
            open_ = bool(spells) and spells[-1][1] is None
            if open_ and not shows[0]:
                spells[-1][1] = float(ts[0])
                open_ = False
            elif not open_ and shows[0]:
                spells.append([float(ts[0]), None])
            for k in np.nonzero(shows[1:] != shows[:-1])[0] + 1:
                if not shows[k]:
                    spells[-1][1] = float(ts[k])
                elif len(spells) < 8:
                    f = lambda t: float(again(t)[sign])
                    at = ts[k - 1] if f(ts[k - 1]) >= 0 else ts[k] if f(ts[k]) <= 0 else brentq(f, ts[k - 1], ts[k], xtol=1e-6)
                    spells.append([float(at), None])
                else:
                    break

    def pressure(self, a, b, ts, ys, at):
        mean = lambda t: self.untreated(t) + self.answer(at(t))[0]
        values = self.untreated(ts) + self.answer(ys)[0]
        kinks = [p[0] for p in self.case["patient"]["untreated"]]
        for strain, treated in zip(self.case["strains"], self.treated):
            kinks += [strain["at"], strain["at"] + strain["over"], treated, treated + strain["eases"]]
        kinks = [k for k in kinks if a < k < b]
        for name, limit, sign in (("under", self.case["order"]["target"], -1), ("over", self.case["order"]["ceiling"], 1)):
            g = sign * (values - limit)
            roots = crossings(ts, g, lambda t: sign * (float(mean(t)) - limit))
            self.out[name] += length(a, b, roots, g[0] > 0)
            inside, edges = g[0] > 0, [a] + roots + [b]
            for lo, hi in zip(edges, edges[1:]):
                if inside:
                    cuts = [lo] + sorted(k for k in kinks if lo < k < hi) + [hi]
                    for x, z in zip(cuts, cuts[1:]):
                        self.out[name + "_area"] += gauss(lambda t: sign * (mean(t) - limit), x, z) / 60
                inside = not inside

    def burn(self, t):
        for side, arm in self.arms.items():
            if not arm.hot or arm.since + self.par["burn_after"] != t:
                continue
            for line in self.depots:
                if line.side == side and self.perfusion(line, self.y) < self.par["burns"] and self.y[self.place(line)] > self.par["burns_from"]:
                    self.burned.append(t)

    def sample(self, t, y):
        rise, beta = self.answer(y)
        mean = float(self.untreated(t) + rise)
        pulse = self.pulse * (1 + self.par["pp_rise"] * rise + self.par["pp_beta"] * beta)
        s = {
            "mean": mean, "systolic": mean + pulse * 2 / 3, "diastolic": mean - pulse / 3,
            "rate": max(self.par["slowest"], self.heart + self.par["beta_most"] * beta - self.par["reflex"] * rise),
        }
        for j, d in enumerate(self.drugs):
            s["blood " + d.name], s["effect " + d.name] = y[2 * j], y[2 * j + 1]
        for line in self.depots:
            i, key = self.place(line), line.row["id"]
            p = float(self.perfusion(line, y))
            s["V " + key], s["U " + key], s["N " + key] = y[i], y[i + 1], y[i + 4]
            s["A " + key], s["B " + key] = y[i + 2], y[i + 3]
            s["perfusion " + key] = p
            s["glance " + key] = float(self.glance(line, y)["pale"] > 0)
            spread = max(self.spread[key], y[i])
            surfaced = self.across(spread) / 2 >= self.par["reach"] * line.depth
            if p < self.par["pale"] and surfaced:
                s["pale mm " + key] = self.across(spread) * self.par["pale_gain"] + self.par["pale_edge"]
            for j, d in enumerate(self.drugs):
                if not d.blocker:
                    s["M " + d.name + " " + key] = y[i + 5 + j]
        return {k: float(v) for k, v in s.items()}

    def reply(self):
        return {
            "samples": self.samples, "outcome": self.out, "sights": shown(self.sights), "glances": shown(self.glances),
            "empties": self.empties, "burned": self.burned, "leaks": self.leaks, "used": sorted(self.par.used),
        }


def shown(found):
    return {key: spells for key, spells in found.items() if spells}


def ramp(since, over):
    if over <= 0:
        return np.where(np.asarray(since) > 0, 1.0, 0.0)
    return np.clip(since / over, 0.0, 1.0)


def crossings(ts, g, again):
    roots = []
    for k in np.nonzero((g[:-1] > 0) != (g[1:] > 0))[0]:
        lo, hi = again(ts[k]), again(ts[k + 1])
        if (lo > 0) == (hi > 0):
            roots.append(float(ts[k] if abs(lo) < abs(hi) else ts[k + 1]))
        else:
            roots.append(brentq(again, ts[k], ts[k + 1], xtol=1e-7))
    return roots


def length(a, b, roots, inside):
    edges, total = [a] + roots + [b], 0.0
    for lo, hi in zip(edges, edges[1:]):
        if inside:
            total += hi - lo
        inside = not inside
    return total


NODES, WEIGHTS = np.polynomial.legendre.leggauss(8)


def gauss(f, a, b):
    pieces = max(1, math.ceil((b - a) / 60))
    edges = np.linspace(a, b, pieces + 1)
    half, mid = (edges[1:] - edges[:-1]) / 2, (edges[1:] + edges[:-1]) / 2
    ts = mid[:, None] + half[:, None] * NODES[None, :]
    values = np.asarray(f(ts.ravel())).reshape(ts.shape)
    return float(np.sum(half[:, None] * WEIGHTS[None, :] * values))


def main():
    for request in sys.stdin:
        try:
            request = json.loads(request)
            began = time.perf_counter()
            reply = Run(request["case"], Table(request["symbols"])).go()
            reply["seconds"] = time.perf_counter() - began
        except Exception as fault:  # the test shows it
            import traceback
            reply = {"error": "%s: %s\n%s" % (type(fault).__name__, fault, traceback.format_exc())}
        print(json.dumps(reply), flush=True)


main()
