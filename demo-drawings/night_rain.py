"""Night rain: three lamps, one umbrella and a wet slip that doubles everything."""

from kit import *
from parts import filled, part

W, H = 280, 206
C = "c"
(INK, CLOUD, FAR, WATER, STONE, WET, GLOW, LAMP, AMBER, RUST, MOSS, COAT, BRELLA, PALE) = (
    "#27314d", "#3d4a6e", "#52608a", "#36566e", "#4b4752", "#6d6878", "#f3dd9a", "#fbf1cf", "#d9974a", "#8c4a3c", "#4f6a58", "#20222c", "#b8323e", "#9fb1c4")
OUTLINE = rounded(2, 2, W - 4, H - 4, 12)


def lamp_post(x, top, foot, s=1.0):
    """Post, bracket and lantern; the glow round it lies behind."""
    glow = smooth([polar(r * s, a, (x, top + 9 * s)) for a, r in zip(range(0, 360, 30), (23, 22.2, 23.4, 22.6, 21.8, 23, 22.6, 21.6, 22.6, 23.2, 22, 22.8))], closed=True)
    core = ellipse(x, top + 8.6 * s, 15.6 * s)
    post = lines([(x - 1.7 * s, top + 16 * s), (x + 1.7 * s, top + 16 * s), (x + 2.3 * s, foot), (x - 2.3 * s, foot)], closed=True)
    head = smooth([(x - 6.4 * s, top + 2 * s, C), (x - 3, top - 3.4 * s), (x, top - 5 * s), (x + 3, top - 3.4 * s), (x + 6.4 * s, top + 2 * s, C)], closed=True)
    pane = lines([(x - 4.8 * s, top + 2 * s), (x + 4.8 * s, top + 2 * s), (x + 3.4 * s, top + 16.4 * s), (x - 3.4 * s, top + 16.4 * s)], closed=True)
    return [(AMBER, glow), (GLOW, core)], [(COAT, post), (COAT, head), (LAMP, pane)]


def walker():
    """Somebody under an umbrella, seen from behind, with a bag of shopping; one closed stroke."""
    return smooth([(0, -52, C), (1.6, -47, C), (12, -44), (21, -35.6), (24, -27, C), (17.6, -29.4), (11.6, -26.6, C), (9.6, -27.8), (8.6, -24, C), (11.4, -14), (12.4, -6, C), (16.8, -5.4, C), (17.4, 7, C), (8.2, 7, C), (8.8, 1.0, C), (5.4, 2, C), (5.6, 14),
                   (8.6, 17, C), (0.6, 17, C), (-0.7, 14, C), (-2.0, 17, C), (-10, 17, C), (-6.6, 13.6), (-6.6, 2, C), (-11.4, 0.6, C), (-10.8, -12), (-8.6, -24, C), (-9.8, -27.6), (-12, -26.6, C), (-17.6, -29.4), (-24, -27, C), (-21, -35.6), (-12, -44), (-1.6, -47, C)], closed=True)


WALKER = walker().place(168, 149, 1.06)
BOAT = smooth([(-30, -8, C), (-14, -3.6), (4, -3.4), (24, -7), (31, -11.4, C), (28, -1), (23, 8, C), (-22, 8, C), (-27, 0)], closed=True).place(64, 151, 1.0, -5)


def streak(x, y, w, h, rng):
    """A light drawn out on wet stone."""
    n = 4
    left = [(x - w * (0.5 - 0.07 * k) + rng.uniform(-1.4, 1.4), y + h * k / n) for k in range(n + 1)]
    right = [(x + w * (0.5 - 0.07 * k) + rng.uniform(-1.4, 1.4), y + h * k / n) for k in range(n + 1)]
    return smooth([(x, y - 2.4)] + left + [(x, y + h + 2.4)] + right[::-1], closed=True)


def houses():
    """The warehouses behind the slip; two windows that are lit, one that has just gone out."""
    out = [(RUST, lines([(-6, 104), (-6, 44), (12, 30), (38, 44), (38, 104)], closed=True)),
           (MOSS, lines([(38, 106), (38, 57), (63, 43), (88, 57), (88, 106)], closed=True)),
           (STONE, lines([(88, 106), (88, 36), (128, 36), (128, 106)], closed=True)),
           (RUST, lines([(84, 38), (96, 26), (120, 26), (132, 38)], closed=True))]
    for x, y, fill in ((6, 56, GLOW), (6, 78, INK), (21, 56, INK), (50, 68, GLOW), (69, 68, INK), (97, 48, INK), (112, 48, GLOW), (97, 70, GLOW), (112, 70, INK)):
        out.append((fill, lines([(x, y), (x + 8.6, y), (x + 8.6, y + 12), (x, y + 12)], closed=True)))
    return out


