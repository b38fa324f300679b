"""Heron and reeds: a board whose edge is reed tips, a low sun and a heron's back; ten shapes hide in it."""

from kit import *
import silhouettes

MIST, SUN, GLOW, HILL = "#dfe4d9", "#f6cd74", "#eaa868", "#a3b0aa"
PALE, WATER, REED, BANK = "#bfd3cf", "#6c98a2", "#b3ad5c", "#5f713f"
BLUE, SLATE, WHITE, BILL, RUST = "#7f90a8", "#3d4859", "#f4f0e4", "#d88b3b", "#94573a"

MIDDLE = complex(112, 92)
SUN_ARC = [polar(52, a, MIDDLE) for a in range(168, 290, 15)]
OUTLINE = smooth(
    [(58, 109, "c")] + SUN_ARC + [(131, 43.4, "c"), (139, 41), (148, 36.4), (160, 36), (170, 42), (180, 49), (190, 57, "c"), (180, 58.6), (172.6, 62), (170.4, 72), (172, 88),
     (179, 102), (191, 110), (210, 116), (228, 125), (240, 131, "c"), (244, 112), (250, 96), (254, 94), (257, 108), (260, 120, "c"), (264, 106), (269, 92), (273, 94), (277, 116),
     (281, 150), (282, 200), (279, 238), (268, 250), (230, 252), (180, 249), (130, 252), (80, 249), (24, 251), (11, 241), (7, 200), (9, 150), (12, 118), (17, 92), (21, 86),
     (25, 92), (29, 112, "c"), (34, 94), (40, 78), (44, 78), (48, 94), (52, 110, "c")], closed=True)

HERON = silhouettes.heron().place(60, 166, 0.84)
FISH = silhouettes.fish().place(122, 216, 1.0, 8)
FROG = silhouettes.frog().place(66, 223, 0.86, 12)
DRAGONFLY = silhouettes.dragonfly().place(106, 88, 0.92, -32)
MACE = silhouettes.reed_mace().place(262, 196, 0.95, 3)
SNAIL = silhouettes.snail().place(174, 228, 0.8)
DINGHY = silhouettes.dinghy().place(103, 148, 0.84)
FEATHER = silhouettes.feather().place(152, 178, 0.82, 58)
MOON = silhouettes.crescent().place(27, 190, 0.95, -20)
EEL = silhouettes.eel().place(220, 206, 0.86, 12)
FIGURES = [HERON, FISH, FROG, DRAGONFLY, MACE, SNAIL, DINGHY, FEATHER, MOON, EEL]
FIGURE_COLOURS = [SLATE, GLOW, REED, WATER, RUST, RUST, WHITE, WHITE, SUN, SLATE]

BODY = smooth([(176, 96, "c"), (196, 108), (214, 112), (234, 122), (250, 148), (256, 172, "c"), (244, 168), (226, 171), (208, 172), (192, 167), (178, 154), (169, 136), (168, 116)], closed=True)


def leaf(x, y, tip, width, colour, bend=4):
    """A reed leaf from its foot to its tip."""
    foot, end = complex(x, y), pt(tip)
    mid = (foot + end) / 2 + bend
    return ribbon([foot, (foot + mid) / 2 + bend * 0.2, mid, (mid + end) / 2 + bend * 0.1, end], [width * 0.7, width * 0.92, width * 1.05, width * 0.8, 1.0]), colour


def landscape():
    yield rounded(-5, -5, 300, 270, 1), MIST
    yield ellipse(112, 92, 57), GLOW
    yield ellipse(112, 92, 38), SUN
    yield below([(-5, 116), (30, 112), (60, 120), (90, 117), (122, 122), (150, 118), (190, 116), (240, 114), (295, 110)], 270), HILL
    yield below([(-5, 132), (40, 130), (90, 133), (140, 131), (200, 134), (295, 130)], 270), PALE
    yield smooth([(78, 133, "c"), (112, 131, "c"), (146, 133, "c"), (136, 142), (143, 152), (128, 160), (134, 170), (116, 178), (104, 172), (92, 164), (98, 154), (82, 146)], closed=True), GLOW
    yield below([(-5, 174), (34, 168), (70, 178), (104, 188), (140, 193), (180, 188), (230, 184), (295, 178)], 270), WATER
    yield smooth([(66, 197, "c"), (84, 193), (106, 197), (120, 202, "c"), (98, 203.6), (78, 202)], closed=True), PALE
    yield smooth([(140, 203, "c"), (160, 199.6), (186, 202), (198, 207, "c"), (172, 209.6), (154, 208)], closed=True), PALE
    yield below([(-5, 222), (14, 214), (30, 216), (48, 236), (80, 240), (110, 239), (140, 237), (158, 222), (186, 217), (206, 228), (230, 226), (246, 202), (262, 176), (290, 164)], 270), BANK


