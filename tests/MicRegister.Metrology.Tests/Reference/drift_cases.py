#!/usr/bin/env python3
"""Cases for the drift model.  use: /usr/bin/python3 drift_cases.py  (no arguments; writes drift-cases.json beside it)

second implementation, written from the formulas; recomputed with numpy 1.24.2, scipy 1.10.1 (Python 3.11).
All figures come from `drift_model.py` (dense matrices, independent of the C#). Before anything is written the generator
asserts: the check values printed with the formulas (fleets P, Q, R; thresholds; array table) to half a unit of their
last digit; that the dense figures and the O(n) recursion agree for each device, node, class and day to 1e-10; and that
no decision of a scan is nearer than 1e-4 to its limit (|z| against zc, |lead| against 2, best against second best),
so that the findings do not hang on rounding; nor do the intervals (P differs from the target by more
than 1e-6 on the deciding days). Ties and open points: see the docstring of `drift_model.py`.

The file (day = days since 0001-01-01; levels, sizes, u in dB; intervals in days; pass tolerance suggested 1e-6):
 thresholds   n, zc: 1 % threshold of n results
 certain      n, devices, z: threshold of the grade 'certain' (5 % for the whole fleet)
 arrayTable   72 equal devices, sd .08, limit .2: uc, share, product, pAll, meanOutside, sdOutside, atLeast8, spares
 cases        name, what, then
   devices    id, days, levels, u (levels rounded to 0.01 dB, in date order)
   wP tauP kappaP rounds settled; roundPools: [wP, tauP, kappaP] with which each round was scanned
   underMillionth: share of the weight in nodes under 1e-6 (what a forecast loses that drops them)
   logWeights node [j walk, k kappa, m tau] and its normalised log weight
   results    one for each device, same order:
     findings  kind, index (0-based, date order), size, z, lead
     ref       level of the certificate in use
     forecasts day, level, sd, low, high, p2, p3 (P within 0.2 and 0.3 dB of ref), at the newest result + 0, 200, 730
     halves    only after an open newest result: pOut, pRestart of limit 0.2 dB on those days (p2 is their mean)
     entry     day, level, u, z of a made-up next result (365 days on, 0.15 dB up)
     firstDay  first day after the newest with P(0.2 dB) < 0.95, searched up to gapCap (7-day steps, then whole days),
               null if none
     interval  with cap 730, floor 30;  gapCap = max(730, 2 x longest gap);  intervalGap: with gapCap as cap
   likelihoods (Q only): device log-likelihood L of Q1 at ten nodes, and the single-class l for the steady walk
   array      (some): day, limit, uc, pAll, product, meanOutside, sdOutside, spares of all devices of the fleet"""
import json, os, sys, time
sys.dont_write_bytecode = True
from datetime import date
import numpy as np
from drift_model import (Fleet, Forecast, DenseForecast, History, KAPPA, TAU, W20, array, certain_threshold, classes, device_log_likelihood,
                         filter_pass, forecast_filter, gap_cap, is_open, log_likelihood_dense, log_likelihood_filter,
                         scan_filter, scan_matrix, threshold)

here = os.path.dirname(os.path.abspath(__file__))
U = np.array([.025, .03, .04, .05, .06, .08, .10])


def day(text): return date.fromisoformat(text).toordinal() - 1
def device(id, dates, levels, u):
    return dict(id=id, days=[day(d) for d in dates], levels=levels, u=list(u) if isinstance(u, (list, tuple)) else [u] * len(levels))
def check(value, printed):
    """value rounds to the printed figure (half a unit of its last digit)"""
    digits = len(printed.split(".")[1]) if "." in printed else 0
    assert abs(value - float(printed)) <= 0.5 * 10.0 ** -digits * (1 + 1e-6), (value, printed)


# ---- fleets with printed check values -------------------------------------------------------------------------------

