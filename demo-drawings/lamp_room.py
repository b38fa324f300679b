"""Lamp room: the lens of a small lighthouse at night, drawn in inches, with a cat, a key and a passing sail."""

from kit import *
import silhouettes

NIGHT, DUSK, SEA, MOONLIT = "#27365a", "#4d6591", "#3f7480", "#9fc0c4"
BEAM, FLAME, GLASS, GREEN = "#f7e6ad", "#f2b84b", "#cfe4dc", "#7fb0a0"
BRASS, IRON, BRICK, PLANK, SHADE = "#b98a3a", "#3b3a3f", "#a8563f", "#c69a6b", "#8a6448"

W, H = 8 * 25.4, 10 * 25.4
OUTLINE = smooth([(3, 58, "c"), (12, 34), (32, 17), (64, 6), (101.6, 2.4), (139, 6), (171, 17), (191, 34), (200.2, 58, "c"), (200.4, 120, "c"), (200.4, 190, "c"), (200.2, 244, "c"), (196, 250.6),
                  (188, 251.6, "c"), (100, 251.6, "c"), (15, 251.6, "c"), (7, 250.6), (3, 244, "c"), (2.8, 190, "c"), (2.8, 120, "c")], closed=True)
CAT = silhouettes.cat().place(51.5, 215, 1.02)
SAIL = silhouettes.dinghy().place(168, 138, 0.82)
KEY = silhouettes.key().place(137, 210, 0.84, 82)
CRESCENT = silhouettes.crescent().place(34, 84, 0.95, 12)
FIGURES = [CAT, SAIL, KEY, CRESCENT]
SEED = 1
X = 101.6


def night():
    yield rounded(-5, -5, 215, 265, 1), NIGHT
    yield below([(-5, 117), (30, 114), (70, 116), (110, 114), (150, 114), (215, 111)], 265), DUSK
    yield below([(-5, 142), (60, 141.6), (130, 142.4), (215, 142)], 265), SEA
    yield smooth([(18, 150, "c"), (34, 147), (56, 150, "c"), (46, 156), (52, 162), (38, 168), (24, 162), (29, 156)], closed=True), MOONLIT
    yield smooth([(136, 158, "c"), (160, 155), (188, 158, "c"), (164, 162)], closed=True), MOONLIT
    yield smooth([(143, 72, "c"), (160, 65), (172, 68), (186, 63), (202, 70), (214, 74, "c"), (188, 79), (164, 79)], closed=True), DUSK


def beams():
    yield lines([(X, 120), (-10, 92), (-10, 138)], True), BEAM
    yield lines([(X, 120), (215, 84), (215, 124)], True), BEAM


def frame():
    """Glazing bars, the sill, the wall below and the dome above."""
    for x in (66.5, 136.7):
        yield lines([(x - 2.6, 54), (x + 2.6, 54), (x + 2.6, 182), (x - 2.6, 182)], True), IRON
    yield smooth([(-6, 62, "c"), (40, 55), (X, 52.4), (163, 55), (210, 62, "c"), (210, -10, "c"), (-6, -10, "c")], closed=True), BRICK
    yield smooth([(-6, 62, "c"), (40, 55), (X, 52.4), (163, 55), (210, 62, "c"), (210, 53, "c"), (163, 46.6), (X, 44), (40, 46.6), (-6, 53, "c")], closed=True), BRASS
    yield smooth([(90, -6, "c"), (86, 20), (82, 44.8, "c"), (X, 44), (121, 44.8, "c"), (117, 20), (113, -6, "c")], closed=True), SHADE
    yield smooth([(30, 12, "c"), (38, 24), (34, 47.4, "c"), (22, 49.4, "c"), (22, 30), (16, 22, "c")], closed=True), SHADE
    yield smooth([(173, 12, "c"), (165, 24), (169, 47.4, "c"), (181, 49.4, "c"), (181, 30), (187, 22, "c")], closed=True), SHADE
    yield smooth([(-6, 186, "c"), (50, 180), (X, 178), (153, 180), (210, 186, "c"), (210, 265, "c"), (-6, 265, "c")], closed=True), BRICK
    yield smooth([(-6, 178, "c"), (50, 172), (X, 170), (153, 172), (210, 178, "c"), (210, 187, "c"), (153, 181), (X, 179), (50, 181), (-6, 187, "c")], closed=True), BRASS
    yield below([(-5, 236), (50, 231), (X, 229.6), (153, 231), (215, 236)], 265), PLANK
    for x0, x1 in ((64, 50), (86, 80), (118, 124), (140, 156)):
        yield lines([(x0 - 1.2, 228), (x0 + 1.2, 228), (x1 + 1.6, 258), (x1 - 1.6, 258)], True), SHADE


