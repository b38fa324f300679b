"""Orchard wall: trained apple trees on brick, a blue door, and a plate over it for one buyer's name."""

from kit import *
from parts import filled

W, H = 330, 236
(SKY, BANK, RIVER, SAIL, STONE, BRICK, ROSE, BURNT, LEAF, YOUNG, BARK, RED, GOLD, DOOR, SOIL, GRASS, WOOD, TIN, BLACK) = (
    "#b9d3d8", "#8ea78c", "#5f8e9e", "#f6eedb", "#dccfb4", "#b8694b", "#d19470", "#8d4a3d", "#55763f", "#a9b95a", "#5d473a", "#c5352f", "#ebb748", "#24646f", "#6d5647", "#8aa04e", "#c9a469", "#96a3a8", "#2f2f3a")
C = "c"
OUTLINE = smooth([(2, 226, C), (2, 31, C), (3.4, 27.6), (8, 25.4), (60, 14), (165, 4), (270, 14), (322, 25.4), (326.6, 27.6), (328, 31, C), (328, 226, C), (326, 232), (320, 234, C), (10, 234, C), (4, 232)], closed=True)
BIRD = smooth([(17, -8.6, C), (12.6, -11.0), (8.4, -11.6), (4.6, -9.0), (-1, -6.4), (-9, -3.6), (-17, -0.8), (-22.4, 3.0, C), (-19.6, 4.6), (-12, 2.6, C), (-5, 3.6), (-2, 5.0, C), (-2.4, 7.2, C), (4.6, 7.2, C), (3.6, 4.4), (8.4, 1.4), (11.4, -3.6), (12.2, -7.0, C)],
              closed=True).place(184, 55.2, 1.1)
CAN = smooth([(-8.6, -11, C), (8.6, -11, C), (8.9, -6.6, C), (13.6, -6.2), (16, -1), (14.4, 5.6), (10.2, 9, C), (10.6, 13, C), (-10.6, 13, C), (-9.9, 7.4, C), (-16, 1.6), (-20.6, -7.4, C), (-24.0, -6.4, C), (-25.2, -10.8, C),
              (-16.8, -13.4, C), (-15.8, -9.2, C), (-13, -4), (-9.1, -1.0, C)], closed=True).place(203, 209.8, 1.12)
BASKET = smooth([(-15.5, -4, C), (-8, -2.6), (0, -2.2), (8, -2.6), (15.5, -4, C), (14, 5), (11.4, 12.6, C), (-11.4, 12.6, C), (-14, 5)], closed=True).place(152, 212, 1.2)
PLATE = rounded(231, 77.4, 62, 15.6, 4.5)
TREES = ((50, 36, 34), (171, 36, 39), (311, 8, 22))
TIERS = (95, 125, 155)


def apple(x, y, r, fill):
    k = r / 6
    return fill, smooth([(0, -4.6, C), (3, -6), (6, -3.4), (6, 1.4), (3.2, 5.6), (0, 5.2), (-3.2, 5.6), (-6, 1.4), (-6, -3.4), (-3, -6)], closed=True).place(x, y, k)


def leaf(x, y, length, degrees, fill, fat=0.27):
    n = length
    return fill, smooth([(-1.5, 0, C), (n * 0.3, -n * fat), (n * 0.68, -n * fat * 0.8), (n, 0.4, C), (n * 0.62, n * fat * 0.95), (n * 0.25, n * fat * 0.8)], closed=True).place(x, y, 1, degrees)


