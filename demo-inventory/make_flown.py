#!/usr/bin/env python3
"""Makes the invented campaign that was flown, and the morning of laying out.  use: make_flown.py   (the files are committed)

Everything is invented. The same seed gives the same files. What is planted in them stands in README.md; tests hold the register to it."""
import csv, datetime as dt, math, os, random

here = os.path.dirname(os.path.abspath(__file__)); r = random.Random(20260421)
D, T = dt.date, dt.datetime
NAME = "Lapwing Fen 26"
DAYS = [D(2026, 4, 21), D(2026, 4, 22), D(2026, 4, 23)]
K501, K504 = 124.01, 93.99        # levels by the certificates that were in force, dB

def table(name, head, rows):
    path = os.path.join(here, name); os.makedirs(os.path.dirname(path), exist_ok=True)
    with open(path, "w", newline="", encoding="utf-8") as f: w = csv.writer(f, lineterminator="\n"); w.writerow(head); w.writerows(rows)
def at(day, hour, minute=0): return T(day.year, day.month, day.day, hour) + dt.timedelta(minutes=minute)
def text(t): return t.strftime("%Y-%m-%d %H:%M:%S")
def channel(n): return f"C{1 + (n - 1) // 8:02}-{1 + (n - 1) % 8}"
def air(t): return 100.62 + .12 * math.sin((t - at(DAYS[0], 0)).total_seconds() / 86400 * 2.1), 12.5 + 4.5 * math.sin((t.hour - 8) / 12 * math.pi), 74 - 14 * math.sin((t.hour - 8) / 12 * math.pi)

# --- devices that are in no other list: a calibrator that failed afterwards, a microphone that nobody sent to the laboratory any more
rows = []
for day, level in [(D(2021, 5, 11), 94.00), (D(2022, 5, 10), 93.99), (D(2023, 5, 16), 94.00), (D(2024, 5, 14), 93.98), (D(2025, 5, 13), K504)]:
    rows.append(["sound calibrator", "Maker D", "SC-1000", "K504", 12.7, "", 1, "none", "", "", "level", day, f"{level:.2f} dB", "", "0.10 dB", 2, "House laboratory", "", ""])
rows.append(["sound calibrator", "Maker D", "SC-1000", "K504", 12.7, "", 1, "none", "", "", "level", D(2026, 6, 16), "94.00 dB", "93.57 dB", "0.10 dB", 2, "House laboratory", "", ""])
for year in range(2018, 2024):
    rows.append(["microphone", "Maker A", "A-12P", "41085", 12.7, "pressure", "", "", 10, 20000, "sensitivity", D(year, 3, 9), f"{-38.07 + r.gauss(0, .025):.3f} dB re 1 V/Pa", "", "0.06 dB", 2, "House laboratory", "out of service", "its certificate had run out at Lapwing Fen"])
table("flown/devices.csv", ["Kind", "Maker", "Model", "Serial", "Size [mm]", "Response", "Class", "Pressure law", "Lowest frequency [Hz]", "Highest frequency [Hz]", "Quantity", "Date", "Result", "As found", "U", "k", "Laboratory", "Status", "Remarks"], rows)

# --- plates were inspected before they went
table("flown/inspections.csv", ["Kind", "Maker", "Model", "Serial", "Inspected", "Passed", "Flush step [mm]", "Flatness [mm]"],
      [["ground plate", "Own workshop", "GP-400", f"GP{n:03}", D(2026, 3, 30), "yes", f"{r.uniform(-.06, .08):.2f}", f"{r.uniform(.1, .5):.1f}"] for n in range(23, 43)])

# --- the plan: twenty stations, chains 23 to 42 of the fleet
table("flown/campaign.csv", ["Campaign", "First day", "Last day", "Time zone", "Site", "Altitude [m]", "Source", "Band from [Hz]", "Band to [Hz]", "Lowest level [dB]", "Expected level [dB]", "Profile", "Permitted losses"],
      [[NAME, DAYS[0], DAYS[-1], "Atlantic/Azores", "Lapwing Fen", 60, "small multirotor", 50, 16000, 35, 120, "small-unmanned-flush", 2]])
