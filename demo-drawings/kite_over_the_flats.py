"""Kite over the flats: twenty large pieces for children, cut by hand around two whole figures."""

from kit import *
from parts import part

W, H = 180, 140
SKY, MILK, CLOUD, FAR, WET, DUNE, GRASS, RED, YELLOW, COAT, FACE = (
    "#8db9d3", "#f0dfc0", "#f7f3e6", "#5f8fa3", "#c9b394", "#ddb871", "#7d9256", "#c8503f", "#edc14f", "#33497a", "#d9a27c")


def child():
    """A child from behind, one arm up; vertices are named by their index where parts begin."""
    c = "c"
    pts = [(-11.5, 0, c), (-2.6, 0, c), (-2.0, -5.5), (0.2, -11, c), (2.4, -5.5), (3.0, 0, c), (12, 0, c), (11.2, -3.6), (8.6, -6.2, c),  # boots, 0..8
           (8.8, -11, c), (12.8, -11.6, c), (10.4, -20), (8.6, -27.2, c), (14.2, -33.4), (19.6, -41.4),  # hem right 10, armpit 12
           (18.6, -44.6), (14.8, -44.4), (10.4, -38.6), (6.6, -34.6, c),  # hand 14..16, shoulder 18
           (7.6, -40.2), (4.6, -46.2), (1.6, -48.2, c), (1.8, -51.8), (-2.2, -53.0), (-4.6, -50), (-3.0, -47.6, c),  # hat: bobble 21..25
           (-6.4, -44), (-7.0, -38.8), (-5.4, -34.4, c), (-9.2, -31), (-13.6, -21.6), (-14.2, -17.2), (-11.8, -15.6, c),  # neck 28, left arm
           (-12.6, -11.2, c), (-8.2, -10.8, c), (-8.4, -6.2, c), (-11.6, -3.4)]
    return smooth(pts, closed=True).map(lambda z: z * 1.06).place(47, 122.5)


KT, KR, KB, KL, KX = (137, 8), (151, 36), (117, 69), (108, 23), (131, 30)


def kite():
    """The kite's four sides, a little hollow; vertices top, right, foot, left."""
    c = "c"
    return smooth([(*KT, c), (144.6, 21.4), (*KR, c), (135, 51.5), (*KB, c), (112.8, 46.5), (*KL, c), (122, 14.6)], closed=True)


def picture():
    """(fill, shape) from the back to the front."""
    k, f = kite(), child()
    out = [(SKY, rounded(-2, -2, W + 4, H + 4, 2)),
           (MILK, below([(-2, 60), (24, 57), (60, 63), (98, 58), (140, 66), (182, 60)], H)),
           (CLOUD, smooth([(10, 31, "c"), (13, 24), (22, 23), (28, 13), (42, 11), (50, 18), (59, 15), (67, 21), (68, 27), (79, 28), (83, 34, "c"), (48, 33)], closed=True)),
           (CLOUD, smooth([(146, 61, "c"), (150, 54.5), (157, 55), (163, 47), (174, 48), (183, 42), (184, 62, "c")], closed=True)),
           (FAR, below([(-2, 77), (40, 76), (90, 77.4), (140, 75.6), (182, 77)], H)),
           (MILK, smooth([(-3, 81.5, "c"), (22, 82), (46, 85.8), (66, 86.6), (98, 85.6), (108, 85.8, "c"), (84, 89.4), (40, 88.8), (-3, 88.2, "c")], closed=True)),
           (WET, below([(-2, 90.5), (30, 89.5), (74, 92), (110, 89), (150, 87), (182, 88)], H)),
           # the creek that winds in over the flats
           (FAR, smooth([(147, 84, "c"), (137, 92), (146, 99), (160, 105), (150, 113), (128, 122), (124, 143, "c"), (150, 143, "c"), (156, 126), (178, 116), (176, 104), (158, 96.5), (151, 91), (158, 84, "c")], closed=True)),
           (DUNE, smooth([(-3, 112, "c"), (14, 112), (34, 118.5), (52, 121), (78, 118), (104, 127), (122, 143, "c"), (-3, 143, "c")], closed=True)),
           (DUNE, smooth([(183, 122, "c"), (172, 126), (163, 134), (158, 143, "c"), (183, 143, "c")], closed=True)),
           # marram: one tuft behind the child, one in the near corner
           (GRASS, smooth([(-3, 122, "c"), (2, 108), (6, 97, "c"), (8.5, 109), (13, 101), (17.5, 93, "c"), (16.6, 108), (22, 105), (29, 103, "c"), (22.5, 114), (22, 122), (26, 132), (30, 143, "c"), (-3, 143, "c")], closed=True)),
           (GRASS, smooth([(82, 143, "c"), (82, 130), (77, 119, "c"), (87, 126), (90, 117), (96, 108, "c"), (96, 122), (103, 117), (111, 114, "c"), (104, 125), (110, 135), (112, 143, "c")], closed=True)),
           # the kite: its four panes, then the bows on the tail
           (RED, part(k, 0, 2, [KX], bend=False)), (YELLOW, part(k, 2, 4, [KX], bend=False)), (RED, part(k, 4, 6, [KX], bend=False)), (YELLOW, part(k, 6, 8, [KX], bend=False))]
    for x, y, a in ((120.4, 77.5, 20), (113.5, 87.5, -28), (117.5, 99, 12)):
        bow = smooth([(-6.2, -3.4, "c"), (-2, -1.5), (0, -1.2), (2, -1.5), (6.2, -3.4, "c"), (5.6, 0), (6.2, 3.4, "c"), (2, 1.5), (0, 1.2), (-2, 1.5), (-6.2, 3.4, "c"), (-5.6, 0)], closed=True)
        out.append((RED if a > 0 else YELLOW, bow.place(x, y, 1.0, a)))
    out += [(COAT, f), (YELLOW, part(f, 34, 9)), (RED, part(f, 18, 28, [(47, 85.2)])), (FACE, part(f, 13, 17))]
    return out


