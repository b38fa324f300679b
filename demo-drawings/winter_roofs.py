"""Winter roofs: the town from the loft window at lamp time. The plan is made of score lines and marks."""

from kit import *
from parts import borders, marks

W, H = 270, 194
DUSK, PEACH, HILL, RIVER, GLINT, SNOW, BLUE, BRICK, OCHRE, SLATE, LAMP, DARK, SMOKE, TILE = (
    "#8593b5", "#ecc9a9", "#a7b0c6", "#4f6b83", "#8fa9b8", "#f6f3ec", "#cdd8e8", "#a9573f", "#d6ad72", "#73869c", "#f4c452", "#453f4e", "#dcd6dc", "#c77f55")
C = "c"


def eaves(x0, x1, y, rng, drop=2.0):
    """The soft lower edge of snow from x1 back to x0."""
    n = max(2, round((x1 - x0) / 11))
    out = []
    for k in range(1, n):
        out.append((x1 + (x0 - x1) * (k + rng.uniform(-0.2, 0.2)) / n, y + (drop if k % 2 else -drop * 0.35) * rng.uniform(0.7, 1.2)))
    return out


def window(x, y, w, h, fill, cross=False):
    return [(fill, lines([(x, y), (x + w, y), (x + w, y + h), (x, y + h)], closed=True))]


def chimney(x, y, w, h, wall):
    """A stack whose top is at y, with its cushion of snow."""
    stack = lines([(x, y), (x + w, y), (x + w, y + h), (x, y + h)], closed=True)
    cap = smooth([(x - 1.3, y + 1.6, C), (x - 0.9, y - 1.6), (x + w * 0.45, y - 3.2), (x + w + 0.9, y - 1.5), (x + w + 1.3, y + 1.6, C)], closed=True)
    return [(wall, stack), (SNOW, cap)]


def along(x, y, w, wall_h, roof_h, wall, rng, roof=SNOW, lean=7, shade=0.0, foot=30):
    """A house with its eaves towards us: base line of the wall at y, roof above it."""
    top, ridge = y - wall_h, y - wall_h - roof_h
    out = [(wall, lines([(x, top - 2), (x + w, top - 2), (x + w, y + foot), (x, y + foot)], closed=True))]
    body = [(x + lean, ridge, C), (x + w / 2, ridge - rng.uniform(0.3, 1.1)), (x + w - lean, ridge, C), (x + w + 3.2, top, C)]
    if roof is SNOW:
        out.append((roof, smooth(body + eaves(x - 3.2, x + w + 3.2, top + 1.2, rng) + [(x - 3.2, top, C)], closed=True)))
    else:
        out.append((roof, smooth(body + [(x - 3.2, top, C)], closed=True)))
    if shade:
        s = w * shade
        out.append((BLUE, smooth([(x + w - lean + 0.5, ridge - 0.6, C), (x + w + 4.2, top + 0.4, C), (x + w - s * 0.4, top + 0.2), (x + w - s, top - 1.6, C)], closed=True)))
    return out


def gable(x, y, w, wall_h, roof_h, wall, thick=5.4, foot=30):
    """A house with its gable towards us and a rafter of snow on either side."""
    top, mid = y - wall_h, x + w / 2
    apex = top - roof_h
    slope = roof_h / (w / 2)
    drop = thick * (1 + slope * slope) ** 0.5
    ov = 3.4
    out = [(wall, lines([(x, top + 2.5), (mid, apex + 4), (x + w, top + 2.5), (x + w, y + foot), (x, y + foot)], closed=True))]
    left, right = (x - ov, top + ov * slope), (x + w + ov, top + ov * slope)
    out.append((SNOW, smooth([(*left, C), (mid, apex, C), (*right, C), (right[0] + 0.4, right[1] + drop * 0.45), (right[0] - 2.2, right[1] + drop * 0.62, C),
                              (mid, apex + drop, C), (left[0] + 2.2, left[1] + drop * 0.62, C), (left[0] - 0.4, left[1] + drop * 0.45)], closed=True)))
    return out


def plume(points, widths):
    return [(SMOKE, ribbon(points, widths))]


