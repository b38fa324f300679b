"""Parts of a figure that share its outline exactly, so that no sliver of a colour is left between two of them."""

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


def seen_on_top(shapes, z, regions):
    """The index of the shape that is seen at z, or None. shapes: (fill, path), later ones over earlier ones."""
    return next((i for i in range(len(shapes) - 1, -1, -1) if z in regions[i]), None)


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
                out.append(_longer(path.sub(u0, u1)))
    return [p for p in out if p.length() > 0.08]


def _longer(path, by=0.04):
    """The path with a hair more at both ends: a border that runs up to another one then really meets it."""
    v = path.tangent(0.0)
    w = path.tangent(float(len(path.segs)))
    first = Path(path.start - v * by, [(path.start - v * by / 2, path.start - v * by / 2, path.start)])
    last = Path(path.end, [(path.end + w * by / 2, path.end + w * by / 2, path.end + w * by)])
    return first.joined(path).joined(last)


def marks(shapes, keep, box, step=0.75):
    """One point well inside each part of each shape that is seen: (z, fill). box: x, y, width, height."""
    regions = [Region(p) for _, p in shapes]
    x, y, w, h = box
    top = {}
    for j in range(int(h / step) + 1):
        for i in range(int(w / step) + 1):
            z = complex(x + i * step, y + j * step)
            if keep(z):
                top[i, j] = seen_on_top(shapes, z, regions)
    depth, ring = {}, [k for k in top if any(top.get((k[0] + a, k[1] + b)) != top[k] for a, b in AROUND)]
    level = 0
    while ring:
        for k in ring:
            depth[k] = level
        level += 1
        ring = sorted({(k[0] + a, k[1] + b) for k in ring for a, b in AROUND
                       if (k[0] + a, k[1] + b) in top and (k[0] + a, k[1] + b) not in depth})
    out, done = [], set()
    for k in sorted(top, key=lambda k: (k[1], k[0])):
        if k in done or top[k] is None:
            continue
        part_, stack = [], [k]
        done.add(k)
        while stack:
            a = stack.pop()
            part_.append(a)
            for d in AROUND:
                b = (a[0] + d[0], a[1] + d[1])
                if b in top and b not in done and top[b] == top[k]:
                    done.add(b)
                    stack.append(b)
        if len(part_) > 3:
            i, j = max(part_, key=lambda a: (depth[a], -a[1], -a[0]))
            out.append((complex(x + i * step, y + j * step), shapes[top[k]][0]))
    return out


AROUND = ((1, 0), (-1, 0), (0, 1), (0, -1))
