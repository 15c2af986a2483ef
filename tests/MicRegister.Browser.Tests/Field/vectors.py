"""Makes vectors.json: checks, label codes and canonical facts with their expected figures, worked here from the formulas a third time,
beside the register (C#) and the field pages (JavaScript). Run it where scipy is: python3 vectors.py; it writes vectors.json beside itself.

Each check has `register`, the plain inputs; `kit`, what a phone holds of them; `entry`; and `expected`. All data are invented.
Formulas: GUM (JCGM 100:2008) 4.2.3, 4.3.7, 5.1.2, 5.2.2, G.4.1; JCGM 106:2012, 7.4, 8.2, 8.3; ISO 2533:1975; RFC 8785; ISO 7064 MOD 37,36.
"""
import copy, datetime, json, math, pathlib, platform
from decimal import Decimal, ROUND_HALF_UP
import scipy
from scipy.optimize import brentq
from scipy.special import betainc, ndtr, ndtri

INF = math.inf
NEPER = 20 / math.log(10)
PLACE = "microphone, to the air at the place"


def six(x):
    return float(Decimal(repr(float(x))).quantize(Decimal("0.000001"), ROUND_HALF_UP)) + 0.0


def local_day(at, offsets):
    instant = datetime.datetime.fromisoformat(at.replace("Z", "+00:00"))
    minutes = [o["minutes"] for o in offsets if datetime.datetime.fromisoformat(o["fromUtc"].replace("Z", "+00:00")) <= instant][-1]
    return (instant + datetime.timedelta(minutes=minutes)).date().isoformat()


def without_none(d):
    return {k: v for k, v in d.items() if v is not None}


# --- uncertainty and decisions -------------------------------------------------------------------------------------------------
def combine(parts):
    """parts: (source, sensitivity * u, degrees of freedom) -> u, k, U."""
    sources = {}
    for source, c, dof in parts:
        s, d = sources.get(source, (0.0, INF))
        sources[source] = (s + c, min(d, dof))
    u = math.sqrt(math.fsum(s * s for s, _ in sources.values()))
    denominator = math.fsum(s ** 4 / d for s, d in sources.values() if d < INF)
    effective = u ** 4 / denominator if denominator > 0 else INF
    p = (1 + 0.9545) / 2
    if effective > 1e6:
        k = float(ndtri(p))
    else:
        n = max(1, math.floor(effective * (1 + 1e-12) + 1e-9))  # the last bit of a whole number decides nothing
        assert abs(effective - round(effective)) > 1e-9 or n == 1, "the whole number of degrees of freedom would hang on the last bit"
        k = brentq(lambda t: betainc(n / 2, 0.5, n / (n + t * t)) - 2 * (1 - p), 1e-3, 1e3, xtol=1e-14, rtol=1e-14)
    return u, k, k * u


def budget_parts(budget, weight=1.0, fact=""):
    return [(fact + x["source"] if x["source"].startswith("this check: ") else x["source"], weight * x["sensitivity"] * x["standardUncertainty"], x.get("degreesOfFreedom", INF)) for x in budget]


def decided(limits, y, u, expanded, limit):
    within = (1.0 if six(abs(y)) <= six(limit) else 0.0) if u == 0 else float(max(0, 1 - ndtr((y - limit) / u) - ndtr((-limit - y) / u)))
    rule, least = limits.get("rule", "simple"), limits.get("probability", 0.95)
    guard = expanded if rule == "guarded" else 0.0
    if rule == "probability":
        verdict = "conforms" if six(within) >= six(least) else "does-not-conform" if six(1 - within) >= six(least) else "undecided"
    else:
        inside = six(y) >= six(guard - limit) and six(y) <= six(limit - guard)
        outside = six(y) < six(-limit - guard) or six(y) > six(limit + guard)
        verdict = "conforms" if inside else "does-not-conform" if outside else "undecided"
    return within, verdict


# --- what certificates say -------------------------------------------------------------------------------------------------------
def figure(c):
    """Level in dB, its standard uncertainty or None."""
    volts = {"mV/Pa": 1e-3, "V/Pa": 1.0}.get(c["unit"])
    level = 20 * math.log10(c["value"] * volts) if volts else c["value"]
    if "expandedUncertainty" not in c:
        return level, None
    u = c["expandedUncertainty"] / c.get("coverageFactor", 2)
    unit = c["uncertaintyUnit"]
    return level, u if unit == "dB" else NEPER * u / 100 if unit == "%" else NEPER * u / c["value"]


def newest(device, quantity):
    return max((c for c in device["certificates"] if c["quantity"] == quantity), key=lambda c: (c["day"], c["id"]), default=None)


def follows(device, air):
    """How far a microphone's level moves from reference conditions to the given air."""
    reference = {"pressureKPa": 101.325, "temperatureC": 23.0, "humidityPercent": 50.0}
    keys = {"pressureKPa": "pressure-db-per-kpa", "temperatureC": "temperature-db-per-k", "humidityPercent": "humidity-db-per-percent"}
    return sum(device["details"].get(keys[q], 0.0) * ((air or {}).get(q, r) - r) for q, r in reference.items())