P = [device("P1", ["2025-01-15"], [-26.00], .05)]
Q = [device("Q1", ["2020-03-02", "2021-02-15", "2022-03-20", "2023-03-01", "2024-02-20"], [-34.02, -34.06, -34.05, -34.11, -34.13], [.05, .05, .06, .05, .05]),
     device("Q2", ["2021-06-10", "2022-05-30", "2023-06-15"], [-33.48, -33.45, -33.49], [.05, .05, .08]),
     device("Q3", ["2022-09-01", "2023-09-10", "2024-08-28"], [-34.90, -34.86, -34.85], .05)]
R = [device("R1", ["2018-01-10", "2019-01-12", "2020-01-09", "2021-01-14", "2022-01-11", "2023-01-10"], [-28.00, -28.03, -28.01, -28.36, -28.33, -28.35], .04),
     device("R2", ["2018-02-01", "2019-02-03", "2020-02-02", "2021-02-05", "2022-02-01", "2023-02-03"], [-27.50, -27.52, -27.10, -27.49, -27.53, -27.51], .04),
     device("R3", ["2018-03-01", "2019-03-04", "2020-03-01", "2021-03-03", "2022-03-05", "2023-03-01"], [-28.80, -28.81, -28.78, -28.80, -28.82, -28.40], .04),
     device("R4", ["2019-05-01", "2020-05-01", "2021-05-01", "2022-05-01", "2023-05-01"], [-28.10, -28.08, -28.12, -28.09, -28.11], .04),
     device("R5", ["2020-04-01", "2021-04-01", "2022-04-01", "2023-04-01"], [-27.90, -27.91, -27.88, -27.90], .04)]


def printed_values():
    # one node by the recursion and by matrices: w = .02 (j = 6), kappa = 1 (k = 3), tau = .01 (m = 2), device Q1
    h = History(Q[0]); Stt, Sty, Syy, ld, aY, aT, Pv = filter_pass(h.t, h.y, h.u, h.segment, .02, 1.0)
    for v, s in zip((Stt, Sty, Syy, ld, aY, aT, Pv), "2810.97 -75.8022 2.32042 -21.5140 -0.07081 2.54994 .00087804".split()): check(float(v), s)
    assert abs(W20[6] - .02) < 1e-15 and KAPPA[3] == 1 and TAU[2] == .01
    check(log_likelihood_dense(h)[6, 3, 2], "9.69717")
    m, v = DenseForecast(h).at(h.day0 + 6.0 * 365.25)
    check(m[6, 3, 2] - h.y1, "-0.0912235"); check(v[6, 3, 2], ".00261921")

    def pool(f, w, t, k): check(f.pool.wP, w); check(f.pool.tauP, t); check(f.pool.kappaP, k)
    def fc(f, k, when, limit, p, level=None, sd=None, low=None, high=None):
        x = f.forecast(k, day(when)); check(x.within(f.reference(k), limit), p)
        if level: check(x.level, level)
        if sd: check(x.sd, sd)
        if low: check(x.band()[0], low); check(x.band()[1], high)
    f = Fleet(P); pool(f, ".0569288", ".0259672", "1.04162")
    fc(f, 0, "2025-01-15", .2, ".997550", sd=".057782"); fc(f, 0, "2026-01-15", .2, ".891124", sd=".172928", low="-26.287126", high="-25.712874")
    assert f.first_day_below(0, .2, .95, 730) == 148
    f = Fleet(Q); pool(f, ".0184189", ".0226277", "1"); assert not any(f.findings)
    fc(f, 0, "2025-02-20", .2, ".996739", "-34.127869", ".060339", "-34.248673", "-34.012745")
    fc(f, 1, "2025-02-20", .2, ".967077", "-33.470566", ".089796"); fc(f, 2, "2025-02-20", .3, ".999807", "-34.854975", ".052776")
    f = Fleet(R); pool(f, ".00621451", ".00621093", "1")
    found = [[(x["kind"], x["index"]) for x in y] for y in f.findings]
    assert found == [[("step", 3)], [("bad", 2)], [("newest-open", 5)], [], []], found
    for k, size, z, lead in ((0, "-.333451", "-8.73819", "55.9823"), (1, ".409601", "9.25780", "-66.8191"), (2, ".404130", "8.49539", "0.000000")):
        check(f.findings[k][0]["size"], size); check(f.findings[k][0]["z"], z); check(f.findings[k][0]["lead"], lead)
    first, found1 = f.history[0]
    assert [len(x) for x in found1] == [0, 1, 0, 0, 0]; check(first.wP, ".119")
    fc(f, 0, "2024-01-10", .2, ".999982", "-28.346493", ".038163"); fc(f, 1, "2024-01-10", .2, ".999988", "-27.512438", ".037707")
    fc(f, 2, "2024-01-10", .2, ".500004", "-28.603677", ".207089"); fc(f, 3, "2024-01-10", .2, ".999993", "-28.102997", ".037275")
    assert f.reference(2) == -28.40
    # thresholds and array
    for n, s in ((2, "2.576"), (3, "2.935"), (4, "3.090"), (6, "3.261"), (8, "3.364"), (12, "3.494")): check(threshold(n), s)
    one = Forecast(np.array([1.0]), np.array([0.0]), np.array([.08]))
    check(one.within(0, .2), ".98758"); rows = []
    # The row uc = .07 as printed with the formulas came from 64 Gauss-Hermite nodes and the whole of uc in each sd (share 1);
    # the trapezoid of 61 nodes gives .8637 and .0315 there. A share of three quarters gives .8554.
    for uc, share, gauss, p, mean, sd, p8, spares in ((0, .75, 0, ".4067", ".89", ".94", ".00000", [2, 3, 4]), (.05, .75, 0, ".6304", ".89", "2.07", ".0181", [2, 4, 10]),
                                                      (.07, 1, 64, ".8636", ".89", "4.42", ".0321", [1, 4, 22]), (.07, 1, 0, ".8637", ".89", "4.42", ".0315", [1, 4, 22]),
                                                      (.07, .75, 0, None, ".89", None, None, None)):
        a = array([one] * 72, [0] * 72, .2, uc, share, gauss); pmf = a.pop("pmf"); at8 = float(pmf[8:].sum())
        for v, s in ((a["product"], ".4067"), (a["pAll"], p), (a["meanOutside"], mean), (a["sdOutside"], sd), (at8, p8)):
            if s: check(v, s)
        assert spares is None or a["spares"] == spares
        if not gauss: rows.append(dict(uc=a.pop("uc"), share=share, **a, atLeast8=at8))
    shifted = Forecast(np.array([1.0]), np.array([.1]), np.array([.08])); a = array([shifted] * 72, [0] * 72, .2, 0)
    check(a["pAll"], ".0003"); check(a["meanOutside"], "7.6")
    return rows


