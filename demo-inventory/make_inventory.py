#!/usr/bin/env python3
"""Makes the invented inventory of this folder.  use: make_inventory.py   (needs python3-openpyxl; the files are committed)

Everything is invented: airfield, team, makers, serials, results. The same seed gives the same fleet. What is wrong with it on
purpose is listed in README.md; a test holds that the register finds exactly that. Histories scatter as those of a real laboratory do: some hundredths of a decibel from result to result, a slow
walk, a second laboratory that lies a little higher, years without a result, and three old steps of capsules that nobody planned."""
import csv, datetime as dt, math, os, random
from openpyxl import Workbook
from openpyxl.styles import Font

here = os.path.dirname(os.path.abspath(__file__)); r = random.Random(20260803)
h = random.Random(2)                  # histories alone
D = dt.date; TODAY = D(2026, 8, 3)
def mv(db): return 1000 * 10 ** (db / 20)
def de(x, n): return f"{x:.{n}f}".replace(".", ",")

# --- microphones: 84 of three models; levels as exact history, years 2016-2020 go to the wide table, 2021-2026 to the workbook
mics = []
for i in range(84):
    model = "A-12P" if i < 76 else "A-12F" if i < 80 else "B-12P" if i < 82 else "A-6P"
    nominal = -38.06 if model != "A-6P" else -47.96
    base = nominal + r.gauss(0, .25); slope = r.gauss(0, .002); first = r.choice([2016, 2017, 2018])
    mics.append(dict(serial=f"41{i + 1:03}", model=model, base=base, slope=slope, first=first, U=.06, month=3 + i % 4, day=1 + (i * 7) % 27, hist={}))
HOUSE, OTHER, SHIFT = "House laboratory", "Harbour laboratory", .03     # the other one lies higher by so many dB
STEPS = {"41031": (2020, -.17), "41047": (2022, .15), "41058": (2019, -.21)}
for m in mics:
    walk, scatter, m["lab"] = 0, h.uniform(.018, .032), {}
    gap = h.choice([None, None, None, (2019, 2020), (2021, 2022), (2020, 2022), (2022, 2023)])
    for y in range(m["first"], 2027):
        walk += h.gauss(0, .010)
        day = D(y, m["month"], m["day"]) if y >= 2021 else D(y, 1, 1)
        lab = OTHER if y >= 2021 and h.random() < .2 else HOUSE
        level = m["base"] + m["slope"] * (y - 2016) + walk + h.gauss(0, scatter) + (SHIFT if lab == OTHER else 0)
        if m["serial"] in STEPS and y >= STEPS[m["serial"]][0]: level += STEPS[m["serial"]][1]
        if gap and gap[0] <= y <= gap[1] and m["serial"] != "41030": continue        # that one loses its row of the old table, below
        m["hist"][day] = level; m["lab"][day] = lab
def mic(n): return mics[n - 1]
def rewrite(m, days, f, U=None):
    m["lab"] = {}
    m["hist"] = {d: f(i, d) for i, d in enumerate(days)}
    if U: m["U"] = U
# a drifter: the straight line leaves the limit in the last days of the campaign
drift = mic(7); days = [D(2021, 4, 6), D(2022, 2, 8), D(2022, 12, 6), D(2023, 11, 7), D(2024, 10, 5)]
rewrite(drift, days, lambda i, d: -38.20 + .1079 * (d - days[-1]).days / 365.25 + [.002, -.003, .001, -.001, 0][i], U=.08)
# a stepped capsule: 0.16 dB with its newest result
step = mic(15); last = max(step["hist"]); rewrite(step, sorted(step["hist"]), lambda i, d: -37.95 + (.16 if d == last else 0) + [.004, -.003][i % 2])
# due in mid-campaign: last calibrated two years before its sixth day
late = mic(22); rewrite(late, [D(2016, 1, 1), D(2018, 1, 1), D(2020, 1, 1), D(2021, 9, 2), D(2022, 9, 5), D(2024, 9, 6)], lambda i, d: -38.11 + [.004, -.003][i % 2])