def tree(x, left, right, rng):
    """Bark first, then what grows on it: (bark shapes, leaves and apples)."""
    bark = [(BARK, ribbon([(x + 1, 198), (x - 0.6, 170), (x + 0.6, 130), (x, 84)], [9.5, 7.4, 6.4, 4.6]))]
    grown = []
    for j, y in enumerate(TIERS):
        for side, reach in ((-1, left), (1, right)):
            if reach < 10:
                continue  # a tree that stands too close to the door
            lift = rng.uniform(1.5, 4.0)
            pts = [(x - side * 1.5, y + 3.4), (x + side * 7, y + 0.4), (x + side * reach * 0.55, y + rng.uniform(-0.5, 0.7)), (x + side * (reach - 4), y - lift * 0.6), (x + side * reach, y - lift)]
            bark.append((BARK, ribbon(pts, [5.4, 4.8, 4.2, 3.4, 2.6])))
            line = smooth(pts)
            n = max(1, round((reach - 8) / 10))
            red = rng.random() < 0.5
            for i in range(n):
                s = 9.8 + i * 10.2 + rng.uniform(-0.4, 0.4)
                if s > reach - 1:
                    continue
                z = line.point(line.at_length(s))
                up = -90 + side * rng.uniform(20, 44)
                grown.append(leaf(z.real, z.imag - 1.4, rng.uniform(12.5, 14.5), up, YOUNG if (i + j) % 3 == 0 else LEAF))
                if i % 2 == j % 2:
                    grown.append(apple(z.real + side * 2.4, z.imag + 8.0, rng.uniform(5.6, 6.3), RED if red or i else GOLD))
                elif rng.random() < 0.85:
                    grown.append(leaf(z.real + side * 2.2, z.imag + 1.0, rng.uniform(10.5, 11.5), 90 - side * rng.uniform(4, 12), LEAF if (i + j) % 3 == 0 else YOUNG))
            tip = line.end
            grown.append(leaf(tip.real - side * 0.5, tip.imag, 13, -90 + side * 75, LEAF))
        red = not red
    grown.append(leaf(x, 88, 12, -92, YOUNG))
    return bark, grown


def arch(x0, x1, foot, spring, rise):
    """A door's outline with a round head."""
    m, r = (x0 + x1) / 2, (x1 - x0) / 2
    return smooth([(x0, foot, C), (x0, spring, C), (m - r * 0.72, spring - rise * 0.72), (m, spring - rise), (m + r * 0.72, spring - rise * 0.72), (x1, spring, C), (x1, foot, C)], closed=True)


def bricks(cover, rng):
    """The bricks of another firing, where the wall is free: whole ones and headers."""
    regions, out = [Region(s) for s in cover], []
    for row in range(12):
        y = 75.5 + row * 10
        x = -12 + (row % 2) * 13 + rng.uniform(-2, 2)
        while x < W:
            w = next((w for w in (25, 18, 12) if not any(complex(x - 1.9 + (w + 3.8) * i / 9, y - 1.9 + 12.8 * j / 4) in r for r in regions for i in range(10) for j in range(5))), None)
            if w is None:
                x += 2.2
                continue
            if rng.random() < 0.74:
                shape = smooth([(x, y + 0.4, C), (x + w / 2, y - 0.2), (x + w, y + 0.3, C), (x + w - 0.3, y + 8.8, C), (x + w / 2, y + 9.2), (x + 0.2, y + 8.9, C)], closed=True)
                out.append((rng.choice((ROSE, ROSE, BURNT)), shape))
            x += w + 2.6
    return out