def gain_term(device, name):
    c, own = newest(device, "gain"), device["details"].get("gain-db")
    if c:
        level, u = figure(c)
        return {"name": name, "valueDb": six(level), "standardDb": u or 0.0, "source": "certificate " + c["id"]}
    return {"name": name, "valueDb": own or 0.0, "standardDb": 0.0, "source": "none", "remark": "no certificate of its gain; " + ("0 dB is taken" if own is None else "its entry's is taken")}


def normal(text):
    return " ".join(text.split()).upper()


def kit_of(register):
    devices = []
    for d in register["devices"]:
        k = {"id": d["id"], "kind": d["kind"], "name": d["name"], "model": d["model"], "details": {x: d["details"][x] for x in ("range-v",) if x in d["details"]}}
        if d["kind"] == "microphone":
            k["microphone"] = {"modelKey": normal(d["model"]), "coefficients": {"pressureDbPerKPa": d["details"].get("pressure-db-per-kpa", 0), "temperatureDbPerK": d["details"].get("temperature-db-per-k", 0), "humidityDbPerPercent": d["details"].get("humidity-db-per-percent", 0)}}
            if c := newest(d, "sensitivity"):
                level, u = figure(c)
                k["microphone"]["sensitivity"] = without_none({"certificate": c["id"], "atReferenceDb": level - follows(d, c.get("air")), "standardDb": u, "isLoaded": c.get("loading") == "loaded", "isPressureField": c.get("field") == "pressure"})
        if d["kind"] in ("preamplifier", "recorder-channel"):
            k["gain"] = gain_term(d, "preamplifier's gain" if d["kind"] == "preamplifier" else "channel's gain")
        if d["kind"] == "sound-calibrator":
            law = d["details"].get("pressure-law")
            levels = [without_none({"certificate": c["id"], "levelDb": figure(c)[0], "standardDb": figure(c)[1], "factorWasAssumed": "coverageFactor" not in c, "statedForKPa": c.get("statedForKPa"), "frequencyHz": c.get("frequencyHz"), "temperatureC": c.get("air", {}).get("temperatureC")}) for c in candidates(d)]
            k["calibrator"] = without_none({"law": law or "none", "lawIsStated": law is not None, "pressureDbPerKPa": d["details"].get("pressure-db-per-kpa", 0), "temperatureDbPerK": d["details"].get("temperature-db-per-k"), "levels": levels,
                                            "couplings": [{"modelKey": normal(c["microphoneModel"]), **{x: v for x, v in c.items() if x != "microphoneModel"}} for c in d["couplings"]]})
        devices.append(k)
    campaign = {x: register["campaign"][x] for x in ("id", "name", "altitudeM", "offsets")}
    stations = [{"name": s["name"], "planned": s["devices"], "checks": []} for s in register["campaign"]["stations"]]
    limits = {"check-deviation-db": "deviationDb", "check-difference-db": "differenceDb", "check-spread-db": "spreadDb", "decision-rule": "rule", "decision-probability": "probability"}
    return {"campaign": campaign, "limits": {limits[x]: v for x, v in register["limits"].items()}, "stations": stations, "devices": devices}


def candidates(calibrator):
    """The newest certificate of each level and frequency, newest first."""
    found = []
    for c in sorted((c for c in calibrator["certificates"] if c["quantity"] == "level"), key=lambda c: (c["day"], c["id"]), reverse=True):
        if not any(abs(f["value"] - c["value"]) < 5 and near(f.get("frequencyHz"), c.get("frequencyHz")) for f in found):
            found.append(c)
    return found


def near(a, b):
    return a is None or b is None or abs(a - b) <= 0.05 * b


# --- the check itself --------------------------------------------------------------------------------------------------------------
def standard_kpa(m):
    return 101.325 * (1 - 0.0065 * m / 288.15) ** (9.80665 / (0.0065 * 287.05287))