def lens():
    """A beehive of glass: a bull's eye between rings above and below, in a brass cage on an iron stand."""
    yield lines([(92, 196), (111, 196), (114, 240), (89, 240)], True), IRON
    yield lines([(76, 240), (127, 240), (130, 247), (73, 247)], True), IRON
    yield smooth([(74, 184, "c"), (129, 184, "c"), (125, 193), (118, 198, "c"), (85, 198, "c"), (78, 193)], closed=True), BRASS
    yield smooth([(X, 62, "c"), (118, 68), (130, 84), (136, 106), (137, 124), (135, 148), (130, 168), (126, 184, "c"), (77, 184, "c"), (73, 168), (68, 148), (66, 124), (67, 106), (73, 84), (85, 68)], closed=True), BRASS
    yield smooth([(X, 66.5), (115, 72), (123.4, 83, "c"), (X, 79.6), (79.8, 83, "c"), (88, 72)], closed=True), GREEN
    yield smooth([(78, 86, "c"), (X, 82.6), (125.2, 86, "c"), (129.2, 95, "c"), (X, 91), (74, 95, "c")], closed=True), GLASS
    yield ellipse(X, 120, 29.6, 26.4), GREEN
    yield ellipse(X, 120, 22.6, 20), GLASS
    yield ellipse(X, 120, 14.6, 13), BEAM
    yield smooth([(X, 110.4, "c"), (105.6, 117), (106.6, 123), (X, 128.6), (96.6, 123), (97.6, 117)], closed=True), FLAME
    yield smooth([(73.4, 146, "c"), (X, 150.4), (129.8, 146, "c"), (127.6, 155, "c"), (X, 159), (75.6, 155, "c")], closed=True), GLASS
    yield smooth([(76.4, 158.4, "c"), (X, 162.4), (126.8, 158.4, "c"), (124.8, 167, "c"), (X, 170.6), (78.4, 167, "c")], closed=True), GREEN
    yield smooth([(79.2, 170.4, "c"), (X, 174), (124, 170.4, "c"), (122.4, 180.6, "c"), (X, 181.6), (80.8, 180.6, "c")], closed=True), GLASS


def furniture():
    """A chair that nobody uses, with a coat; a kettle on the boards."""
    yield ribbon([(150, 196), (152, 216), (153, 244)], 3.4), PLANK
    yield ribbon([(183, 196), (184, 216), (186, 246)], 3.4), PLANK
    yield smooth([(148, 196, "c"), (166, 192.6), (185, 196, "c"), (185, 201, "c"), (166, 197.6), (148, 201, "c")], closed=True), PLANK
    yield smooth([(149, 222, "c"), (187, 222, "c"), (190, 228, "c"), (146, 228, "c")], closed=True), PLANK
    yield ribbon([(13, 233), (13, 224), (19, 219), (24, 221), (26, 232)], 2.8), BRASS
    yield smooth([(9, 247, "c"), (8.4, 239), (13, 231.6), (21, 229.6), (28, 231.6), (29.6, 231.2, "c"), (35.4, 227.4, "c"), (39.4, 228.6, "c"), (34.6, 240), (32.6, 247, "c")], closed=True), BRASS


def painted():
    shapes = [*night(), *beams(), *frame(), *lens(), *furniture()]
    return shapes + list(zip(FIGURES, (IRON, GLASS, BRASS, BEAM)))


def network():
    rng = random.Random(SEED)
    net = Network(OUTLINE, FIGURES)
    net.add(ellipse(X, 120, 29.6, 26.4), plain=True)
    net.add(smooth([(-6, 62), (40, 55), (X, 52.4), (163, 55), (210, 62)]), plain=True)
    net.add(smooth([(-6, 178), (50, 172), (X, 170), (153, 172), (210, 178)]), plain=True)
    net.add(ellipse(X, 120, 14.6, 13), plain=True)
    for k in range(18):  # rays from the flame
        a = 20 * k + rng.uniform(-5, 5) + 4
        net.add(smooth([polar(13.4, a, (X, 120)), polar(70, a + rng.uniform(-6, 6), (X, 120)), polar(190, a + rng.uniform(-5, 5), (X, 120))]))
    for r in (54, 78, 104, 128):
        net.add(smooth([polar(r * rng.uniform(0.95, 1.05), 30 * k + 7, (X, 120)) for k in range(12)], closed=True))
    net.build(smallest=280, thin=0.4, largest=1700)
    net.lock(rng, waist=(4.0, 5.6), clear=2.8, plain_share=0.6, largest=1900)
    return net, rng


def draw():
    net, rng = network()
    sheet = Sheet(W, H, unit="in", per_mm=1 / 25.4 * 100, title="Lamp room", style="g.cutline path, g.cutline{fill:none;stroke:#2a2a2a;stroke-width:.8}")
    shapes = painted()
    paints = sheet.layer("paints")
    for path, fill in shapes:
        paints.add(path, fill=fill)
    sheet.layer("prick-lines", attributes='fill="none" stroke="#888" stroke-width="0.6"').add(scores(shapes, lambda z: z in net.board))
    strokes = untidy(net.strokes(), rng)
    cut = sheet.layer("saw", attributes='class="cutline"')
    cut.add(OUTLINE).add(strokes)
    cut.group([piece_of(strokes[-1])], dx=12, dy=9)
    sheet.layer(None, label="odd ones", attributes='class="cutline"').add(FIGURES)
    sheet.layer("pencil", attributes='fill="none" stroke="#bbb"', shown=False).add([lines([(X, 0), (X, H)]), ellipse(X, 120, 58)])
    return sheet.svg()


if __name__ == "__main__":
    print(network()[0].report())
