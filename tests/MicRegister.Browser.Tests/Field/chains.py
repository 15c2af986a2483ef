#!/usr/bin/env python3
"""Writes chains.json: chains as they are planned or scanned, and what the rules' texts say of them.

Every expectation is written here by hand from the text of a rule, never from what either program answers:
  response-type     pressure type on plates, free-field type on a stand or pole; on a stand a pressure type serves as well. Another type
                    stops, an unknown one risks (common practice, no source).
  parts-fit         sizes differ by more than 0.2 mm, equality passes, after rounding to 1e-6 (an adapter between microphone and preamplifier
                    makes up for theirs); polarisation that is wanted and given are equal; powering and connectors are equal but for capitals
                    and blanks (a cable makes up for connectors, a power module stands for the channel's powering); a plate on which a
                    microphone stands is made for that mounting. Each stops; what is not known on either side says nothing.
  unfit             away risks; out of service, lost and retired stop.
  chain-incomplete  a microphone, a preamplifier, a recorder channel and, on plates, a plate belong to a chain. At the desk the plan stops;
                    on the phone a part that was not scanned risks, since it may stand there without a label.
  plate-geometry    the gap under an inverted microphone lies within the profile's tolerance of the wanted one; equality passes.
"""
import json
import pathlib

KINDS = ["microphone", "preamplifier", "recorder-channel", "ground-plate"]
SOUND = {
    "microphone": {"response-type": "pressure", "size-mm": 12.7, "polarisation-v": 200},
    "preamplifier": {"size-mm": 12.7, "polarisation-v": 200, "powering": "constant current", "connector": "round 7"},
    "recorder-channel": {"powering": "constant current", "connector": "round 7"},
    "ground-plate": {"fits-mm": 12.7, "plate-style": "flush"},
    "calibration-adapter": {},
    "power-module": {},
    "cable": {},
}
cases = []


def case(name, mount="flush-plate", kinds=KINDS, limits=None, gap=None, status=None, desk=(), phone=None, **details):
    """details: kind_with_underscores={key: value or None}; desk: (rule, gravity) pairs; phone: others where it differs by intent."""
    parts = []
    for kind in kinds:
        own = {**SOUND[kind], **details.get(kind.replace("-", "_"), {})}
        parts.append({"kind": kind, "status": (status or {}).get(kind, "in-service"), "details": {k: v for k, v in own.items() if v is not None}})
    to = lambda pairs: [{"rule": r, "gravity": g} for r, g in pairs]
    cases.append({"name": name, "mount": mount, "parts": parts, "limits": limits or {}, "gapMm": gap,
                  "desk": to(desk), "phone": to(desk if phone is None else phone)})


STOPS, RISKS = "stops", "risks"
FREE = {"response-type": "free-field"}
NO_PLATE = KINDS[:3]
INVERTED = {"plate-style": "inverted"}

# response-type
case("a pressure type flush in a plate")
case("a pressure type inverted over a plate", "inverted-plate", ground_plate=INVERTED)
case("a free-field type flush in a plate", microphone=FREE, desk=[("response-type", STOPS)])
case("a free-field type inverted over a plate", "inverted-plate", microphone=FREE, ground_plate=INVERTED, desk=[("response-type", STOPS)])
case("a free-field type on a stand", "ground-stand", NO_PLATE, microphone=FREE)
case("a pressure type on a stand serves as well", "ground-stand", NO_PLATE)
case("a diffuse-field type on a stand", "ground-stand", NO_PLATE, microphone={"response-type": "diffuse"}, desk=[("response-type", STOPS)])
case("a free-field type on a pole", "pole", NO_PLATE, microphone=FREE)
case("a pressure type on a pole", "pole", NO_PLATE, desk=[("response-type", STOPS)])
case("an unknown type flush in a plate", microphone={"response-type": None}, desk=[("response-type", RISKS)])
case("an unknown type on a stand", "ground-stand", NO_PLATE, microphone={"response-type": None}, desk=[("response-type", RISKS)])

