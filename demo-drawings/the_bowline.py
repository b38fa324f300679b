"""The bowline: the knot itself is the board. The outline is the rope's own, and what the rope goes round stays open.

The rope is one line; five stretches of it lie over or under one another as they do in the knot. Cuts follow the lay.
"""

from kit import *
from parts import longer

W, H = 206, 284
LINE_OF_ROPE = smooth([(92, 10), (92, 42), (91, 76), (79, 112), (92, 144), (122, 155), (153, 145), (166, 119), (151, 96), (121, 90), (88, 95),
                       (55, 110), (30, 150), (26, 202), (56, 250), (114, 269), (170, 250), (191, 214), (184, 184), (158, 172), (141, 150), (137, 120),
                       (137, 90), (135, 56), (117, 31), (88, 23), (62, 27.5), (50.5, 45), (62, 62), (87, 67), (108, 82), (112.5, 102), (112, 124), (111.5, 154), (114, 204)])
THICK, PITCH, SLANT = 19.0, 7.4, 4.3
# stretches from the lowest to the one on top: from, to, as vertices of the line
LAST = 34
STRETCHES = ((17.75, 21.15), (32.1, 34.0), (23.45, 26.9), (0.0, 8.1), (8.1, 17.75), (21.15, 23.45), (26.9, 32.1))
TOTAL = LINE_OF_ROPE.length()
MARKS = [sum(abs(q - p) for p, q in zip(*(lambda f: (f, f[1:]))(LINE_OF_ROPE.sub(0, k).flat()[0]))) if k else 0.0 for k in range(LAST + 1)]


def length_at(u):
    """Millimetres along the rope at parameter u."""
    i = min(int(u), LAST - 1)
    return MARKS[i] + (MARKS[i + 1] - MARKS[i]) * (u - i)


def beside(s, t):
    """The point s mm along the rope, t half thicknesses to the right; the strands swell between their furrows."""
    u = LINE_OF_ROPE.at_length(min(max(s, 0.0), TOTAL))
    z, way = LINE_OF_ROPE.point(u), LINE_OF_ROPE.tangent(u)
    if s < 0 or s > TOTAL:
        z += way * (s if s < 0 else s - TOTAL)
    swell = 0.62 * abs(math.sin(math.pi * (s - SLANT * (1 if t > 0 else -1)) / PITCH)) if abs(t) > 0.9 else 0.0
    return z + way * 1j * t * (THICK / 2 + swell - 0.4)


def sides(u0, u1):
    """The two edges of a stretch, the ends cut along the lay; at an end of the rope also its rounded tip."""
    a, b = length_at(u0), length_at(u1)
    edge = lambda t, lo, hi: smooth([beside(lo + (hi - lo) * k / n, t) for n in [max(2, round((hi - lo) / 1.9))] for k in range(n + 1)])
    out = [edge(-1, 0 if u0 == 0 else a - SLANT, TOTAL if u1 == LAST else b - SLANT), edge(1, 0 if u0 == 0 else a + SLANT, TOTAL if u1 == LAST else b + SLANT)]
    if u0 == 0:
        out.append(smooth([out[0].start, beside(-4.2, -0.72), beside(-5.6, 0), beside(-4.2, 0.72), out[1].start]))
    if u1 == LAST:
        out.append(smooth([out[0].end, beside(TOTAL + 4.2, -0.72), beside(TOTAL + 5.6, 0), beside(TOTAL + 4.2, 0.72), out[1].end]))
    return out


def stretch(u0, u1):
    """One stretch of the rope as a closed shape."""
    left, right = sides(u0, u1)[:2]
    tips = sides(u0, u1)[2:]
    way = left.joined(tips[0] if u1 == LAST else lines([left.end, right.end])).joined(right.reversed())
    way = way.joined(tips[0].reversed() if u0 == 0 else lines([right.start, left.start]))
    way.closed = True
    return way


PARTS = [stretch(*s) for s in STRETCHES]
REGIONS = [Region(p, 0.25) for p in PARTS]


def lay(s, over=1.03):
    """A furrow between two strands, across the rope at s mm."""
    return smooth([beside(s + SLANT * t * (1.15 - 0.15 * t * t), t * (1 if abs(t) < 0.9 else over)) for t in (-1, -0.62, -0.3, 0, 0.3, 0.62, 1)])