# --- workbook
book = Workbook(); sheet = book.active; sheet.title = "Read me"
for line in ["Quillmere Airfield, acoustics group", "Ask the registrar before you change anything here.", "Dates in the calibration sheet are real dates, except where somebody typed them."]: sheet.append([line])
sheet = book.create_sheet("Microphones"); sheet.append(["Microphone inventory, all halls"]); sheet["A1"].font = Font(bold=True); sheet.append([])
sheet.append(["Kind", "Maker", "Model", "Serial No.", "Size", "Response", "Polarisation", "fmin [Hz]", "fmax [kHz]", "Max level [dB]", "Noise floor [dB]", "Nominal sensitivity [mV/Pa]", "Location", "Status", "Remarks"])
for c in sheet[3]: c.font = Font(bold=True)
for i, m in enumerate(mics):
    ff = m["model"] == "A-12F"; quarter = m["model"] == "A-6P"; narrow = m["model"] == "B-12P"
    sheet.append(["Microphone", "Maker A" if m["model"][0] == "A" else "Maker B", m["model"], m["serial"], '1/4"' if quarter else '1/2"', "free field" if ff else "Pressure", "200 V" if i == 65 else "0",
                  10, 10 if narrow else 70 if quarter else 20, 155 if quarter else 140, 30 if quarter else 18, 4 if quarter else 12.5,
                  "Hall 2, cabinet %d" % (1 + i % 5), "lost" if i == 75 else "ok", "grid replaced 2019" if i % 23 == 4 else None])
    if i == 40: sheet.append([c.value for c in sheet[3]])       # a page break with the header again
sheet.append([]); sheet.append(["Total", None, None, len(mics)]); sheet.append(["* serials as engraved on the capsule"])

sheet = book.create_sheet("Mic calibrations")
sheet.append(["Calibrations since 2021 (pistonphone comparison, 250 Hz)"])
sheet.append(["Serial", "Date", "Sensitivity", "Uncertainty (k = 2)", "Cal frequency", "Lab", "Pressure", "Temp", "RH"]); sheet.append([None, None, "mV/Pa", "dB", "Hz", None, "kPa", "°C", "%"])
sheet.merge_cells("A1:I1")
rows = [(m, d, v) for m in mics for d, v in m["hist"].items() if d.year >= 2021]; rows.sort(key=lambda t: (t[1], t[0]["serial"]))
for n, (m, d, v) in enumerate(rows):
    when = d if n % 11 else d.strftime("%d.%m.%Y")
    value = round(mv(v), 3)
    sheet.append([m["serial"], when, value, m["U"], 250, m["lab"].get(d, HOUSE), round(r.uniform(99.5, 102.2), 1), round(r.uniform(22, 24), 1), round(r.uniform(38, 56))])
sheet.append(["41012", D(2026, 7, 1), 125.302, .06, 250, "House laboratory", 100.9, 23.1, 44])     # somebody slipped a digit

def gains(n, nominal, first=2021):
    walk, out, gap = 0, [], h.choice([None, None, 2022, 2023, 2024])
    for y in range(first, 2027):
        walk += h.gauss(0, .004)
        if y != gap: out.append((D(y, 2 + n % 3, 3 + n % 25), nominal + walk + h.gauss(0, .015)))
    return out
sheet = book.create_sheet("Preamplifiers")
sheet.append(["Device", None, None, None, None, None, None, None, "Calibration", None, None, None]); sheet.merge_cells("A1:H1"); sheet.merge_cells("I1:L1")
sheet.append(["Kind", "Make", "Type", "S/N", "Size", "Powering", "Polarization", "Plug", "Cal date", "Gain [dB]", "U [dB]", "Status"])
for i in range(74):
    for n, (d, g) in enumerate(gains(i, -.12)):
        head = ["Preamp", "Maker A", "PA-12", f"62{i + 1:03}", '1/2"', "constant current", 0, "round 7"]
        sheet.append(head + [d, round(g, 3), .04, "lent" if i == 62 else "ok"])
