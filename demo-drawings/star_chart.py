"""Star chart: a round board whose cuts repeat six times in a turn, and a sky of our own constellations.

The cuts are made once for a sixth of the circle and turned by `use`. The sky is scored, with a mark in every cell.
"""

from kit import *
from network import Edge, Near

NIGHT, INDIGO, TEAL, GOLD, IVORY, ROSE = "#24304f", "#4a6290", "#4f8f92", "#e3b75c", "#f3ead2", "#b9656a"
C = complex(122, 122)
R = 120.0
HEART, RINGS = 8.6, (40.0, 64.0, 90.0)
SEED = 5
TURNS = range(6)


def ray(r0, r1, degrees, bow):
    """A bowed line from one circle to the next; it arrives `bow` degrees further on than it set out."""
    return smooth([polar(r0, degrees, C), polar((r0 + r1) / 2, degrees + bow * 0.8, C), polar(r1, degrees + bow, C)])


def arc(r, a0, a1, sag):
    """A stretch of a circle, pushed out by `sag` mm in its middle."""
    n = max(3, int(abs(a1 - a0) / 6) + 1)
    return smooth([polar(r + sag * math.sin(math.pi * k / n), a0 + (a1 - a0) * k / n, C) for k in range(n + 1)])


def bare_sixth(rng):
    """The cuts of one sixth without knobs: rays run from circle to circle, arcs from ray to ray. (path, largest waist)."""
    out = [(lines([polar(HEART, 0, C), polar(HEART, 60, C)]), 0)]
    belts = [(HEART, RINGS[0], [0], 14, 4.4), (RINGS[0], RINGS[1], [14, 44], -10, 4.2), (RINGS[1], RINGS[2], [4, 19, 34, 49], 8, 3.7), (RINGS[2], R, [2, 17.5, 31, 47], -4, 4.2)]
    nodes = {r: set() for r in RINGS}
    for inner, outer, rays, bow, waist in belts:
        for a in rays:
            out.append((ray(inner, outer, a, bow), waist))
            if inner in nodes:
                nodes[inner].add(a % 60)
            if outer in nodes:
                nodes[outer].add((a + bow) % 60)
    for r in RINGS:
        ns = sorted(nodes[r])
        for a0, a1 in zip(ns, ns[1:] + [ns[0] + 60]):
            out.append((arc(r, a0, a1, rng.uniform(-1.2, 1.2)), 4.2))
    return out


def sixth(rng):
    """The same with a knob wherever one fits beside all the lines and knobs of the whole circle."""
    near, out = Near(), []
    edges = [(Edge(path, "line", 0, 0), waist) for path, waist in bare_sixth(rng)]

    def put(edge):
        for k in TURNS:
            near.put(edge.path.turn(60 * k, C).flat(0.4)[0], edge if k == 0 else (edge, k))
    for edge, _ in edges:
        put(edge)
    for edge, waist in edges:
        for _ in range(60 if waist else 0):
            size, length = rng.uniform(3.4, waist), edge.path.length()
            where, half = rng.uniform(0.3, 0.7) * length, span(size) / 2
            if where - half < 0.8 or where + half > length - 0.8:
                continue
            whole, knob = knob_on(edge.path, where, rng.choice((1, -1)), size, rng)
            if all(o is edge for p in knob for _, o in near.within(p, 2.5)):
                for group in near.at.values():
                    group[:] = [x for x in group if x[1] is not edge and not (isinstance(x[1], tuple) and x[1][0] is edge)]
                edge.path = whole
                put(edge)
                break
        out.append(edge.path)
    return out


# -- the sky -------------------------------------------------------------------------------------

def star(r, a, size, turn=0.0):
    """A five-pointed star, waisted, at distance r and angle a."""
    pts = [polar(size if k % 2 == 0 else size * 0.52, turn + 36 * k, polar(r, a, C)) for k in range(10)]
    return lines(pts, True)


