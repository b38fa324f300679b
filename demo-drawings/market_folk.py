"""People, stalls and goods for the market: each function yields (path, colour) pairs, back to front."""

from kit import *


def person(x, foot, h, coat, legs, skin, hair, hat=None, skirt=None, face=1, arm=None, basket=None):
    """Somebody standing at x with feet at y = foot, h mm tall, looking right (face 1) or left (-1)."""
    k = h / 100.0
    p = lambda dx, dy: (x + face * dx * k, foot + dy * k)
    c = lambda dx, dy: (*p(dx, dy), "c")
    if skirt:
        yield ribbon([p(-5, -16), p(-5, -1)], 6.5 * k + 0.6), legs
        yield ribbon([p(5, -16), p(5.6, -1)], 6.5 * k + 0.6), legs
        yield smooth([c(-9, -50), c(9, -50), p(13, -30), c(17, -9), p(0, -7), c(-17, -9), p(-13, -30)], closed=True), skirt
    else:
        yield smooth([c(-10, -46), c(10, -46), p(10.6, -22), c(10.4, 0), c(2.2, 0), p(1.6, -18), c(0, -30), p(-1.6, -18), c(-2.2, 0), c(-10.4, 0), p(-10.6, -22)], closed=True), legs
    yield smooth([c(-4, -82), p(-12, -78), p(-15, -66), p(-13.6, -50), c(-14, -38), p(0, -36.4), c(14, -38), p(13, -52), p(14.4, -66), p(11, -78), c(4, -82)], closed=True), coat
    yield ellipse(*p(0.8, -90.6), 8.4 * k + 0.3, 9.6 * k + 0.3), skin
    yield smooth([c(8.6, -95), p(4, -93.6), p(-1, -91), c(-4.4, -83.6), p(-9, -86), p(-9.6, -94), p(-5, -101), p(2, -102.4), p(7.6, -100)], closed=True), hair
    if hat:
        yield smooth([c(-13, -96), p(0, -97.6), c(14, -96), p(9, -101), p(7, -108), p(0, -110), p(-7.4, -108), p(-8, -101)], closed=True), hat
    if arm:
        yield ribbon([p(5, -72), p(13, -60), p(20, -50), p(24, -50)], [8 * k, 8 * k, 6.6 * k, 6 * k]), arm
    if basket:
        yield smooth([c(14, -47), c(34, -47), p(31.6, -36), c(29, -31), c(18, -31), p(15.6, -36)], closed=True), basket


def seller(x, counter, h, apron, coat, skin, hair, hat=None, face=1):
    """The upper half of somebody behind a counter at y = counter."""
    k = h / 100.0
    p = lambda dx, dy: (x + face * dx * k, counter + dy * k)
    c = lambda dx, dy: (*p(dx, dy), "c")
    yield smooth([c(-5, -43), p(-15, -38), p(-22, -24), p(-25, -8), c(-25, 0), c(25, 0), p(25, -8), p(22, -24), p(15, -38), c(5, -43)], closed=True), coat
    yield smooth([c(-8, -34), p(0, -31), c(8, -34), p(10, -18), c(12, 0), c(-12, 0), p(-10, -18)], closed=True), apron
    yield ellipse(*p(0.6, -54), 10.6 * k, 12.4 * k), skin
    yield smooth([c(11, -58), p(5, -57), p(-3, -55), c(-6.4, -46), p(-11, -50), p(-12, -59), p(-6, -67), p(2, -68.6), p(9, -66)], closed=True), hair
    if hat:
        yield smooth([c(-17, -61), p(0, -63), c(17, -61), p(11, -66), p(9, -75), p(0, -77), p(-9, -75), p(-10.6, -66)], closed=True), hat


def awning(x0, x1, top, drop, stripes, colours, lean=7):
    """A striped cloth with scalloped hem, wider at the hem."""
    a, b = x0 + lean, x1 - lean
    for i in range(stripes):
        t0, t1 = a + (b - a) * i / stripes, a + (b - a) * (i + 1) / stripes
        h0, h1 = x0 + (x1 - x0) * i / stripes, x0 + (x1 - x0) * (i + 1) / stripes
        y = top + drop
        yield smooth([(t0, top, "c"), (t1, top, "c"), (h1, y, "c"), (h1 - (h1 - h0) * 0.14, y + 5.4), ((h0 + h1) / 2, y + 7.4), (h0 + (h1 - h0) * 0.14, y + 5.4), (h0, y, "c")], closed=True), colours[i % len(colours)]