def picture():
    rng = random.Random(1911)
    back = [(SKY, rounded(-3, -3, W + 6, H + 6, 1)),
            (SAIL, smooth([(150, 20, C), (158, 15.5), (170, 17), (182, 13), (200, 16.5), (214, 21, C), (182, 22.6)], closed=True)),
            (BANK, below([(-4, 36), (36, 31), (90, 38), (150, 35), (214, 39), (268, 32), (334, 35)], H)),
            (RIVER, below([(-4, 47), (90, 46), (180, 47.5), (334, 45.6)], H)),
            (SAIL, smooth([(82, 54, C), (80.6, 40), (84, 21, C), (93, 36), (98.6, 52.4, C), (90, 53.6)], closed=True)),
            (BURNT, smooth([(70, 54.8, C), (84, 56.2), (101, 54.2, C), (98, 60.6, C), (75, 61, C)], closed=True)),
            (BRICK, below([(-4, 68), (334, 68)], H))]
    trees = [tree(*t, rng) for t in TREES]
    bark, grown = [b for t in trees for b in t[0]], [g for t in trees for g in t[1]]
    door = [(STONE, arch(232, 292, 210, 131, 31)), (DOOR, arch(239.4, 284.6, 210, 131, 23.6)),
            (BLACK, smooth([(242, 143, C), (254, 142.6), (264, 144.8, C), (254, 147), (242, 147, C)], closed=True)), (BLACK, smooth([(242, 177, C), (254, 176.6), (264, 178.8, C), (254, 181), (242, 181, C)], closed=True)),
            (GOLD, ellipse(276, 164, 3.4))]
    ladder = [(WOOD, ribbon([(97, 214), (108.4, 74)], [3.6, 3.2])), (WOOD, ribbon([(115, 214), (121.4, 74)], [3.6, 3.2]))]
    for k in range(8):
        t = 0.08 + k * 0.117
        a, b = complex(97, 214) + (complex(108.4, 74) - complex(97, 214)) * t, complex(115, 214) + (complex(121.4, 74) - complex(115, 214)) * t
        ladder.append((WOOD, ribbon([a, b], 3.0)))
    plate = [(SAIL, PLATE)]
    cover = [s for _, s in bark + grown + door + plate] + [lines([(90, 230), (104, 68), (125, 68), (121, 230)], True), rounded(-4, 190, 340, 50, 1)]
    coping = []
    xs = [-6, 34, 71, 113, 150, 196, 233, 277, 312, 340]
    for i, (a, b) in enumerate(zip(xs, xs[1:])):
        d = (i * 37 % 5 - 2) * 0.3
        coping.append((STONE if i % 2 else TIN, smooth([(a, 63.2 + d, C), ((a + b) / 2, 62.2 + d), (b, 63.2 - d, C), (b, 73.4, C), (a, 73.4, C)], closed=True)))
    bed = [(SOIL, below([(-4, 192), (40, 189.6), (100, 192), (150, 190), (228, 192.5), (300, 190), (334, 191)], H)),
           (STONE, smooth([(227.6, 192.2, C), (262, 191), (296, 191.4, C), (299, 206), (306, 240, C), (218, 240, C), (225, 206)], closed=True)),
           (GRASS, smooth([(-4, 204, C), (16, 201), (28, 205), (47, 200.6), (66, 205), (88, 201.6), (108, 203.4), (128, 201.4), (150, 205.4), (172, 201.4), (192, 205), (212, 201.4), (229, 206, C), (226, 220), (222, 240, C), (-4, 240, C)], closed=True)),
           (GRASS, smooth([(296.6, 206, C), (306, 201.6), (320, 204.6), (334, 201, C), (334, 240, C), (303, 240, C), (299, 222)], closed=True))]
    near = [apple(141.6, 206.6, 6.6, RED), apple(152.4, 204.6, 6.8, GOLD), apple(163, 206.6, 6.6, RED), (WOOD, BASKET), (BURNT, ribbon([(135.6, 213.6), (152, 215.4), (168.4, 213.6)], 3.6)),
            (TIN, CAN), apple(36, 219, 6.4, RED), apple(62, 224.5, 6.2, RED), apple(122, 224, 6.2, GOLD), leaf(18, 224, 14, -16, YOUNG), leaf(86, 220, 14, 14, YOUNG), (BLACK, BIRD)]
    # chinks of wall between leaf, branch and apple, too fine for the grid that `filled` looks through
    chinks = [(LEAF, ellipse(22.94, 87.87, 0.6)), (BARK, ellipse(156.73, 97.62, 0.7)), (BARK, ellipse(323.0, 123.1, 0.7)), (BARK, ellipse(62.12, 157.31, 0.6)), (BARK, ellipse(166.91, 161.47, 0.6))]
    return back + bricks(cover, rng) + chinks + door + bed[:1] + door[:0] + bark + grown + coping + plate + bed[1:] + ladder + near


