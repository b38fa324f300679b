"""Tide table: one reach of the river six times over a day, in six bent panels, the same boat in each."""

import silhouettes
from kit import *
from parts import filled

W, H = 360, 240
C = "c"
DAWN, MORN, NOON, GOLD, ROSE, NIGHT = "#f2cdb0", "#d3e3df", "#9cc6de", "#ecdc9f", "#d89a97", "#55628e"
PALE, TIDE, DEEP, MUD, SAND, SLUDGE, HILL, FELL, MARSH, REED, PAPER, SUN, RED, DARK, WOOD = (
    "#abc9c6", "#5795a9", "#3a5475", "#94795f", "#bfa27d", "#5d5263", "#8c9f8f", "#6a6f93", "#849549", "#47563a", "#f6eedc", "#f1b548", "#b64537", "#33313d", "#cd9a58")
SKY = (DAWN, MORN, NOON, GOLD, ROSE, NIGHT)
WATER = (PALE, TIDE, TIDE, TIDE, DEEP, DEEP)
LAND = (HILL, HILL, HILL, HILL, FELL, FELL)
BARE = (SAND, SAND, SAND, SAND, MUD, MUD)
WET = (MUD, MUD, MUD, MUD, SLUDGE, SLUDGE)
GREEN = (MARSH, MARSH, MARSH, MARSH, REED, REED)
SHORE = (131, 156, 184, 213, 180, 142)  # how far down the water stands, low to high to low
LIGHT = ((36, 70, 11, SUN), (84, 47, 9.5, SUN), (140, 27, 9, PAPER), (222, 30, 9.5, SUN), (264, 72, 11.5, SUN), None)


def bar(k):
    """The line between panel k - 1 and panel k."""
    s = (1, -1, 1, -1, 1)[k - 1]
    x = 60 * k
    return [(x - s * 5, -6), (x + s * 6, 40), (x + s * 9, 84), (x + s * 2, 128), (x - s * 8, 172), (x - s * 7, 212), (x - s * 1, 246)]


def _x(k, y):
    """Where bar k stands at height y."""
    if k == 0:
        return -8.0
    pts = smooth(bar(k)).flat(0.5)[0]
    return min(pts, key=lambda p: abs(p.imag - y)).real


def band(k, top, foot=250):
    """Panel k from a line of heights (given at equal steps over the panel and on to the next) downwards."""
    x0, x1 = _x(k, top[0]), 60 * k + 78
    n = len(top) - 1
    over = [(x0, top[0], C)] + [(x0 + (x1 - x0) * i / n, y) for i, y in enumerate(top)][1:-1] + [(x1, top[-1], C)]
    down = [(_x(k, y), y) for y in range(int(foot), int(top[0]) + 3, -8)]
    return smooth(over + [(x1, foot, C)] + [(x, y, C) for x, y in down], closed=True)


def boat(x, y, degrees, fill):
    """The smack: hull, and her sail (furled when she lies on the mud)."""
    hull = smooth([(-15, -3.6, C), (-6, -1.6), (5, -1.6), (15.6, -4.8, C), (13.2, 1.6), (9.6, 4.8, C), (-9.6, 4.8, C), (-13.4, 1.4)], closed=True).place(x, y, 1, degrees)
    return [(fill, hull)]


def sail(x, y, flip=False, fill=PAPER):
    main = smooth([(1.2, -4, C), (0.2, -18), (1.4, -31, C), (9.4, -16), (11.6, -4.4, C), (6, -3.2)], closed=True)
    jib = smooth([(-1.6, -4.2, C), (-1.4, -16), (-0.6, -27, C), (-8, -14), (-11, -5, C), (-6, -3.4)], closed=True)
    return [(fill, main.place(x, y, 1, 0, flip)), (RED, jib.place(x, y, 1, 0, flip))]


def mast(x, y, degrees):
    return [(DARK, smooth([(-1.1, -1.2, C), (-0.9, -30, C), (0.9, -30, C), (1.1, -14.6), (11.6, -7.8, C), (11.0, -4.4, C), (3, -4.6), (1.3, -1.2, C)], closed=True).place(x, y, 1, degrees))]


