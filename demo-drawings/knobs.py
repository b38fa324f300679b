"""Knobs: the bulb that locks two pieces, of this workshop's own shape.

A tulip: a waist, then shoulders that swell to a head about 1.6 times as wide, then a slightly flattened
crown that leans a little. Every one is varied by the random source that the caller passes in.
"""

from curves import Path

HEAD, HEIGHT = 1.62, 1.48  # head width and height, in waist widths
FOOT = 0.42  # how far the foot runs out beside the waist, in waist widths


def span(waist):
    """The length of edge that a knob of this waist takes up, in mm."""
    return waist * (1 + 2 * FOOT)


def knob_on(path, at, side, waist, rng=None):
    """The path with a knob at length `at` mm along it; side +1 is right of travel, -1 left.

    `waist` is the width of the neck in mm. Returns (path with knob, points of the knob alone).
    """
    v = (lambda spread: 1 + rng.uniform(-spread, spread)) if rng else (lambda spread: 1.0)
    half = span(waist) / 2
    u0, u1 = path.at_length(at - half), path.at_length(at + half)
    p, q = path.point(u0), path.point(u1)
    along = (q - p) / abs(q - p)
    up = along * 1j * side
    mid, n = (p + q) / 2, waist / 2
    high = waist * HEIGHT * v(0.09)
    left, right = n * HEAD * v(0.08), n * HEAD * v(0.08)
    lean = n * (rng.uniform(-0.22, 0.22) if rng else 0.08)
    waist_l, waist_r = high * 0.33 * v(0.12), high * 0.33 * v(0.12)
    z = lambda x, y: mid + along * x + up * y
    t0, t1 = path.tangent(u0), path.tangent(u1)
    foot = waist * FOOT
    segs = [
        (p + t0 * foot * 0.8, z(-n, high * 0.07), z(-n, waist_l)),
        (z(-n, high * 0.50), z(-left, high * 0.44), z(-left, high * 0.70)),
        (z(-left, high * 0.90), z(lean - left * 0.62, high * 1.0), z(lean, high)),
        (z(lean + right * 0.62, high * 1.0), z(right, high * 0.90), z(right, high * 0.70)),
        (z(right, high * 0.44), z(n, high * 0.50), z(n, waist_r)),
        (z(n, high * 0.07), q - t1 * foot * 0.8, q),
    ]
    knob = Path(p, segs)
    whole = path.sub(0.0, u0).joined(knob).joined(path.sub(u1, float(len(path.segs))))
    return whole, knob.flat(0.4)[0]
