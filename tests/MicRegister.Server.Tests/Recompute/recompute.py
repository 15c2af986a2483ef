"""The figures of traces, worked out a second time from the facts that they cite.

Python 3, standard library alone. Written from the formulas below, not from the program; where the program states in its
documentation what it takes for granted ("common practice, no source"), the same is taken here and said so.

Read from standard input: a list of cases. Each holds
  facts    the facts that one station of a trace names, in the order in which they count, and what is said of the devices,
           the campaign, the station and the profile that it names; of no fact but these is anything known here,
  withdrawn  ids of those among them that do not count any more,
  entries  which entries of the register are one device: each other id with the one that was kept,
  named    what the trace names: ids, times, and words with every number taken out.
Written to standard output: for each case the figures by their place in the trace.

Formulas
  level of a ratio                20 lg(a / b)
  sensitivity level               20 lg(U / p) with p = 20 uPa 10^(L/20), dB re 1 V/Pa, or re 1 full scale/Pa
  a small relative uncertainty    20/ln 10 dB for each unit (GUM 5.1.2, derivative of 20 lg x)
  pistonphone                     L + 20 lg(p/p_cert): adiabatic compression of a fixed volume; dL/dp = 20/(ln 10 p)
  standard atmosphere             ISO 2533: p = 101.325 (1 - 0.0065 h/288.15)^(g/(0.0065 R)), R = 287.05287, g = 9.80665
  microphone in other air         kp dp + kT dT + kH dH from 101.325 kPa, 23 C, 50 %
  combined uncertainty            GUM 5.2.2: what has one source adds up with its sign, what has not in squares
  degrees of freedom              Welch-Satterthwaite, GUM G.4.1, one term a source; cut to a whole number (G.6.4)
  coverage factor                 Student's t for 95.45 %; beyond a million degrees of freedom the normal quantile
  channel's gain g                what voltages told: V/Pa as read, FS/Pa = V/Pa + g - range; what tones told: FS/Pa as read,
                                  V/Pa = FS/Pa - g + range. So dV/dg = -r and dFS/dg = 1 - r for the share r told by tones,
                                  with the gain's certificate as one source (GUM 5.1.3 and 5.2.2)
  repeated readings               s/sqrt(n), n - 1 degrees of freedom (GUM 4.2.3)
  half-width a, rectangular       a/sqrt(3) (GUM 4.3.7)
  image source over a rigid plane |1 + exp(-j k 2h)|: +6.02 dB flush, cos(pi f 2h/c) = 10^(-tol/20) up to where it holds;
                                  over a third octave 2 + 2 sinc-like ripple, at most 2/(k df), from where it stays within tol
"""

import json
import math
import re
import sys
from datetime import date, datetime, timedelta
from statistics import NormalDist

PER_RELATIVE = 20 / math.log(10)
REFERENCE = {"pressureKPa": 101.325, "temperatureC": 23.0, "humidityPercent": 50.0}
COEFFICIENT = {"pressureKPa": "pressure-db-per-kpa", "temperatureC": "temperature-db-per-k",
               "humidityPercent": "humidity-db-per-percent"}
WORD = {"pressureKPa": "static pressure", "temperatureC": "temperature", "humidityPercent": "humidity"}
# Common practice, no source; each is shown as assumed by the program.
READ = {"pressureKPa": 0.05, "temperatureC": 1.0, "humidityPercent": 0.0}
FROM_CHECK = {"pressureKPa": 3.0, "temperatureC": 20.0, "humidityPercent": 40.0}
FROM_REFERENCE = {"pressureKPa": 60.0, "temperatureC": 35.0, "humidityPercent": 50.0}
ONE_INSERTION_DB = 0.03
OWN = "this check: "
COVERAGE = 0.9545
SPEED_OF_SOUND = 340.294  # 15 C, ISO 2533
ID = r"\b[0-7][0-9A-HJKMNP-TV-Z]{25}\b"
# What a stored check came to: it is worked out here again and must not be looked at.
OUTCOMES = ("calibratorDb", "sensitivityDb", "sensitivityUnit", "indicatedDb", "deviationDb", "standardDb", "coverageFactor",
            "expandedDb")


def lg20(ratio):
    return 20 * math.log10(ratio)


def stored(db):
    """Terms and outcomes of checks are stored to 1e-6 dB, halves away from nought."""
    return math.copysign(math.floor(abs(db) * 1e6 + 0.5) / 1e6, db)


def root(*parts):
    return math.sqrt(sum(p * p for p in parts))


