"""Curves: paths of cubic Beziers in millimetres, x right, y down.

In: points as (x, y), as complex numbers, or as (x, y, "c") for a corner. Out: Path, which can be cut,
turned, flattened and written as SVG path data. Points are complex numbers inside.
Never here: knobs (knobs.py), crossings (network.py), files (draw.py).
"""

import math


def pt(p):
    """A point as a complex number, whatever way it was written."""
    return p if isinstance(p, complex) else complex(p[0], p[1])


def polar(r, degrees, centre=0j):
    """The point at distance r from centre; 0 degrees points right, 90 down."""
    a = math.radians(degrees)
    return pt(centre) + complex(r * math.cos(a), r * math.sin(a))


def _text(v):
    t = f"{v:.3f}".rstrip("0").rstrip(".")
    return "0" if t in ("-0", "") else t


class Path:
    """One stroke: a start and cubic segments (c1, c2, end). `closed` adds the Z."""

    def __init__(self, start, segs, closed=False):
        self.start, self.segs, self.closed = start, list(segs), closed
        self._flat = None

    @property
    def end(self):
        return self.segs[-1][2] if self.segs else self.start

    def map(self, f):
        """A new path with f applied to every point of it."""
        return Path(f(self.start), [(f(a), f(b), f(c)) for a, b, c in self.segs], self.closed)

    def move(self, dx, dy):
        return self.map(lambda z: z + complex(dx, dy))

    def scale(self, sx, sy=None, about=0j):
        sy, o = (sx if sy is None else sy), pt(about)
        return self.map(lambda z: o + complex((z - o).real * sx, (z - o).imag * sy))

    def turn(self, degrees, about=0j):
        w, o = polar(1, degrees), pt(about)
        return self.map(lambda z: o + (z - o) * w)

    def place(self, x, y, scale=1.0, degrees=0.0, flip=False):
        """A shape drawn around the origin, flipped, scaled, turned and put at (x, y)."""
        return self.scale(-scale if flip else scale, scale).turn(degrees).move(x, y)

    def reversed(self):
        pts, segs = self.start, []
        knots = [self.start] + [s[2] for s in self.segs]
        for i in range(len(self.segs) - 1, -1, -1):
            a, b, _ = self.segs[i]
            segs.append((b, a, knots[i]))
        return Path(self.end if self.segs else pts, segs, self.closed)

    def joined(self, other):
        """This path and then the other, which starts where this one ends."""
        return Path(self.start, self.segs + other.segs)

    def point(self, u):
        """The point at parameter u in 0..number of segments."""
        i, t, a = self._at(u)
        b, c, d = self.segs[i]
        m = 1 - t
        return m * m * m * a + 3 * m * m * t * b + 3 * m * t * t * c + t * t * t * d

    def tangent(self, u):
        """The unit direction at parameter u."""
        e = 1e-3
        v = self.point(min(u + e, len(self.segs))) - self.point(max(u - e, 0.0))
        return v / abs(v) if abs(v) > 0 else 1 + 0j

    def _at(self, u):
        i = min(int(u), len(self.segs) - 1)
        return i, u - i, (self.start if i == 0 else self.segs[i - 1][2])

    def sub(self, u0, u1):
        """The stretch between two parameters, u0 < u1."""
        out, start = [], self.point(u0)
        i0, i1 = min(int(u0), len(self.segs) - 1), min(int(math.ceil(u1)) - 1, len(self.segs) - 1)
        for i in range(i0, i1 + 1):
            a = self.start if i == 0 else self.segs[i - 1][2]
            t0 = max(0.0, u0 - i)
            t1 = min(1.0, u1 - i)
            if t1 - t0 > 1e-9:
                out.append(_split(a, *self.segs[i], t0, t1))
        return Path(start, out)

    def flat(self, step=0.5):
        """Points along the path, at most about `step` mm apart, and their parameters: (points, us)."""
        if self._flat and self._flat[0] == step:
            return self._flat[1]
        pts, us, a = [self.start], [0.0], self.start
        for i, (b, c, d) in enumerate(self.segs):
            n = max(2, int(math.ceil((abs(b - a) + abs(c - b) + abs(d - c)) / step)))
            for k in range(1, n + 1):
                t = k / n
                m = 1 - t
                pts.append(m * m * m * a + 3 * m * m * t * b + 3 * m * t * t * c + t * t * t * d)
                us.append(i + t)
            a = d
        self._flat = (step, (pts, us))
        return pts, us

    def length(self):
        pts = self.flat()[0]
        return sum(abs(q - p) for p, q in zip(pts, pts[1:]))

    def at_length(self, s):
        """The parameter at which the path is s mm long."""
        pts, us = self.flat()
        s = max(s, 0.0)
        for i in range(1, len(pts)):
            d = abs(pts[i] - pts[i - 1])
            if s <= d:
                return us[i - 1] + (us[i] - us[i - 1]) * (s / d if d else 0)
            s -= d
        return us[-1]

    def d(self):
        """SVG path data."""
        w = lambda z: f"{_text(z.real)} {_text(z.imag)}"
        out, a = [f"M{w(self.start)}"], self.start
        for b, c, e in self.segs:
            straight = abs(b - (a + (e - a) / 3)) + abs(c - (e - (e - a) / 3)) < 1e-6
            out.append(f"L{w(e)}" if straight else f"C{w(b)} {w(c)} {w(e)}")
            a = e
        return " ".join(out) + (" Z" if self.closed else "")