def cuts(rng):
    """Eighteen pieces around the two figures, drawn line by line: the figures' corners are where lines meet."""
    k, f = kite(), child()
    at = lambda i: f.point(i)
    net = Network(rounded(1, 1, W - 2, H - 2, 9), shapes=[k, f])
    head, hand, elbow, toe, heel = at(23), at(15), at(31), at(6), at(0)
    net.add([smooth(p) for p in (
        [(31, -2), (33, 22), (29, 45)], [(62, -2), (59, 20), (65, 43)], [(91, -2), (88, 18), (92, 41)],
        [(KT[0] - 1, 11), (137.5, 4), (139, -3)],
        [(-2, 47), (29, 45), (65, 43), (92, 41), (110, 24)],
        [(29, 45), (38, 58), head + 1j],
        [(92, 41), (88, 60), (93, 88)], [hand - 1, (79, 84), (93, 88), (118, 91), (142, 89)],
        [(KB[0], KB[1] - 1), (119, 80), (118, 91)],
        [(149, 36), (165, 38), (182, 37)], [(135, 50), (141, 70), (142, 89)], [(142, 89), (162, 93), (182, 90)],
        [(138.5, 66), (160, 64), (182, 67)],
        [(-2, 90), (18, 93), elbow + 1],
        [(-2, 119), (18, 117), heel + complex(1.5, -1)],
        [heel + complex(2.4, -1.2), (38, 132), (41, 142)],
        [toe + complex(-1, -1), (76, 117), (96, 115), (140, 116), (182, 115)],
        [(93, 88), (98, 102), (96, 115)], [(142, 89), (139, 103), (140, 116)],
        [(91, 115.2), (88, 129), (90, 142)], [(140, 116), (136, 129), (137, 142)])])
    net.build(smallest=150, thin=0.18, largest=3400).lock(rng, waist=(5.2, 6.6), clear=3.4)
    return net


def draw():
    rng = random.Random(20260607)
    net = cuts(rng)
    sheet = Sheet(W, H, title="Kite over the flats", style=".line{fill:none;stroke:#2b2b2b;stroke-width:.2px}")
    colours = sheet.layer("colours", attributes='stroke="none"')
    for fill, shape in picture():
        colours.add(shape, fill)
    string = smooth([child().point(15), (92, 66), (117, 45), KX])
    tail = smooth([KB, (122, 80), (112, 92), (119, 106)])
    sheet.layer("string", attributes=FAINT).add([string, tail])
    whole = sheet.layer("whole-figures", attributes='class="line"')
    whole.add([kite(), child()])
    sheet.layer("cuts", attributes='class="line"').add([net.outline] + untidy(net.strokes(), rng))
    rough = sheet.layer("first-idea", attributes=FAINT, shown=False)
    rough.add([lines([KB, (20, 20)]), ellipse(40, 84, 9, 11)])
    return sheet.svg()
