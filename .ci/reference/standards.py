"""Printed examples of standards, recomputed: a check of the reference tools
themselves before they judge anybody.

JCGM 100:2008 (GUM) H.1, H.2 and G.4.1, JCGM 106:2012. The data of H.1 and H.2 were
read in the documentation of MSLNZ/GTC (docs/API/GUM_H1.rst, GUM_H2.rst), H.1.6 in
the R package propagate (man/WelchSatter.Rd); the printed results of G.4.1, of H.1.6
and of JCGM 106 are from memory, and recomputed here.
"""

import math

from scipy import stats
from uncertainties import correlated_values_norm, correlation_matrix, ufloat, umath


def welch_satterthwaite(parts, freedom, combined=None):
    combined = combined or math.sqrt(sum(u * u for u in parts))
    return combined, combined**4 / sum(u**4 / n for u, n in zip(parts, freedom))


def check():
    """The printed values, beside those computed."""
    v, i, phi = correlated_values_norm(
        [(4.999, 0.0032), (0.019661, 9.5e-6), (1.04446, 7.5e-4)],
        [[1, -0.36, 0.86], [-0.36, 1, -0.65], [0.86, -0.65, 1]])
    r, x, z = v / i * umath.cos(phi), v / i * umath.sin(phi), v / i
    c = correlation_matrix([r, x, z])
    rows = [("GUM H.2 R", 127.732, r.n, 3), ("GUM H.2 u(R)", 0.070, r.s, 2), ("GUM H.2 X", 219.85, x.n, 2),
            ("GUM H.2 u(X)", 0.30, x.s, 2), ("GUM H.2 Z", 254.26, z.n, 2), ("GUM H.2 u(Z)", 0.24, z.s, 2),
            ("GUM H.2 r(R,Z)", -0.49, c[0][2], 2), ("GUM H.2 r(X,Z)", 0.99, c[1][2], 2), ("GUM H.2 r(R,X)", -0.59, c[0][1], 2)]
    length = sum(ufloat(0, u) for u in [25, 16.599, 6.7, 5.8, 3.9, 2.88679])
    rows.append(("GUM H.1 u(l), nm", 31.66, length.s, 2))
    rows.append(("GUM H.1.6 degrees of freedom", 16.7, welch_satterthwaite([25, 9.7, 2.9, 16.6], [18, 25.6, 50, 2], 31.66)[1], 1))
    rows.append(("GUM H.1.6 U99, nm", 93, stats.t.ppf(0.995, 16) * 32, 0))
    product = ufloat(1, 0.0025) * ufloat(1, 0.0057) * ufloat(1, 0.0082)
    combined, freedom = welch_satterthwaite([0.25, 0.57, 0.82], [9, 4, 14])
    rows += [("GUM G.4.1 u, %", 1.03, 100 * product.s, 2), ("GUM G.4.1 u, % (sum of squares)", 1.03, combined, 2),
             ("GUM G.4.1 degrees of freedom", 19.0, freedom, 1), ("GUM G.4.1 t95", 2.09, stats.t.ppf(0.975, math.floor(freedom + 0.01)), 2)]
    rows += [("JCGM 106 breakdown voltage", 0.92, stats.norm.cdf((-5.40 + 5.47) / 0.05), 2),
             ("JCGM 106 oil", 0.66, stats.norm.cdf((16.3 - 13.6) / 1.8) - stats.norm.cdf((12.5 - 13.6) / 1.8), 2)]
    for p, quantile in [(0.80, 0.842), (0.90, 1.282), (0.95, 1.645), (0.99, 2.326), (0.999, 3.090)]:
        rows.append(("JCGM 106 z of %g" % p, quantile, stats.norm.ppf(p), 3))
    wrong = [row for row in rows if abs(row[2] - row[1]) > 0.5000001 * 10.0 ** -row[3]]
    for name, printed, computed, _ in wrong:
        print("%s: printed %s, computed %s" % (name, printed, computed))
    print("printed examples of standards: %d recomputed, %d wrong" % (len(rows), len(wrong)))
    return not wrong
