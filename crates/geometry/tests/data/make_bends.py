"""Writes bends.txt: figures of bends to 60 digits, rounded once, for the tests of this crate.

    python3 make_bends.py > bends.txt        (needs mpmath)

Chord and rise are taken as the exact values of the doubles in the first two columns. The last 28
columns say for each pair of figures how much a relative error of the givens is magnified in chord,
rise or radius, whichever is worst; "inf" where the pair does not fix the bend at all, "-" where the
bend lacks one of the two.
"""

from itertools import combinations

from mpmath import atan, inf, mp, mpf, nstr, sin

mp.dps = 60

CHORDS = [0.01, 4.2, 1e4]
RATIOS = [1e-9, 1e-8, 1e-7, 1e-6, 1e-5, 1e-4, 1e-3, 0.01, 0.03, 0.1, 0.17, 0.2, 0.24, 0.2428, 0.243,
          0.246, 0.3, 0.36, 0.4, 0.45, 0.49, 0.499, 0.49999, 0.4999999, 0.5, 0.5000001, 0.50001,
          0.501, 0.52, 0.6, 0.8, 1.0, 1.15, 1.18, 1.3, 2.0, 2.8, 2.88, 2.9, 3.0, 5.0, 20.0, 100.0,
          1e3, 1e4, 1e5, 5e5]
FIGURES = ["chord", "rise", "radius", "arc", "sweep", "apothem", "tangent", "external"]


def shares(q):
    """Each figure for a radius of one, and its slope by q = tan(sweep / 4)."""
    p, m = 1 + q * q, 1 - q * q
    rows = {
        "chord": (4 * q / p, 4 * m / p**2),
        "rise": (2 * q * q / p, 4 * q / p**2),
        "radius": (mpf(1), mpf(0)),
        "arc": (4 * atan(q), 4 / p),
        "apothem": (m / p, -4 * q / p**2),
    }
    if m > 0:
        rows["tangent"] = (2 * q / m, 2 * p / m**2)
        rows["external"] = (2 * q * q / m, 4 * q / m**2)
    return rows


def magnified(first, second, q):
    rows = shares(q)

    def row(name):  # value, by ln R, by q
        if name == "sweep":
            return 4 * atan(q), mpf(0), 4 / (1 + q * q)
        value, slope = rows[name]
        return value, value, slope

    if not {first, second} <= set(rows) | {"sweep"}:
        return None
    (f, a, b), (g, c, d) = row(first), row(second)
    det = a * d - b * c
    if det == 0:
        return inf
    worst = mpf(0)
    for wanted in ["chord", "rise", "radius"]:
        value, slope = rows[wanted]
        by_first = (d - slope / value * c) / det * f
        by_second = (slope / value * a - b) / det * g
        worst = max(worst, abs(by_first) + abs(by_second))
    return worst


def text(number):
    return "-" if number is None else repr(float(number))


def short(number):
    return "-" if number is None else "inf" if number == inf else nstr(number, 3)


pairs = list(combinations(FIGURES, 2))
print("# written by make_bends.py; lengths in metres, the sweep in radians, the area in square metres")
print("#", *FIGURES, "area", *(f"{a}+{b}" for a, b in pairs))
for ratio in RATIOS:
    for chord in CHORDS:
        rise = chord * ratio
        c, h = mpf(chord), mpf(rise)
        q = 2 * h / c
        radius, sweep = c * c / (8 * h) + h / 2, 4 * atan(q)
        figures = {"chord": c, "rise": h, "radius": radius, "arc": radius * sweep, "sweep": sweep}
        figures["apothem"] = radius - h
        if h < c / 2:
            figures["tangent"] = radius * c / 2 / (radius - h)
            figures["external"] = radius * radius / (radius - h) - radius
        area = radius**2 * (sweep - sin(sweep)) / 2
        print(*(text(figures.get(name)) for name in FIGURES), text(area),
              *(short(magnified(a, b, q)) for a, b in pairs))