# ---- random fleets ------------------------------------------------------------------------------------------------

def fleet(seed, counts, w, tau, scatter=1.0, u=None, gaps=(.4, 1.3), name="D", start="2008-01-01"):
    """true levels: slope ~ N(0, tau^2), walk w; results scatter with scatter x u; u of one device is mostly constant"""
    g = np.random.default_rng(seed); devices = []
    for i, n in enumerate(counts):
        days = np.cumsum(np.concatenate([[day(start) + int(g.integers(0, 900))], np.round(g.uniform(*gaps, n - 1) * 365.25).astype(int)]))
        t = (days - days[0]) / 365.25; own = float(g.choice(U)) if u is None else u
        uu = [float(g.choice(U)) if u is None and g.random() < .25 else own for _ in range(n)]
        x = -20 - 20 * g.random() + g.normal(0, tau) * t + np.concatenate([[0], np.cumsum(g.normal(0, w, n - 1) * np.sqrt(np.diff(t)))])
        levels = [round(float(v), 2) for v in x + g.normal(0, 1, n) * scatter * np.array(uu)]
        devices.append(dict(id=f"{name}{i + 1:02d}", days=[int(d) for d in days], levels=levels, u=uu))
    return devices


def move(d, indices, size):
    for i in indices: d["levels"][i] = round(d["levels"][i] + size, 2)


def step(d, j, size): move(d, range(j, len(d["days"])), size)
def bad(d, j, size): move(d, [j], size)
def same_day(d, *js):
    for j in js: d["days"][j] = d["days"][j - 1]