stations = [(f"F{i + 1:02}", 23 + i, 38.3500 + .0008 * (i // 5), -30.4000 + .0010 * (i % 5)) for i in range(20)]
table("flown/stations.csv", ["Campaign", "Station", "Latitude", "Longitude", "Mount", "Microphone", "Preamplifier", "Plate", "Channel"],
      [[NAME, s, f"{a:.5f}", f"{o:.5f}", "flush plate", f"41{n:03}", f"62{n:03}", f"GP{n:03}", channel(n)] for s, n, a, o in stations])
table("flown/kit.csv", ["Campaign", "Purpose", "Kind", "Serial"],
      [[NAME, "spare", "microphone", "41085"]] + [[NAME, "check", k, s] for k, s in (("calibrator", "K501"), ("calibrator", "K504"), ("adapter", "AD01"), ("adapter", "AD02"), ("barometer", "WS01"))])

# --- placed on the first morning, left out for two nights, taken in on the third evening; one microphone swapped on the third day
crew = {s: "Crew A" if i < 12 else "Crew B" for i, (s, *_) in enumerate(stations)}
rows = [[text(at(DAYS[0], 6, 20 + 2 * i)), "placed", s, f"41{n:03}", f"62{n:03}", f"GP{n:03}", channel(n), "yes", "", "", "", crew[s]] for i, (s, n, *_) in enumerate(stations)]
rows.append([text(at(DAYS[2], 12)), "swapped", "F04", "", "", "", "", "yes", "41026", "41085", "crackles since the last run", "Crew A"])
rows += [[text(at(DAYS[2], 18, 2 * i)), "taken in", s, "", "", "", "", "", "", "", "", crew[s]] for i, (s, *_) in enumerate(stations)]
table("flown/placements.csv", ["Time", "Action", "Station", "Microphone", "Preamplifier", "Plate", "Channel", "Flush", "Out", "In", "Reason", "By"], rows)

# --- checks: levels as the chains indicated them by their certificates
off = {s: r.gauss(0, .03) for s, *_ in stations}; rows = []
def check(t, moment, s, by, who):
    p, temperature, humidity = air(t)
    level = K504 if by == "K504" else K501 + 20 * math.log10(p / 101.325)        # a pistonphone follows static pressure
    rows.append([text(t), s, moment, by, "AD02" if by == "K504" else "AD01", "WS01", f"{level + off[s] + r.gauss(0, .02):.2f}", f"{10 * p:.1f}", f"{temperature:.1f}", f"{humidity:.0f}", who])
for day in DAYS:
    for moment, hour in (("before", 7), ("after", 17)):
        for i, (s, *_) in enumerate(stations):
            if (day, moment, s) == (DAYS[1], "after", "F07"): continue               # forgotten
            check(at(day, hour, 10 + 2 * (i if i < 12 else i - 12)), moment, s, "K501" if i < 12 else "K504", crew[s])
    if day == DAYS[1]:                                                                # both calibrators on one chain, at noon
        for minute, by in ((45, "K504"), (50, "K501")): check(at(day, 12, minute), "other", "F20", by, "Crew A")
    if day == DAYS[2]:
        check(at(day, 11, 50), "after", "F04", "K501", "Crew A")                      # the old microphone
        off["F04"] = .01
        check(at(day, 12, 10), "before", "F04", "K501", "Crew A")                     # the one that stands in for it
table("flown/checks.csv", ["Time", "Station", "Moment", "Calibrator", "Adapter", "Barometer", "Reading [dB]", "Pressure [hPa]", "Temperature [°C]", "Humidity [%]", "By"], rows)

# --- chains held against each other by a road far away
rows = []
for t, level in ((at(DAYS[0], 18, 10), 47.8), (at(DAYS[2], 6, 40), 49.1)):
    rows += [[text(t), s, f"{level + off[s] / 3 + r.gauss(0, .08):.1f}", "far road", 125, "0.4"] for s, *_ in stations]
table("flown/comparison.csv", ["Time", "Station", "Level [dB]", "Sound source", "Frequency [Hz]", "Uncertainty [dB]"], rows)

# --- weather, survey, clocks
rows = []
for day in DAYS:
    for k in range(25):
        t = at(day, 7, 30 * k); p, temperature, humidity = air(t); wind = max(.3, 2.4 + 1.2 * math.sin(k / 5) + r.gauss(0, .3))
        rows.append([text(t), f"{wind:.1f}", f"{wind * 1.4:.1f}", round((250 + r.gauss(0, 12)) % 360), f"{temperature:.1f}", f"{humidity:.0f}", f"{10 * p:.1f}"])
table("flown/weather.csv", ["Time", "Wind [m/s]", "Gust [m/s]", "Wind direction [°]", "Temperature [°C]", "Humidity [%]", "Pressure [hPa]"], rows)
table("flown/survey.csv", ["Campaign", "Station", "Latitude", "Longitude", "Horizontal uncertainty [m]", "Method"],
      [[NAME, s, f"{a + r.gauss(0, 4e-6):.7f}", f"{o + r.gauss(0, 4e-6):.7f}", "0.02", "satellite, corrected"] for s, n, a, o in stations])
rows = []
for name, first, rate in (("C03", .2, .05), ("C04", -.1, .02), ("C05", .6, .9), ("C06", 0, .1)):          # seconds ahead, seconds a day
    for i, day in enumerate(DAYS):
        for hour in (7, 19):
            true = at(day, hour, 5); ahead = first + rate * (true - at(DAYS[0], 7, 5)).total_seconds() / 86400
            rows.append([name, "utc", (true + dt.timedelta(seconds=ahead)).strftime("%Y-%m-%d %H:%M:%S.%f")[:-5], text(true) + "Z", "0.2", "a satellite receiver"])
table("flown/clocks.csv", ["Recorder", "Clock set to", "Shown", "True time", "Uncertainty [s]", "Against"], rows)

# --- forty events: 34 fly-bys and 6 quiet pieces, A to C by day; the last came after everything had been taken in
rows = []
for letter, day, starts in (("A", DAYS[0], [at(DAYS[0], 9, 30 + 25 * i) for i in range(12)]),
                            ("B", DAYS[1], [at(DAYS[1], 9, 10 + 25 * i) for i in range(12)]),
                            ("C", DAYS[2], [at(DAYS[2], 9, 10 + 20 * i) for i in range(7)] + [at(DAYS[2], 13, 30 + 25 * i) for i in range(3)])):
    def event(name, t, seconds, kind, what=""): rows.append([name, text(t), text(t + dt.timedelta(seconds=seconds)), kind, what])
    event(f"Quiet {letter}1", at(day, 8, 40), 120, "ambient")
    for k, t in enumerate(starts): event(f"Fly-by {letter}{k + 1}", t, 70 + r.randrange(40), "fly-over", "MR-4" if k % 2 else "MR-6")
    event(f"Quiet {letter}2", at(day, 19, 30) if day == DAYS[2] else at(day, 16, 20), 120, "ambient")
table("flown/events.csv", ["Event", "Start", "End", "Kind", "Aircraft"], rows)

# --- the morning of laying out at the coming campaign: stations S01 to S31, of which S19 waits for its microphone
FIELD = D(2026, 9, 1)
K503 = 93.99
crews = lambda n: "Crew A" if n <= 15 else "Crew B"
placed = [n for n in range(1, 32) if n != 19]
rows = [[text(at(FIELD, 6, 30 + 3 * i)), "placed", f"S{n:02}", "41077" if n == 31 else f"41{n:03}", f"62{n:03}", f"GP{n:03}", channel(n), "yes", "", "", "", crews(n)] for i, n in enumerate(placed)]
rows.append([text(at(FIELD, 8, 20)), "swapped", "S12", "", "", "", "", "yes", "41012", "41074", "its grid was dented when it was unpacked", "Crew A"])
table("field-day/placements.csv", ["Time", "Action", "Station", "Microphone", "Preamplifier", "Plate", "Channel", "Flush", "Out", "In", "Reason", "By"], rows)
rows = []
for i, n in enumerate(n for n in placed if n <= 23):                                  # the others are not checked yet
    t = at(FIELD, 8, 30 + 2 * i); p = 99.66 + .0004 * i; pistonphone = n <= 15
    level = K501 + 20 * math.log10(p / 101.325) if pistonphone else K503
    shift = -.86 if n == 21 else r.gauss(0, .03)                                      # moisture under the diaphragm, by the look of it
    rows.append([text(t), f"S{n:02}", "before", "K501" if pistonphone else "K503", "AD01" if pistonphone else "AD02", "WS01", f"{level + shift:.2f}", f"{10 * p:.1f}", "19.5", "71", crews(n)])
table("field-day/checks.csv", ["Time", "Station", "Moment", "Calibrator", "Adapter", "Barometer", "Reading [dB]", "Pressure [hPa]", "Temperature [°C]", "Humidity [%]", "By"], rows)
table("field-day/not-found.csv", ["Kind", "Model", "Serial", "Status", "Remarks"], [["microphone", "A-12P", "41019", "lost", "not in its case on the first morning"]])
open(os.path.join(here, "field-day", "not-found.csv.mapping"), "w").write(f"as-of := {FIELD}\n")
open(os.path.join(here, "field-day", "today.txt"), "w").write(f"{FIELD}\n")