# Student's t: its distribution by the incomplete beta function (continued fraction), its quantile by halving.
def beta_fraction(a, b, x):
    tiny, c, d = 1e-300, 1.0, 1 - (a + b) * x / (a + 1)
    d = 1 / (d if abs(d) > tiny else tiny)
    h = d
    for m in range(1, 500):
        for top in (m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)),
                    -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))):
            d = 1 + top * d
            d = 1 / (d if abs(d) > tiny else tiny)
            c = 1 + top / (c if abs(c) > tiny else tiny)
            h *= c * d
        if abs(c * d - 1) < 1e-16:
            break
    return h


def incomplete_beta(a, b, x):
    if x <= 0 or x >= 1:
        return 0.0 if x <= 0 else 1.0
    front = math.exp(math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log1p(-x))
    if x < (a + 1) / (a + b + 2):
        return front * beta_fraction(a, b, x) / a
    return 1 - front * beta_fraction(b, a, 1 - x) / b


def t_quantile(share, freedom):
    """The t that a share of both sides lies within."""
    low, high = 0.0, 1e4
    for _ in range(200):
        t = (low + high) / 2
        if 1 - incomplete_beta(freedom / 2, 0.5, freedom / (freedom + t * t)) < share:
            low = t
        else:
            high = t
    return (low + high) / 2


def coverage_factor(freedom):
    if freedom > 1e6:
        return NormalDist().inv_cdf((1 + COVERAGE) / 2)
    return t_quantile(COVERAGE, max(1, math.floor(freedom * (1 + 1e-12) + 1e-9)))


class Budget:
    """Contributions as (source, standard uncertainty, dB for each unit, degrees of freedom)."""

    def __init__(self, parts):
        self.parts = list(parts)
        sums, freedoms = {}, {}
        for source, u, coefficient, freedom in self.parts:
            sums[source] = sums.get(source, 0.0) + u * coefficient
            freedoms[source] = min(freedoms.get(source, math.inf), freedom)
        self.standard = root(*sums.values())
        spread = sum(s ** 4 / freedoms[k] for k, s in sums.items() if math.isfinite(freedoms[k]))
        self.k = coverage_factor(self.standard ** 4 / spread if spread > 0 else math.inf)

    def times(self, weight):
        return [(s, u, c * weight, f) for s, u, c, f in self.parts]


def lines_of(parts):
    """By source: one line for each quantity, its coefficients in V/Pa and in FS/Pa summed."""
    lines = {}
    for source, u, volts, full, freedom in parts:
        quantities = lines.setdefault(source, {})
        before = quantities.get((u, freedom), (0.0, 0.0))
        quantities[(u, freedom)] = (before[0] + volts, before[1] + full)
    return lines


def instant(text):
    return datetime.fromisoformat(text.replace("Z", "+00:00"))


def rectangular(half):
    return half / math.sqrt(3)


def level_of(result):
    """A certificate's figure as a level, with u = U/k in dB where U was stated."""
    value, unit = result["value"], result["unit"]
    volts = {"V/Pa": 1.0, "mV/Pa": 1e-3}
    level = lg20(value * volts[unit]) if unit in volts else value
    expanded = result.get("expandedUncertainty")
    if expanded is None:
        return level, None
    u, of = expanded / result.get("coverageFactor", 2), result.get("uncertaintyUnit", "dB")
    if of == "%":
        u = PER_RELATIVE * u / 100
    elif of in volts:
        u = PER_RELATIVE * u * volts[of] / (10 ** (level / 20))
    return level, u if u > 0 else None


def in_force(certificate):
    """From the day on: as left, where something was adjusted."""
    results = certificate["body"]["results"]
    return ([r for r in results if r["state"] != "as-found"] or results)[-1]


def found(certificate):
    """How it came in."""
    return next((r for r in certificate["body"]["results"] if r["state"] != "as-left"), None)


class Known:
    def __init__(self, case):
        self.facts = {f["id"]: f for f in case["facts"]}
        self.order, self.entries = case["facts"], case["entries"]
        self.withdrawn = set(case["withdrawn"])
        for fact in self.order:
            # What a version to come says is cited and tells nothing here.
            if fact["kind"] == "chain-checked" and fact["version"] == 2:
                self.forget(fact["body"])

    @staticmethod
    def forget(check):
        for key in OUTCOMES:
            check.pop(key, None)
        for term in check["calibratorTerms"] + check["expectedTerms"]:
            term.pop("valueDb")
            term.pop("standardDb")
        # How well a barometer or a meter reads stands in the budget alone.
        check["stated"] = {line["name"]: line["standardUncertainty"] for line in check.pop("budget")
                           if line["name"] in ("static pressure", "reading instrument")}

    def kept(self, device):
        return self.entries.get(device, device)

    def about(self, kind, device):
        return [f for f in self.order if f["kind"] == kind and f["id"] not in self.withdrawn
                and any(self.kept(s[7:]) == device for s in f["subjects"] if s.startswith("device:"))]

    def details(self, device):
        """What is known of a device: a registration fills what no description said, the last description counts."""
        details = {}
        for fact in self.order:
            if fact["kind"] not in ("device-registered", "device-described") or fact["id"] in self.withdrawn:
                continue
            if not any(self.kept(s[7:]) == device for s in fact["subjects"]):
                continue
            body = fact["body"]
            if fact["kind"] == "device-registered":
                own = {k: body[k] for k in ("kind", "model") if k in body}
                details = {**own, **body["details"], **details}
            else:
                details = {**{k: v for k, v in details.items() if k not in body["clear"]}, **body["set"]}
        return details

    def last(self, kind, fits=lambda body: True):
        said = [f["body"] for f in self.order if f["kind"] == kind and f["id"] not in self.withdrawn and fits(f["body"])]
        return said[-1] if said else None