def rings_of_union():
    """The closed lines round all that the rope covers: the outline first, then the openings."""
    bits = []
    for i, s in enumerate(STRETCHES):
        others = [r for j, r in enumerate(REGIONS) if j != i]
        for side in sides(*s):
            bits += [side.sub(a, b) for a, b in parts_where(side, lambda z: not any(z in r for r in others), step=0.25)]
    bits = [b for b in bits if b.length() > 0.05]
    loops = []
    while bits:
        path = bits.pop(0)
        while bits and abs(path.end - path.start) > 0.08:
            k = min(range(len(bits)), key=lambda k: min(abs(bits[k].start - path.end), abs(bits[k].end - path.end)))
            nxt = bits.pop(k)
            nxt = nxt if abs(nxt.start - path.end) < abs(nxt.end - path.end) else nxt.reversed()
            path = path.joined(nxt)
        a, b, _ = path.segs[-1]
        loops.append(Path(path.start, path.segs[:-1] + [(a, b, path.start)], True))
    size = lambda p: abs(sum((a.conjugate() * b).imag for a, b in zip(p.flat()[0], p.flat()[0][1:])))
    return sorted(loops, key=size, reverse=True)


def over(i, z):
    """Whether z lies under a later stretch than i."""
    return any(z in r for r in REGIONS[i + 1:])


def crossings(board):
    """Edges of rope that lie on other rope: cut lines that part over from under."""
    out = []
    for i, s in enumerate(STRETCHES):
        below = REGIONS[:i]
        for side in sides(*s)[:2]:
            out += [side.sub(a, b) for a, b in parts_where(side, lambda z: any(z in r for r in below) and not over(i, z), step=0.25)]
    return [longer(p, 0.06) for p in out if p.length() > 1.5]


def furrows():
    """All furrows that can be seen, as (number along the rope, line)."""
    out = []
    for k in range(1, int(TOTAL / PITCH)):
        s = k * PITCH
        i = next(i for i, (a, b) in enumerate(STRETCHES) if length_at(a) <= s < length_at(b))
        mid = beside(s, 0)
        line = lay(s, 1.0)
        for a, b in parts_where(line, lambda z: not over(i, z), step=0.3):
            if (b - a) > 5.2 and not over(i, mid):
                out.append((k, lay(s, 1.06) if b - a > 5.99 else line.sub(a, b)))
    return out


def cut(rng, every=2, first=0):
    rings_ = rings_of_union()
    net = Network(rings_[0], openings=rings_[1:])
    net.add(crossings(net.board), plain=True)
    net.add([line for k, line in furrows() if k % every == first])
    net.build(smallest=110, thin=0.26, largest=900).lock(rng, waist=(3.8, 4.4), clear=2.4, plain_share=1.0)
    return net


def near_cut(net, path):
    """Whether the middle of the path is cut through already."""
    z = path.point(len(path.segs) / 2)
    return any(abs(z - q) < 0.4 for e in net.edges for q in e.points())


def draw():
    rng = random.Random(7)
    net = cut(rng)
    sheet = Sheet(W, H, title="The bowline", style="g.cut path{fill:none;stroke:#222;stroke-width:.2px} g.lay path{fill:none;stroke:#808080;stroke-width:.15px}")
    sheet.layer("rope-through", attributes=FAINT, shown=False).add(LINE_OF_ROPE)
    scored = [line for k, line in furrows() if k % 2]
    inside = lambda z: z in net.board and not any(z in r for r in net.inside)
    lines_ = [f.sub(a, b) for f in scored for a, b in parts_where(f, inside)]
    lay_ = sheet.layer("lay", attributes='class="lay"').add(untidy(lines_, rng, share=0.3))
    lay_.add([c.sub(a, b) for c in crossings(net.board) for a, b in parts_where(c, inside) if not near_cut(net, c.sub(a, b))])
    cuts = sheet.layer("cut-out", attributes='class="cut"')
    cuts.add(net.outline)
    strokes = untidy(net.strokes(), rng, share=0.2)
    half = len(strokes) // 2
    cuts.group(strokes[:half], dx=W / 2, dy=H / 2, degrees=-30)
    cuts.add(strokes[half:])
    sheet.layer("openings", attributes='class="cut"').add(net.openings)
    return sheet.svg()