def work(register, e):
    by_id = {d["id"]: d for d in register["devices"]}
    site, calibrator = register["campaign"], by_id[e["calibrator"]]
    chain = [by_id[i] for i in e.get("devices") or next(s["devices"] for s in site["stations"] if s["name"] == e["station"])]
    part = lambda kind: next((d for d in chain if d["kind"] == kind), None)
    mic, air, method, x = part("microphone"), e.get("air", {}), e["method"], e["readings"]
    levels = candidates(calibrator)
    hz, about = e.get("frequencyHz"), e.get("nominalDb", sum(x) / len(x) if method == "indicated" else None)
    if hz and len(levels) > 1:
        levels = [c for c in levels if c.get("frequencyHz") and near(c["frequencyHz"], hz)] or levels
    if about is not None and len(levels) > 1:
        levels = [c for c in levels if abs(c["value"] - about) < 5] or levels
    assert len(levels) == 1
    certificate = levels[0]
    certified, u = figure(certificate)
    law, estimated = calibrator["details"].get("pressure-law"), False
    p, u_p = air.get("pressureKPa"), e.get("pressureUncertaintyKPa", 0.05)
    if p is None and e.get("estimatePressure"):
        p, u_p, estimated = standard_kpa(site["altitudeM"]), 1.0, True
    terms, budget = [], []

    def add(name, value, c, uncertainty, unit, source, remark=None):
        terms.append(without_none({"name": name, "valueDb": six(value), "standardDb": abs(c) * uncertainty, "source": source, "remark": remark}))
        budget.append({"name": name, "source": source, "standardUncertainty": uncertainty, "unit": unit, "sensitivity": -c, "distribution": "normal"})

    def say(name, remark):
        terms.append({"name": name, "valueDb": 0.0, "standardDb": 0.0, "source": "none", "remark": remark})

    add("certificate", certified, 1.0, u or 0.0, "dB", "certificate " + certificate["id"], "it states no uncertainty; none is taken" if u is None else None if "coverageFactor" in certificate else "k was not stated; 2 is taken")
    if law in ("adiabatic", "coefficient"):
        stated = certificate.get("statedForKPa")
        remark = "; ".join(r for r in ["the certificate does not say for which pressure; 101.325 kPa is taken" if stated is None else "", "estimated from the altitude, no barometer was read" if estimated else ""] if r)
        per_kpa = calibrator["details"].get("pressure-db-per-kpa", 0.0)
        change, slope = (20 * math.log10(p / (stated or 101.325)), NEPER / p) if law == "adiabatic" else (per_kpa * (p - (stated or 101.325)), per_kpa)
        add("static pressure", change, slope, u_p, "kPa", f"weather at {site['id']} on {local_day(e['at'], site['offsets'])}" if estimated else f"barometer of {site['id']}", remark or None)
    fitting = [c for c in calibrator["couplings"] if mic and normal(c["microphoneModel"]) == normal(mic["model"])]
    coupling = ([c for c in fitting if "adapter" in c and c["adapter"] == e.get("adapter")] or [c for c in fitting if "adapter" not in c] or [None])[-1]
    sensitivity = newest(mic, "sensitivity") if mic else None
    if coupling:
        source = f"coupling of {calibrator['id']}, {coupling.get('adapter', '')}, {normal(coupling['microphoneModel'])}: "
        add("load volume", coupling["loadVolumeDb"], 1.0, coupling.get("loadVolumeExpandedDb", 0.0) / 2, "dB", source + "load volume", coupling["source"])
        if not (sensitivity and sensitivity.get("field") == "pressure"):
            add("pressure to free field", coupling["fieldDb"], 1.0, coupling.get("fieldExpandedDb", 0.0) / 2, "dB", source + "pressure to free field", coupling["source"])
    if law is None:
        say("static pressure", "how its level follows static pressure is not stated; nothing is added")
    if mic and not coupling:
        say("load volume and field", f"nothing is stated of this calibrator on {mic['model']}; nothing is added")
    per_k, reference = calibrator["details"].get("temperature-db-per-k"), certificate.get("air", {}).get("temperatureC")
    if per_k is not None and "temperatureC" in air:
        add("temperature", per_k * (air["temperatureC"] - (23 if reference is None else reference)), per_k, 1.0, "K", "thermometer", "its certificate states no temperature; 23 °C are taken" if reference is None else None)
        terms[-1]["standardDb"] = abs(per_k)
    calibrator_db = sum(t["valueDb"] for t in terms)

    expected, range_v = [], e.get("rangeV", (part("recorder-channel") or {"details": {}})["details"].get("range-v"))
    if sensitivity:
        level, u = figure(sensitivity)
        expected.append(without_none({"name": "microphone's certificate", "valueDb": six(level - follows(mic, sensitivity.get("air"))), "standardDb": u or 0.0, "source": "certificate " + sensitivity["id"], "remark": "it states no uncertainty" if u is None else None}))
        change = follows(mic, without_none({**air, "pressureKPa": p}))
        if change != 0:
            expected.append({"name": PLACE, "valueDb": six(change), "standardDb": 0.0, "source": "thermometer"})
        if sensitivity.get("loading") != "loaded" and part("preamplifier"):
            expected.append(gain_term(part("preamplifier"), "preamplifier's gain"))
        if method == "recording":
            if part("recorder-channel"):
                expected.append(gain_term(part("recorder-channel"), "channel's gain"))
            expected = [] if range_v is None else expected + [{"name": "channel's range", "valueDb": six(-20 * math.log10(range_v)), "standardDb": 0.0, "source": "none", "remark": f"full scale is {range_v:g} V peak"}]

    each = [r - calibrator_db if method == "indicated" else 20 * math.log10(r / 20e-6) - calibrator_db for r in x]
    mean = sum(each) / len(each)
    own = {"unit": "dB", "sensitivity": 1.0, "distribution": "normal"}
    if len(each) > 1:
        s = math.sqrt(sum((r - mean) ** 2 for r in each) / (len(each) - 1))
        budget.append({"name": "insertions", "source": "this check: insertions", **own, "standardUncertainty": s / math.sqrt(len(each)), "degreesOfFreedom": len(each) - 1})
    else:
        budget.append({"name": "one insertion, assumed", "source": "this check: insertions", **own, "standardUncertainty": 0.03})
    if e.get("resolution"):
        unit, c = {"voltage": "V", "indicated": "dB"}.get(method, "of full scale"), 1.0 if method == "indicated" else NEPER / (sum(x) / len(x))
        budget.append({"name": "resolution of the reading", "source": "this check: resolution", "standardUncertainty": e["resolution"] / math.sqrt(12), "unit": unit, "sensitivity": c, "distribution": "rectangular"})
    if e.get("meterDb"):
        budget.append({"name": "reading instrument", "source": "reading instrument", **own, "standardUncertainty": e["meterDb"]})

    u, k, expanded = combine(budget_parts(budget))
    expected_db = sum(t["valueDb"] for t in expected) if expected else None
    at_place = sum(t["valueDb"] for t in expected if t["name"] == PLACE)
    level = mean
    if method == "indicated":
        base = e.get("setToDb", None if expected_db is None else expected_db - at_place)
        level = None if base is None else base + mean
    return without_none({
        "calibratorCertificate": certificate["id"], "pressureIsEstimated": estimated, "rangeV": range_v, "calibratorDb": six(calibrator_db), "terms": terms, "sensitivityDb": None if level is None else six(level),
        "sensitivityUnit": None if level is None else "FS/Pa" if method == "recording" else "V/Pa", "indicatedDb": six(mean) if method == "indicated" else None, "expectedTerms": expected,
        "deviationDb": None if level is None or expected_db is None else six(level - expected_db), "budget": budget, "standardDb": u, "coverageFactor": k, "expandedDb": expanded})