book.save(os.path.join(here, "1-fleet.xlsx"))

# --- field kit: semicolons, decimal commas, Windows-1252, two tables' worth of kinds in one list
rows = []
head = ["Art", "Hersteller", "Typ", "Seriennummer", "Größe", "Plattendurchmesser", "Dicke", "Werkstoff", "Charge", "Style", "Passt zu", "Prüfdatum", "Prüfergebnis", "Überstand [mm]", "Ebenheit [mm]",
        "Speisung", "Stecker", "Kalibriert am", "Wert", "Messunsicherheit", "k", "Klasse", "Pressure law", "Lagerort", "Bemerkung"]
def line(**v):
    out = {h: "" for h in head}; out.update(v); rows.append([out[h] for h in head])
for i in range(73):
    n = i + 1
    v = dict(Art="Bodenplatte", Hersteller="Own workshop", Typ="GP-400", Seriennummer=f"GP{n:03}", Plattendurchmesser="400", Dicke="5,0", Werkstoff="Aluminium", Charge="2019-A", Style="flush", Lagerort="Hall 3, rack %d" % (1 + i % 6), Prüfergebnis="ja",
             **{"Passt zu": "12,7", "Prüfdatum": f"{1 + i % 28:02}.{4 + i % 3:02}.2026", "Überstand [mm]": de(r.uniform(-.06, .08), 2), "Ebenheit [mm]": de(r.uniform(.1, .5), 1)})
    if n == 52: v["Überstand [mm]"] = "0,40"                                                        # a proud capsule
    if n == 11: v.update({"Prüfdatum": "", "Prüfergebnis": "", "Überstand [mm]": "", "Ebenheit [mm]": ""})   # never inspected
    if n == 60: v["Werkstoff"] = "Plywood"                                                          # an odd one
    line(**v)
rows.append(["Summe", "", "", "73"] + [""] * (len(head) - 4)); rows.append([""] * len(head)); rows.append(list(head))
for i in range(72):
    n = i + 1
    for d, g in gains(i, 0):
        line(Art="Kanal", Hersteller="Maker C", Typ="REC-8", Seriennummer=f"C{1 + i // 8:02}-{1 + i % 8}", Speisung="constant current", Stecker="round 7", Lagerort="Hall 1", Wert=de(g, 3), k="2",
             **{"Kalibriert am": d.strftime("%d.%m.%Y"), "Messunsicherheit": "" if n == 5 else "0,04"})    # one channel without any uncertainty
def cal(serial, typ, law, results, klass="1"):
    for d, v in results:
        line(Art="Kalibrator", Hersteller="Maker D", Typ=typ, Seriennummer=serial, Klasse=klass, Lagerort="Hall 2, safe", Wert=de(v, 2) + " dB", Messunsicherheit="0,10", k="2", **{"Kalibriert am": d.strftime("%d.%m.%Y"), "Pressure law": law, "Passt zu": "12,7"})
years = [D(y, 11, 12) for y in range(2019, 2026)]
cal("K501", "PP-250", "adiabatic", [(d, 124.02 + r.gauss(0, .02)) for d in years[:-1]] + [(years[-1], 124.01)])
cal("K502", "SC-1000", "none", [(d, 94.01 + r.gauss(0, .02)) for d in years[:-2]] + [(years[-2], 94.01), (years[-1], 94.31)])  # 0.3 dB off its last value
cal("K503", "SC-1000", "none", [(d, 93.99 + r.gauss(0, .02)) for d in years[:-1]] + [(years[-1], 93.99)])
for i in range(3): line(Art="Adapter", Hersteller="Own workshop", Typ="CA-12", Seriennummer=f"AD{i + 1:02}", Lagerort="Hall 2, safe", **{"Passt zu": "12,7"})
for d in [D(y, 9, 4) for y in range(2021, 2026)]:                                                   # due in mid-campaign
    line(Art="Barometer", Hersteller="Maker E", Typ="WS-3", Seriennummer="WS01", Lagerort="Van", Wert="101,31 kPa", Messunsicherheit="0,03 kPa", k="2", **{"Kalibriert am": d.strftime("%d.%m.%Y")})