def cockle():
    """A cockle shell, seven ribs and a hinge in one outline."""
    rim = []
    for i in range(8):
        z = polar(14.6 if 0 < i < 7 else 14.0, 180 + 180 * i / 7, (0, 2))
        rim.append((z.real, z.imag, C))
        if i < 7:
            rim.append(polar(17.2, 180 + 180 * (i + 0.5) / 7, (0, 2)))
    return smooth(rim + [(10.4, 9.4), (5.4, 13.6, C), (5.2, 17, C), (-5.2, 17, C), (-5.4, 13.6, C), (-10.4, 9.4)], closed=True)


def ribs():
    """The furrows of the shell, scored."""
    return [smooth([polar(r, 180 + 180 * i / 7 + (90 - 180 * i / 7) * (0.0 if r > 10 else 0.10), (0, 2)) for r in (14.0, 10, 5.5)] + [(0.62 * (i - 3.5), 9.0)]) for i in range(1, 7)]


def oar():
    """A sculling oar: blade, loom and handle."""
    return smooth([(-34, -1.9, C), (-24, -2.1), (8, -1.9, C), (13, -4.6), (24, -5.4), (33, -3.8, C), (34.2, 0), (33, 3.8, C), (24, 5.4), (13, 4.6), (8, 1.9, C), (-24, 2.1), (-34, 1.9, C), (-37.4, 3.0), (-40, 0), (-37.4, -3.0)], closed=True)


ANCHOR = silhouettes.anchor().place(31, 184, 1.0, 24)
GULL = silhouettes.gull().place(150, 62, 0.84, -6)
COCKLE = cockle().place(330, 190, 0.96, -12)
OAR = oar().place(262, 215, 1.0, -9)


def gauge(x, top, foot):
    """The tide gauge: blocks by turns, as many as stand out of the water."""
    out, y, i = [], top, 0
    while y < foot - 2:
        low = min(y + 8.4, foot)
        out.append(((RED, PAPER)[i % 2], lines([(x, y), (x + 6.4, y), (x + 6.4, low), (x, low)], closed=True)))
        y, i = y + 8.4, i + 1
    return out


def blades(x, y, fill, tall=(26, 34, 22)):
    """A clump of reed."""
    return [(fill, smooth([(-2.4, 4, C), (-2.2 + d * 0.4, -h * 0.5), (d, -h, C), (2.4 + d * 0.3, -h * 0.45), (2.6, 4, C)], closed=True).place(x + o, y)) for o, h, d in zip((-6.4, 0, 6.2), tall, (-6, 1.5, 7))]


def panel(k):
    """One panel, from its sky to its marsh."""
    sea, wet = SHORE[k], SHORE[k] + 15
    out = [(SKY[k], band(k, [-8, -8, -8]))]
    if LIGHT[k]:
        x, y, r, fill = LIGHT[k]
        out.append((fill, ellipse(x, y, r)))
    else:
        out.append((PAPER, silhouettes.crescent().place(329, 38, 0.92, 14)))
    ridge = ([88, 80, 84, 90, 88], [86, 92, 88, 82, 84], [84, 88, 94, 90, 88], [89, 84, 79, 85, 90], [90, 94, 90, 84, 86], [85, 80, 86, 92, 90])[k]
    out.append((LAND[k], band(k, ridge)))
    out.append((WATER[k], band(k, [107 + (k % 2), 107, 108, 107 + (k + 1) % 2])))
    drop = (4, -5, 5, -3, -5, 5)[k]
    if sea < 200:
        out.append((WET[k], band(k, [sea, sea + drop, sea - 1, sea - drop, sea + 2])))
        out.append((BARE[k], band(k, [wet + 1, wet + drop * 0.4, wet + 5, wet - drop, wet + 3])))
    marsh = 214 if k not in (3,) else 221
    out.append((GREEN[k], band(k, [marsh + (k * 5 % 3), marsh - 5, marsh + 2, marsh - 6, marsh + 1])))
    return out