# --- judging it among others ---------------------------------------------------------------------------------------------------------
def record(register, fact, entry):
    local = lambda at: datetime.datetime.fromisoformat(at.replace("Z", "+00:00"))
    instant = local(entry["at"])
    minutes = [o["minutes"] for o in register["campaign"]["offsets"] if local(o["fromUtc"]) <= instant][-1]
    w = work(register, entry)
    devices = entry.get("devices") or next(s["devices"] for s in register["campaign"]["stations"] if s["name"] == entry["station"])
    return without_none({"fact": fact, "at": entry["at"], "day": (instant + datetime.timedelta(minutes=minutes)).date().isoformat(), "instant": round(instant.timestamp() * 1000), "moment": entry["moment"], "devices": devices,
                         "calibrator": entry["calibrator"], "method": entry["method"], "budget": w["budget"], **{x: w.get(x) for x in ("rangeV", "sensitivityDb", "sensitivityUnit", "indicatedDb")}})


def judged(register, fact, entry, worked, earlier):
    """All cases have instants, and their checks before are listed oldest first."""
    own, limits = record(register, fact, entry), kit_of(register)["limits"]
    comparisons = []

    def compare(what, key, y, parts, limit):
        u, _, expanded = combine(parts)
        c = {"what": what, "differenceDb": y, "standardDb": u, "expandedDb": expanded}
        if limit is not None:
            probability, verdict = decided(limits, y, u, expanded, limit)
            c |= {"key": key, "limitDb": limit, "probability": probability, "verdict": verdict}
        comparisons.append(c)

    parts = budget_parts(own["budget"], 1, fact)
    if "deviationDb" in worked:
        compare("from its certificates", "check-deviation-db", worked["deviationDb"], parts + [(t["source"], -t["standardDb"], INF) for t in worked["expectedTerms"]], limits.get("deviationDb"))
    same = [r for r in earlier if sorted(r["devices"]) == sorted(own["devices"]) and r.get("rangeV") == own.get("rangeV") and r["instant"] < own["instant"] and r["method"] == own["method"]]
    y = lambda r: own["sensitivityDb"] - r["sensitivityDb"] if "sensitivityDb" in own else own["indicatedDb"] - r["indicatedDb"]
    before = None
    if own["moment"] == "after":
        paired = [r for r in same if r["moment"] != "other"]
        if paired and paired[-1]["moment"] == "after":
            paired = [r for r in paired if r["moment"] == "before" and r["day"] == own["day"]]
        if paired and (paired[-1]["day"] == own["day"] or own["instant"] - paired[-1]["instant"] <= 18 * 3600e3):
            before = paired[-1]
    if before:
        compare("since the check before", "check-difference-db", y(before), parts + budget_parts(before["budget"], -1, before["fact"]), limits.get("differenceDb"))
    if same and same[-1] is not before:
        compare("since the last check, " + same[-1]["day"], None, y(same[-1]), parts + budget_parts(same[-1]["budget"], -1, same[-1]["fact"]), None)
    x = entry["readings"]
    spread = None if len(x) < 2 else max(x) - min(x) if entry["method"] == "indicated" else 20 * math.log10(max(x) / min(x))
    if spread is not None and "spreadDb" in limits:
        comparisons.append({"what": "spread of its insertions", "key": "check-spread-db", "differenceDb": spread, "standardDb": 0.0, "expandedDb": 0.0, "limitDb": limits["spreadDb"], "verdict": "conforms" if six(spread) <= six(limits["spreadDb"]) else "does-not-conform"})
    order = ["conforms", "undecided", "does-not-conform"]
    verdict = max((c["verdict"] for c in comparisons if "verdict" in c), key=order.index, default=None)
    word = {"conforms": "accept", "undecided": "undecidable", "does-not-conform": "reject", None: "not judged"}[verdict]
    return without_none({"comparisons": comparisons, "verdict": verdict, "word": word, "spreadDb": spread})