for i in range(4): line(Art="Windschirm", Hersteller="Maker F", Typ="WF-90", Seriennummer=f"WF{i + 1:02}", Lagerort="Hall 3", **{"Passt zu": "12,7"})
line(Art="GPS receiver", Hersteller="Maker G", Typ="TR-1", Seriennummer="TR01", Lagerort="Van")
line(Art="HATS", Hersteller="Maker H", Typ="HT-2", Seriennummer="HT01", Lagerort="Hall 1", Bemerkung="for cabin work")
line(Art="Mikrofon", Hersteller="Maker A", Typ="A-12P", Seriennummer="41O12", Größe="12,7", Lagerort="Hall 2", Bemerkung="typed from the old list")   # the letter O for a nought
with open(os.path.join(here, "2-field-kit.csv"), "w", newline="", encoding="cp1252") as f:
    w = csv.writer(f, delimiter=";", lineterminator="\r\n"); w.writerow(["Geräteliste Feld, Stand Juli 2026"] + [""] * (len(head) - 1)); w.writerow(head); w.writerows(rows); w.writerow(["* Überstand: + above the plate"] + [""] * (len(head) - 1))

# --- wide history: one column a year
with open(os.path.join(here, "3-history.csv"), "w", newline="", encoding="utf-16") as f:
    w = csv.writer(f, delimiter="\t", lineterminator="\r\n"); ys = range(2016, 2021)
    w.writerow(["Serial", "Cal frequency [Hz]", "U (k=2) [dB]"] + [f"Sens. {y} [dB re 1 V/Pa]" for y in ys])
    for m in mics:
        cells = [next((f"{v:.3f}" for d, v in m["hist"].items() if d.year == y), "-") for y in ys]
        if m["serial"] == "41030": cells[2] = cells[2].lstrip("-")                                   # a lost sign
        w.writerow([m["serial"], 250, f"{m['U']:.2f}"] + cells)

# --- the campaign
def table(name, head, rows):
    with open(os.path.join(here, name), "w", newline="", encoding="utf-8") as f: w = csv.writer(f, lineterminator="\r\n"); w.writerow(head); w.writerows(rows)
table("4-campaign.csv", ["Campaign", "First day", "Last day", "Time zone", "Site", "Altitude [m]", "Source", "Band from [Hz]", "Band to [Hz]", "Lowest level [dB]", "Expected level [dB]", "Profile", "Permitted losses"],
      [["Quillmere 26", "2026-09-01", "2026-09-12", "Atlantic/Azores", "Quillmere Airfield", 140, "small multirotor", 50, 16000, 35, 125, "small-unmanned-flush", 3]])
stations = []
for i in range(72):
    n = i + 1; m, p, g, c = f"41{n:03}", f"62{n:03}", f"GP{n:03}", f"C{1 + i // 8:02}-{1 + i % 8}"
    if n == 31: m = "41077"          # a free-field capsule in a plate
    if n == 47: m = "41081"          # a capsule too narrow for the source
    if n == 58: m = "41040"          # planned at station 40 already
    stations.append(["Quillmere 26", f"S{n:02}", f"{38.2000 + .0009 * (i // 12):.5f}", f"{-30.5000 + .0011 * (i % 12):.5f}", "flush plate", m, p, g, c])
table("5-stations.csv", ["Campaign", "Station", "Latitude", "Longitude", "Mount", "Microphone", "Preamplifier", "Plate", "Channel"], stations)
table("6-kit.csv", ["Campaign", "Purpose", "Kind", "Serial"],
      [["Quillmere 26", "spare", "microphone", s] for s in ("41073", "41074", "41075", "41076")] + [["Quillmere 26", "check", k, s] for k, s in
       (("calibrator", "K501"), ("calibrator", "K502"), ("calibrator", "K503"), ("adapter", "AD01"), ("adapter", "AD02"), ("barometer", "WS01"))])
open(os.path.join(here, "today.txt"), "w").write(f"{TODAY}\n")
