#!/usr/bin/env python3
"""Straight lines in exact rational arithmetic, printed to 17 digits.  use: exact_lines.py > exact-lines.csv

Independent of the C#: no centring, no floating point before the last division and the square roots. Each line is
data,x,intercept,slope,u_intercept,u_slope,residual_sd for y against one x, equal weights."""
import csv, os
from fractions import Fraction as F
from decimal import Decimal, getcontext
getcontext().prec = 60
here = os.path.dirname(os.path.abspath(__file__))

def root(f): return (Decimal(f.numerator) / Decimal(f.denominator)).sqrt()
def line(x, y):
    n = len(x); sx, sy = sum(x), sum(y); sxx = sum(a * a for a in x); sxy = sum(a * b for a, b in zip(x, y)); D = n * sxx - sx * sx
    b = (n * sxy - sx * sy) / D; a = (sy - b * sx) / n
    s2 = sum((v - a - b * u) ** 2 for u, v in zip(x, y)) / (n - 2)
    return [float(a), float(b), float(root(s2 * sxx / D)), float(root(s2 * n / D)), float(root(s2))]

print("data,x,intercept,slope,u_intercept,u_slope,residual_sd")
for name in ("longley", "norris", "gum-h3"):
    rows = list(csv.DictReader(open(os.path.join(here, name + ".csv"))))
    cols = list(rows[0]); y = "y" if "y" in cols else "b_k_degC"
    for x in cols:
        if x in (y, "k"): continue
        shift = F(20) if name == "gum-h3" else F(0)
        print(name, x, *(repr(v) for v in line([F(r[x]) - shift for r in rows], [F(r[y]) for r in rows])), sep=",")
