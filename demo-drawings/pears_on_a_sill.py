"""Pears on a sill: the small puzzle that a new shop begins with. Two pears, a snail, and the estuary behind them."""

from kit import *
from parts import part
from silhouettes import snail

HOME = "content/begin/designs"

W, H = 170, 130
SKY, LIGHT, HILL, NEAR, WATER, SILL, EDGE, CLOTH, STRIPE, PEAR, SHADE, BLUSH, LEAF, SHELL = (
    "#f3dcb4", "#faeed3", "#8fa9b0", "#6d8a78", "#c3d3d2", "#c79a63", "#9a6f45", "#eef0ea", "#5b7fa6", "#d3bd4e",
    "#a3983f", "#c8663f", "#587a3c", "#7d5038")


def tall():
    """The pear that stands, its stalk part of it."""
    c = "c"
    return smooth([(-2.2, -38, c), (1.6, -39, c), (2.2, -32.6, c), (7.6, -30.2), (10.4, -23), (11.6, -14), (17.6, -6), (21.2, 4), (20, 14), (13.6, 21.2),
                   (4, 23.6), (-4, 23.6), (-14, 21), (-20.4, 13.6), (-21, 3.6), (-17.2, -6), (-11, -14), (-9.4, -23), (-5.6, -30.6), (-1.4, -32.4, c)],
                  closed=True).place(67, 77)


def lying():
    """The pear that lies, stalk to the right."""
    c = "c"
    pear = smooth([(-1.6, -36, c), (1.8, -36.4, c), (1.6, -30.6, c), (6.4, -28), (8.8, -21), (10.6, -13), (16, -5.6), (18.8, 3), (17.6, 12), (11.6, 18.2),
                   (3.4, 20.2), (-3.4, 20.2), (-11.6, 18.2), (-17.4, 12), (-18.6, 3), (-15.4, -5.6), (-10, -13), (-8, -21), (-5.2, -28), (-1.6, -30.4, c)], closed=True)
    return pear.place(112, 92, 0.98, 74)


def beside(x, y):
    """A point of the lying pear's own frame on the sheet."""
    return complex(x, y) * 0.98 * polar(1, 74) + complex(112, 92)


def leaf():
    return smooth([(0, 0, "c"), (4, -7.6), (12, -12.4), (21, -12.2), (29.6, -7, "c"), (22, -1.4), (13, 2.2), (5.6, 2.4)], closed=True).place(72.6, 40.6, 1.0, -6)


def crawler():
    return snail().place(24.5, 98.6, 0.72, 0, flip=True)


def picture():
    """(fill, shape) from the back to the front."""
    t, l, s = tall(), lying(), crawler()
    out = [(SKY, rounded(-3, -3, W + 6, H + 6, 2)),
           (LIGHT, smooth([(-4, 30, "c"), (20, 25), (52, 29), (90, 22), (128, 26), (174, 20, "c"), (174, 47, "c"), (-4, 47, "c")], closed=True)),
           (HILL, below([(-4, 45), (14, 38), (34, 41), (58, 36.4), (84, 43), (112, 37), (140, 33), (174, 39)], H)),
           (NEAR, below([(-4, 52), (22, 49.5), (46, 54), (90, 55), (130, 50), (174, 46)], H)),
           (WATER, below([(-4, 60), (30, 57.4), (70, 61), (120, 58.5), (174, 54)], H)),
           # a sandbar that the light lies on
           (LIGHT, smooth([(118, 66.4, "c"), (134, 63), (154, 63.4), (175, 61, "c"), (175, 67, "c"), (150, 69), (132, 69)], closed=True)),
           (SILL, below([(-4, 78), (60, 77.4), (120, 78.4), (174, 77.6)], H)),
           (EDGE, below([(-4, 119), (40, 118.2), (110, 119.4), (174, 118.4)], H)),
           # the cloth under the fruit, and its stripe
           (CLOTH, smooth([(41, 88, "c"), (62, 84.6), (104, 86), (146, 83.4, "c"), (158, 100), (163, 117.4, "c"), (150, 125, "c"), (128, 119.6), (104, 125.4), (80, 119.8), (54, 124.6, "c"), (44, 108)], closed=True)),
           (STRIPE, smooth([(48.4, 108.4, "c"), (70, 110.6), (104, 114), (134, 109.6), (156.6, 107.4, "c"), (157.6, 112, "c"), (134, 114.8), (104, 119), (70, 115.6), (50.2, 113.2, "c")], closed=True)),
           # shadows on the cloth
           (STRIPE, smooth([(60, 101, "c"), (74, 99.8), (88, 97.6), (93, 100, "c"), (86, 103.8), (74, 105.4), (62, 104.6, "c")], closed=True)),
           (PEAR, l), (SHADE, part(l, 3, 10, [beside(5, 12), beside(8, 4), beside(5.6, -5), beside(2.6, -16)])),
           (PEAR, t),
           (SHADE, part(t, 3, 10, [(77.5, 91), (78.6, 79), (73.4, 67), (71.4, 57)])),
           (BLUSH, part(t, 13, 17, [(61.4, 56.4), (61.6, 68), (55, 84)])),
           # the stalks
           (EDGE, part(t, 19, 2)), (EDGE, part(l, 19, 2)),
           (LEAF, leaf()), (SHELL, s)]
    return out


def cuts(rng):
    shapes = [tall(), leaf(), crawler()]
    net = Network(rounded(2, 2, W - 4, H - 4, 7), shapes=shapes)
    net.add(warped_grid(2, 2, W - 4, H - 4, 6, 5, rng))
    net.build(smallest=210).lock(rng)
    return net


def draw():
    rng = random.Random(20260419)
    net = cuts(rng)
    sheet = Sheet(W, H, title="Pears on a sill")
    colours = sheet.layer("colours", attributes='stroke="none"')
    for fill, shape in picture():
        colours.add(shape, fill)
    board = Region(net.outline)
    sheet.layer("borders", attributes=FAINT).add(scores([(shape, fill) for fill, shape in picture()], lambda z: z in board))
    sheet.layer("figures", attributes=LINE).add([tall(), leaf(), crawler()])
    sheet.layer("cuts", attributes=LINE).add([net.outline] + net.strokes())
    return sheet.svg()