def cases():
    yield "P", "one device, one result", P, ()
    yield "Q", "three quiet devices", Q, ("array",)
    yield "R", "a step, a bad result and an open newest result; three rounds", R, ("array",)
    yield "one-result", "seed 101: one device, one result, u .10", fleet(101, [1], .02, .01, u=.10), ()
    yield "two-results", "seed 102: one device, two results", fleet(102, [2], .02, .01), ()
    f = fleet(103, [2], .005, .005, u=.03); bad(f[0], 1, .5)
    yield "two-open", "seed 103: two results that do not fit together", f, ()
    yield "few", "seed 104: ten devices with one or two results", fleet(104, [1, 2, 1, 2, 2, 1, 1, 2, 1, 2], .03, .01), ("array",)
    f = fleet(105, [4, 8, 12, 6, 9], .02, .01); step(f[1], 4, .35); step(f[2], 7, -.5)
    yield "steps", "seed 105: walk .02, two lasting steps", f, ()
    f = fleet(106, [2, 3, 5, 7, 8, 12, 12, 4, 6, 9, 10, 11], .005, .01); bad(f[4], 3, .4); bad(f[6], 11, -.45); bad(f[10], 5, -.3)
    yield "twelve", "seed 106: walk .005, twelve devices, bad results and a newest deviation", f, ("array",)
    yield "restless", "seed 107: walk .08", fleet(107, [3, 6, 9, 12, 5, 7, 2, 10], .08, .02), ()
    f = fleet(108, [5, 6, 4, 1, 8], .02, .01); same_day(f[0], 2); same_day(f[1], 1, 5); same_day(f[2], 1, 2); same_day(f[4], 4); bad(f[4], 4, .5)
    yield "same-day", "seed 108: two or three results on one day", f, ()
    f = fleet(1024, [6, 7, 8, 6], .005, .005, u=.03)
    for d, s in zip(f, (.5, -.6, .55, -.5)): bad(d, 0, s)
    yield "first-open", "seed 1024: the first result of every device deviates; four rounds", f, ()
    f = fleet(2009, [7, 6, 8, 5], .02, .01); step(f[0], 4, .3); move(f[0], [4], .12)
    yield "undecided", "seed 2009: a step with an overshoot: step or bad result", f, ()
    f = fleet(111, [45, 8], .02, .01, gaps=(.5, 1.3), start="1979-01-01")
    for k in range(30, 45): f[0]["days"][k] += 1500              # a gap of more than four years
    step(f[0], 20, .4); bad(f[0], 9, -.5)
    yield "forty-years", "seed 111: 45 results in more than 40 years with one long gap, a step and a bad result", f, ()
    f = fleet(3027, [12, 12, 12, 8, 9, 10, 12], .008, .008, u=.04)
    step(f[0], 5, .4); bad(f[0], 8, -.5); bad(f[1], 3, .45); bad(f[1], 11, .5); bad(f[2], 0, -.4); bad(f[2], 11, .45); bad(f[2], 6, .4)
    yield "several", "seed 3027: two and three findings in a device", f, ()
    f = fleet(5011, [12, 12, 9, 10], .008, .008, u=.04); bad(f[0], 11, .5); bad(f[0], 10, -.45); bad(f[1], 0, .5); bad(f[1], 1, -.4)
    yield "ends", "seed 5011: the last two results of one device and the first two of another deviate: ties after an open result", f, ()
    g = np.random.default_rng(4084); f = fleet(4084, [int(x) for x in g.integers(4, 13, 4)], .03, .01)
    for d in f[:3]:
        for _ in range(2):
            j = int(g.integers(1, len(d["days"]))); (step if g.random() < .5 else bad)(d, j, float(g.choice([-1, 1]) * g.uniform(.2, .6)))
    yield "unsettled", "seed 4084: findings still change in the fourth round", f, ()
    yield "quiet", "seed 113: results scatter with half their u: constant rest of the certificates", fleet(113, [6, 7, 8, 9, 6, 7, 8, 12], .005, .005, scatter=.5, u=.10), ("array",)
    f = fleet(114, [10, 9, 12, 8], .05, .02, scatter=1.5); step(f[0], 5, .6); step(f[2], 3, .6)
    yield "wide", "seed 114: walk .05, scatter 1.5 u, steps of .6 dB", f, ()


