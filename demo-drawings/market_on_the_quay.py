"""Market on the quay: three stalls, their keepers and customers, boats behind, bollards in front; over 500 pieces."""

from kit import *
from market_folk import awning, bollard, crate, house, little_fish, person, seller, stall
import silhouettes

SKY, CREAM, HAZE, WATER, DEEP = "#c9dcdf", "#f6eedc", "#9cb6c4", "#7ba5ac", "#46707e"
RED, OCHRE, ROSE, GREEN, YELLOW = "#b34f3a", "#dcae6c", "#dba592", "#5d8762", "#f0c75e"
DARK, TIMBER, STONE, SHADE, SKIN = "#3e3f4c", "#86664a", "#cdbda2", "#a9967c", "#e6b591"

W, H = 420, 297
OUTLINE = rounded(2, 2, W - 4, H - 4, 8)
GULL = silhouettes.gull().place(262, 31.4, 0.9, -8)
DINGHY = silhouettes.dinghy().place(394, 88, 0.84)
FISH = silhouettes.fish().place(66, 221, 0.92, -6)
CRAB = silhouettes.crab().place(112, 267, 0.88, -8)
APPLE = silhouettes.apple().place(212, 222, 0.84)
CAT = silhouettes.cat().place(28, 254, 0.94, 0, flip=True)
DOG = silhouettes.dog().place(336.8, 262.9, 0.96, 0, flip=True)
ANCHOR = silhouettes.anchor().place(393, 267, 0.92, 22)
FIGURES = [GULL, DINGHY, FISH, CRAB, APPLE, CAT, DOG, ANCHOR]
FIGURE_COLOURS = [CREAM, RED, HAZE, RED, YELLOW, DARK, CREAM, DARK]
SEED = 1


def sky_and_far_bank():
    yield rounded(-5, -5, 430, 310, 1), SKY
    yield smooth([(24, 24, "c"), (44, 15), (64, 18), (84, 10), (106, 16), (120, 25, "c"), (84, 30), (48, 30)], closed=True), CREAM
    yield smooth([(288, 22, "c"), (316, 14), (340, 17), (362, 11), (392, 21, "c"), (356, 27), (316, 28)], closed=True), CREAM
    yield smooth([(150, 47, "c"), (172, 41), (196, 44), (214, 50, "c"), (180, 53)], closed=True), CREAM
    yield below([(-5, 66), (60, 50), (112, 49), (150, 56), (200, 61), (270, 68), (340, 58), (425, 64)], 310), HAZE
    yield below([(-5, 92), (110, 91), (210, 92), (320, 91), (425, 92)], 310), WATER
    for args in ((-3, 96, 39, 38, 15, OCHRE, RED, DARK), (36, 96, 28, 31, 13, ROSE, TIMBER, DARK), (64, 96, 34, 42, 16, CREAM, RED, DARK, 2, TIMBER), (98, 96, 27, 29, 13, OCHRE, TIMBER, DARK), (125, 96, 31, 36, 15, ROSE, RED, DARK, 2, RED)):
        yield from house(*args)
    yield lines([(-5, 95), (164, 95), (168, 104), (-5, 104)], True), SHADE


