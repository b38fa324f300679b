"""Ferry at half tide: sky in bands, hills, a river with light on it, a ferry, a barge, a jetty and a dog."""

from kit import *
import silhouettes

BLUE, GREY, PEACH, YELLOW = "#7297ad", "#a8c0c6", "#ecc3a2", "#f4d58a"
LILAC, GREEN, LIGHT, MID, DEEP = "#9690ab", "#708b6f", "#d6e2d8", "#83aaae", "#45707f"
RED, CREAM, TIMBER, OCHRE = "#ab4a33", "#f6ead0", "#5c4638", "#b8995f"

OUTLINE = rounded(2, 2, 296, 196, 7)
DOG = silhouettes.dog().place(159, 113.2, 0.98, 0, flip=True)
GULL = silhouettes.gull().place(117, 39, 0.92, -6)
FISH = silhouettes.fish().place(216, 178, 0.86, -7)
SHORE = [(-5, 95), (30, 93), (70, 96), (112, 94), (160, 97), (205, 94), (250, 97), (305, 93)]
HULL = smooth([(131, 121, "c"), (150, 126.5), (185, 131), (225, 131), (250, 128), (271, 122, "c"), (268, 136), (262, 150, "c"),
               (240, 151.6), (200, 152), (150, 151, "c"), (139, 139)], closed=True)
RIDGE = [(-5, 84), (18, 76), (44, 82), (76, 88), (104, 83), (134, 72), (168, 64), (196, 73), (222, 80), (252, 70), (280, 66), (305, 74)]


def sky():
    yield rounded(-5, -5, 310, 210, 1), BLUE
    yield below([(-5, 34), (34, 27), (80, 33), (130, 24), (182, 15), (240, 22), (305, 12)], 210), GREY
    yield below([(-5, 55), (40, 49), (90, 56), (140, 46), (190, 41), (246, 50), (305, 42)], 210), PEACH
    yield below([(-5, 72), (38, 65), (84, 70), (140, 63), (196, 60), (250, 63), (305, 58)], 210), YELLOW
    yield ellipse(92, 72, 19), CREAM
    yield smooth([(236, 33, "c"), (250, 26), (266, 28), (276, 23), (290, 27), (297, 33, "c"), (280, 35.5), (258, 37)], closed=True), CREAM
    yield smooth([(22, 19, "c"), (38, 12), (54, 14), (66, 10), (80, 17, "c"), (58, 21), (38, 22)], closed=True), GREY


def land_and_river():
    yield below(RIDGE, 210), LILAC
    yield below([(-5, 90), (20, 86), (48, 90), (70, 92.6), (96, 94.4), (112, 94.4), (150, 90), (196, 86), (232, 89), (262, 80), (284, 78), (305, 84)], 210), GREEN
    yield below(SHORE, 210), MID
    yield smooth([(60, 97, "c"), (92, 95.6), (124, 97, "c"), (114, 104), (120, 112), (106, 122), (113, 133), (98, 142), (104, 153), (88, 160), (80, 152), (86, 140),
                  (74, 131), (84, 121), (72, 111), (78, 103)], closed=True), LIGHT
    yield below([(-5, 134), (26, 130), (52, 136), (86, 150), (118, 158), (150, 156), (200, 162), (250, 157), (305, 162)], 210), DEEP
    yield smooth([(122, 164, "c"), (150, 160), (186, 166), (176, 169.5), (150, 168)], closed=True), LIGHT
    yield smooth([(232, 163, "c"), (262, 160.5), (292, 165), (308, 163), (308, 169), (280, 170), (254, 168)], closed=True), MID
    yield smooth([(252, 105, "c"), (276, 102), (305, 106), (305, 111), (280, 112), (264, 109.6)], closed=True), LIGHT
    yield smooth([(-5, 110), (14, 108), (30, 112, "c"), (14, 116), (-5, 115)], closed=True), LIGHT
    yield below([(-5, 188), (30, 182), (66, 186), (112, 194), (150, 189), (196, 195), (236, 198), (268, 190), (305, 183)], 210), OCHRE


def barge():
    yield smooth([(42.4, 73, "c"), (58, 79), (72, 88, "c"), (71, 103), (66.6, 116, "c"), (56, 118), (42.6, 117, "c"), (42.4, 96)], closed=True), RED
    yield smooth([(42.4, 77, "c"), (42.4, 100), (42.6, 117, "c"), (28, 117), (19, 113.6, "c"), (30, 98)], closed=True), OCHRE
    yield ribbon([(42, 70), (42.4, 108), (42.6, 122)], [2.6, 3, 3.2]), TIMBER
    yield smooth([(13, 118, "c"), (30, 122), (52, 122.6), (78, 118.4, "c"), (74, 127), (67, 132, "c"), (44, 133), (22, 131.6, "c"), (16, 126)], closed=True), TIMBER
    yield smooth([(20, 125, "c"), (40, 127), (72, 124.6, "c"), (70, 128), (44, 130), (22.6, 128.6)], closed=True), CREAM


