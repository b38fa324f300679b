"""Forty-eight channels: one tile, forty-eight times, that goes together whatever way you lay it.

Every side of the tile is the same line, point-symmetric about its middle, with a knob out and a knob in; so each
side fits each side. The channels reach the middle of all four sides, at points that the half turn swaps: a river
runs on over every joint.
"""

from kit import *

NX, NY, SIDE = 8, 6, 33.0
LEFT, TOP = 9.0, 9.0
W, H = NX * SIDE + 2 * LEFT, NY * SIDE + 2 * TOP
WATER, MARSH, SAND, POOL = "#5f93a3", "#a9b079", "#e2cb94", "#a7c8c4"
HALF = SIDE / 2
BANK = 2.3  # how far each bank lies from the middle of a side, across


def side():
    """The line of one side, from (0, 0) to (SIDE, 0), the first knob upwards. Its half turn is the same line."""
    first = Path(0j, [(complex(*a), complex(*b), complex(*c)) for a, b, c in (
        ((2.4, -1.1), (4.6, -1.5), (5.6, -2.3)),
        ((6.5, -3.0), (6.6, -3.8), (5.9, -4.7)),
        ((4.3, -6.9), (5.6, -9.5), (8.5, -9.5)),
        ((11.6, -9.5), (12.9, -6.9), (11.2, -4.9)),
        ((10.5, -4.0), (10.5, -3.1), (11.5, -2.4)),
        ((13.0, -1.5), (14.9, -1.0), (HALF, 0)))])
    half_turn = first.map(lambda z: SIDE - z).reversed()
    return first.joined(half_turn)


def bank_offset():
    """From the middle of a side to its right bank: the point of the side's line BANK to the right."""
    line, u0, u1 = side(), 6.0, 7.0
    for _ in range(60):
        m = (u0 + u1) / 2
        u0, u1 = (m, u1) if line.point(m).real < HALF + BANK else (u0, m)
    return line.point(u0) - HALF


D = bank_offset()
TURN = [1, 1j, -1, -1j]  # tops, right, foot, left of a tile around its middle


def banks(k):
    """Left bank, right bank and the way in, at side k, with the tile's middle as the origin."""
    m = -HALF * 1j * TURN[k]
    return m - D * TURN[k], m + D * TURN[k], 1j * TURN[k]


def shore(k, rng):
    """The near bank of a bend from side k to the next: it keeps clear of the knob that comes in beside it."""
    (_, p, n), (q, _, m) = banks(k), banks((k + 1) % 4)
    via = complex(4.3 + rng.uniform(-0.4, 0.3), -4.6 + rng.uniform(-0.3, 0.4)) * TURN[k]
    way = (1 + 1j) / 2 ** 0.5 * TURN[k]
    return Path(p, [(p + n * 8.0, via - way * 2.6, via), (via + way * 2.6, q + m * 7.0, q)])


def outer(k, reach):
    """The far bank of a channel that bends from side k to the next."""
    (p, _, n), (_, q, m) = banks(k), banks((k + 1) % 4)
    return Path(p, [(p + n * reach, q + m * reach, q)])


def blot(z, r, rng):
    """A closed loop, roughly round: an island, a pool."""
    s = rng.uniform(0, 90)
    return smooth([polar(r * rng.uniform(0.92, 1.15), s + 60 * i, z) for i in range(6)], closed=True)


def bends(rng, pools):
    """Two channels that pass each other by; pools in the marsh behind them."""
    near, far = [shore(k, rng) for k in (0, 2)], [outer(k, rng.uniform(13.8, 14.8)) for k in (0, 2)]
    marks = [((a.point(1.0) + b.point(0.5)) / 2, WATER) for a, b in zip(near, far)]
    marks += [(0j, MARSH), (polar(19.5, -45), MARSH), (polar(19.5, 135), MARSH)]
    for k in range(pools):
        z = -6.5 - 14.5j if k == 0 else 6.5 + 14.5j
        far.append(blot(z, 2.1, rng))
        marks.append((z, POOL))
    return near + far, marks


def meeting(rng, island):
    """Four channels in one reach, with a sandbar (1) or an islet of marsh (2) where they meet."""
    out = [shore(k, rng) for k in range(4)]
    marks = [(polar(19.5, 45 + 90 * k), MARSH) for k in range(4)] + [(-1j * (HALF - 3), WATER)]
    if island:
        out.append(blot(complex(rng.uniform(-0.4, 0.4), rng.uniform(-0.4, 0.4)), 2.7, rng))
        marks.append((0j, SAND if island == 1 else MARSH))
    return out, marks


KINDS = {"bends": (bends, 0), "pool": (bends, 1), "pools": (bends, 2), "reach": (meeting, 0), "bar": (meeting, 1), "islet": (meeting, 2)}


def tiles(rng):
    """Score lines and marks of the whole board, tile by tile, each kind turned at will."""
    kinds = ["bends"] * 13 + ["pool"] * 8 + ["pools"] * 4 + ["bar"] * 9 + ["islet"] * 6 + ["reach"] * 8
    rng.shuffle(kinds)
    out, marks = [], []
    for i, kind in enumerate(kinds):
        middle = complex(LEFT + SIDE * (i % NX + 0.5), TOP + SIDE * (i // NX + 0.5))
        turn = TURN[rng.randrange(4)]
        make, n = KINDS[kind]
        ls, ms = make(rng, n)
        out += [p.map(lambda z: middle + z * turn) for p in ls]
        marks += [(middle + z * turn, fill) for z, fill in ms]
    return out, marks


def run(x, y, n, turn):
    """n sides in a row from (x, y)."""
    path = None
    for k in range(n):
        s = side().map(lambda z: complex(x, y) + (z + k * SIDE) * turn)
        path = s if path is None else path.joined(s)
    return path


def draw():
    rng = random.Random(48)
    across = [run(LEFT, TOP + SIDE * j, NX, 1) for j in range(NY + 1)]
    down = [run(LEFT + SIDE * i, TOP, NY, 1j) for i in range(NX + 1)]
    channels, marks = tiles(rng)
    sheet = Sheet(W, H, title="Forty-eight channels", style=".cut{fill:none;stroke:#2b2b2b;stroke-width:.2px} .faint{fill:none;stroke:#8a8a8a;stroke-width:.15px}")
    sheet.layer("banks", attributes='class="faint"').add(untidy(channels, rng, share=0.15, most=0.045))
    dots = sheet.layer("washes", attributes='stroke="none"')
    for z, fill in marks:
        dots.dot(z.real, z.imag, 0.6, fill)
    cut = sheet.layer("tiles", attributes='class="cut"')
    cut.add(across[:1] + across[-1:])
    cut.group(untidy(across[1:-1], rng, share=0.6), dx=LEFT, dy=TOP)
    cut.group(down, dx=W / 2, dy=H / 2, degrees=90)
    cut.add(down[3].sub(14.0, 15.0))  # drawn twice, as happens when a line is traced again
    return sheet.svg()