def boats():
    for x, y, r in ((196, 112, 12), (300, 108, 14)):
        yield smooth([(x - r * 1.6, y, "c"), (x, y - 3), (x + r * 1.7, y, "c"), (x, y + 3.2)], closed=True), HAZE
    # a smack with a red mainsail
    yield smooth([(214.4, 44, "c"), (232, 52), (248, 64, "c"), (247, 80), (244, 96, "c"), (230, 98), (215.6, 97, "c"), (215, 70)], closed=True), RED
    yield smooth([(215, 40, "c"), (204, 66), (189, 94, "c"), (202, 96), (216, 95, "c"), (215, 68)], closed=True), OCHRE
    yield ribbon([(214, 34), (215, 70), (216, 104)], 3), TIMBER
    yield smooth([(181, 99, "c"), (206, 104), (232, 104), (256, 98, "c"), (252, 108), (246, 114, "c"), (216, 116), (192, 114, "c"), (186, 107)], closed=True), DEEP
    yield smooth([(183.4, 102.4, "c"), (206, 107), (232, 107), (254.6, 101.6, "c"), (253, 106, "c"), (232, 111), (206, 111), (185.4, 107, "c")], closed=True), CREAM
    # a small steamer
    yield lines([(318, 97), (319, 82), (346, 82), (348, 97)], True), CREAM
    yield lines([(316, 82), (316, 78), (349, 78), (349, 82)], True), TIMBER
    for x in (322.6, 330.4, 338.2):
        yield lines([(x, 85.6), (x + 5, 85.6), (x + 5, 92), (x, 92)], True), DARK
    yield lines([(334, 78), (335, 62), (344, 62), (345, 78)], True), RED
    yield lines([(335, 66.6), (335.3, 61), (343.8, 61), (344.2, 66.6)], True), DARK
    yield ribbon([(308, 56), (308.6, 76), (309, 98)], 2.8), TIMBER
    yield smooth([(288, 94, "c"), (316, 98), (346, 98), (364, 93, "c"), (361, 105), (356, 112, "c"), (324, 113.6), (300, 112, "c"), (293, 104)], closed=True), GREEN
    yield smooth([(301, 106.8, "c"), (326, 108.2), (359.4, 106.6, "c"), (356, 112, "c"), (324, 113.6), (300, 112, "c")], closed=True), RED


def quay():
    yield below([(-5, 119), (70, 117), (150, 118), (240, 117), (330, 118), (425, 117)], 310), STONE
    for x, y, w in ((58, 249, 30), (142, 275, 30), (196, 262, 26), (330, 250, 24), (18, 278, 26), (92, 277, 22)):
        yield smooth([(x - w / 2, y, "c"), (x - w / 5, y - 3.4), (x + w / 4, y - 3), (x + w / 2, y + 0.6, "c"), (x + w / 6, y + 3), (x - w / 4, y + 2.8)], closed=True), SHADE
    yield below([(-5, 283.4), (80, 282.6), (180, 283.4), (300, 282.6), (425, 283.4)], 310), SHADE
    yield below([(-5, 289), (60, 287.6), (120, 289.4), (180, 287.8), (250, 289.4), (320, 287.6), (370, 289.4), (425, 288)], 310), DEEP


def fish_stall():
    yield from stall(12, 137, 128, 196, 240, DEEP, TIMBER, TIMBER, DARK)
    yield from seller(50, 196, 57, CREAM, RED, SKIN, TIMBER, hat=HAZE, face=1)
    yield from seller(98, 196, 62, CREAM, GREEN, SKIN, OCHRE, face=-1)
    yield lines([(20, 186.6), (62, 186.6), (64, 196), (18, 196)], True), CREAM
    for x, y, d in ((29, 190.6, 8), (42, 192, -6), (54, 191, 4)):
        yield little_fish(x, y, 13.4, d, HAZE)
    yield lines([(80, 186.6), (122, 186.6), (124, 196), (78, 196)], True), CREAM
    for x, y, c in ((89, 191, ROSE), (102, 191.4, HAZE), (114, 190.6, ROSE)):
        yield little_fish(x, y, 13.2, 176, c)
    yield from awning(4, 144, 114, 30, 9, (RED, CREAM))


def apple_stall():
    yield from stall(156, 289, 128, 196, 240, GREEN, TIMBER, TIMBER, DARK)
    yield from seller(224, 196, 60, YELLOW, HAZE, SKIN, DARK, hat=OCHRE, face=-1)
    yield from crate(162, 196, 34, 12, OCHRE, (RED, YELLOW), None, 4.4)
    yield from crate(244, 196, 24, 12, OCHRE, (GREEN, YELLOW), None, 4.2)
    yield ellipse(206, 192, 6, 5.4), GREEN
    yield from awning(148, 289, 112, 30, 9, (GREEN, CREAM))