def ferry():
    yield ribbon([(143, 111), (172, 114), (181, 114.6)], 2.2), CREAM
    yield ribbon([(145, 109), (145, 128)], 2.6), CREAM
    yield smooth([(236, 89, "c"), (244, 77), (256, 74), (262, 66), (276, 62), (288, 54), (300, 52, "c"), (300, 62), (286, 66), (280, 74), (266, 77), (259, 85), (248, 91)], closed=True), GREY
    yield lines([(223, 111), (225, 84), (239, 84), (240, 111)], True), RED
    yield lines([(224.3, 95), (225, 89), (239.2, 89), (239.5, 95)], True), TIMBER
    yield lines([(181, 134), (182.4, 109), (246, 109), (249, 134)], True), CREAM
    yield lines([(192, 111), (193, 92), (216, 92), (217, 111)], True), CREAM
    yield lines([(189, 92.6), (190.4, 88), (218.6, 88), (220, 92.6)], True), TIMBER
    yield lines([(177.5, 113), (178.6, 108.6), (250, 108.6), (252, 113)], True), TIMBER
    for x in (196.6, 206.4):
        yield rounded(x, 95.4, 6.6, 9, 1.4), DEEP
    for x in (187, 199, 211, 223, 235):
        yield rounded(x, 116.4, 7.6, 8.4, 1.6), DEEP
    yield ribbon([(264, 126), (267, 100)], 2.6), TIMBER
    yield smooth([(267.4, 99, "c"), (274, 101.6), (281, 98.6), (287, 100.4, "c"), (285.6, 111), (279, 109.4), (273, 112), (266.4, 110.4, "c")], closed=True), RED
    yield HULL, RED
    yield smooth([(133.4, 126.4, "c"), (150, 131), (185, 135), (225, 135), (250, 132.4), (270.4, 127, "c"), (269.8, 131.4, "c"), (250, 137), (225, 139.6), (185, 139.4), (152, 135.8), (135.4, 131.4, "c")], closed=True), CREAM
    yield smooth([(144.4, 145, "c"), (185, 146), (225, 146.2), (264.4, 144.6, "c"), (262, 150, "c"), (240, 151.6), (200, 152), (150, 151, "c")], closed=True), TIMBER


def jetty():
    for x, top in ((14, 172), (58, 172), (100, 170)):
        yield ribbon([(x, top - 4), (x + 0.6, 186), (x - 0.4, 208)], [7.4, 7, 7.8]), TIMBER
    yield lines([(17.6, 187), (17.6, 182.6), (54.6, 196), (54.6, 200.4)], True), TIMBER
    yield ribbon([(97, 157), (109, 158.4), (122, 154), (132, 142), (138.6, 131)], 2.3), CREAM
    yield smooth([(92, 153), (89.6, 149.4), (93, 146.4), (98.6, 146.4), (102, 149.4), (99.6, 153), (100.4, 164, "c"), (91.4, 164, "c")], closed=True), TIMBER
    yield smooth([(-5, 164, "c"), (60, 164), (109.6, 164, "c"), (109, 172.8, "c"), (60, 173), (-5, 172.6, "c")], closed=True), TIMBER
    yield smooth([(-5, 161, "c"), (40, 162), (80, 161.2), (110, 162, "c"), (110, 168, "c"), (60, 168), (-5, 167.4, "c")], closed=True), OCHRE


def painted():
    shapes = [*sky(), *land_and_river(), *barge(), *ferry(), *jetty()]
    return shapes + [(DOG, TIMBER), (GULL, CREAM), (FISH, PEACH)]


def network():
    rng = random.Random(41)
    net = Network(OUTLINE, [DOG, GULL, FISH])
    net.add(smooth(SHORE), plain=True)
    net.add(HULL, plain=True)
    net.add(ellipse(92, 72, 19), plain=True)
    bend = lambda z: z + complex(5 * math.sin(z.imag / 34), 5 * math.sin(z.real / 52 + 0.6))
    net.add(warped_grid(0, 0, 300, 200, 12, 8, rng, jitter=0.16, spread=0.22, warp=bend))
    net.build(smallest=230, thin=0.36, largest=1900)
    net.lock(rng, waist=(3.5, 4.8), clear=2.6, plain_share=0.5)
    return net, rng


def draw():
    net, rng = network()
    sheet = Sheet(300, 200, title="Ferry at half tide", style="path{stroke-linejoin:round} .cut{fill:none;stroke:#222;stroke-width:.2}")
    shapes = painted()
    colours = sheet.layer("picture", label="colours")
    for path, fill in shapes:
        colours.add(path, fill=fill)
    score = sheet.layer("borders", label="score", attributes=FAINT)
    score.add(scores(shapes, lambda z: z in net.board))
    sketch = sheet.layer("sketch", attributes=FAINT, shown=False)
    sketch.add([lines([(0, 66), (300, 66)]), lines([(100, 0), (100, 200)]), lines([(200, 0), (200, 200)]), lines([(0, 132), (300, 132)])])
    cuts = sheet.layer("cuts", attributes='class="cut"')
    strokes = untidy(net.strokes(), rng)
    cuts.add(OUTLINE).add(strokes[: len(strokes) // 2])
    cuts.group(strokes[len(strokes) // 2:], dx=150, dy=100)
    sheet.layer("figures", attributes='class="cut"').add([DOG, GULL, FISH])
    return sheet.svg()


if __name__ == "__main__":
    print(network()[0].report())