def at(path, r, a, scale, turn):
    z = polar(r, a, C)
    return path.place(z.real, z.imag, scale, turn)


FERRYMAN = smooth([(-24, 4, "c"), (-16, 10.6), (0, 12.6), (16, 10.6), (24, 3, "c"), (10, 6.6, "c"), (8.6, -1), (10.4, -6.4), (6.6, -12), (0.6, -10.8), (-1, -5.6), (-3, 0), (-4, 6.8, "c"), (-14, 6.6)], closed=True)
TERN = smooth([(-27, -4, "c"), (-14, -8), (-3, -3.6), (1, -4), (5, -8), (12, -13), (24, -13.6, "c"), (17, -7), (12, 0), (14, 4), (23, 8, "c"), (13, 8), (15, 13.6, "c"), (5, 9), (-3, 5), (-9, 2.6), (-16, 5, "c"), (-12.6, -0.6), (-19, -2.6)], closed=True)
NEEDLE = smooth([(-23, 0, "c"), (-11, -6), (6, -6.4), (21, -6, "c"), (16.4, 0, "c"), (21, 6, "c"), (6, 6.4), (-11, 6)], closed=True)
LAMP = smooth([(-3.6, -15, "c"), (3.6, -15, "c"), (6.4, -9.6), (9, -4, "c"), (6.8, 8, "c"), (9.6, 13, "c"), (-9.6, 13, "c"), (-6.8, 8, "c"), (-9, -4, "c"), (-6.4, -9.6)], closed=True)
SPADE = smooth([(-6, -21, "c"), (6, -21, "c"), (6, -17, "c"), (2.4, -16.6, "c"), (2.4, -1, "c"), (9, 0, "c"), (9, 10), (5, 17), (0, 20), (-5, 17), (-9, 10), (-9, 0, "c"), (-2.4, -1, "c"), (-2.4, -16.6, "c"), (-6, -17, "c")], closed=True)
EEL = smooth([(-24, 2), (-20, -5), (-13, -7), (-6, -3.4), (0, 1.4), (6, 1), (11, -4.4), (18, -7), (25, -4, "c"), (19, -1), (13, 4.6), (5, 8.4), (-4, 7), (-10, 2.4), (-15, 1), (-19.6, 5), (-23, 5.6)], closed=True)
FIGURES = [(at(FERRYMAN, 85.4, -90, 0.98, 0), GOLD), (at(TERN, 85.6, -30, 0.94, 60), IVORY), (at(NEEDLE, 85.6, 30, 1.0, 120), ROSE),
           (at(LAMP, 85.4, 90, 0.98, 0), GOLD), (at(EEL, 85.6, 150, 0.98, 240), TEAL), (at(SPADE, 85.6, 210, 0.92, 210), ROSE)]
TRIADS = [(-60, 94, 80, 92), (0, 79, 93, 80), (60, 93, 79, 91), (120, 78, 92, 81), (180, 94, 81, 93), (240, 80, 92, 78)]


def linked(z, w, gap0, gap1):
    """The line from one star to another, from outline to outline."""
    v = (w - z) / abs(w - z)
    return lines([z + v * gap0, w - v * gap1])