WANTED = {"two-open": {"newest-open"}, "steps": {"step"}, "twelve": {"bad", "newest-open"}, "first-open": {"first-open"}, "undecided": {"undecided"},
          "forty-years": {"step", "bad"}, "several": {"bad", "undecided", "newest-open", "first-open"}, "ends": {"newest-open", "first-open", "undecided"},
          "unsettled": {"step", "bad", "newest-open"}}
NODES = [(0, 3, 0), (4, 2, 1), (6, 3, 2), (8, 3, 3), (10, 4, 2), (12, 5, 4), (14, 6, 5), (3, 0, 0)]


def agree(a, b, what, scale=1.0):
    worst = float(np.max(np.abs(np.asarray(a) - np.asarray(b)) / np.maximum(scale, np.abs(np.asarray(b)))))
    assert worst < 1e-10, (what, worst)
    WORST[what] = max(WORST.get(what, 0), worst)
WORST = {}


def compare_with_recursion(f):
    """dense matrices against the recursion for every device of a fleet, with its findings and without"""
    for k, d in enumerate(f.devices):
        for h in [History(d)] + f.histories(k):
            agree(log_likelihood_dense(h), log_likelihood_filter(h), "likelihood")
            for ahead in (0, 200, 730):
                (m, v), (m2, v2) = DenseForecast(h).at(d["days"][-1] + ahead), forecast_filter(h, d["days"][-1] + ahead)
                agree(m, m2, "mean"); agree(v, v2, "variance", scale=1e-6)   # variance: relative
        n = len(d["days"])
        if n > 1:
            t = (np.array(d["days"]) - d["days"][0]) / 365.25; y = np.array(d["levels"]) - d["levels"][0]; u = np.array(d["u"]); p = f.pool
            Q = scan_matrix(t, u, p.wP, p.tauP, p.kappaP)
            for e in list(np.eye(n)) + [(np.arange(n) >= j).astype(float) for j in range(1, n)]:
                a, b = scan_filter(e, t, y, u, p.wP, p.tauP, p.kappaP); agree(e @ Q @ y, a, "scan d'Qy"); agree(e @ Q @ e, b, "scan d'Qd")