# --- invented data -------------------------------------------------------------------------------------------------------------------
def fact_id(n):
    return f"01KQ{n:022d}"


def certificate(n, quantity, value, unit, expanded=None, k=2, u_unit="dB", day="2026-02-10", **more):
    return without_none({"id": fact_id(n), "day": day, "quantity": quantity, "value": value, "unit": unit, "expandedUncertainty": expanded, "uncertaintyUnit": u_unit if expanded else None, "coverageFactor": k if expanded else None, **more})


def device(i, kind, model, details=None, certificates=(), couplings=()):
    return {"id": i, "kind": kind, "name": f"{kind} {i}", "model": model, "details": details or {}, "certificates": list(certificates), "couplings": list(couplings)}


FREE = {"response-type": "free-field", "size-mm": 12.7, "pressure-db-per-kpa": -0.011, "temperature-db-per-k": -0.006, "humidity-db-per-percent": 0.0008}
PISTON = {"pressure-law": "adiabatic"}
FIELD_COUPLING = {"microphoneModel": "Quill  half f", "loadVolumeDb": 0.031, "loadVolumeExpandedDb": 0.02, "fieldDb": -0.12, "fieldExpandedDb": 0.06, "source": "table of the house"}
DEVICES = {d["id"]: d for d in [
    device("M1", "microphone", "Quill half F", FREE, [certificate(1, "sensitivity", 12.41, "mV/Pa", 1.2, u_unit="%", field="free-field", loading="open-circuit", frequencyHz=250, air={"pressureKPa": 98.2, "temperatureC": 24.1, "humidityPercent": 41})]),
    device("M2", "microphone", "Quill half P", {"response-type": "pressure"}, [certificate(2, "sensitivity", -38.2, "dB re 1 V/Pa", 0.06, field="pressure", frequencyHz=250)]),
    device("M3", "microphone", "Quill half F", {"response-type": "free-field"}, [certificate(3, "sensitivity", 0.0126, "V/Pa", 0.0001, u_unit="V/Pa", loading="loaded", air={"temperatureC": 21.5})]),
    device("M4", "microphone", "Reed quarter", {"response-type": "free-field"}),
    device("M5", "microphone", "Quill half F", {"response-type": "free-field"}, [certificate(4, "sensitivity", -37.9, "dB re 1 V/Pa")]),
    device("P1", "preamplifier", "Stem 3", {}, [certificate(11, "gain", -0.12, "dB", 0.03)]),
    device("P2", "preamplifier", "Stem 3", {"gain-db": -0.2}),
    device("P3", "preamplifier", "Stem 3"),
    device("R1", "recorder-channel", "Ledger 8", {"range-v": 10}, [certificate(21, "gain", 0.013, "dB", 0.02)]),
    device("R2", "recorder-channel", "Ledger 8"),
    device("K1", "sound-calibrator", "Drum 250", PISTON, [certificate(31, "level", 124.02, "dB", 0.09, frequencyHz=250)], [FIELD_COUPLING, {**FIELD_COUPLING, "adapter": "A1", "loadVolumeDb": 0.044, "source": "measured here"}, {"microphoneModel": "QUILL HALF P", "loadVolumeDb": 0.027, "fieldDb": -0.05, "fieldExpandedDb": 0.04, "source": "table of the house"}]),
    device("K2", "sound-calibrator", "Drum 250", PISTON, [certificate(32, "level", 123.97, "dB", 0.1, frequencyHz=250, statedForKPa=100.0), certificate(33, "level", 124.31, "dB", 0.1, day="2024-02-12", frequencyHz=250)]),
    device("K3", "sound-calibrator", "Bell 2", {"pressure-law": "coefficient", "pressure-db-per-kpa": -0.0008, "temperature-db-per-k": 0.0015}, [certificate(34, "level", 94.03, "dB", 0.15, frequencyHz=1000, statedForKPa=101.3, air={"temperatureC": 22.4}), certificate(35, "level", 114.01, "dB", 0.15, frequencyHz=1000, air={"pressureKPa": 99.0})]),
    device("K4", "sound-calibrator", "Bell 1", {"temperature-db-per-k": -0.002}, [certificate(36, "level", 93.96, "dB", 0.2, k=None, frequencyHz=1000)]),
    device("K5", "sound-calibrator", "Bell 1", {"pressure-law": "none"}, [certificate(37, "level", 94.0, "dB")]),
    device("A1", "calibration-adapter", "Collar 12"),
]}
HILL = {"pressureKPa": 84.31, "temperatureC": 14.2, "humidityPercent": 63}
CASES = []