def stall(x0, x1, top, counter, foot, cloth, board, post, back):
    """Shade behind, two posts, counter board and a front cloth that falls in folds."""
    yield lines([(x0 + 5, top), (x1 - 5, top), (x1 - 5, counter), (x0 + 5, counter)], True), back
    for x in (x0 + 7, x1 - 7):
        yield ribbon([(x, top), (x, counter + 4)], 4), post
    n = 5
    hem = [(x0 + 4 + (x1 - x0 - 8) * k / (2 * n), foot + (2.2 if k % 2 else -1.4)) for k in range(2 * n + 1)]
    yield smooth([(x0 + 2, counter + 2, "c"), (x1 - 2, counter + 2, "c"), (*hem[-1], "c")] + hem[-2:0:-1] + [(*hem[0], "c")], closed=True), cloth
    yield lines([(x0 - 2, counter), (x1 + 2, counter), (x1 + 1, counter + 7), (x0 - 1, counter + 7)], True), board


def crate(x, y, w, h, wood, fruit, colours, r=4.2):
    """A crate whose upper edge is heaped with fruit; (x, y) is its lower left corner."""
    n = max(1, int((w - 2) / (2 * r)))
    step = (w - 2) / n
    for i in range(n - 1):
        yield ellipse(x + 1 + step * (i + 1), y - h - r * 0.72, r), fruit[i % len(fruit)]
    for i in range(n):
        yield ellipse(x + 1 + step * (i + 0.5), y - h + 0.2, r), fruit[(i + 1) % len(fruit)]
    yield lines([(x, y - h), (x + w, y - h), (x + w - 1.4, y), (x + 1.4, y)], True), wood
    if colours:
        yield lines([(x + 0.6, y - h * 0.62), (x + w - 0.6, y - h * 0.62), (x + w - 1.0, y - h * 0.34), (x + 1.0, y - h * 0.34)], True), colours


def little_fish(x, y, length, degrees, colour, flip=False):
    """A painted fish, smaller than one that could be cut."""
    s = smooth([(-10, 0.4), (-6, -3.6), (0, -4.4), (5, -2), (7, -1), (10.4, -4.4, "c"), (9.4, 0), (10.4, 4.4, "c"), (7, 1), (5, 2.4), (0, 4), (-6, 3.4)], closed=True)
    return s.place(x, y, length / 20.4, degrees, flip), colour


def house(x, base, w, h, gable, wall, roof, dark, storeys=2, chimney=None):
    """A gabled house on the far quay with its windows."""
    yield lines([(x, base), (x, base - h), (x + w, base - h), (x + w, base)], True), wall
    if chimney:
        yield lines([(x + w * 0.7, base - h - gable), (x + w * 0.7 + 5, base - h - gable), (x + w * 0.7 + 5, base - h), (x + w * 0.7, base - h)], True), chimney
    yield lines([(x, base - h), (x + w / 2, base - h - gable), (x + w, base - h)], True), roof
    n = 2 if w > 24 else 1
    for s in range(storeys):
        y = base - h + 5 + s * (h - 6) / storeys
        for i in range(n):
            cx = x + w * (i + 0.5) / n
            yield lines([(cx - 2.8, y), (cx + 2.8, y), (cx + 2.8, y + 7), (cx - 2.8, y + 7)], True), dark


def bollard(x, base, h, iron):
    """An iron bollard with a mushroom head."""
    k = h / 26.0
    c = lambda dx, dy: (x + dx * k, base + dy * k, "c")
    p = lambda dx, dy: (x + dx * k, base + dy * k)
    return smooth([c(-8, 0), p(-6.4, -9), p(-5.4, -15), p(-9, -18.6), p(-8, -24), p(0, -26), p(8, -24), p(9, -18.6), p(5.4, -15), p(6.4, -9), c(8, 0)], closed=True), iron