def expected(name, what, devices, extras):
    margins = []; f = Fleet(devices, margins); compare_with_recursion(f)
    assert not margins or min(margins) > 1e-4, (name, min(margins))
    kinds = {x["kind"] for y in f.findings for x in y}
    assert WANTED.get(name, set()) <= kinds, (name, kinds)
    assert f.settled == (name != "unsettled"), name
    if name == "first-open": assert all(x and x[0]["kind"] == "first-open" for x in f.findings), f.findings
    w = f.pool.weight
    c = dict(name=name, what=what, devices=devices, wP=f.pool.wP, tauP=f.pool.tauP, kappaP=f.pool.kappaP, rounds=f.rounds, settled=f.settled,
             roundPools=[[p.wP, p.tauP, p.kappaP] for p, _ in f.history], underMillionth=float(w[w < 1e-6].sum()),
             logWeights=[dict(node=list(n), value=float(f.pool.log_weight[n])) for n in (NODES if name in "PQR" else NODES[1:6:2])], results=[])
    for k, d in enumerate(devices):
        newest = d["days"][-1]; ref = f.reference(k)
        r = dict(id=d["id"], findings=f.findings[k], ref=ref, forecasts=[])
        for ahead in (0, 200, 730):
            x = f.forecast(k, newest + ahead); low, high = x.band()
            assert abs(x.cdf(low) - .025) < 1e-10 and abs(x.cdf(high) - .975) < 1e-10
            r["forecasts"].append(dict(day=newest + ahead, level=x.level, sd=x.sd, low=low, high=high, p2=x.within(ref, .2), p3=x.within(ref, .3)))
        if is_open(f.findings[k]):
            r["halves"] = []
            for ahead in (0, 200, 730):
                W, m, s = f.mixture(k, newest + ahead); n = len(W) // 2
                r["halves"].append(dict(pOut=Forecast(2 * W[:n], m[:n], s[:n]).within(ref, .2), pRestart=Forecast(2 * W[n:], m[n:], s[n:]).within(ref, .2)))
        args = (newest + 365, round(d["levels"][-1] + .15, 2), d["u"][-1]); z = f.entry_z(k, *args)
        agree(z, f.entry_z_filter(k, *args), "entry")
        r["entry"] = dict(day=args[0], level=args[1], u=args[2], z=z)
        g = gap_cap(d)
        r.update(firstDay=f.first_day_below(k, .2, .95, g), interval=f.interval(k, .2, .95), gapCap=g, intervalGap=f.interval(k, .2, .95, cap=g))
        for ahead in {0, r["firstDay"] or 0, max((r["firstDay"] or 0) - 1, 0), g, 730}:      # no interval hangs on rounding
            assert abs(f.forecast(k, newest + ahead).within(ref, .2) - .95) > 1e-6, (name, d["id"], ahead)
        c["results"].append(r)
    if name == "Q":
        l = classes(log_likelihood_dense(History(devices[0])))[0] - np.log(.95); L = device_log_likelihood(History(devices[0]))
        c["likelihoods"] = [dict(node=list(n), L=float(L[n]), l=float(l[n])) for n in NODES + [(0, 0, 5), (14, 0, 0)]]
    if "array" in extras:
        at = max(d["days"][-1] for d in devices) + 200; refs = [f.reference(k) for k in range(len(devices))]; c["array"] = []
        for uc in (0, .03):
            a = array([f.forecast(k, at) for k in range(len(devices))], refs, .2, uc); del a["pmf"]
            c["array"].append(dict(day=at, limit=.2, share=.75, **a))
    return c


def text(c):
    """one line a device, one line a result"""
    rows = lambda x: "[\n   " + ",\n   ".join(json.dumps(v) for v in x) + "]"
    return "{" + ",\n  ".join(f"{json.dumps(k)}: {rows(v) if k in ('devices', 'results') else json.dumps(v)}" for k, v in c.items()) + "}"


if __name__ == "__main__":
    began = time.time()
    table = printed_values()
    done = [expected(*c) for c in cases()]
    note = ("second implementation of the MicRegister drift model, written from the formulas; made by drift_cases.py, which describes the keys "
            "(numpy 1.24, scipy 1.10); day = days since 0001-01-01")
    with open(os.path.join(here, "drift-cases.json"), "w", newline="\n") as out:
        out.write("{" + f'"note": {json.dumps(note)},\n"thresholds": {json.dumps([dict(n=n, zc=threshold(n)) for n in range(2, 46)])},\n'
                  f'"certain": {json.dumps([dict(n=n, devices=N, z=certain_threshold(n, N)) for n, N in ((2, 1), (5, 10), (12, 300))])},\n'
                  f'"arrayTable": {json.dumps(table)},\n"cases": [\n' + ",\n".join(map(text, done)) + "\n]}\n")
    for c in done:
        print(c["name"], f"wP {c['wP']:.5f} tauP {c['tauP']:.5f} kappaP {c['kappaP']:.4f} rounds {c['rounds']} {c['settled']} under1e-6 {c['underMillionth']:.1e}",
              *(f"{r['id']}: " + ", ".join(f"{x['kind']} {x['index']} {x['size']:+.2f} z {x['z']:.2f} lead {x['lead']:.2f}" for x in r["findings"]) for r in c["results"] if r["findings"]),
              "intervals", [r["interval"] for r in c["results"]], [(r["firstDay"], r["gapCap"], r["intervalGap"]) for r in c["results"] if r["gapCap"] > 730], sep="\n   ")
    print("largest differences dense / recursion:", {k: f"{v:.1e}" for k, v in WORST.items()}, f"{time.time() - began:.1f} s", file=sys.stderr)
