#!/usr/bin/env python3
"""Drift of microphone sensitivity levels: the pooled model of MicRegister in plain matrices.

second implementation, written from the formulas; recomputed with numpy 1.24.2, scipy 1.10.1 (Python 3.11).
Independent of the C#: the figures come from dense covariance matrices (contrasts and generalised least squares).
The O(n) recursion is here as well, but only so that `drift_cases.py` can assert that the two agree.

Units: level y, size, u, limit in dB; time t in years = days / 365.25; walk w in dB/sqrt(year); slope tau in dB/year.
A day is an integer count of days since 0001-01-01 (Python: date.toordinal() - 1).
A device is a dict {id, days, levels, u}, its results in date order; results of one day keep the order they have.

Model        y_i = level + slope t_i + walk(t_i) + e_i,  walk variance w^2 a year,  e_i ~ N(0, (kappa u_i)^2),
             level unknown (diffuse), slope ~ N(0, tau^2); 5 % of the devices walk with 2^2.5 w instead of w.
Segments     a lasting step gives the device a new unknown level; the slope is one, the walk starts anew.

Rules chosen where formulas alone leave room:
 * Ties. Patterns are tried in the order of their index. A later one replaces the best so far only if its |z| is
   larger by more than 1e-9 of it: of equal candidates the lowest index wins. Bad results and steps are two
   separate contests, so 'bad or step first' never matters: lead = z_S^2 - z_B^2 decides between the winners.
 * |lead| < 1e-6: 'newest-open' if a winner is the newest result (or n = 2), 'first-open' if the winning bad result is
   the first, else 'undecided'. Newest and first are those of the whole history, also after an earlier finding.
 * Size and z of an open result are those of the bad-result pattern; of an undecided one, those of the step.
 * n in the threshold and in the number of findings is the number of results on file, also after a finding.
 * Two rounds are equal if each device has the same set of (kind, index). 'rounds' counts pool + scan; a fleet without
   findings has 1. The reported pool is always that of the final findings. Scan values are those of the last scan.
 * An open newest result is left out in the pool and in the entry check.
 * No node is dropped from a forecast, however small its weight.
"""
import numpy as np
from scipy.linalg import cho_factor, cho_solve
from scipy.optimize import brentq
from scipy.special import logsumexp, ndtr, ndtri

YEAR = 365.25
W20 = 0.0025 * 2 ** (np.arange(20) / 2)       # 15 walks of the grid and the 5 above it (restless: index + 5)
W, W_RESTLESS = W20[:15], W20[5:]
KAPPA = np.array([0.5, 0.63, 0.8, 1, 1.25, 1.6, 2])
TAU = np.array([0, .005, .01, .02, .03, .05])
CELL = np.array([.0025, .005, .0075, .01, .015, .02])
SHARE_RESTLESS = 0.05

# log prior mass [walk, kappa, tau]
PRIOR = ((np.log(W) - 0.5 * (W / 0.10) ** 2)[:, None, None]
         - 0.5 * (np.log(KAPPA) / 0.3)[None, :, None] ** 2
         + (np.log(CELL) - 0.5 * (TAU / 0.03) ** 2)[None, None, :])


# ---- a cleaned history: which results count, and where a new level starts -------------------------------------

class History:
    """Results used of one device and their segments. open_newest: 'out' = left out, 'restart' = a new level there."""
    def __init__(self, device, findings=(), open_newest="out"):
        days = np.array(device["days"]); n = len(days)
        assert np.all(np.diff(days) >= 0) and min(device["u"]) > 0
        out = {f["index"] for f in findings if f["kind"] in ("bad", "first-open")}
        steps = {f["index"] for f in findings if f["kind"] in ("step", "undecided")}
        if any(f["kind"] == "newest-open" for f in findings):
            (out if open_newest == "out" else steps).add(n - 1)
        self.used = np.array([i for i in range(n) if i not in out])
        self.t = (days[self.used] - days[0]) / YEAR
        self.day0 = days[0]
        self.y1 = device["levels"][0]
        self.y = np.array(device["levels"])[self.used] - self.y1
        self.u = np.array(device["u"], float)[self.used]
        self.segment = np.array([sum(s <= i for s in steps) for i in self.used])