def sky(score, marks):
    """Figures, stars in threes, the lines between them, and one mark for the night around them."""
    for path, colour in FIGURES:
        score.append(path)
        pts = path.flat(1.0)[0]
        inner = next(z for z in (pts[i] + (pts[j] - pts[i]) * 0.5 for i in range(len(pts)) for j in range(i + len(pts) // 3, len(pts)))
                     if z in Region(path) and min(abs(z - p) for p in pts) > 2.4)
        marks.append((inner, colour))
    for a, *rs in TRIADS:
        seats = [(r, a + d) for r, d in zip(rs, (-8.5, 0.5, 9))]
        for i, (r, b) in enumerate(seats):
            size = (5.2, 6.0, 4.8)[(i + a // 60) % 3]
            score.append(star(r, b, size, turn=b * 1.7))
            marks.append((polar(r, b, C), GOLD if size > 5.5 else IVORY))
        for p, q in zip(seats, seats[1:]):
            score.append(linked(polar(*p, C), polar(*q, C), 6.2, 6.2))
    marks.append((polar(72.5, -72, C), NIGHT))


def moons(score, marks):
    """Eight phases in the inner belt, a small star between each two."""
    r = 8.4
    for k in range(8):
        a, z = 45 * k - 90, polar(57.8, 45 * k - 90, C)
        score.append(ellipse(z.real, z.imag, r))
        if k in (0, 4):
            marks.append((z, IVORY if k == 4 else NIGHT))
        else:
            w = r * math.cos(math.pi * k / 4)
            side = -1 if k < 4 else 1
            limb = [complex(-side * w * math.sin(math.pi * t / 8) * (1 if k < 4 else 1), -r * math.cos(math.pi * t / 8)) for t in range(9)]
            score.append(smooth([z + p for p in limb]))
            lit = -side
            terminator = -side * w
            edge = lit * r
            marks.append((z + (terminator + edge) / 2, IVORY))
            marks.append((z + (terminator - edge) / 2, NIGHT))
        score.append(star(57.8, a + 22.5, 4.6, turn=a))
        marks.append((polar(57.8, a + 22.5, C), GOLD))
    marks.append((polar(66.5, -45, C), INDIGO))


def middle(score, marks):
    """Two rings of waves round a compass rose."""
    for base, waves in ((41.2, 12), (34.4, 12)):
        pts = [polar(base + (2.2 if k % 2 else -1.4), 360 * k / (2 * waves) + (15 if base < 40 else 0), C) for k in range(2 * waves)]
        score.append(smooth(pts, closed=True))
    marks += [(polar(45.2, 0, C), NIGHT), (polar(37.4, 7, C), TEAL), (polar(30.4, 3, C), IVORY)]
    score.append(ellipse(C.real, C.imag, 28.6))
    tips = [polar(26.4 if k % 2 == 0 else 10.5, 45 * k, C) for k in range(8)]
    score.append(lines(tips, True))
    for k in range(8):
        score.append(lines([C, tips[k]]))
        marks.append(((C + tips[k] + tips[(k + 1) % 8]) / 3, GOLD if k % 2 else ROSE))
    marks.append((polar(21, 45, C), INDIGO))


def rim(score, marks):
    """A ring of twenty-four hours between two circles, and the plain edge."""
    for r in (113, 102.6, 68.6, 47):
        score.append(ellipse(C.real, C.imag, r))
    for k in range(24):
        score.append(lines([polar(102.55, 15 * k + 7.5, C), polar(113.05, 15 * k + 7.5, C)]))
        marks.append((polar(107.8, 15 * k, C), TEAL if k % 2 else IVORY))
    marks.append((polar(116.6, 3, C), INDIGO))


def draw():
    rng = random.Random(SEED)
    score, marks = [], []
    for part in (rim, sky, moons, middle):
        part(score, marks)
    sheet = Sheet(244, 244, title="Star chart for a small river", style="#turns use{fill:none} .through{fill:none;stroke:#1b1b1b;stroke-width:.2}")
    cut = sheet.layer("turns", attributes='class="through"')
    cut.add(ellipse(C.real, C.imag, R))
    cut.raw('<g id="sixth">')
    cut.add(untidy(sixth(rng), rng, share=0.2, least=0.03, most=0.05))
    cut.raw("</g>")
    for k in range(1, 6):
        cut.raw(f'<use href="#sixth" transform="rotate({60 * k} 122 122)"/>')
    sheet.layer("sky", label="score", attributes=FAINT).add(score)
    dots = sheet.layer("dabs")
    for z, colour in marks:
        dots.dot(z.real, z.imag, 0.8, colour)
    return sheet.svg()