def letters(word, x, y, h=8.6, pen=2.8):
    """A word in outlined straight strokes, from x on, standing on y."""
    m, s = y - h / 2, pen / 2
    forms = {"E": (6.4, [(0, y), (0, y - h), (6.2, y - h), (6.4, y - h + pen), (pen, y - h + pen), (pen, m - s + 0.1), (5.4, m - s), (5.4, m + s - 0.4), (pen, m + s - 0.4), (pen, y - pen), (6.4, y - pen), (6.2, y)]),
             "F": (5.8, [(0, y), (0, y - h), (5.8, y - h), (5.9, y - h + pen), (pen, y - h + pen), (pen, m - s + 0.5), (5.2, m - s + 0.5), (5.2, m + s + 0.5), (pen, m + s + 0.5), (pen, y)]),
             "I": (pen, [(0, y), (0, y - h), (pen, y - h), (pen, y)])}
    out = []
    for ch in word:
        wide, pts = forms[ch]
        out.append(lines(pts, closed=True).move(x, 0))
        x += wide + 2.9
    return out


def cut(rng):
    """Courses like the wall's own; the coping, the door's head and the path are cut along, and four whole figures."""
    bend = lambda z: z + complex(2.2 * math.sin(z.imag / 21), 4.2 * math.sin(z.real / 47 + 1))
    net = Network(OUTLINE, shapes=[BIRD, CAN, BASKET, PLATE])
    net.add(smooth([(-4, 73.4), (120, 73.4), (334, 73.4)]), plain=True)
    net.add(arch(232, 292, 240, 131, 31), plain=True)
    net.add(courses(2, 2, W - 4, H - 4, 10, [11, 12, 11, 13], rng, wave=3.4, warp=bend))
    net.build(smallest=270, thin=0.33, largest=1500).lock(rng, waist=(3.6, 4.7), plain_share=0.6)
    return net


def mortar(shapes, net):
    """Scored joints in the plain wall, clear of all that stands before it."""
    over = [Region(p) for f, p in shapes[[f for f, _ in shapes].index(BRICK) + 1:]]
    free = lambda z: z in net.board and 75 < z.imag < 191 and not any(z + d in r for r in over for d in (0, 1.7, -1.7, 1.7j, -1.7j))
    out = []
    for row in range(12):
        y = 74.9 + row * 10
        level = smooth([(-4, y), (110, y + 0.5), (220, y - 0.4), (334, y)])
        upright = [smooth([(x, y + 1.9), (x + 0.4, y + 5), (x, y + 8.3)]) for x in range(4 + (row % 2) * 13, W, 26)]
        for line in [level] + upright:
            out += [line.sub(a, b) for a, b in parts_where(line, free) if line.sub(a, b).length() > 4]
    return out


def draw():
    rng = random.Random(11)
    net = cut(rng)
    shapes = filled(picture(), lambda z: z in net.board, (0, 0, W, H))
    sheet = Sheet(W, H, title="Orchard wall", style="#wall-cuts path, #pieces-apart path, #name path{fill:none;stroke:#222;stroke-width:.2px}")
    colours = sheet.layer("painting", label="Painting", attributes='stroke="none"')
    for fill, shape in shapes:
        colours.add(shape, fill)
    sheet.layer("beds-and-sizes", attributes=FAINT, shown=False).add([lines([(x, 70), (x, 200)]) for x in (58, 162, 262, 318)])
    scored = sheet.layer("borders", attributes=FAINT)
    scored.add(scores([(p, f) for f, p in shapes], lambda z: z in net.board))
    scored.group(mortar(shapes, net), dx=20, dy=70)
    sheet.layer("wall-cuts").add([OUTLINE, PLATE] + untidy(net.strokes(), rng))
    sheet.layer("pieces-apart").add([BIRD, BASKET]).group(CAN, dx=203, dy=209.8, degrees=-4)
    sheet.layer("name", label="Name for Effie").add(letters("EFFIE", 243.6, 89.6))
    sheet.layer("name-sprigs", attributes=FAINT).add([smooth([(233.6, 87), (236.6, 83.8), (240.6, 85.4)]), smooth([(290.4, 87), (287.4, 83.8), (283.4, 85.4)])])
    return sheet.svg()