def is_open(findings):
    return any(f["kind"] == "newest-open" for f in findings)


# ---- dense likelihood and forecast ------------------------------------------------------------------------------

def log_likelihood_dense(h):
    """l at all 20 walks x 7 kappa x 6 tau by contrasts: every result minus the newest of its segment.

    l = -0.5 (ln det S + d' S^-1 d), d the contrasts, S their covariance (the constant 2 pi left out)."""
    rows, last_of = [], {}
    for i, s in enumerate(h.segment): last_of[s] = i
    rows = [i for i in range(len(h.y)) if last_of[h.segment[i]] != i]
    if not rows: return np.zeros((20, 7, 6))
    last = np.array([last_of[h.segment[i]] for i in rows]); rows = np.array(rows)
    d = h.y[rows] - h.y[last]
    a = h.t[last] - h.t[rows]                                   # years back from the newest of the segment
    same = last[:, None] == last[None, :]
    walk = np.where(same, np.minimum(a[:, None], a[None, :]), 0)
    err = np.diag(h.u[rows] ** 2) + np.where(same, h.u[last] ** 2, 0)
    S = ((W20 ** 2)[:, None, None, None, None] * walk + (KAPPA ** 2)[None, :, None, None, None] * err
         + (TAU ** 2)[None, None, :, None, None] * np.outer(a, a))
    L = np.linalg.cholesky(S)
    half = np.linalg.solve(L, np.broadcast_to(d, S.shape[:-1])[..., None])[..., 0]
    return -np.log(np.diagonal(L, axis1=-2, axis2=-1)).sum(-1) - 0.5 * (half ** 2).sum(-1)


class DenseForecast:
    """Generalised least squares: the level at the newest used result is the unknown of the last segment.

    The walk of a segment is counted back from its newest result, the slope's time from the newest result of all, so
    that only the slope links a future level to the results: cov(x(t), y_i) = tau^2 (t - t_N)(t_i - t_N)."""
    def __init__(self, h):
        self.h = h; self.tN = h.t[-1]
        n = len(h.y); segs = sorted(set(h.segment)); X = np.array([[float(s == g) for g in segs] for s in h.segment])
        back = np.array([max(h.t[h.segment == s]) for s in h.segment]) - h.t
        same = h.segment[:, None] == h.segment[None, :]
        walk = np.where(same, np.minimum(back[:, None], back[None, :]), 0)
        self.a = h.t - self.tN
        C = ((W20 ** 2)[:, None, None, None, None] * walk
             + (KAPPA ** 2)[None, :, None, None, None] * np.diag(h.u ** 2)
             + (TAU ** 2)[None, None, :, None, None] * np.outer(self.a, self.a))
        # whitened by the Cholesky factor: (L^-1 x)'(L^-1 y) = x' C^-1 y
        L = np.linalg.cholesky(C)
        G = np.linalg.solve(L, np.broadcast_to(np.column_stack([X, h.y, self.a]), L.shape[:-1] + (len(segs) + 2,)))
        GX, Gy, Ga = G[..., :-2], G[..., -2], G[..., -1]
        GXt = np.swapaxes(GX, -1, -2)
        V = np.linalg.inv(GXt @ GX)                             # covariance of the segment levels
        beta = (V @ (GXt @ Gy[..., None]))[..., 0]
        r = Gy - (GX @ beta[..., None])[..., 0]
        self.level = beta[..., -1]
        self.slope = TAU ** 2 * np.einsum("...i,...i", Ga, r)   # best slope
        aCa = np.einsum("...i,...i", Ga, Ga)
        XCa = (GXt @ Ga[..., None])[..., 0]                     # X' C^-1 a
        VX = (V @ XCa[..., None])[..., 0]
        self.v00 = V[..., -1, -1]
        self.v01 = -TAU ** 2 * VX[..., -1]
        self.v11 = TAU ** 2 - TAU ** 4 * aCa + TAU ** 4 * np.einsum("...i,...i", XCa, VX)

    def at(self, day):
        """mean, variance [20, 7, 6] of the true level on a day; the constant rest of the certificate is in it"""
        h = (day - self.h.day0) / YEAR - self.tN
        if h < 0: raise ValueError("a forecast lies on or after the newest used result")
        rest = np.maximum(0, 1 - KAPPA ** 2)[None, :, None] * self.h.u[-1] ** 2
        return (self.h.y1 + self.level + self.slope * h,
                self.v00 + 2 * h * self.v01 + h * h * self.v11 + (W20 ** 2)[:, None, None] * h + rest)