def at_reference(known, device, certificate, level):
    """In reference conditions, where the air of the calibration was written down."""
    air = certificate["body"].get("air")
    if certificate["body"]["quantity"] != "sensitivity" or not air:
        return level
    details = known.details(device)
    return level + sum(details.get(COEFFICIENT[q], 0) * (REFERENCE[q] - air.get(q, REFERENCE[q])) for q in REFERENCE)


def standard_pressure(altitude_m):
    return 101.325 * (1 - 0.0065 * altitude_m / 288.15) ** (9.80665 / (0.0065 * 287.05287))


class Check:
    """A check worked out again: level of the calibrator, sensitivity of the chain, what certificates let expect, budget."""

    def __init__(self, known, fact):
        self.known, self.id, self.body = known, fact["id"], fact["body"]
        body = self.body
        self.devices = [known.kept(d) for d in body["devices"]]
        self.calibrator = known.kept(body["calibrator"])
        self.range = body.get("rangeV")
        self.air = body.get("air") or {}
        self.pressure = self.air.get("pressureKPa")
        if body["pressureIsEstimated"]:
            self.pressure = standard_pressure(known.last("campaign-planned")["altitudeM"])
        self.terms, self.lines = [], []
        for term in body["calibratorTerms"]:
            self.calibrator_term(term)
        self.calibrator_db = sum(value for value, _ in self.terms)
        self.expected = [self.expected_term(t) for t in body["expectedTerms"]]
        self.readings()
        self.budget = Budget((s if not s.startswith(OWN) else f"{self.id}: {s}", u, c, f) for s, u, c, f in self.lines)

    def line(self, source, u, coefficient, freedom=math.inf):
        self.lines.append((source, u, coefficient, freedom))

    def calibrator_term(self, term):
        name, source = term["name"], term["source"]
        details = self.known.details(self.calibrator)
        certificate = self.known.facts[self.body["calibratorCertificate"]]
        if name == "certificate":
            value, u = level_of(in_force(certificate))
            self.add(value, u or 0, source)
        elif source == "none":
            self.terms.append((0.0, 0.0))
        elif name == "static pressure":
            usual = certificate["body"].get("statedForKPa", 101.325)
            u = self.body["stated"][name]
            if details["pressure-law"] == "adiabatic":
                value, slope = lg20(self.pressure / usual), PER_RELATIVE / self.pressure
            else:
                slope = details["pressure-db-per-kpa"]
                value = slope * (self.pressure - usual)
            self.terms.append((stored(value), abs(slope) * u))
            self.line(source, u, -slope)
        elif name in ("load volume", "pressure to free field"):
            coupling = self.coupling()
            key = "loadVolume" if name == "load volume" else "field"
            self.add(coupling[key + "Db"], coupling.get(key + "ExpandedDb", 0) / 2, source)
        elif name == "temperature":
            slope = details["temperature-db-per-k"]
            usual = (certificate["body"].get("air") or {}).get("temperatureC", 23)
            self.terms.append((stored(slope * (self.air["temperatureC"] - usual)), abs(slope)))
            self.line(source, READ["temperatureC"], -slope)
        else:
            raise ValueError(f"Nothing is known here of the term '{name}'.")

    def add(self, value, u, source):
        self.terms.append((stored(value), u))
        self.line(source, u, -1)

    def coupling(self):
        """The user's own data of this calibrator on such microphones: of this adapter before one of any."""
        model = next(d.get("model") for d in map(self.known.details, self.devices) if d.get("kind") == "microphone")
        all_ = [f["body"] for f in self.known.about("coupling-stated", self.calibrator)
                if f["body"]["microphoneModel"].strip().casefold() == model.strip().casefold()]
        own = [c for c in all_ if c.get("adapter") and c.get("adapter") == self.body.get("adapter")]
        return (own or [c for c in all_ if not c.get("adapter")])[-1]

    def of_kind(self, kind):
        return next((d for d in self.devices if self.known.details(d).get("kind") == kind), None)

    def expected_term(self, term):
        name, source = term["name"], term["source"]
        part = {"microphone's certificate": "microphone", "preamplifier's gain": "preamplifier",
                "channel's gain": "recorder-channel"}.get(name)
        if name == "microphone, to the air at the place":
            details = self.known.details(self.of_kind("microphone"))
            air = {**self.air, "pressureKPa": self.pressure}
            value = sum(details.get(COEFFICIENT[q], 0) * ((air.get(q) if air.get(q) is not None else REFERENCE[q]) - REFERENCE[q])
                        for q in REFERENCE)
            return stored(value), 0.0, source
        if name == "channel's range":
            return stored(-lg20(self.range)), 0.0, source
        if source == "none":
            return self.known.details(self.of_kind(part)).get("gain-db", 0), 0.0, source
        certificate = self.known.facts[source.removeprefix("certificate ")]
        value, u = level_of(in_force(certificate))
        return stored(at_reference(self.known, self.of_kind(part), certificate, value)), u or 0.0, source

    def readings(self):
        body, readings = self.body, self.body["readings"]
        pascal = 20e-6 * 10 ** (self.calibrator_db / 20)
        indicated = body["method"] == "indicated"
        levels = [r - self.calibrator_db if indicated else lg20(r / pascal) for r in readings]
        level = sum(levels) / len(levels)
        if len(levels) > 1:
            spread = root(*(v - level for v in levels)) / math.sqrt(len(levels) - 1)
            self.line(OWN + "insertions", spread / math.sqrt(len(levels)), 1, len(levels) - 1)
        else:
            self.line(OWN + "insertions", ONE_INSERTION_DB, 1)
        if body.get("resolution"):
            per_unit = 1 if indicated else PER_RELATIVE / (sum(readings) / len(readings))
            self.line(OWN + "resolution", rectangular(body["resolution"] / 2), per_unit)
        if "reading instrument" in body["stated"]:
            self.line("reading instrument", body["stated"]["reading instrument"], 1)
        expected = sum(v for v, _, _ in self.expected) if self.expected else None
        self.indicated_db, self.sensitivity_db, self.unit = None, level, "FS/Pa" if body["method"] == "recording" else "V/Pa"
        if indicated:
            # An instrument is set to what its certificates say, whatever the air.
            self.indicated_db = level
            names = [t["name"] for t in body["expectedTerms"]]
            set_to = sum(v for (v, _, _), n in zip(self.expected, names) if n != "microphone, to the air at the place")
            self.sensitivity_db = set_to + level if self.expected else None
            if not self.expected:
                self.unit = None
        self.deviation_db = None if expected is None or self.sensitivity_db is None else self.sensitivity_db - expected

    def figures(self, at):
        yield at + ".calibratorDb", stored(self.calibrator_db)
        for i, (value, u) in enumerate(self.terms):
            yield f"{at}.calibratorTerms[{i}].valueDb", value
            yield f"{at}.calibratorTerms[{i}].standardDb", u
        for i, (value, u, _) in enumerate(self.expected):
            yield f"{at}.expectedTerms[{i}].valueDb", value
            yield f"{at}.expectedTerms[{i}].standardDb", u
        for i, (_, u, coefficient, freedom) in enumerate(self.lines):
            yield f"{at}.budget[{i}].standardUncertainty", u
            yield f"{at}.budget[{i}].sensitivity", coefficient
            if math.isfinite(freedom):
                yield f"{at}.budget[{i}].degreesOfFreedom", freedom
        for name, value in (("sensitivityDb", self.sensitivity_db), ("indicatedDb", self.indicated_db), ("deviationDb", self.deviation_db)):
            if value is not None:
                yield f"{at}.{name}", stored(value)
        yield at + ".standardDb", self.budget.standard
        yield at + ".coverageFactor", self.budget.k
        yield at + ".expandedDb", self.budget.k * self.budget.standard
        if self.deviation_db is not None:
            off = Budget(self.budget.parts + [(s, u, -1, math.inf) for _, u, s in self.expected])
            yield at + ".deviationStandardDb", off.standard
            yield at + ".deviationCoverageFactor", off.k

    def since(self, other):
        """How far the chain moved: where the same chain was checked at one range."""
        if self.range != other.range or sorted(self.devices) != sorted(other.devices):
            return None
        if self.unit and self.unit == other.unit and self.body["method"] == other.body["method"]:
            return stored(self.sensitivity_db) - stored(other.sensitivity_db)
        if self.indicated_db is None or other.indicated_db is None:
            return None
        return stored(self.indicated_db) - stored(other.indicated_db)