def bird():
    for x, foot in ((203, 222), (216, 218)):
        yield ribbon([(x, 164), (x - 1.4, 190), (x - 0.6, foot + 8)], [4.4, 3.6, 3.8]), BILL
    yield smooth([(138, 38, "c"), (150, 32), (166, 36), (178, 50), (176, 66), (175, 84), (186, 104), (196, 112), (186, 140), (176, 148), (164, 136), (154, 118), (150, 100),
                  (150, 82), (147, 68), (139, 58, "c")], closed=True), WHITE
    yield BODY, BLUE
    yield smooth([(188, 126, "c"), (206, 122), (226, 131), (242, 150), (255, 171, "c"), (238, 164), (220, 160), (202, 153), (192, 142)], closed=True), SLATE
    yield smooth([(141, 50, "c"), (150, 44.6), (160, 43), (172, 44.6), (194, 57, "c"), (182, 61.6), (168, 53), (156, 51.4)], closed=True), SLATE
    yield smooth([(144, 46.4, "c"), (120, 53), (92, 63, "c"), (120, 61.4), (143.6, 58.6, "c"), (145.6, 52)], closed=True), BILL


def reeds():
    yield leaf(13, 262, (18, 56), 16, BANK, -3)
    yield leaf(31, 262, (45, 50), 15, REED, -5)
    yield leaf(0, 262, (7, 138), 12, REED, 1)
    yield leaf(248, 262, (254, 62), 15, REED, 4)
    yield leaf(279, 262, (271, 58), 16, BANK, 4)
    yield leaf(97, 262, (87, 208), 9, REED, -3)
    yield leaf(102, 262, (112, 232), 8, REED, 2)
    yield leaf(146, 262, (152, 204), 9, REED, 2)


def painted():
    return [*landscape(), *bird(), *reeds()] + list(zip(FIGURES, FIGURE_COLOURS))


def network():
    rng = random.Random(SEED)
    net = Network(OUTLINE, FIGURES)
    net.add(BODY, plain=True)
    net.add(smooth([(-5, 133), (20, 131), (48, 132), (90, 134), (140, 132), (172, 133)]), plain=True)
    net.add(smooth([(118, 200), (120, 216), (121, 232)]), within=1)
    net.add(smooth([(160, 218), (176, 225), (190, 226)]), within=5)
    box = (5, 34, 278, 220)
    points = scatter(lambda z: z in net.board, box, 98, rng)
    net.add(cell_lines(points, box, rng, bow=0.14, close=6))
    net.build(smallest=190, thin=0.36, largest=1500)
    net.lock(rng, waist=(3.4, 4.6), clear=2.6, plain_share=0.4, largest=1700)
    return net, rng


SEED = 17


def draw():
    net, rng = network()
    sheet = Sheet(290, 260, title="Heron and reeds")
    shapes = painted()
    washes = sheet.layer("washes")
    for path, fill in shapes:
        washes.add(path, fill=fill)
    sheet.layer("lines-to-score", attributes=FAINT).add(scores(shapes, lambda z: z in net.board))
    strokes = untidy(net.strokes(), rng)
    cut = sheet.layer(None, label="through-cuts", attributes=LINE)
    cut.add(OUTLINE)
    cut.group(strokes, dx=145, dy=130, degrees=90)
    cut.add(piece_of(strokes[4], 0.4, 0.7))
    sheet.layer(None, label="whimsies", attributes='fill="none" stroke="#000" stroke-width="0.2"').add(FIGURES)
    return sheet.svg()


if __name__ == "__main__":
    import sys
    for s in [int(a) for a in sys.argv[1:]] or [SEED]:
        SEED = s
        print(s, network()[0].report())