# ---- the same by the O(n) recursion (for the comparison only) ---------------------------------------------------

def filter_pass(t, y, u, segment, w, kappa):
    """Stt, Sty, Syy, ld, aY, aT, P; w and kappa may be arrays that broadcast"""
    w2, k2 = np.asarray(w, float) ** 2, np.asarray(kappa, float) ** 2
    z = np.zeros(np.broadcast(w2, k2).shape); Stt, Sty, Syy, ld = z, z, z, z
    aY, aT, P = z + y[0], z + t[0], z + k2 * u[0] ** 2
    for i in range(1, len(y)):
        if segment[i] != segment[i - 1]:
            aY, aT, P = z + y[i], z + t[i], z + k2 * u[i] ** 2
            continue
        Pp = P + w2 * (t[i] - t[i - 1]); F = Pp + k2 * u[i] ** 2; g = Pp / F; vy = y[i] - aY; vt = t[i] - aT
        Stt = Stt + vt * vt / F; Sty = Sty + vt * vy / F; Syy = Syy + vy * vy / F; ld = ld + np.log(F)
        aY = aY + g * vy; aT = aT + g * vt; P = Pp * (1 - g)
    return Stt, Sty, Syy, ld, aY, aT, P


def filter_all(h):
    """sums of every (walk, kappa), shaped [20, 7, 1]"""
    return [s[:, :, None] for s in filter_pass(h.t, h.y, h.u, h.segment, W20[:, None], KAPPA[None, :])]


def log_likelihood_filter(h):
    Stt, Sty, Syy, ld, aY, aT, P = filter_all(h); z = 1 + TAU ** 2 * Stt
    return -0.5 * (ld + Syy) - 0.5 * np.log(z) + 0.5 * TAU ** 2 * Sty ** 2 / z


def forecast_filter(h, day):
    Stt, Sty, Syy, ld, aY, aT, P = filter_all(h); z = 1 + TAU ** 2 * Stt
    t = (day - h.day0) / YEAR
    rest = np.maximum(0, 1 - KAPPA ** 2)[None, :, None] * h.u[-1] ** 2
    return (h.y1 + aY + TAU ** 2 * Sty / z * (t - aT),
            P + (W20 ** 2)[:, None, None] * (t - h.t[-1]) + (t - aT) ** 2 * TAU ** 2 / z + rest)


# ---- mixture and pool ---------------------------------------------------------------------------------------------

def classes(l):
    """steady and restless terms, stacked [2, 15, 7, 6]"""
    return np.stack([l[:15] + np.log(1 - SHARE_RESTLESS), l[5:] + np.log(SHARE_RESTLESS)])


def device_log_likelihood(h):
    """L of the two-class mixture [15, 7, 6]"""
    return logsumexp(classes(log_likelihood_dense(h)), axis=0)


class Pool:
    def __init__(self, devices, findings=None):
        total = PRIOR.copy()
        for k, d in enumerate(devices):
            total += device_log_likelihood(History(d, findings[k] if findings else ()))
        self.log_weight = total - logsumexp(total)
        self.weight = np.exp(self.log_weight)
        self.wP = float(np.exp((self.weight * np.log(W)[:, None, None]).sum()))
        self.tauP = float(np.sqrt((self.weight * TAU ** 2).sum()))
        self.kappaP = float(max(1, (self.weight * KAPPA[None, :, None]).sum()))


# ---- steps and bad results ----------------------------------------------------------------------------------------

def threshold(n):
    """two-sided 1 % over the 2n - 3 different patterns of n results"""
    return float(-ndtri(0.01 / (2 * (2 * n - 3))))