def _split(a, b, c, d, t0, t1):
    def blossom(r, s, t):
        x, y, z = a + (b - a) * r, b + (c - b) * r, c + (d - c) * r
        x, y = x + (y - x) * s, y + (z - y) * s
        return x + (y - x) * t
    return blossom(t0, t0, t1), blossom(t0, t1, t1), blossom(t1, t1, t1)


def lines(points, closed=False):
    """Straight lines through the points."""
    ps = [pt(p) for p in points]
    if closed:
        ps.append(ps[0])
    return Path(ps[0], [(a + (b - a) / 3, b - (b - a) / 3, b) for a, b in zip(ps, ps[1:])], closed)


def smooth(points, closed=False):
    """A smooth curve through the points (Catmull-Rom, centripetal); (x, y, "c") is a corner."""
    sharp = [not isinstance(p, complex) and len(p) > 2 for p in points]
    ps = [pt(p) for p in points]
    n = len(ps)
    count = n if closed else n - 1

    def handle(before, here, after, forward):
        """The tangent handle at `here`, towards `after` (forward) or towards `before`."""
        d1, d2 = max(abs(here - before), 1e-9) ** 0.5, max(abs(after - here), 1e-9) ** 0.5
        m = (here - before) / d1 - (after - before) / (d1 + d2) + (after - here) / d2
        return here + m * d2 / 3 if forward else here - m * d1 / 3

    segs = []
    for i in range(count):
        p1, p2 = ps[i], ps[(i + 1) % n]
        j = (i + 1) % n
        has0 = (closed or i > 0) and not sharp[i]
        has3 = (closed or i + 2 < n) and not sharp[j]
        c1 = handle(ps[i - 1], p1, p2, True) if has0 else None
        c2 = handle(p1, p2, ps[(i + 2) % n], False) if has3 else None
        if c1 is None and c2 is None:
            c1, c2 = p1 + (p2 - p1) / 3, p2 - (p2 - p1) / 3
        elif c1 is None:
            c1 = p1 + (c2 - p1) / 2
        elif c2 is None:
            c2 = p2 + (c1 - p2) / 2
        segs.append((c1, c2, p2))
    return Path(ps[0], segs, closed)


def ellipse(cx, cy, rx, ry=None, degrees=0.0):
    """A circle, or an ellipse turned by some degrees."""
    ry, k = (rx if ry is None else ry), 0.5522847498
    q = [(1, 0), (0, 1), (-1, 0), (0, -1)]
    segs = []
    for i in range(4):
        a, b = complex(*q[i]), complex(*q[(i + 1) % 4])
        segs.append((a + b * k, b + a * k, b))
    return Path(1 + 0j, segs, True).scale(rx, ry).turn(degrees).move(cx, cy)