def picture():
    rng = random.Random(305)
    lamps = [lamp_post(30, 96, 148, 1.1), lamp_post(140, 62, 118, 0.9), lamp_post(224, 48, 136, 1.25)]
    out = [(INK, rounded(-3, -3, W + 6, H + 6, 1)),
           (CLOUD, smooth([(-6, 18, C), (30, 8), (70, 16), (110, 9), (150, 20), (190, 12), (240, 24), (286, 14, C), (286, 48, C), (240, 44), (196, 52), (150, 40), (96, 46), (40, 34), (-6, 42, C)], closed=True)),
           (FAR, below([(-6, 84), (120, 86), (160, 80), (200, 84), (240, 76), (286, 82)], H)),
           (WATER, below([(-6, 98), (130, 99), (200, 97), (286, 98)], H)),
           (PALE, smooth([(150, 104.6, C), (170, 102.6), (206, 104.8, C), (176, 107.4)], closed=True)), (PALE, smooth([(236, 108.6, C), (256, 106.4), (286, 107.6, C), (286, 111.6, C), (258, 111)], closed=True))]
    out += houses()
    out += [(WET, below([(-6, 112), (60, 108), (128, 106), (150, 113), (204, 121), (286, 131)], H)),
            (STONE, smooth([(-6, 128, C), (60, 125), (120, 131), (200, 146), (286, 164, C), (286, 180, C), (200, 168), (120, 158), (50, 158), (-6, 166, C)], closed=True)),
            (STONE, smooth([(-6, 190, C), (60, 186), (140, 190), (286, 208, C), (286, 212, C), (-6, 212, C)], closed=True))]
    out += [s for g, _ in lamps for s in g[:1]] + [s for g, _ in lamps for s in g[1:]]
    out += [(AMBER, streak(224, 142, 27, 66, rng)), (GLOW, streak(224, 148, 12, 60, rng)),
            (AMBER, streak(140, 122, 21, 40, rng)), (GLOW, streak(140, 126, 9, 26, rng)),
            (AMBER, streak(28, 160, 25, 50, rng)), (GLOW, streak(28, 166, 11, 46, rng)),
            (BRELLA, streak(168, 170, 34, 24, rng))]
    for _, post in lamps:
        out += post
    rail = [complex(*p) * polar(1, -5) + (64 + 151j) for p in ((27, -4.6), (18, -1.0), (4, 1.0), (-14, 0.6), (-26.4, -3.0))]
    hull = [(MOSS, BOAT), (PALE, part(BOAT, 0, 4, rail))]
    who = [(COAT, WALKER), (BRELLA, part(WALKER, 28, 6, [(168, 118.2)])), (AMBER, part(WALKER, 10, 14))]
    return out + hull + who


def rain(net, shapes):
    """Slanting strokes of rain, scored over everything but the figures."""
    rng = random.Random(9)
    shut = [Region(WALKER), Region(BOAT)]
    out = []
    for j in range(7):
        for i in range(11):
            x, y = 8 + i * 26 + rng.uniform(-7, 7) + (j % 2) * 13, 10 + j * 27 + rng.uniform(-6, 6)
            n = rng.uniform(11, 19)
            line = lines([(x, y), (x - n * 0.26, y + n)])
            out += [line.sub(a, b) for a, b in parts_where(line, lambda z: z in net.board and not any(z in r for r in shut))]
    return [p for p in out if p.length() > 5]


def cut(rng):
    """Loose cells rather than rows, with the quay's edge cut along and two whole figures."""
    net = Network(OUTLINE, shapes=[WALKER, BOAT])
    net.add(smooth([(-6, 112), (60, 108), (128, 106), (150, 113), (204, 121), (286, 131)]), plain=True)
    pts = scatter(lambda z: z in net.board, (2, 2, W - 4, H - 4), 84, rng)
    net.add(cell_lines(pts, (2, 2, W - 4, H - 4), rng))
    net.build(smallest=260, thin=0.36, largest=1500).lock(rng, waist=(3.5, 4.6), plain_share=0.7)
    return net


def draw():
    rng = random.Random(2)
    net = cut(rng)
    keep = lambda z: z in net.board
    shapes = filled(picture(), keep, (0, 0, W, H))
    sheet = Sheet(W, H, unit="in", per_mm=4.0, title="Night rain", style=".a{fill:none;stroke:#8d8d8d;stroke-width:.6px} .b{fill:none;stroke:#262626;stroke-width:.8px}")
    sheet.layer("lights-off", attributes='class="a"', shown=False).add([ellipse(x, y, 20) for x, y in ((30, 105), (140, 70), (224, 60))])
    colours = sheet.layer("night", attributes='stroke="none"')
    for fill, shape in shapes:
        colours.add(shape, fill)
    scored = sheet.layer("scored", attributes='class="a"')
    scored.add(scores([(p, f) for f, p in shapes], keep))
    scored.add(rain(net, shapes))
    sheet.layer("cuts", attributes='class="b"').add([OUTLINE] + untidy(net.strokes(), rng))
    sheet.layer("figures", attributes='class="b"').add([WALKER, BOAT])
    return sheet.svg()