def case(name, entry, chain="M1 P1 R1", limits=None, altitude=1480, earlier=(), says=None):
    e = {"campaign": "C1", "station": "S1", "at": "2026-05-04T14:11:12.345Z", "moment": "before", "devices": chain.split(), "method": "voltage", "readings": [0.36], "air": HILL, **entry}
    e = without_none(e)
    former = [{"fact": fact_id(900 + i), "entry": without_none({**e, "moment": "before", **b})} for i, b in enumerate(earlier)]
    used = {*chain.split(), *e.get("devices", []), *(x["entry"]["calibrator"] for x in former), e["calibrator"], e.get("adapter")}
    register = {"campaign": {"id": "C1", "name": "Spring series", "site": "Long Meadow", "altitudeM": altitude, "firstDay": "2026-05-01", "lastDay": "2026-05-20", "zone": "Europe/Vienna",
                             "offsets": [{"fromUtc": "2025-10-26T01:00:00.000Z", "minutes": 60}, {"fromUtc": "2026-03-29T01:00:00.000Z", "minutes": 120}], "stations": [{"name": "S1", "devices": chain.split()}]},
                "limits": limits or {}, "devices": [copy.deepcopy(d) for i, d in DEVICES.items() if i in used], "earlier": former}
    kit = kit_of(register)
    kit["stations"][0]["checks"] = records = [record(register, f["fact"], f["entry"]) for f in former]
    out = {"name": name, "register": register, "kit": kit, "entry": e, "fact": fact_id(990)}
    if says:
        return CASES.append({**out, "expected": {"isRefused": True, "says": says}})
    worked = work(register, e)
    CASES.append({**out, "expected": {**worked, **judged(register, out["fact"], e, worked, records)}})


def volts(level, calibrator=122.4):
    return 20e-6 * 10 ** ((level + calibrator) / 20)


three = {"readings": [0.3512, 0.3519, 0.3507]}
case("pistonphone by pressure at altitude, three insertions", {"calibrator": "K1", **three, "resolution": 0.0001, "remark": " dry "}, limits={"check-deviation-db": 0.5, "check-spread-db": 0.1})
case("certificate stated for another pressure", {"calibrator": "K2", "pressureUncertaintyKPa": 0.2})
case("coefficient law, level by its nominal level, reading instrument", {"calibrator": "K3", "nominalDb": 94, "readings": [0.0121], "meterDb": 0.04})
case("coefficient law, level of the indicated level, no temperature on its certificate", {"calibrator": "K3", "method": "indicated", "readings": [113.9, 114.0, 114.1], "resolution": 0.1}, "M1 P1")
case("law not stated and k not stated, temperature coefficient", {"calibrator": "K4", "readings": [0.0119]}, "M1 P2 R2")
case("law none and no uncertainty, insertions decide", {"calibrator": "K5", "readings": [0.01190, 0.01215, 0.01201, 0.01196], "resolution": 0.00002, "air": None}, "M2 P3")
case("pressure estimated from the altitude", {"calibrator": "K1", "air": None, "estimatePressure": True})
case("pressure estimated, air without pressure", {"calibrator": "K2", "air": {"temperatureC": 9.5}, "estimatePressure": True}, "M5 P1")
case("coupling of that very adapter", {"calibrator": "K1", "adapter": "A1"})
case("coupling for a microphone of pressure leaves the field out", {"calibrator": "K1", "readings": [0.31]}, "M2 P1")
case("no coupling for this model, no certificate, level indicated", {"calibrator": "K1", "method": "indicated", "readings": [122.5]}, "M4 P1")
case("no certificate but set to a level", {"calibrator": "K1", "method": "indicated", "readings": [122.5], "setToDb": -38.0}, "M4 P1")
case("indicated level, set to its certificates", {"calibrator": "K1", "method": "indicated", "readings": [122.3, 122.4], "resolution": 0.1, "meterDb": 0.02}, limits={"check-deviation-db": 0.4, "decision-rule": "guarded"})
case("indicated level, set to a stated level", {"calibrator": "K1", "method": "indicated", "readings": [122.3], "resolution": 0.1, "setToDb": -38.3})
case("preamplifier without a certificate, gain of its entry", {"calibrator": "K1"}, "M1 P2")
case("preamplifier without a certificate or a gain, range stated", {"calibrator": "K1", "rangeV": 3.16}, "M1 P3 R1")
case("certificate of the loaded microphone", {"calibrator": "K1"}, "M3 P1", {"check-deviation-db": 0.3, "decision-rule": "probability", "decision-probability": 0.9})
case("recorded tone with the channel at its range", {"calibrator": "K1", "method": "recording", "readings": [0.0351, 0.0352], "resolution": 0.0001})
case("recorded tone without a range", {"calibrator": "K1", "method": "recording", "readings": [0.0351]}, "M1 P1 R2")
case("devices as planned", {"calibrator": "K1", "devices": None})

