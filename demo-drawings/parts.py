"""Parts of a figure that share its outline exactly, so that no sliver of a colour is left between two of them."""

import math

from curves import Path, Region, lines, parts_where, smooth


def part(path, i, j, back=(), bend=True):
    """The part of a closed path from vertex i on to vertex j (past the seam if need be), closed from j to i
    through the points `back`, smoothly or (bend = False) by straight lines."""
    n = len(path.segs)
    edge = path.sub(i, j) if i < j else path.sub(i, n).joined(path.sub(0, j)) if j else path.sub(i, n)
    chord = smooth([edge.end, *back, edge.start]) if back and bend else lines([edge.end, *back, edge.start])
    whole = edge.joined(chord)
    whole.closed = True
    return whole


def on_top(shapes, box, step):
    """Rows of a fine grid over box (x, y, width, height): the index of the shape that is seen there, or -1."""
    x, y, w, h = box
    nx, ny = int(w / step) + 1, int(h / step) + 1
    rows = [[-1] * nx for _ in range(ny)]
    for i, (_, path) in enumerate(shapes):
        pts = path.flat(0.3)[0]
        cross = {}
        for p, q in zip(pts, pts[1:] + pts[:1]):
            lo, hi = (p, q) if p.imag < q.imag else (q, p)
            for j in range(max(0, math.ceil((lo.imag - y) / step)), min(ny - 1, math.ceil((hi.imag - y) / step) - 1) + 1):
                cross.setdefault(j, []).append(p.real + (q.real - p.real) * (y + j * step - p.imag) / (q.imag - p.imag))
        for j, xs in cross.items():
            xs.sort()
            for u, v in zip(xs[::2], xs[1::2]):
                a, b = max(0, math.ceil((u - x) / step)), min(nx, math.ceil((v - x) / step))
                if b > a:
                    rows[j][a:b] = [i] * (b - a)
    return rows


def fields(rows, keep, same):
    """The connected parts of the grid: lists of (column, row) with `depth`, steps to the nearest border.
    keep(i, j): on the board; same: from the index of a shape to what counts as one."""
    ny, nx = len(rows), len(rows[0])
    top = {(i, j): same(rows[j][i]) for j in range(ny) for i in range(nx) if rows[j][i] >= 0 and keep(i, j)}
    depth, ring = {}, [k for k in top if any(top.get((k[0] + a, k[1] + b)) != top[k] for a, b in AROUND)]
    level = 0
    while ring:
        for k in ring:
            depth[k] = level
        level += 1
        ring = list(dict.fromkeys((k[0] + a, k[1] + b) for k in ring for a, b in AROUND
                                  if (k[0] + a, k[1] + b) in top and (k[0] + a, k[1] + b) not in depth))
    done = set()
    for k in top:
        if k in done:
            continue
        found, stack = [], [k]
        done.add(k)
        while stack:
            a = stack.pop()
            found.append(a)
            for d in AROUND:
                b = (a[0] + d[0], a[1] + d[1])
                if b in top and b not in done and top[b] == top[k]:
                    done.add(b)
                    stack.append(b)
        yield found, depth, top


def filled(shapes, keep, box, smallest=14.0, narrowest=1.4, step=0.3):
    """The picture without bits too small for a brush: under each goes a patch in the colour of the neighbour it
    touches most, slipped in right over the shape that shows there, so that all that lies in front still does."""
    x, y = box[:2]
    rows = on_top(shapes, box, step)
    patches = []
    for found, depth, top in fields(rows, lambda i, j: keep(complex(x + i * step, y + j * step)), lambda i: shapes[i][0]):
        if len(found) * step * step >= smallest and max(depth[k] for k in found) * 2 * step >= narrowest:
            continue
        mine = max(rows[j][i] for i, j in found)
        touch = {}
        for i, j in found:
            for a, b in AROUND:
                n = (i + a, j + b)
                if n in top and top[n] != top[i, j]:
                    front = rows[n[1]][n[0]] > mine
                    touch[top[n], front] = touch.get((top[n], front), 0) + 1
        ranked = sorted(touch.items(), key=lambda t: (not t[0][1], -t[1], t[0][0]))
        if ranked:
            patches.append((mine, (ranked[0][0][0], _hull([complex(x + i * step, y + j * step) for i, j in found], 0.75))))
    out = []
    for i, s in enumerate(shapes):
        out.append(s)
        out += [p for at, p in patches if at == i]
    return out


def _hull(points, by):
    """The convex hull of the points, grown by about `by` mm."""
    pts = sorted({p + d for p in points for d in (by, -by, by * 1j, -by * 1j)}, key=lambda z: (z.real, z.imag))
    def half(ps):
        out = []
        for p in ps:
            while len(out) > 1 and ((out[-1] - out[-2]).conjugate() * (p - out[-2])).imag <= 0:
                out.pop()
            out.append(p)
        return out[:-1]
    return lines(half(pts) + half(pts[::-1]), closed=True)


def borders(shapes, keep, shown=None):
    """Every outline as far as it is seen (later shapes hide earlier ones), where keep(z) holds. Unlike
    `sheet.scores` also between two shapes of one colour. `shown(i)`: whether outline i is wanted."""
    regions = [Region(p) for _, p in shapes]
    out = []
    for i, (_, path) in enumerate(shapes):
        if shown and not shown(i):
            continue
        above = regions[i + 1:]
        for u0, u1 in parts_where(path, lambda z: keep(z) and not any(z in r for r in above), step=0.3):
            if u0 <= 1e-9 and u1 >= len(path.segs) - 1e-9:
                out.append(path)
            else:
                out.append(longer(path.sub(u0, u1)))
    return [p for p in out if p.length() > 0.08]


def longer(path, by=0.04):
    """The path with a hair more at both ends: a border that runs up to another one then really meets it."""
    v = path.tangent(0.0)
    w = path.tangent(float(len(path.segs)))
    first = Path(path.start - v * by, [(path.start - v * by / 2, path.start - v * by / 2, path.start)])
    last = Path(path.end, [(path.end + w * by / 2, path.end + w * by / 2, path.end + w * by)])
    return first.joined(path).joined(last)


def marks(shapes, keep, box, step=0.75):
    """One point well inside each part of each shape that is seen: (z, fill). box: x, y, width, height."""
    x, y = box[:2]
    rows = on_top(shapes, box, step)
    out = []
    for found, depth, top in fields(rows, lambda i, j: keep(complex(x + i * step, y + j * step)), lambda i: i):
        if len(found) > 3:
            i, j = max(found, key=lambda a: (depth[a], -a[1], -a[0]))
            out.append((complex(x + i * step, y + j * step), shapes[top[i, j]][0]))
    return out


AROUND = ((1, 0), (-1, 0), (0, 1), (0, -1))