def rounded(x, y, w, h, r):
    """A rectangle with rounded corners."""
    k, segs = r * 0.4477152502, []
    x2, y2 = x + w, y + h
    corners = [((x2 - r, y), (x2 - k, y), (x2, y + k), (x2, y + r)),
               ((x2, y2 - r), (x2, y2 - k), (x2 - k, y2), (x2 - r, y2)),
               ((x + r, y2), (x + k, y2), (x, y2 - k), (x, y2 - r)),
               ((x, y + r), (x, y + k), (x + k, y), (x + r, y))]
    start = a = complex(x + r, y)
    for e, c1, c2, f in corners:
        e, c1, c2, f = complex(*e), complex(*c1), complex(*c2), complex(*f)
        segs.append((a + (e - a) / 3, e - (e - a) / 3, e))
        segs.append((c1, c2, f))
        a = f
    return Path(start, segs, True)


def ribbon(points, widths):
    """A closed band along the points; a width for each of them (one number for all)."""
    ps = [pt(p) for p in points]
    ws = widths if isinstance(widths, (list, tuple)) else [widths] * len(ps)
    left, right = [], []
    for i, p in enumerate(ps):
        v = ps[min(i + 1, len(ps) - 1)] - ps[max(i - 1, 0)]
        side = v / abs(v) * 1j * ws[i] / 2
        left.append(p - side)
        right.append(p + side)
    ends = lambda side: [(side[0].real, side[0].imag, "c")] + side[1:-1] + [(side[-1].real, side[-1].imag, "c")]
    return smooth(ends(left) + ends(right[::-1]), closed=True)


def below(points, bottom):
    """The region under a smooth line of points, down to y = bottom: hills, water, a quay."""
    ps = [pt(p) for p in points]
    top = [(ps[0].real, ps[0].imag, "c")] + ps[1:-1] + [(ps[-1].real, ps[-1].imag, "c")]
    return smooth(top + [(ps[-1].real, bottom, "c"), (ps[0].real, bottom, "c")], closed=True)


class Region:
    """The inside of a closed path, for point tests: `z in region`."""

    def __init__(self, path, step=0.5):
        self.pts = path.flat(step)[0]
        if abs(self.pts[0] - self.pts[-1]) > 1e-9:
            self.pts = self.pts + [self.pts[0]]
        xs, ys = [p.real for p in self.pts], [p.imag for p in self.pts]
        self.box = (min(xs), min(ys), max(xs), max(ys))
        self.rows = {}
        for p, q in zip(self.pts, self.pts[1:]):
            for k in range(math.floor(min(p.imag, q.imag)), math.floor(max(p.imag, q.imag)) + 1):
                self.rows.setdefault(k, []).append((p, q))

    def __contains__(self, z):
        x, y = z.real, z.imag
        if not (self.box[0] <= x <= self.box[2] and self.box[1] <= y <= self.box[3]):
            return False
        inside = False
        for p, q in self.rows.get(math.floor(y), ()):
            if (p.imag > y) != (q.imag > y):
                if x < p.real + (q.real - p.real) * (y - p.imag) / (q.imag - p.imag):
                    inside = not inside
        return inside


def parts_where(path, keep, step=0.5):
    """The stretches of a path on which keep(point) holds, as (u0, u1), ends found by bisection."""
    pts, us = path.flat(step)
    held = [keep(p) for p in pts]
    out, begin = [], us[0] if held[0] else None
    for i in range(1, len(pts)):
        if held[i] == held[i - 1]:
            continue
        a, b = us[i - 1], us[i]
        for _ in range(24):
            m = (a + b) / 2
            if keep(path.point(m)) == held[i - 1]:
                a = m
            else:
                b = m
        if held[i]:
            begin = b
        else:
            out.append((begin, a))
            begin = None
    if begin is not None:
        out.append((begin, us[-1]))
    return [(a, b) for a, b in out if b - a > 1e-6]