first = [{"readings": [volts(-38.3)], "at": "2026-05-04T06:00:00.000Z"}]
after = lambda db, **more: {"calibrator": "K1", "moment": "after", "readings": [volts(-38.3 + db)], **more}
for rule, db in [("simple", 0.3), ("simple", -0.3), ("simple", 0.300002), ("guarded", 0.21), ("guarded", 0.29), ("guarded", -0.39), ("probability", 0.22), ("probability", 0.29), ("probability", 0.38)]:
    case(f"after less before {db}, {rule}", after(db), limits={"check-difference-db": 0.3, "decision-rule": rule}, earlier=first)
limited = {"check-difference-db": 0.3, "check-deviation-db": 2.0, "check-spread-db": 0.1}
case("several insertions on both sides, another pressure", after(0, readings=[volts(-38.21), volts(-38.25), volts(-38.22)], air={**HILL, "pressureKPa": 84.02}), limits=limited, earlier=[{"at": "2026-05-04T06:00:00.000Z", "readings": [volts(-38.3), volts(-38.33)]}])
case("spread of the insertions above its limit", {"calibrator": "K1", "readings": [volts(-38.3), volts(-38.15)]}, limits=limited)
case("a session over local midnight is one pair", after(0.1, at="2026-05-04T23:10:00.000Z"), limits=limited, earlier=[{"at": "2026-05-04T20:30:00.000Z", "readings": [volts(-38.3)]}])
case("the evening after belongs to no check of the day before", after(0.1, at="2026-05-05T20:40:00.000Z"), limits=limited, earlier=[{"at": "2026-05-04T20:30:00.000Z", "readings": [volts(-38.3)]}])
case("who checks after twice corrects himself", after(0.1), limits=limited, earlier=[*first, {"moment": "after", "at": "2026-05-04T13:00:00.000Z", "readings": [volts(-37.5)]}])
case("another range is another chain", after(0.1, rangeV=1), limits=limited, earlier=first)
case("indicated before and after", after(0, method="indicated", readings=[122.6]), limits=limited, earlier=[{"at": "2026-05-04T06:00:00.000Z", "readings": [122.4]}])

for name, entry, says in [
    ("pressure reduced to sea level", {"air": {"pressureKPa": 101.6}}, "it looks reduced to sea level"), ("pressure too low for the place", {"air": {"pressureKPa": 70}}, "is too low for 1480 m"),
    ("pressure missing", {"air": None}, "Static pressure is missing"), ("hectopascals", {"air": {"pressureKPa": 843.1}}, "Static pressure '843.1'"), ("no reading", {"readings": []}, "Readings: 1 to 20 are allowed, not 0"),
    ("reading too great", {"readings": [0.36, 360]}, "Reading '360'"), ("indicated level too low", {"method": "indicated", "readings": [12]}, "Reading '12'"), ("humidity", {"air": {**HILL, "humidityPercent": 101}}, "Humidity '101'"),
    ("unknown station", {"station": "S9"}, "Station 'S9'"), ("a microphone is no calibrator", {"calibrator": "M1"}, "is no sound calibrator"), ("a microphone is no adapter", {"adapter": "M1"}, "Adapter 'M1'"),
    ("two levels and none stated", {"calibrator": "K3"}, "state which"), ("uncertainty of the barometer", {"pressureUncertaintyKPa": 0}, "Uncertainty of the static pressure '0'"), ("set to a level that cannot be", {"setToDb": 38}, "set to '38'"),
]:
    case("refused: " + name, {"calibrator": "K1", **entry}, says=says)


# --- label codes and canonical facts -----------------------------------------------------------------------------------------------------
def check_character(text):
    digits, p = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ", 36
    for c in text:
        p = ((p + digits.index(c)) % 36 or 36) * 2 % 37
    return digits[(37 - p) % 36]