# parts-fit: sizes
case("a small capsule on a large preamplifier", microphone={"size-mm": 6.35}, ground_plate={"fits-mm": None}, desk=[("parts-fit", STOPS)])
case("a capsule that is 0.2 mm larger than the thread", microphone={"size-mm": 12.9}, ground_plate={"fits-mm": None})
case("a capsule that is 0.2 mm smaller than the thread", microphone={"size-mm": 12.5}, ground_plate={"fits-mm": None})
case("a capsule that is 0.200001 mm larger than the thread", microphone={"size-mm": 12.900001}, ground_plate={"fits-mm": None},
     desk=[("parts-fit", STOPS)])
case("a capsule that is larger by less than is rounded away", microphone={"size-mm": 12.9000004}, ground_plate={"fits-mm": None})
case("a small capsule with an adapter", kinds=KINDS + ["calibration-adapter"], microphone={"size-mm": 6.35}, ground_plate={"fits-mm": None})
case("a capsule of unknown size", microphone={"size-mm": None})
case("a preamplifier of unknown size", preamplifier={"size-mm": None})
case("a plate that holds another capsule", ground_plate={"fits-mm": 6.35}, desk=[("parts-fit", STOPS)])
case("a plate whose bore is 0.2 mm larger", ground_plate={"fits-mm": 12.9})
case("a plate whose bore is 0.21 mm larger", ground_plate={"fits-mm": 12.91}, desk=[("parts-fit", STOPS)])
case("a plate that holds another capsule, with an adapter to the preamplifier", kinds=KINDS + ["calibration-adapter"],
     ground_plate={"fits-mm": 6.35}, desk=[("parts-fit", STOPS)])

# parts-fit: polarisation, powering, connectors
case("200 V wanted, 0 V given", preamplifier={"polarisation-v": 0}, desk=[("parts-fit", STOPS)])
case("0 V wanted, 200 V given", microphone={"polarisation-v": 0}, desk=[("parts-fit", STOPS)])
case("0 V wanted and given", microphone={"polarisation-v": 0}, preamplifier={"polarisation-v": 0})
case("nobody knows what polarisation is wanted", microphone={"polarisation-v": None}, preamplifier={"polarisation-v": 0})
case("another powering than the channel gives", recorder_channel={"powering": "low voltage"}, desk=[("parts-fit", STOPS)])
case("the same powering in other capitals and blanks", recorder_channel={"powering": "  Constant   CURRENT "})
case("a power module that gives what is wanted", kinds=KINDS + ["power-module"], recorder_channel={"powering": "low voltage"},
     power_module={"powering": "constant current"})
case("a power module that gives something else", kinds=KINDS + ["power-module"], power_module={"powering": "low voltage"},
     desk=[("parts-fit", STOPS)])
case("a power module of which nobody knows what it gives", kinds=KINDS + ["power-module"], recorder_channel={"powering": "low voltage"})
case("a channel of which nobody knows what it gives", recorder_channel={"powering": None})
case("a connector that does not fit", recorder_channel={"connector": "coaxial"}, desk=[("parts-fit", STOPS)])
case("a connector that does not fit, with a cable", kinds=KINDS + ["cable"], recorder_channel={"connector": "coaxial"})
case("the same connector in other capitals", recorder_channel={"connector": "ROUND 7"})
case("a connector that nobody knows", preamplifier={"connector": None})

# parts-fit: the plate's style
case("a plate made for inverted mounting under a flush microphone", ground_plate=INVERTED, desk=[("parts-fit", STOPS)])
case("a plate made for flush mounting under an inverted microphone", "inverted-plate", desk=[("parts-fit", STOPS)])
case("a plate of unknown style", ground_plate={"plate-style": None})
case("a plate under a stand", "ground-stand", microphone=FREE, ground_plate=INVERTED)
case("two things wrong at once", recorder_channel={"powering": "low voltage", "connector": "coaxial"},
     desk=[("parts-fit", STOPS), ("parts-fit", STOPS)])