def cat():
    """The baker's cat, from behind; one closed stroke."""
    return smooth([(-6.0, 0, C), (-7.2, -5.4), (-5.2, -10.6), (-4.2, -14.6), (-4.6, -18.4), (-4.2, -22.0, C), (-1.4, -20.0), (1.2, -20.0), (3.8, -22.2, C), (4.6, -18.6),
                   (4.0, -14.8), (5.4, -10.0), (7.2, -5.0), (7.4, -2.6), (12.4, -2.8), (15.6, -5.6), (18.6, -6.0), (19.4, -3.2), (15.6, 0.4), (9.2, 1.2), (4, 0.6)], closed=True)


def boat():
    """A smack lying to her anchor: hull and stowed sail in one stroke."""
    return smooth([(-17, -5.6, C), (-9, -4.2), (0.5, -4.2, C), (1.2, -14), (1.4, -28, C), (4.2, -28, C), (4.4, -15, C), (12.5, -8.6, C), (11.6, -4.6, C), (18, -6.4, C),
                   (15.6, 0.6), (12.4, 3.2, C), (-11.8, 3.2, C), (-15.4, -0.6)], closed=True)


CAT, BOAT = cat().place(183.5, 100.6, 1.12), boat().place(222, 74, 1.05)


def picture():
    """(fill, shape) from the sky down to the nearest roof."""
    rng = random.Random(14)
    out = [(DUSK, rounded(-4, -4, W + 8, H + 8, 2)),
           (PEACH, below([(-5, 36), (40, 32), (96, 38), (150, 31), (210, 37), (276, 30)], H + 4)),
           (HILL, below([(-5, 50), (30, 45), (74, 49), (120, 42), (168, 47), (220, 40), (276, 46)], H + 4)),
           (BLUE, smooth([(92, 52.4, C), (106, 46.2), (122, 44.4), (140, 47), (152, 50), (166, 52.4, C), (130, 54)], closed=True)),
           (RIVER, below([(-5, 59), (60, 57.4), (140, 59), (210, 57), (276, 58)], H + 4)),
           (GLINT, smooth([(110, 66.5, C), (140, 63.4), (186, 64.2), (200, 66, C), (176, 69.5), (138, 69.4)], closed=True)),
           (GLINT, smooth([(212, 80.5, C), (228, 79.2), (258, 80.2), (276, 79.4, C), (276, 84.6, C), (240, 84.6), (224, 84.0)], closed=True)),
           (SNOW, ellipse(236, 21, 8.4)),
           (DARK, BOAT),
           (BLUE, below([(-5, 97), (70, 93), (140, 95), (210, 99), (276, 98)], H + 4))]
    # the chapel: tower, spire, its clock
    out += [(SLATE, lines([(36, 40), (56, 40), (56, 120), (36, 120)], closed=True)),
            (DARK, lines([(33.4, 41), (46, 6), (58.6, 41)], closed=True)),
            (SNOW, smooth([(31.8, 42.8, C), (46, 4.4, C), (46.6, 18), (43.8, 27), (45.4, 34.5), (43, 42.8, C)], closed=True)),
            (LAMP, ellipse(46, 53, 5.2))]
    # the far row, along the quay
    out += plume([(98, 74), (96, 62), (103, 50), (99, 36), (108, 22), (104, 10), (112, -6)], [3.4, 5.0, 6.8, 7.6, 9.0, 10.5, 13])
    out += along(-8, 96, 46, 9, 15, OCHRE, rng, shade=0.24) + chimney(6, 66, 7, 12, BRICK)
    out += along(72, 97, 57, 10, 14, BRICK, rng, shade=0.2) + chimney(94.6, 70, 7.4, 9, OCHRE)
    out += gable(117, 99, 31, 10, 19, SLATE) + window(129, 89, 7, 8, LAMP)
    out += along(158, 103, 47, 1, 28, OCHRE, rng, shade=0.22)
    out += along(221, 104, 60, 10, 14, SLATE, rng, shade=0.0) + chimney(250, 74, 7, 9, BRICK)
    out += gable(197, 103, 29, 11, 17, BRICK) + window(208.2, 93.5, 6.6, 7, DARK)
    # the middle row
    out += plume([(158.4, 96), (161.3, 84), (169.2, 71), (171, 58), (181, 42), (177, 26), (188, 10), (190, -8)], [3.8, 5.4, 6.6, 7.8, 9.0, 10.4, 12, 15])
    out += gable(24, 128, 44, 19, 25, OCHRE, thick=6) + window(34, 118, 8, 9, LAMP) + window(49, 118, 8, 9, DARK)
    out += along(-22, 133, 48, 13, 19, BRICK, rng, lean=9) + window(4, 126, 9, 8, LAMP)
    out += along(74, 131, 64, 13, 19, SLATE, rng, shade=0.26) + chimney(84, 92, 8, 14, BRICK) + window(82, 123, 8, 8, LAMP) + window(98, 123, 8, 8, DARK) + window(114, 123, 8, 8, LAMP)
    out += chimney(153, 91, 10, 14, DARK) + along(146, 134, 62, 14, 20, OCHRE, rng, roof=TILE, lean=10) + window(154, 127, 10, 9, LAMP) + window(172, 127, 10, 9, LAMP)
    out += [(DARK, CAT)]
    out += gable(214, 137, 46, 18, 26, SLATE, thick=6.2) + window(225, 125, 8.4, 9, DARK) + window(241, 125, 8.4, 9, LAMP)
    # the near roofs: one eaves on, one with a dormer where somebody is still at work
    out += along(-14, 176, 112, 14, 26, BRICK, rng, shade=0.22, lean=14) + chimney(22, 121, 11, 20, OCHRE)
    out += window(8, 168.5, 11, 12, LAMP) + window(32, 168.5, 11, 12, DARK) + window(60, 168.5, 11, 12, LAMP)
    out += along(100, 190, 190, 6, 38, OCHRE, rng, lean=20) + chimney(203, 133, 13, 26, BRICK)
    out += [(DARK, lines([(140, 166), (152, 151), (176, 151), (188, 166), (188, 200), (140, 200)], closed=True)),
            (SNOW, smooth([(134.5, 168.4, C), (149, 148.4, C), (164, 146.8), (179, 148.4, C), (193.5, 168.4, C), (189, 171.6), (184.6, 169.4, C), (174, 155.6, C), (164, 154.8), (154, 155.6, C), (143.4, 169.4, C), (139, 171.6)], closed=True)),
            (LAMP, lines([(150, 164), (162.6, 164), (162.6, 184), (150, 184)], closed=True)),
            (LAMP, lines([(165.4, 164), (178, 164), (178, 184), (165.4, 184)], closed=True))]
    return out