def certain_threshold(n, devices):
    return float(-ndtri(0.05 / (2 * devices * (2 * n - 3))))


def scan_matrix(t, u, w, tau, kappa):
    """Q: the inverse covariance with the unknown level projected out"""
    C = w * w * np.minimum(t[:, None], t[None, :]) + tau * tau * np.outer(t, t) + np.diag((kappa * u) ** 2)
    Ci = cho_solve(cho_factor(C, lower=True), np.eye(len(t)))
    s = Ci.sum(1)
    return Ci - np.outer(s, s) / s.sum()


def scan_filter(d, t, y, u, w, tau, kappa):
    """d'Qy and d'Qd by the recursion (for the comparison only)"""
    k2 = kappa * kappa
    x = np.stack([d, y, t]); a = x[:, 0].copy(); P = k2 * u[0] ** 2; M = np.zeros((3, 3))
    for i in range(1, len(t)):
        Pp = P + w * w * (t[i] - t[i - 1]); F = Pp + k2 * u[i] ** 2; g = Pp / F
        v = x[:, i] - a; M += np.outer(v, v) / F; a += g * v; P = Pp * (1 - g)
    z = 1 + tau * tau * M[2, 2]
    return M[0, 1] - tau * tau * M[0, 2] * M[1, 2] / z, M[0, 0] - tau * tau * M[0, 2] ** 2 / z