def extras(k):
    """What stands in panel k before its land and water: a creek, a glint, the boat."""
    x = 60 * k + (29, 27, 34, 27, 34, 30)[k]
    if k == 0:
        return [(PALE, smooth([(16, 129, C), (26, 140), (20, 152), (34, 163), (44, 176), (66, 190, C), (72, 180, C), (54, 170), (46, 158), (32, 150), (38, 141), (34, 131, C)], closed=True))] + mast(40, 147, -17) + boat(40, 147, -17, RED)
    if k == 5:
        return [(PAPER, smooth([(316, 118, C), (326, 115.6), (340, 118.4, C), (330, 121.6)], closed=True)), (PAPER, smooth([(320, 127.6, C), (329, 125.4), (338, 128.2, C), (328, 131)], closed=True))] + mast(332, 160, 15) + boat(332, 160, 15, RED)
    glint = smooth([(x - 17, 160, C), (x - 4, 157.6), (x + 13, 159.6, C), (x + 2, 163.4)], closed=True)
    return (sail(x, 142, k in (3, 4), PAPER if k < 4 else ROSE) + boat(x, 142, 0, RED) + ([(PALE if k < 4 else ROSE, glint)] if k in (2, 3, 4) else []))


def picture():
    out = []
    for k in range(6):
        out += panel(k)
        out += extras(k)
    cloud = lambda x, y, s: smooth([(-17, 3, C), (-13, -3), (-6, -3.6), (-1, -8), (7, -6.4), (10, -2.4), (18, 3, C), (0, 4.4)], closed=True).place(x, y, s)
    out += [(PAPER, cloud(91, 24, 1.0)), (PAPER, cloud(203, 57, 0.9)), (DAWN, cloud(274, 30, 1.0)), (ROSE, cloud(28, 34, 1.0))]
    out += gauge(96, 158, 208) + gauge(226, 160, 192)
    out += blades(18, 238, REED) + blades(100, 240, REED, (20, 28, 24)) + blades(150, 239, REED, (24, 20, 28)) + blades(217, 240, REED, (16, 22, 14)) + blades(262, 241, MARSH, (14, 20, 24)) + blades(318, 240, MARSH, (22, 32, 24))
    out += [(PAPER, ribbon(bar(k), [3.8, 3.4, 3.7, 3.3, 3.6, 3.4, 3.8])) for k in range(1, 6)]
    return out + [(DARK, ANCHOR), (PAPER, GULL), (DAWN, COCKLE), (WOOD, OAR)]


OUTLINE = rounded(2, 2, W - 4, H - 4, 8)


def cut(rng):
    """A grid that leans with the panels, two of whose borders are cut along, and four whole figures."""
    lean = lambda z: z + complex(5.5 * math.sin(z.imag / 30 + z.real / 60 * math.pi), 3.5 * math.sin(z.real / 38))
    net = Network(OUTLINE, shapes=[ANCHOR, GULL, COCKLE, OAR])
    for k in (2, 4):
        net.add(ribbon(bar(k), [3.8, 3.4, 3.7, 3.3, 3.6, 3.4, 3.8]).sub(7.0, 13.0), plain=True)
    net.add(warped_grid(2, 2, W - 4, H - 4, 14, 10, rng, jitter=0.15, spread=0.2, warp=lean))
    net.build(smallest=230, thin=0.34, largest=1400).lock(rng, waist=(3.5, 4.6), plain_share=0.7)
    return net


def draw():
    rng = random.Random(1)
    net = cut(rng)
    keep = lambda z: z in net.board
    shapes = filled(picture(), keep, (0, 0, W, H))
    sheet = Sheet(W, H, title="Tide table", style=".fine{fill:none;stroke:#7a7a7a;stroke-width:.15px} .saw{fill:none;stroke:#222;stroke-width:.2px}")
    sheet.layer("tide-curve", attributes='class="fine"', shown=False).add(smooth([(30 + 60 * k, SHORE[k]) for k in range(6)]))
    colours = sheet.layer("six-tides", attributes='stroke="none"')
    for fill, shape in shapes:
        colours.add(shape, fill)
    scored = sheet.layer(None, label="Scored borders", attributes='class="fine"')
    scored.add(scores([(p, f) for f, p in shapes], keep))
    scored.group([r.place(330, 190, 0.96, -12) for r in ribs()], dx=330, dy=190)
    strokes = untidy(net.strokes(), rng)
    saw = sheet.layer("saw", attributes='class="saw"').add(OUTLINE)
    for i in range(0, len(strokes), 9):
        saw.group(strokes[i:i + 9], dx=i * 2.0, dy=10)
    saw.add(piece_of(strokes[3]))
    sheet.layer("finds", attributes='class="saw"').add([ANCHOR, GULL, COCKLE, OAR])
    return sheet.svg()
