"""Lines to start a cut from: warped grids, rings and rays, free cells. All overshoot; the network trims them."""

import math
from curves import Path, lines, polar, pt, smooth


def shares(n, spread, rng):
    """n + 1 rising numbers from 0 to 1 whose steps differ by up to `spread` (0.2: a fifth)."""
    steps = [1 + rng.uniform(-spread, spread) for _ in range(n)]
    total, out = sum(steps), [0.0]
    for s in steps:
        out.append(out[-1] + s / total)
    return out


def warped_grid(x, y, w, h, nx, ny, rng, jitter=0.14, spread=0.18, warp=None):
    """Rows and columns as smooth long lines through shaken nodes; warp(z) -> z bends the whole."""
    xs, ys = shares(nx, spread, rng), shares(ny, spread, rng)
    dx, dy = w / nx, h / ny
    node = {}
    for i in range(-1, nx + 2):
        for j in range(-1, ny + 2):
            sx = xs[i] if 0 <= i <= nx else (-1 / nx if i < 0 else 1 + 1 / nx)
            sy = ys[j] if 0 <= j <= ny else (-1 / ny if j < 0 else 1 + 1 / ny)
            z = complex(x + sx * w + rng.uniform(-jitter, jitter) * dx, y + sy * h + rng.uniform(-jitter, jitter) * dy)
            node[i, j] = warp(z) if warp else z
    out = [smooth([node[i, j] for j in range(-1, ny + 2)]) for i in range(1, nx)]
    return out + [smooth([node[i, j] for i in range(-1, nx + 2)]) for j in range(1, ny)]


def courses(x, y, w, h, ny, per_row, rng, wave=3.0, spread=0.2, warp=None):
    """Long lines across, and short ones between them that do not meet from row to row, as in a wall."""
    ys = shares(ny, spread, rng)
    waves = [(rng.uniform(0, 6.28), rng.uniform(1.0, 2.2), rng.uniform(0.5, 1.0) * wave) for _ in range(ny + 1)]
    def level(j, px):
        a, f, r = waves[j]
        return y + ys[j] * h + (r * math.sin(a + f * 6.28 * (px - x) / w) if 0 < j < ny else (j - ny / 2) * 1.0)
    bend = warp or (lambda z: z)
    out = []
    for j in range(1, ny):
        n = 14
        out.append(smooth([bend(complex(px, level(j, px))) for px in (x - 6 + k * (w + 12) / n for k in range(n + 1))]))
    for j in range(ny):
        n = per_row[j % len(per_row)] if isinstance(per_row, (list, tuple)) else per_row
        for s in shares(n, spread * 1.5, rng)[1:-1]:
            px, lean, bow = x + s * w + rng.uniform(-2, 2), rng.uniform(-2.5, 2.5), rng.uniform(-1.8, 1.8)
            a, b = complex(px - lean, level(j, px) - 1.2), complex(px + lean, level(j + 1, px) + 1.2)
            out.append(smooth([bend(z) for z in (a, (a + b) / 2 + bow, b)]))
    return out


def rings(centre, radii, counts, rng, wobble=0.6, jitter=0.14):
    """Closed rings at the radii (the board's edge is not one of them) and rays between neighbouring rings.
    counts[k]: pieces between ring k-1 and ring k; counts has one more than the radii for the outermost."""
    c, out = pt(centre), []
    for r in radii:
        n = 16
        out.append(smooth([polar(r + rng.uniform(-wobble, wobble), 360 * k / n, c) for k in range(n)], closed=True))
    bounds = [0.0] + list(radii) + [None]
    for k, n in enumerate(counts):
        if n < 2:
            continue
        r0 = max(bounds[k] - 1.5, 0)
        r1 = bounds[k + 1] + 1.5 if bounds[k + 1] is not None else radii[-1] * 2
        start = rng.uniform(0, 360)
        for m in range(n):
            a = start + (m + rng.uniform(-jitter, jitter)) * 360 / n
            twist = rng.uniform(-0.12, 0.12) * 360 / n
            out.append(smooth([polar(r0, a, c), polar((r0 + r1) / 2, a + twist, c), polar(r1, a, c)]))
    return out


def scatter(keep, box, count, rng, rounds=12):
    """About `count` points spread evenly over the box where keep(z) holds (Lloyd's relaxation)."""
    x, y, w, h = box
    pts = []
    while len(pts) < count:
        z = complex(x + rng.random() * w, y + rng.random() * h)
        if keep(z):
            pts.append(z)
    for _ in range(rounds):
        moved = []
        for p, cell in zip(pts, _cells(pts, box)):
            area = cx = cy = 0.0
            for (a, _), (b, _) in zip(cell, cell[1:] + cell[:1]):
                k = a.real * b.imag - b.real * a.imag
                area, cx, cy = area + k, cx + (a.real + b.real) * k, cy + (a.imag + b.imag) * k
            q = complex(cx / (3 * area), cy / (3 * area)) if area else p
            moved.append(q if keep(q) else p)
        pts = moved
    return pts


def cell_lines(points, box, rng, bow=0.10, close=5.0):
    """The borders between the points' cells (Voronoi), each bowed a little: a free network.
    Corners nearer than `close` mm to each other become one."""
    found, big = [], (box[0] - 8, box[1] - 8, box[2] + 16, box[3] + 16)
    for i, cell in enumerate(_cells(points, big)):
        for (a, j), (b, _) in zip(cell, cell[1:] + cell[:1]):
            if j is not None and j > i:
                found.append([a, b])
    clusters = []
    for z in (z for ends in found for z in ends):
        near = next((c for c in clusters if abs(c[0] - z) < close), None)
        if near is None:
            clusters.append([z, z, 1])
        elif all(abs(z - x) > 1e-6 for x in near[3:]):
            near[1], near[2] = near[1] + z, near[2] + 1
            near.append(z)
    def corner(z):
        c = min(clusters, key=lambda c: abs(c[0] - z))
        return c[1] / c[2]
    out = []
    for a, b in ((corner(a), corner(b)) for a, b in found):
        if abs(b - a) > 1e-6:
            out.append(smooth([a, (a + b) / 2 + (b - a) * 1j * rng.uniform(-bow, bow), b]))
    return out


def _cells(points, box):
    """For each point its Voronoi cell in the box: corners (z, index of the neighbour beyond the edge that starts there)."""
    x, y, w, h = box
    out = []
    for i, p in enumerate(points):
        cell = [(complex(x, y), None), (complex(x + w, y), None), (complex(x + w, y + h), None), (complex(x, y + h), None)]
        for j in sorted(range(len(points)), key=lambda j: abs(points[j] - p)):
            q = points[j]
            if j == i or abs(q - p) < 1e-9:
                continue
            if abs(q - p) > 2 * max(abs(c - p) for c, _ in cell):
                break
            m, n = (p + q) / 2, q - p
            dist = lambda z: (z - m).real * n.real + (z - m).imag * n.imag
            new = []
            for k, (a, ja) in enumerate(cell):
                b = cell[(k + 1) % len(cell)][0]
                da, db = dist(a), dist(b)
                if da <= 0:
                    new.append((a, ja))
                if (da <= 0) != (db <= 0):
                    hit = a + (b - a) * (da / (da - db))
                    new.append((hit, j if da <= 0 else ja))
            cell = new
        out.append(cell)
    return out