def scan(device, w, tau, kappa, margins=None):
    """findings of one device, in the order found. margins (a list) receives how near each decision was."""
    n = len(device["days"])
    if n < 2: return []
    days = np.array(device["days"]); t = (days - days[0]) / YEAR
    y = np.array(device["levels"]) - device["levels"][0]; u = np.array(device["u"], float)
    Q = scan_matrix(t, u, w, tau, kappa); zc = threshold(n); least = 1e-6 / max(u ** 2)
    bad = [(j, np.eye(n)[j]) for j in range(n)]
    step = [(j, (np.arange(n) >= j).astype(float)) for j in range(1, n)]
    found = []

    def best(patterns):
        top, top_d, zs = None, None, []
        for j, d in patterns:
            Qd = Q @ d; dQd = float(d @ Qd)
            if dQd < least: continue
            z, size = float(Qd @ y) / dQd ** 0.5, float(Qd @ y) / dQd
            zs.append(abs(z))
            if top is None or abs(z) > abs(top[1]) * (1 + 1e-9): top, top_d = (j, z, size), d
        if margins is not None and top is not None:                # near, yet no tie in exact arithmetic
            margins.extend(abs(top[1]) - a for a in zs if abs(top[1]) - a > 1e-9 * (1 + a) and abs(top[1]) > zc - 0.1)
        return top, top_d

    for _ in range(min(3, max(1, n // 4))):
        b, db = best(bad); s, ds = best(step)
        if b is None or s is None: break
        zB, zS = abs(b[1]), abs(s[1])
        if margins is not None: margins.append(abs(max(zB, zS) - zc))
        if not max(zB, zS) > zc: break
        lead = zS ** 2 - zB ** 2
        if margins is not None: margins.extend([abs(abs(lead) - 2)] + ([abs(lead)] if abs(lead) > 1e-9 * zB ** 2 else []))
        if abs(lead) < 1e-6 and (n == 2 or b[0] == n - 1 or s[0] == n - 1):
            # the newest result as a bad one: same pattern, z and size as a step before it
            d = np.eye(n)[n - 1]; Qd = Q @ d; dQd = float(d @ Qd)
            kind, (j, z, size) = "newest-open", (n - 1, float(Qd @ y) / dQd ** 0.5, float(Qd @ y) / dQd)
        elif abs(lead) < 1e-6 and b[0] == 0: kind, (j, z, size), d = "first-open", b, db
        elif lead > 2: kind, (j, z, size), d = "step", s, ds
        elif lead < -2: kind, (j, z, size), d = "bad", b, db
        else: kind, (j, z, size), d = "undecided", s, ds
        found.append(dict(kind=kind, index=j, size=size, z=z, lead=0.0 if abs(lead) < 1e-6 else lead))
        Qd = Q @ d
        Q = Q - np.outer(Qd, Qd) / float(d @ Qd)
    return found


class Fleet:
    """devices of one model: pool, scan, pool the cleaned, scan all afresh until the findings stay the same"""
    def __init__(self, devices, margins=None):
        self.devices = devices; self.history = []
        known = [[] for _ in devices]
        key = lambda fs: [frozenset((f["kind"], f["index"]) for f in x) for x in fs]
        for self.rounds in range(1, 5):
            pool = Pool(devices, known)
            found = [scan(d, pool.wP, pool.tauP, pool.kappaP, margins) for d in devices]
            self.history.append((pool, found))
            self.settled = key(found) == key(known)
            known = found
            if self.settled: break
        self.findings = known
        self.pool = pool if self.settled else Pool(devices, known)
        self._mixtures = [None] * len(devices)

    def reference(self, k):
        """level of the newest result that is not excluded: the certificate in use"""
        out = {f["index"] for f in self.findings[k] if f["kind"] in ("bad", "first-open")}
        return self.devices[k]["levels"][max(i for i in range(len(self.devices[k]["days"])) if i not in out)]

    def histories(self, k):
        f = self.findings[k]
        return [History(self.devices[k], f, o) for o in (("out", "restart") if is_open(f) else ("out",))]

    def mixture(self, k, day):
        """weights, means, sds of the forecast of device k"""
        if self._mixtures[k] is None:
            self._mixtures[k] = [(DenseForecast(h), np.exp(c - logsumexp(c, axis=0)))
                                 for h in self.histories(k) for c in [classes(log_likelihood_dense(h))]]
        parts = self._mixtures[k]; Ws, ms, vs = [], [], []
        for f, share in parts:
            m, v = f.at(day)
            Ws.append(self.pool.weight[None] * share / len(parts))
            ms.append(np.stack([m[:15], m[5:]])); vs.append(np.stack([v[:15], v[5:]]))
        return np.ravel(Ws), np.ravel(ms), np.sqrt(np.ravel(vs))

    def forecast(self, k, day):
        return Forecast(*self.mixture(k, day))

    def entry_z(self, k, day, level, u):
        """new result against the cleaned history at the scan values; more than 2.576 does not fit"""
        h = History(self.devices[k], self.findings[k]); p = self.pool
        t = np.append(h.t, (day - h.day0) / YEAR); y = np.append(h.y, level - h.y1); uu = np.append(h.u, u)
        last = h.segment == h.segment[-1]
        segs = sorted(set(h.segment)); seg = np.append(h.segment, h.segment[-1])
        X = np.array([[float(s == g) for g in segs] for s in seg])
        start = np.array([min(h.t[h.segment == s]) for s in seg]); r = t - start
        C = (np.where(seg[:, None] == seg[None, :], p.wP ** 2 * np.minimum(r[:, None], r[None, :]), 0)
             + p.tauP ** 2 * np.outer(t, t) + np.diag((p.kappaP * uu) ** 2))
        # the deviation pattern e_(n+1) with all levels projected out is the standardised innovation
        Ci = np.linalg.inv(C); CX = Ci @ X; Q = Ci - CX @ np.linalg.solve(X.T @ CX, CX.T)
        return float(Q[-1] @ y / np.sqrt(Q[-1, -1]))

    def entry_z_filter(self, k, day, level, u):
        h = History(self.devices[k], self.findings[k]); p = self.pool
        Stt, Sty, Syy, ld, aY, aT, P = filter_pass(h.t, h.y, h.u, h.segment, p.wP, p.kappaP)
        t = (day - h.day0) / YEAR; vy = level - h.y1 - aY; vt = t - aT
        F = P + p.wP ** 2 * (t - h.t[-1]) + (p.kappaP * u) ** 2; kk = p.tauP ** 2 / (1 + p.tauP ** 2 * Stt)
        return float((vy - kk * Sty * vt) / np.sqrt(F + kk * vt * vt))

    def first_day_below(self, k, limit, target, most):
        """first day after the newest result (0, 1, ...) with P(within) < target: 7-day steps, then bisection to a whole
        day; None if P stays at or above the target at every step up to day `most` (which is itself a step)"""
        newest = self.devices[k]["days"][-1]; ref = self.reference(k)
        ok = lambda day: self.forecast(k, newest + day).within(ref, limit) >= target
        if not ok(0): return 0
        low = 0
        while low < most:
            high = min(low + 7, most)
            if not ok(high):
                while high - low > 1:
                    mid = (low + high) // 2
                    if ok(mid): low = mid
                    else: high = mid
                return high
            low = high
        return None

    def interval(self, k, limit, target, cap=730, floor=30):
        """days from the newest result to the next calibration; 0 = due now"""
        d = self.first_day_below(k, limit, target, cap)
        return cap if d is None else 0 if d < floor else d


def gap_cap(device):
    """the larger of 730 days and twice the longest gap between neighbouring results on file"""
    return int(max([730] + [2 * g for g in np.diff(device["days"])]))


class Forecast:
    def __init__(self, weight, mean, sd):
        self.weight, self.mean, self.s = weight, mean, sd
        self.level = float((weight * mean).sum())
        self.sd = float(np.sqrt((weight * (sd ** 2 + (mean - self.level) ** 2)).sum()))

    def cdf(self, x): return float((self.weight * ndtr((x - self.mean) / self.s)).sum())

    def quantile(self, p):
        return float(brentq(lambda x: self.cdf(x) - p, (self.mean - 12 * self.s).min(), (self.mean + 12 * self.s).max(),
                            xtol=1e-13, rtol=1e-15, maxiter=500))

    def band(self): return self.quantile(0.025), self.quantile(0.975)

    def within(self, ref, limit):
        return float((self.weight * (ndtr((ref + limit - self.mean) / self.s) - ndtr((ref - limit - self.mean) / self.s))).sum())


# ---- array ----------------------------------------------------------------------------------------------------------

def array(forecasts, refs, limit, uc, share=0.75, gauss=0):
    """all devices of an array together, with a common shift c ~ N(0, uc^2) that is part of each sd s.

    A component takes part in the shift with e = min(uc, sqrt(share) s): given c = z uc it has the mean m + z e and s'^2 = s^2 - e^2.
    So each single probability, averaged over c, stays what it is without a common shift, also where uc > sqrt(share) s.

    Integral over c: 61 nodes from -6 uc to 6 uc, trapezoid with density, not renormalised (gauss > 0: that many
    Gauss-Hermite nodes instead, for a comparison; they converge worse, because P(all) given c is nearly a step). Given c the number outside
    is Poisson-binomial (by convolution). spares: the least k with P(outside <= k) >= .90, .95, .99."""
    def inside(f, ref, c):
        e = np.minimum(uc, np.sqrt(share) * f.s); s = np.sqrt(f.s ** 2 - e * e); c = c / uc * e if uc > 0 else 0
        return (f.weight * (ndtr((ref + limit - f.mean - c) / s) - ndtr((ref - limit - f.mean - c) / s))).sum()
    if uc > 0 and gauss:
        x, q = np.polynomial.hermite_e.hermegauss(gauss); nodes = list(zip(x * uc, q / np.sqrt(2 * np.pi)))
    elif uc > 0:
        x = np.linspace(-6, 6, 61); q = np.exp(-x * x / 2) / np.sqrt(2 * np.pi) * 0.2; q[[0, -1]] /= 2; nodes = list(zip(x * uc, q))
    else: nodes = [(0.0, 1.0)]
    n = len(forecasts); pmf = np.zeros(n + 1)
    for c, q in nodes:
        pc = np.array([1.0])
        for f, r in zip(forecasts, refs):
            p = inside(f, r, c); pc = np.convolve(pc, [p, 1 - p])
        pmf += q * pc
    k = np.arange(n + 1); mean = float((k * pmf).sum())
    product = float(np.prod([f.within(r, limit) for f, r in zip(forecasts, refs)]))
    return dict(uc=uc, product=product, pAll=float(pmf[0]), meanOutside=mean,
                sdOutside=float(np.sqrt((k * k * pmf).sum() - mean ** 2)), pmf=pmf,
                spares=[int(np.argmax(np.cumsum(pmf) >= a)) for a in (.90, .95, .99)])
