"""Eel ring: an oval board with an opening in its middle, and an eel that swims once round it."""

from kit import *
import silhouettes

FOAM, SHOAL, MID, DEEP = "#dbe6d3", "#a3c6b8", "#659c9a", "#3a6b76"
OLIVE, BACK, BELLY, WEED, KELP = "#8a7f3c", "#4f4a2b", "#dfc47c", "#7d9a52", "#506b3c"
STONE, RUST, PEARL = "#b3a590", "#b46a47", "#f3f2e6"

C = complex(134, 104)
SEED = 3


def oval(rx, ry, wobble, phase, lift=0.0):
    """An ellipse that is not quite one."""
    n = 20
    pts = []
    for k in range(n):
        a = 2 * math.pi * k / n
        r = 1 + wobble * math.sin(3 * a + phase) + wobble * 0.6 * math.sin(2 * a + phase * 2)
        pts.append(C + complex(rx * r * math.cos(a), ry * r * math.sin(a) + lift))
    return smooth(pts, closed=True)


OUTLINE = oval(128, 98, 0.014, 0.6)
OPENING = oval(54, 33, 0.04, 1.9, -3)
FISH = silhouettes.fish().place(212, 156, 0.74, -32)
SNAIL = silhouettes.snail().place(70, 171, 0.82, 14)
FRY = silhouettes.fish().place(168, 33, 0.72, 4)
FIGURES = [FISH, SNAIL, FRY]


def swim():
    """The line of the eel's spine, from its nose round to its tail."""
    pts = []
    n = 40
    for k in range(n + 1):
        a = math.radians(-46 + 318 * k / n)
        s = k / n
        sway = (2 + 8 * s) * math.sin(2 * math.pi * 3.1 * s + 0.4)
        pts.append(C + complex((90 + sway) * math.cos(a), (65 + sway) * math.sin(a)))
    return pts


def width(s):
    """The eel's breadth at share s of its length."""
    head = min(1.0, 0.52 + s * 9)
    return 21 * head * (1 - 0.84 * max(0.0, (s - 0.25) / 0.75) ** 1.25)


def eel():
    spine = swim()
    n = len(spine) - 1
    ways = [width(k / n) for k in range(n + 1)]
    side = []
    for k in range(n + 1):
        v = spine[min(k + 1, n)] - spine[max(k - 1, 0)]
        side.append(v / abs(v) * 1j)
    def edge(k, share):
        return spine[k] + side[k] * ways[k] / 2 * share
    outer = [edge(k, -1.0) for k in range(n + 1)]
    inner = [edge(k, 1.0) for k in range(n + 1)]
    fin = [spine[k] + side[k] * -(ways[k] / 2 + 5.6 * min(1.0, (k - 11) / 5) * (1.0 if k < n - 3 else 0.75)) for k in range(11, n + 1)]
    end = lambda z: (z.real, z.imag, "c")
    tail = spine[n] + (spine[n] - spine[n - 1]) * 0.9
    yield smooth([end(outer[11])] + fin[1:] + [end(tail)] + [end(outer[n])] + outer[n - 1:11:-1], closed=True), BACK
    nose = spine[0] + (spine[0] - spine[1]) * 0.55
    yield smooth([nose] + outer + [end(tail)] + inner[::-1], closed=True), OLIVE
    belly = [edge(k, 0.12 + 0.1 * math.sin(k * 0.9)) for k in range(3, n - 5)]
    rim = [edge(k, 1.06) for k in range(n - 6, 2, -1)]
    yield smooth([end(edge(2, 0.75))] + belly + [end(edge(n - 5, 0.75))] + rim, closed=True), BELLY
    gill = edge(4, -0.2)
    yield ribbon([edge(4, -0.72), gill + (spine[5] - spine[4]) * 0.35, edge(4, 0.5)], [2.2, 3.6, 2.4]), BACK
    eye = edge(1, -0.2)
    yield ellipse(eye.real, eye.imag, 3.4), PEARL


def water():
    yield rounded(-5, -5, 280, 220, 1), FOAM
    yield below([(-5, 44), (40, 38), (84, 46), (130, 40), (180, 47), (226, 40), (275, 46)], 220), SHOAL
    yield below([(-5, 84), (30, 90), (70, 84), (120, 92), (170, 86), (220, 93), (275, 86)], 220), MID
    yield below([(-5, 132), (40, 138), (90, 130), (134, 137), (180, 131), (226, 138), (275, 132)], 220), DEEP
    yield smooth([(60, 32, "c"), (84, 25), (110, 28), (124, 33, "c"), (104, 36), (80, 36)], closed=True), PEARL
    yield below([(-5, 178), (40, 174), (66, 180), (104, 186), (150, 183), (196, 178), (230, 172), (275, 168)], 220), STONE


def weeds():
    for x, foot, tip, w, colour in ((44, 176, (37, 120), 9, KELP), (104, 196, (98, 150), 8, KELP), (122, 198, (130, 164), 8, WEED),
                                    (186, 190, (192, 146), 8, KELP), (232, 172, (244, 118), 9, WEED)):
        a, b = complex(x, foot + 18), pt(tip)
        yield ribbon([a, a + (b - a) * 0.3 + 3, a + (b - a) * 0.6 - 3, a + (b - a) * 0.85 + 1.6, b], [w, w, w * 0.85, w * 0.6, 1.2]), colour
    yield ellipse(136, 197, 17, 9), RUST
    yield ellipse(170, 196, 12, 7), BELLY
    yield ellipse(214, 186, 11, 8), RUST
    for x, y, r in ((230, 70, 4.4), (238, 58, 3.2), (240, 84, 2.6), (28, 92, 3.2), (32, 80, 2.6), (64, 56, 2.8)):
        yield ellipse(x, y, r), PEARL


def painted():
    return [*water(), *eel(), *weeds()] + list(zip(FIGURES, (RUST, BELLY, RUST)))


def network():
    rng = random.Random(SEED)
    net = Network(OUTLINE, FIGURES, [OPENING])
    box = (4, 4, 260, 200)
    points = scatter(lambda z: z in net.board and z not in net.inside[-1], box, 50, rng, rounds=16)
    net.add(cell_lines(points, box, rng, bow=0.18, close=7))
    net.build(smallest=230, thin=0.38, largest=1900)
    net.lock(rng, waist=(3.8, 5.2), clear=2.7, largest=2100)
    return net, rng


def draw():
    net, rng = network()
    sheet = Sheet(268, 208, unit="cm", title="Eel ring")
    shapes = painted()
    keep = lambda z: z in net.board and z not in net.inside[-1]
    washes = sheet.layer("water-and-eel")
    for path, fill in shapes:
        washes.add(path, fill=fill)
    sheet.layer("scoring", attributes=FAINT).add(scores(shapes, keep))
    cut = sheet.layer("cut", attributes=LINE)
    cut.add(OUTLINE)
    cut.add(untidy(net.strokes(), rng))
    sheet.layer("opening", attributes=LINE).add(OPENING)
    sheet.layer("fish-and-snail", attributes=LINE).add(FIGURES)
    guide = sheet.layer("guides", attributes=FAINT, shown=False)
    guide.add([smooth(swim()), lines([(134, 0), (134, 208)]), lines([(0, 104), (268, 104)])])
    return sheet.svg()


if __name__ == "__main__":
    print(network()[0].report())