good = [b + check_character(b) for b in ("2AYS641T", "00000000", "ZZZZZZZZ", "4XK3Q7MP", "7H1J0KM0", "9QWERT5Z", "10R7AB01", "1M0N05PX", "31C0D0EF", "K10000VW") if check_character(b) not in "ILOU"]
spell = lambda c: {"code": c, "spoken": f"{c[:4]} {c[4:8]} {c[8:]}"}
LABELS = [{"text": c, **spell(c)} for c in good]
c = next(c for c in good if "1" in c and "0" in c)
LABELS += [{"text": t, **spell(c)} for t in (c.lower(), f" {c[:4]} {c[4:8]}-{c[8:]} ", c.replace("0", "o").replace("1", "l"), c.replace("1", "I"), f"HTTPS://REGISTER.LAN/L/{c}", f"https://register.lan/l/{c}?x=1", f"http://register.lan/l/{c.lower()}/", f"http://register.lan/l#{c}", c[:4] + "\u00a0" + c[4:])]
swapped = c[1] + c[0] + c[2:]
LABELS += [{"text": t, "isBad": True} for t in ("", "   ", c[:-1], c + "0", "U" + c[1:], c[:-1] + ("A" if c[-1] != "A" else "B"), swapped, "https://elsewhere.example/page", "https://register.lan/devices/M1", "x" * 301, "4XK3_Q7MP", "Äbcdefghi")]


def number(x):
    """ECMAScript's Number::toString of a finite number."""
    x = float(x)
    if x == 0:
        return "0"
    sign, digits, exponent = Decimal(repr(x)).normalize().as_tuple()
    d, n = "".join(map(str, digits)), len(digits) + exponent
    if n > 21 or n <= -6:
        body = d[0] + ("." + d[1:] if len(d) > 1 else "") + f"e{n - 1:+d}"
    else:
        body = d + "0" * (n - len(d)) if n >= len(d) else d[:n] + "." + d[n:] if n > 0 else "0." + "0" * -n + d
    return "-" * sign + body


def text(s):
    short = {'"': '\\"', "\\": "\\\\", "\b": "\\b", "\f": "\\f", "\n": "\\n", "\r": "\\r", "\t": "\\t"}
    return '"' + "".join(short.get(ch) or (f"\\u{ord(ch):04x}" if ch < " " else ch) for ch in s) + '"'


def canonical(v):
    if isinstance(v, bool):
        return "true" if v else "false"
    if isinstance(v, dict):
        return "{" + ",".join(text(k) + ":" + canonical(v[k]) for k in sorted(v, key=lambda k: k.encode("utf-16-be"))) + "}"
    return "[" + ",".join(map(canonical, v)) + "]" if isinstance(v, list) else text(v) if isinstance(v, str) else number(v)


def fact(n, kind, body, *subjects, version=1):
    return {"kind": kind, "version": version, "id": fact_id(n), "at": "2026-05-04T10:11:12.345Z", "author": "P1", "client": "phone-7f3a.4K2M", "counter": n, "subjects": list(subjects), "body": body}


numbers = [1e21, 1e20, 123456789012345680000.0, 1e-7, 1e-6, 0.000001234, 0.1, -0.0, 123456789.123, 7.0, -1.5e-9, 5e-324, 1.7976931348623157e308, 9007199254740993.0, 0.1 + 0.2, -42, 1 / 3]
FACTS = [
    fact(1, "device-noted", {"text": "Grüße, 電, 😀 and é"}, "device:M1"),
    fact(2, "device-noted", {"text": "\u0000\u0001\b\t\n\u000b\f\r\u001f \" \\ / \u007f \u0080 \u2028 \ufeff"}, "device:M1"),
    fact(3, "vector-of-numbers", {"numbers": numbers}, "campaign:C1"),
    fact(4, "vector-of-keys", {"b": 1, "a": 2, "B": 3, "": 4, "10": 5, "9": 6, "é": 7, "\ufb33": 8, "😀": 9, "a\n": 10, "ab": {"z": [], "y": {}, "x": [True, False, [1.0, "1"]]}}, "campaign:C1"),
    fact(5, "weather-noted", {"pressureKPa": 84.31, "temperatureC": -0.0, "windMs": 7.0}, "campaign:C1"),
    fact(6, "chain-placed", {"station": "S1", "devices": ["M1"], "unknownLabels": [], "concerns": [], "isFlush": True, "gapMm": 6.35, "position": {"longitudeDeg": 16.0, "latitudeDeg": 48.000001, "accuracyM": 4}}, "campaign:C1", "device:M1", version=2),
]

made = {"python": platform.python_version(), "scipy": scipy.__version__}
lines = lambda items: "[\n" + ",\n".join(json.dumps(i, ensure_ascii=True, allow_nan=False) for i in items) + "\n]"
pathlib.Path(__file__).with_name("vectors.json").write_text(
    f'{{"madeWith": {json.dumps(made)},\n"checks": {lines(CASES)},\n"labels": {lines(LABELS)},\n"facts": {lines([{"fact": f, "canonical": canonical(f)} for f in FACTS])}}}\n', encoding="utf-8")