# unfit
case("a microphone that is away", status={"microphone": "away"}, desk=[("unfit", RISKS)])
case("a preamplifier out of service", status={"preamplifier": "out-of-service"}, desk=[("unfit", STOPS)])
case("a channel that is lost", status={"recorder-channel": "lost"}, desk=[("unfit", STOPS)])
case("a plate that is retired", status={"ground-plate": "retired"}, desk=[("unfit", STOPS)])

# chain-incomplete: the gravity differs by intent, see above
for kind in KINDS:
    case(f"no {kind} flush in a plate", kinds=[k for k in KINDS if k != kind], desk=[("chain-incomplete", STOPS)], phone=[("chain-incomplete", RISKS)])
case("no plate on a pole", "pole", NO_PLATE, microphone=FREE)

# plate-geometry: the gap
GAP = {"gap-mm": 7, "gap-tolerance-mm": 0.2}
TOO_WIDE = [("plate-geometry", STOPS)]
case("the wanted gap", "inverted-plate", limits=GAP, gap=7, ground_plate=INVERTED)
case("a gap at its upper limit", "inverted-plate", limits=GAP, gap=7.2, ground_plate=INVERTED)
case("a gap at its lower limit", "inverted-plate", limits=GAP, gap=6.8, ground_plate=INVERTED)
case("a gap beyond its upper limit", "inverted-plate", limits=GAP, gap=7.21, ground_plate=INVERTED, desk=TOO_WIDE)
case("a gap beyond its lower limit", "inverted-plate", limits=GAP, gap=6.79, ground_plate=INVERTED, desk=TOO_WIDE)
case("a gap beyond by less than is rounded away", "inverted-plate", limits=GAP, gap=7.2000004, ground_plate=INVERTED)
case("a gap without a tolerance in the profile", "inverted-plate", limits={"gap-mm": 7}, gap=9, ground_plate=INVERTED)
case("a gap without a limit in the profile", "inverted-plate", gap=9, ground_plate=INVERTED)
case("a gap flush in a plate says nothing", limits=GAP, gap=9)

# Figures for people, by the rules of JCGM 100:2008, 7.2.6 as ShownUncertainty states them: value, uncertainty, difference, uncertainty shown.
figures = [
    [0.123, 0.12, "+0.12", "0.12"], [-0.126, 0.1211, "−0.13", "0.13"], [-0.004, 0.117, "0.00", "0.12"], [0.004, 0.117, "0.00", "0.12"],
    [0.5, 0.0996, "+0.50", "0.10"], [-1.26, 1.5, "−1.3", "1.5"], [0.0125, 0.03, "+0.01", "0.03"], [0.0125, 0.031, "+0.013", "0.031"],
    [1.005, 0.3, "+1.01", "0.30"], [12.3, 10.47, "+12", "11"], [12.3, 28.05, "+12", "28"], [0.3, 0.281, "+0.30", "0.28"],
    [0.3, 0.2811, "+0.30", "0.29"], [-0.35, 0.35, "−0.35", "0.35"],
    [1e-9, 0.12, "0.00", "0.12"], [-1e-9, 0.12, "0.00", "0.12"], [-125, 220, "−130", "220"], [125, 220, "+130", "220"],
]
figures = [{"value": v, "expanded": u, "difference": d, "shown": s} for v, u, d, s in figures]

text = "{\n\"cases\": [\n" + ",\n".join(json.dumps(c, ensure_ascii=False) for c in cases) + "\n],\n\"figures\": [\n"
text += ",\n".join(json.dumps(f, ensure_ascii=False) for f in figures) + "\n]\n}\n"
pathlib.Path(__file__).with_name("chains.json").write_text(text, encoding="utf-8")