class Station:
    def __init__(self, case):
        self.known, self.named = Known(case), case["named"]
        self.figures = {}
        known, named = self.known, self.named
        self.plan = known.last("campaign-planned")
        self.stood = known.facts[named["placement"]]["body"] if named.get("placement") else None
        self.profile = {}
        for limit in (known.last("profile-written") or {"limits": []})["limits"]:
            if "value" in limit:
                self.profile.setdefault(limit["key"], limit["value"])
        self.checks = {at: Check(known, known.facts[named[key]]) for at, key in (("before", "checkBefore"), ("after", "checkAfter"))
                       if named.get(key)}
        for at, check in self.checks.items():
            self.figures.update(check.figures(at))
        if len(self.checks) == 2:
            before, after = self.checks["before"], self.checks["after"]
            by = after.since(before)
            if by is not None:
                moved = Budget(after.budget.parts + before.budget.times(-1))
                self.figures.update({"difference.db": by, "difference.standardDb": moved.standard, "difference.coverageFactor": moved.k})
        self.microphone = self.first("microphone")
        if "rule" in named:
            self.applied()
        for i, link in enumerate(named["links"]):
            if link.get("inForce"):
                # What a check took from a certificate is stored to 1e-6 dB.
                used = stored(self.worth(link["device"], link["certificate"]))
                self.figures[f"links[{i}].differenceDb"] = self.worth(link["device"], link["inForce"]) - used
        for i, curve in enumerate(named["curves"]):
            said = known.facts[curve["certificate"]]["body"]
            angle = said.get("angleDeg", 0 if curve["acts"] == "response" and said.get("field") == "free-field" else None)
            if angle is not None:
                self.figures[f"curves[{i}].angleDeg"] = angle
        if named.get("incidence"):
            said = known.facts[named["incidence"]]["body"]
            self.figures["incidence.angleDeg"] = said["angleDeg"]
            self.figures["incidence.halfWidthDeg"] = said.get("halfWidthDeg", 0)
        for i, place in enumerate(named["inPlace"]):
            self.in_place(i, place)

    def first(self, kind):
        return next((d["id"] for d in self.named["devices"] if d.get("kind") == kind), None)

    def worth(self, device, certificate):
        certificate = self.known.facts[certificate]
        return at_reference(self.known, device, certificate, level_of(in_force(certificate))[0])

    def certified(self, device):
        """The certificate that the trace names for a device of the chain; None where it has none."""
        link = next((k for k in self.named["links"] if k["device"] == device), {})
        return self.known.facts[link["certificate"]] if link.get("certificate") else None

    def gain(self, device):
        """By its certificate, else its entry; 0 dB where neither says."""
        certificate = self.certified(device)
        if certificate:
            value, u = level_of(in_force(certificate))
            return stored(value), u or 0.0, "certificate " + certificate["id"]
        return self.known.details(device).get("gain-db", 0), 0.0, "none"

    def volts(self, check):
        """A recorded tone tells full scale, a voltage volts: the channel's gain and range stand between."""
        if check.sensitivity_db is None:
            return None
        if check.unit == "V/Pa":
            return stored(check.sensitivity_db)
        if check.range is None:
            return None
        return stored(check.sensitivity_db) - self.channel_gain() + lg20(check.range)

    def channel_gain(self):
        channel = self.first("recorder-channel")
        return self.gain(channel)[0] if channel else 0.0

    def applied(self):
        named, terms = self.named, self.named["terms"]
        if named["rule"] == "mean-of-checks":
            values, parts, used = self.by_checks(terms)
        else:
            values, parts = self.by_certificates(terms)
            used = []
        values, parts = self.to_the_event(values, parts, used)
        for i, (value, u) in enumerate(values):
            self.figures[f"applied.terms[{i}].valueDb"] = value
            self.figures[f"applied.terms[{i}].standardDb"] = u
        volts = sum(v for v, _ in values)
        self.figures["applied.voltsDb"], self.figures["applied.voltsPerPascal"] = volts, 10 ** (volts / 20)
        channel = self.first("recorder-channel")
        ranges = [self.stood.get("rangeV"), *(self.checks[at].range for at in ("before", "after") if at in self.checks),
                  self.known.details(channel).get("range-v") if channel else None]
        peak = next((r for r in ranges if r is not None), None)
        gain, gain_u, gain_source = self.gain(channel) if channel else (0.0, 0.0, "none")
        if peak is not None:
            full = volts + gain - lg20(peak)
            self.figures["applied.fullScaleDb"], self.figures["applied.fullScalePerPascal"] = full, 10 ** (full / 20)
            for i, (value, u) in enumerate(([(gain, gain_u)] if channel else []) + [(-lg20(peak), 0.0)]):
                self.figures.update({f"applied.fullScaleTerms[{i}].valueDb": value, f"applied.fullScaleTerms[{i}].standardDb": u})
        parts = self.parted(parts) + self.mount()
        recorded = sum(c.unit == "FS/Pa" for c in used) / len(used) if used else 0.0
        of_gain = self.parted([(gain_source, gain_u, 1, math.inf)]) if gain_u else []
        in_volts = parts + [(s, u, -recorded * c, f) for s, u, c, f in of_gain if recorded]
        in_full = parts + [(s, u, (1 - recorded) * c, f) for s, u, c, f in of_gain if recorded < 1]
        self.uncertainty("applied", in_volts)
        self.uncertainty("applied.sensitivity", [p for p in in_volts if not p[0].startswith("mount ")])
        self.uncertainty("applied.mountAndDirection", [p for p in parts if p[0].startswith("mount ")])
        if peak is not None:
            self.uncertainty("applied.inFullScale", in_full)
            self.uncertainty("applied.inFullScale.sensitivity", [p for p in in_full if not p[0].startswith("mount ")])
        both = [(s, u, c, c, f) for s, u, c, f in parts]
        if recorded or peak is not None:
            both += [(s, u, -recorded * c, (1 - recorded) * c, f) for s, u, c, f in of_gain]
        for source, quantities in lines_of(both).items():
            for i, ((u, freedom), (coefficient, in_full_scale)) in enumerate(quantities.items()):
                at = f"applied.budget[{source}][{i}]"
                self.figures.update({at + ".standardUncertainty": u, at + ".sensitivity": coefficient,
                                     at + ".contributionDb": u * coefficient})
                if peak is not None:
                    self.figures.update({at + ".fullScaleSensitivity": in_full_scale,
                                         at + ".fullScaleContributionDb": u * in_full_scale})
                if math.isfinite(freedom):
                    self.figures[at + ".degreesOfFreedom"] = freedom
        self.reference_frequency()

    def uncertainty(self, at, parts):
        budget = Budget(parts)
        self.figures.update({at + ".standardDb": budget.standard, at + ".coverageFactor": budget.k,
                             at + ".expandedDb": budget.k * budget.standard})

    def parted(self, parts):
        """u(certificate)^2 = u(reference)^2 + rest^2: what comes from a reference of the register is common to all held against it."""
        all_ = []
        for source, u, coefficient, freedom in parts:
            for _ in range(10):
                below = self.reference_of(source)
                if not below:
                    break
                common = min(level_of(in_force(below))[1], u)
                if common < u:
                    all_.append((source, math.sqrt(u * u - common * common), coefficient, freedom))
                source, u = "certificate " + below["id"], common
            all_.append((source, u, coefficient, freedom))
        return all_

    def reference_of(self, source):
        """The certificate, among those that the budget names, that the reference of another had on its day."""
        if not source.startswith("certificate "):
            return None
        certificate = self.known.facts[source.removeprefix("certificate ")]
        reference = certificate["body"].get("referenceDevice")
        named = [self.known.facts[i] for s in self.named["sources"] for i in re.findall("^certificate (" + ID[2:-2] + ")$", s)]
        own = [c for c in named if reference and c["at"][:10] <= certificate["at"][:10]
               and any(self.known.kept(s[7:]) == self.known.kept(reference) for s in c["subjects"])]
        return max(own, key=lambda c: (c["at"], c["id"])) if own else None

    def by_checks(self, terms):
        used = [c for c in self.checks.values() if c.id in re.findall(ID, terms[0]["source"])]
        mean = sum(self.volts(c) for c in used) / len(used)
        parts = [p for c in used for p in c.budget.times(1 / len(used))]
        values = [(mean, 0.0)]
        for term in terms[1:]:
            if term["name"] == "what is in doubt":
                doubts = self.in_doubt(term, used)
                parts += doubts
                values.append((0.0, abs(sum(u * c for _, u, c, _ in doubts))))
        both = [v for v in map(self.volts, self.checks.values()) if v is not None]
        if len(both) == 2 and len({c.id for c in self.checks.values()}) == 2:
            # It may have happened at any time between them.
            source = "change between facts {} and {}".format(*(c.id for c in self.checks.values()))
            parts.append((source, rectangular(abs(both[1] - both[0]) / 2), 1, math.inf))
        return values, parts, used

    def in_doubt(self, term, used):
        """What two certificates say apart, as far as it stands behind the checks that are used; of a pressure by its slope."""
        raised, against, *behind = re.findall(ID, term["source"])
        one, other = self.known.facts[raised], self.known.facts[against]
        device = self.known.kept(next(s[7:] for s in one["subjects"] if s.startswith("device:")))
        first = in_force(one) if raised in self.known.withdrawn else found(one)
        size = abs(at_reference(self.known, device, one, level_of(first)[0])
                   - at_reference(self.known, device, other, level_of(in_force(other))[0]))
        source = f"doubt {'Withdrawn' if raised in self.known.withdrawn else 'OutOfTolerance'}:{device}:{raised}"
        parts = []
        for check in (c for c in used if c.id in behind):
            slope = 1.0
            if one["body"]["quantity"] == "static-pressure":
                slope = abs(sum(c for (_, _, c, _), name in zip(check.lines, [t["name"] for t in check.body["calibratorTerms"]])
                                if name == "static pressure"))
            parts.append((source, rectangular(size * slope), 1 / len(used), math.inf))
        return parts

    def by_certificates(self, terms):
        ids = re.findall(ID, terms[0]["source"])
        own = self.known.facts[ids[0]]
        level, u = level_of(in_force(own))
        level, u = at_reference(self.known, self.microphone, own, level), u or 0.0
        source = "certificate " + ids[0]
        if len(ids) == 1:
            values, parts = [(level, u)], [(source, u, 1, math.inf)]
        else:
            later = self.known.facts[ids[1]]
            end, end_u = level_of(found(later))
            end = at_reference(self.known, self.microphone, later, end)
            begins, ends = date.fromisoformat(own["at"][:10]), date.fromisoformat(later["at"][:10])
            share = (self.middle_day() - begins).days / (ends - begins).days
            values = [(level + share * (end - level), u)]
            parts = [(source, u, 1 - share, math.inf), ("certificate " + ids[1], end_u or 0.0, share, math.inf)]
        preamplifier = self.first("preamplifier")
        if own["body"].get("loading") != "loaded" and preamplifier:
            value, gain_u, gain_source = self.gain(preamplifier)
            values.append((value, gain_u))
            parts.append((gain_source, gain_u, 1, math.inf))
        return values, parts

    def middle_day(self):
        """Local day at the site of the middle of what was recorded."""
        begin, end = self.instant("from"), self.instant("to")
        middle = begin + (end - begin) / 2
        offsets = (self.plan or self.known.last("register-founded") or {}).get("offsets", [])
        minutes = 0
        for i, offset in enumerate(offsets):
            since = instant(offset["fromUtc"])
            if i == 0 or since <= middle:
                minutes = offset["minutes"]
        return (middle + timedelta(minutes=minutes)).date()

    def to_the_event(self, values, parts, used):
        """From the air in which the sensitivity was told to that of the event, by the microphone's own coefficients."""
        details = self.known.details(self.microphone)
        follows = {q: details[k] for q, k in COEFFICIENT.items() if details.get(k)}
        if not follows:
            return values, parts
        term = self.named["terms"][-1]
        by, reads, unknowns, is_read = 0.0, [], [], False
        for quantity, per_unit in follows.items():
            note = re.search(f"{WORD[quantity]} by fact ({ID}), read ([^ ,]+)", term["source"])
            there = self.noted(quantity, *note.groups()) if note else None
            at_checks = [self.at_check(c, quantity, term.get("remark") or "") for c in used] or [REFERENCE[quantity]]
            missing = 1.0 if there is None else at_checks.count(None) / len(at_checks)
            half = FROM_CHECK[quantity] if used else self.from_reference(quantity)
            if there is not None:
                by += per_unit * sum(there - v for v in at_checks if v is not None) / len(at_checks)
            if missing < 1:
                is_read = True
                reads.append(per_unit * READ[quantity])
            if missing > 0:
                unknowns.append((f"air of {self.named['event']}: {WORD[quantity]} not known",
                                 rectangular(half), per_unit * missing, math.inf))
        own = ([(f"weather of {self.named['event']}", root(*reads), 1, math.inf)] if is_read else []) + unknowns
        return values + [(by, root(*(u * c for _, u, c, _ in own)))], parts + own

    def at_check(self, check, quantity, remark):
        if check.air.get(quantity) is not None:
            return check.air[quantity]
        at = next(k for k, c in self.checks.items() if c is check)
        note = re.search(rf"{WORD[quantity]} of the check {at} by the weather [^;]*\(fact ({ID}), read ([^ )]+)\)", remark)
        return self.noted(quantity, *note.groups()) if note else None

    def noted(self, quantity, fact, at):
        """What a note says, or the reading of a logger that is named."""
        body = self.known.facts[fact]["body"]
        if "readings" in body:
            body = next(r for r in body["readings"] if instant(r["at"]) == instant(at))
        return body[quantity]

    def instant(self, key):
        return instant(self.named[key])

    def from_reference(self, quantity):
        """Of static pressure the altitude tells most."""
        altitude = (self.plan or {}).get("altitudeM")
        if quantity == "pressureKPa" and altitude is not None and -1000 <= altitude <= 6000:
            return abs(standard_pressure(altitude) - REFERENCE[quantity]) + FROM_CHECK[quantity]
        return FROM_REFERENCE[quantity]

    def mount(self):
        """Normalisation to the free field and the band that it holds for; capsule, windscreen and profile bound it too."""
        station = self.known.last("station-planned")
        tolerance = self.profile.get("mount-tolerance-db") or None
        within = tolerance or 1.0  # common practice, where the profile says nothing
        low, high, db, parts = 0.0, math.inf, 0.0, []
        if station:
            kind = station["mount"]
            built = self.known.last("station-surveyed") or {}
            usual = {"flush-plate": 0.0, "inverted-plate": 0.007, "ground-stand": 1.2}.get(kind)
            height = built.get("heightM", station.get("heightM", usual))
            if kind == "inverted-plate" and self.stood.get("gapMm") is not None:
                height = self.stood["gapMm"] / 1000
            if kind in ("flush-plate", "inverted-plate"):
                db = -lg20(2)
                high = math.inf if height == 0 else math.acos(10 ** (-within / 20)) * SPEED_OF_SOUND / (2 * math.pi * height)
                if kind == "flush-plate":
                    high = min(high, 20_000)
            elif kind == "ground-stand":
                db = -10 * math.log10(2)
                per_hz = 2 * math.pi * 2 * height / SPEED_OF_SOUND
                low = 2 / ((1 - 10 ** (-within / 10)) * per_hz * (10 ** 0.05 - 10 ** -0.05))
            if tolerance and kind != "pole":
                # Stations of one sort get one normalisation: its error is common to them.
                parts = [("mount " + kind, rectangular(tolerance), 1, math.inf)]
        low, high = max(low, self.profile.get("band-from-hz", 0)), min(high, self.profile.get("band-to-hz", math.inf))
        for device in self.named["devices"]:
            if device["id"] == self.microphone or device.get("kind") == "windscreen":
                details = self.known.details(device["id"])
                low, high = max(low, details.get("lowest-hz", 0)), min(high, details.get("highest-hz", math.inf))
        self.figures["applied.normalisationDb"], self.figures["applied.usableFromHz"] = db, low
        if math.isfinite(high):
            self.figures["applied.usableToHz"] = high
        return parts

    def reference_frequency(self):
        """Of the calibrator's tone, or of the microphone's certificate."""
        if self.named["rule"] == "mean-of-checks":
            check = self.checks.get("before") or self.checks["after"]
            hz = (self.known.facts[check.body["calibratorCertificate"]]["body"].get("frequencyHz")
                  or self.known.details(check.calibrator).get("frequency-hz") or (check.body.get("tone") or {}).get("frequencyHz"))
        else:
            hz = self.certified(self.microphone)["body"].get("frequencyHz")
        if hz is not None:
            self.figures["applied.referenceHz"] = hz

    def in_place(self, i, place):
        """By how much a chain moved against the others: its deviation from the median of all."""
        own, u, count = self.compared(place["fact"])
        if place.get("since"):
            first, first_u, _ = self.compared(place["since"])
            own, u = own - first, root(u, first_u)
        limit = self.profile.get("in-place-db", self.profile.get("check-difference-db"))
        self.figures.update({f"inPlace[{i}].movedDb": own, f"inPlace[{i}].expandedDb": 2 * u, f"inPlace[{i}].chains": count})
        if limit is not None:
            self.figures[f"inPlace[{i}].limitDb"] = limit

    def compared(self, fact):
        body = self.known.facts[fact]["body"]
        off = [c["levelDb"] - c["expectedDb"] for c in body["chains"]]
        common = median(off)
        # 1.4826 times the median of the magnitudes is a standard deviation; insertions repeat no better than 0.02 dB.
        scatter = max(0.02, 1.4826 * median([abs(v - common) for v in off]))
        at = next(k for k, c in enumerate(body["chains"]) if c["station"] == self.named["station"])
        return off[at] - common, body["expandedDb"] / 2 if "expandedDb" in body else scatter, len(off)


def median(values):
    values, n = sorted(values), len(values)
    return values[n // 2] if n % 2 else (values[n // 2 - 1] + values[n // 2]) / 2


def answer(case):
    try:
        return {"figures": Station(case).figures}
    except (KeyError, StopIteration, IndexError) as missing:
        trace = missing.__traceback__
        while trace.tb_next:
            trace = trace.tb_next
        where = f"{trace.tb_frame.f_code.co_name}, line {trace.tb_lineno}"
        return {"missing": f"{type(missing).__name__} {missing} in {where}"}


if __name__ == "__main__":
    json.dump([answer(case) for case in json.load(sys.stdin)], sys.stdout)