def flower_stall():
    yield from stall(298, 411, 128, 196, 240, ROSE, TIMBER, TIMBER, DARK)
    yield from seller(350, 196, 64, GREEN, ROSE, SKIN, RED, face=1)
    for x, c in ((328, CREAM),):
        yield ribbon([(x, 190), (x - 0.5, 178), (x, 170)], 3), GREEN
        pts = [polar(5.6 if k % 2 == 0 else 3.6, 36 * k, (x, 168)) for k in range(10)]
        yield smooth(pts, closed=True), c
    for x, c in ((373, RED), (384, YELLOW), (395, CREAM)):
        yield ribbon([(x, 190), (x + 0.6, 176), (x, 166)], 3), GREEN
        pts = [polar(5.8 if k % 2 == 0 else 3.6, 36 * k + 10, (x, 166)) for k in range(10)]
        yield smooth(pts, closed=True), c
    yield lines([(306, 184), (338, 184), (335, 196), (308, 196)], True), RED
    yield lines([(366, 184), (400, 184), (397, 196), (369, 196)], True), HAZE
    yield from awning(290, 417, 114, 30, 9, (YELLOW, CREAM))


def customers():
    yield from person(376, 262, 57, RED, DARK, SKIN, TIMBER, face=-1)
    yield from person(142, 268, 104, RED, DARK, SKIN, DARK, hat=DARK, face=-1, arm=RED, basket=OCHRE)
    yield from person(176, 266, 60, YELLOW, DARK, SKIN, OCHRE, skirt=None, face=-1)
    yield from person(283, 268, 102, DEEP, DARK, SKIN, TIMBER, skirt=DARK, face=-1)
    yield from person(306, 274, 98, OCHRE, TIMBER, SKIN, CREAM, hat=TIMBER, face=1, arm=OCHRE)


def foreground():
    yield from crate(52, 279, 30, 15, TIMBER, (HAZE, CREAM), OCHRE, 4.6)
    yield bollard(222, 283, 26, DARK)
    yield bollard(364, 283, 27, DARK)
    yield ribbon([(226, 264), (246, 273), (284, 276), (322, 270.4), (360, 262.4)], 3.2), OCHRE


def painted():
    parts = (sky_and_far_bank, boats, quay, fish_stall, apple_stall, flower_stall, foreground, customers)
    return [s for part in parts for s in part()] + list(zip(FIGURES, FIGURE_COLOURS))


def network():
    rng = random.Random(SEED)
    net = Network(OUTLINE, FIGURES)
    calm = lambda v, size: min(1.0, max(0.0, v / 45), max(0.0, (size - v) / 45))  # the bend dies out towards the edge
    bend = lambda z: z + complex(6 * calm(z.real, W) * math.sin(z.imag / 40 + z.real / 130), calm(z.imag, H) * (5 * math.sin(z.real / 47) + 3 * math.sin(z.imag / 61)))
    net.add(warped_grid(1, 1, W - 2, H - 2, 29, 20, rng, jitter=0.15, spread=0.18, warp=bend))
    net.build(smallest=105, thin=0.36, largest=660)
    net.lock(rng, waist=(3.25, 3.7), clear=2.5, largest=900)
    return net, rng


def draw():
    net, rng = network()
    sheet = Sheet(W, H, title="Market on the quay", style=".cut{fill:none;stroke:#333;stroke-width:.15} .score{fill:none;stroke:#999;stroke-width:.1}")
    shapes = painted()
    colours = sheet.layer("paint")
    for path, fill in shapes:
        colours.add(path, fill=fill)
    sheet.layer("score", attributes='class="score"').add(scores(shapes, lambda z: z in net.board))
    cut = sheet.layer("board", attributes='class="cut"')
    cut.add(OUTLINE)
    strokes = untidy(net.strokes(), rng, share=0.08)
    across = [s for s in strokes if abs(s.end.real - s.start.real) > abs(s.end.imag - s.start.imag)]
    sheet.layer("rows", label="across", attributes='class="cut"').add(across)
    down = sheet.layer("columns", label="down", attributes='class="cut"')
    down.group([s for s in strokes if not any(s is a for a in across)], dx=210, dy=148.5, scale=0.5)
    sheet.layer("odd-shapes", attributes='class="cut"').add(FIGURES)
    return sheet.svg()


if __name__ == "__main__":
    print(network()[0].report())