def cut(rng):
    """Rows that sag like old roofs, the two near ridges cut along, and three whole figures."""
    sag = lambda z: z + 1j * 4.5 * math.sin((z.real + 30) / 46)
    net = Network(rounded(1, 1, W - 2, H - 2, 6), shapes=[CAT, BOAT])
    net.add(warped_grid(1, 1, W - 2, H - 2, 10, 7, rng, jitter=0.13, warp=sag))
    net.build(smallest=190, thin=0.3, largest=1700).lock(rng, waist=(3.6, 4.6))
    return net


def draw():
    rng = random.Random(20261106)
    shapes, net = picture(), cut(rng)
    on_board = lambda z: z in net.board
    sheet = Sheet(W, H, title="Winter roofs", style=".thin{stroke:#777;stroke-width:.15px;fill:none} .thick{stroke:#222;stroke-width:.2px;fill:none}")
    sheet.layer("pencil", attributes='class="thin"', shown=False).add([smooth([(0, 60), (90, 100), (270, 90)]), smooth([(0, 140), (120, 150), (270, 150)])])
    seen = borders(shapes, on_board)
    sheet.layer("roof-lines", attributes='class="thin"').add(untidy(seen, rng, share=0.1))
    dots = sheet.layer("colour-dots")
    for z, fill in marks(shapes, on_board, (0, 0, W, H)):
        dots.dot(z.real, z.imag, 0.5, fill)
    sheet.layer("saw", attributes='class="thick"').add([net.outline] + untidy(net.strokes(), rng))
    sheet.layer("figures", attributes='class="thick"').add([CAT, BOAT])
    return sheet.svg()
