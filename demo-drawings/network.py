"""From free lines to a cut: edges between nodes, slivers merged away, a knob wherever it fits.

In: the board's outline, closed shapes (novelty, openings) and any number of lines that may overshoot.
Steps: `add` collects lines; `build` splits them at crossings, drops what lies outside the board or inside a
shape, drops dangling ends, and takes out lines between pieces that are too small or too thin; `lock` puts the
knobs on, first on the joints between edge pieces. Out: strokes, ready for a layer.
Never here: colours, layers, files.
"""

import itertools
import math

from curves import Path, Region, parts_where
from knobs import knob_on, span


class Edge:
    """A stretch of a line between two nodes. kind: "outline", "shape", "line" or "plain" (no knob wanted)."""

    numbers = itertools.count()

    def __init__(self, path, kind, source, order):
        self.path, self.kind, self.source, self.order = path, kind, source, order
        self.a = self.b = None
        self.left = self.right = None
        self.knobbed = False
        self.serial = next(Edge.numbers)

    def points(self):
        return self.path.flat(0.5)[0]


class Near:
    """Points by place, to ask which lie within some distance."""

    def __init__(self, cell=4.0):
        self.cell, self.at = cell, {}

    def put(self, points, owner):
        for p in points:
            self.at.setdefault((math.floor(p.real / self.cell), math.floor(p.imag / self.cell)), []).append((p, owner))

    def drop(self, points, owner):
        """Forgets the owner's points, which are those given."""
        for k in {(math.floor(p.real / self.cell), math.floor(p.imag / self.cell)) for p in points}:
            self.at[k] = [x for x in self.at.get(k, ()) if x[1] is not owner]

    def within(self, p, r):
        n = math.ceil(r / self.cell)
        i0, j0 = math.floor(p.real / self.cell), math.floor(p.imag / self.cell)
        for i in range(i0 - n, i0 + n + 1):
            for j in range(j0 - n, j0 + n + 1):
                for q, owner in self.at.get((i, j), ()):
                    if abs(q - p) < r:
                        yield q, owner


class Network:
    """The cut of one board."""

    def __init__(self, outline, shapes=(), openings=()):
        self.outline, self.shapes, self.openings = outline, list(shapes), list(openings)
        self.board = Region(outline)
        self.inside = [Region(s) for s in self.shapes + self.openings]
        self.sources = [(outline, "outline")] + [(s, "shape") for s in self.shapes + self.openings]
        self.edges = []
        self.unlocked = []
        self.wide_enough = set()
        self.halving = set()

    def add(self, paths, plain=False, within=None):
        """Lines to cut along. `plain`: no knob but where edge pieces need one (a picture border).
        `within`: the index of a shape that these lines cut in two."""
        for path in paths if isinstance(paths, (list, tuple)) else [paths]:
            if within is None:
                keep = lambda z: z in self.board and not any(z in r for r in self.inside)
            else:
                keep = lambda z: z in self.inside[within]
            for u0, u1 in parts_where(path, keep):
                part = path.sub(u0, u1)
                if part.length() > 0.5:
                    if within is not None:
                        self.halving.add(len(self.sources))
                    self.sources.append((part, "plain" if plain else "line"))

    # -- the arrangement -------------------------------------------------------------------------

    def build(self, smallest=60.0, thin=0.30, largest=3400.0):
        """Edges and faces; then lines go until no piece is under `smallest` mm2 or thinner than `thin`
        (4 pi area / perimeter squared), as long as the joined piece stays under `largest`."""
        self._split()
        self._prune()
        self._faces()
        kept = set()
        while True:
            poor = [f for f in self.faces if f not in kept and self._poor(f, smallest, thin)]
            if not poor:
                break
            face = min(poor, key=lambda f: f.area)
            if not self._merge(face, largest if face.area > smallest / 2 else 1.7 * largest):
                kept.add(face)
        self._straighten()
        self._faces()
        while self._widen(largest):
            pass
        return self

    def _widen(self, largest):
        """Takes out one line that makes a narrow neck in a piece, against a shape or another line. False if none."""
        for e in self.edges:
            if e.kind in ("line", "plain") and None not in (e.left, e.right) and e.left is not e.right and self._grazes(e):
                self.edges = [x for x in self.edges if x is not e]
                self._prune()
                self._straighten()
                self._faces()
                return True
        for face in self.faces:
            key = (tuple(sorted(e.serial for e, _ in face.walk)), round(face.area, 4), round(face.pts[0].real, 4))
            if face.shape is not None or key in self.wide_enough:
                continue
            self.wide_enough.add(key)
            for edges in _necks(face):
                for e in edges:
                    if e.kind not in ("line", "plain") or None in (e.left, e.right) or e.left is e.right:
                        continue
                    if e.left.shape is None and e.right.shape is None and e.left.area + e.right.area <= largest:
                        self.edges = [x for x in self.edges if x is not e]
                        self._prune()
                        self._straighten()
                        self._faces()
                        return True
        return False

    def _grazes(self, e):
        """Whether the edge runs along a shape so closely that next to nothing is left between them."""
        if not hasattr(self, "rims"):
            self.rims = Near(2.0)
            for shape in self.shapes + self.openings:
                self.rims.put(shape.flat(0.25)[0], shape)
        ends = (e.path.start, e.path.end)
        return any(min(abs(p - q) for q in ends) > 1.6 and next(self.rims.within(p, 0.5), None) for p in e.points())

    def _split(self):
        flats = [p.flat(0.5) for p, _ in self.sources]
        cuts = [[0.0, float(len(p.segs))] for p, _ in self.sources]
        grid = {}
        for i, (pts, _) in enumerate(flats):
            for k in range(len(pts) - 1):
                a, b = pts[k], pts[k + 1]
                for gx in range(math.floor(min(a.real, b.real) - 0.03), math.floor(max(a.real, b.real) + 0.03) + 1):
                    for gy in range(math.floor(min(a.imag, b.imag) - 0.03), math.floor(max(a.imag, b.imag) + 0.03) + 1):
                        grid.setdefault((gx, gy), []).append((i, k))
        seen = set()
        for cell in grid.values():
            for m in range(len(cell)):
                for n in range(m + 1, len(cell)):
                    (i, k), (j, l) = cell[m], cell[n]
                    if (i == j and abs(k - l) < 3) or ((i, k), (j, l)) in seen:
                        continue
                    seen.add(((i, k), (j, l)))
                    if i == j and self.sources[i][0].closed and abs(k - l) > len(flats[i][0]) - 5:
                        continue
                    hit = _cross(flats[i][0][k], flats[i][0][k + 1], flats[j][0][l], flats[j][0][l + 1])
                    if hit:
                        u, v = flats[i][1], flats[j][1]
                        cuts[i].append(u[k] + (u[k + 1] - u[k]) * min(1.0, max(0.0, hit[0])))
                        cuts[j].append(v[l] + (v[l + 1] - v[l]) * min(1.0, max(0.0, hit[1])))
        self.nodes, near = [], Near(1.0)
        self.edges = []

        def node(p):
            best = min(near.within(p, 0.12), key=lambda q: abs(q[0] - p), default=None)
            if best:
                return best[1]
            self.nodes.append(p)
            near.put([p], len(self.nodes) - 1)
            return len(self.nodes) - 1

        for i, (path, kind) in enumerate(self.sources):
            us = sorted(cuts[i])
            if path.closed and len(us) > 2:  # start at a crossing, so that no node is left at the seam
                n = float(len(path.segs))
                inner = [u for u in us if 1e-9 < u < n - 1e-9] or [0.0]
                pieces = [path.sub(a, b) for a, b in zip(inner, inner[1:]) if b - a > 1e-9]
                seam = ([path.sub(inner[-1], n)] if n - inner[-1] > 1e-9 else []) + ([path.sub(0.0, inner[0])] if inner[0] > 1e-9 else [])
                last = seam[0].joined(seam[1]) if len(seam) == 2 else seam[0]
                pieces.append(last)
            else:
                pieces = [path.sub(a, b) for a, b in zip(us, us[1:]) if b - a > 1e-9]
            for k, piece in enumerate(pieces):
                a, b = node(piece.start), node(piece.end)
                if a == b and piece.length() < 0.6:
                    continue
                if kind in ("line", "plain") and i not in self.halving and any(piece.point(len(piece.segs) / 2) in r for r in self.inside):
                    continue  # it grazes a shape
                e = Edge(piece, kind, i, k)
                e.a, e.b = a, b
                pa, pb = self.nodes[a], self.nodes[b]
                c1, c2, end = piece.segs[-1]
                e.path = Path(pa, piece.segs[:-1] + [(c1, c2, pb)])
                self.edges.append(e)

    def _prune(self):
        while True:
            degree = {}
            for e in self.edges:
                degree[e.a] = degree.get(e.a, 0) + 1
                degree[e.b] = degree.get(e.b, 0) + 1
            kept = [e for e in self.edges if e.kind in ("outline", "shape") or (degree[e.a] > 1 and degree[e.b] > 1)]
            if len(kept) == len(self.edges):
                return
            self.edges = kept

    def _straighten(self):
        """Two edges that alone meet in a node become one."""
        while True:
            at = {}
            for e in self.edges:
                at.setdefault(e.a, []).append(e)
                at.setdefault(e.b, []).append(e)
            for n, es in at.items():
                if len(es) == 2 and es[0] is not es[1] and es[0].kind == es[1].kind and es[0].kind in ("line", "plain"):
                    e, f = es
                    first = e.path if e.b == n else e.path.reversed()
                    second = f.path if f.a == n else f.path.reversed()
                    new = Edge(first.joined(second), e.kind, e.source, e.order)
                    new.a, new.b = (e.a if e.b == n else e.b), (f.b if f.a == n else f.a)
                    self.edges = [x for x in self.edges if x is not e and x is not f] + [new]
                    break
            else:
                return

    def _faces(self):
        out = {}
        for e in self.edges:
            for forward in (True, False):
                pts = e.path.flat(0.5)[0]
                pts = pts if forward else pts[::-1]
                far = next((p for p in pts if abs(p - pts[0]) > 0.4), pts[-1])
                v = far - pts[0]
                out.setdefault(e.a if forward else e.b, []).append((math.atan2(v.imag, v.real), e, forward))
        for v in out.values():
            v.sort(key=lambda x: x[0])
        place = {(id(e), f): (n, k) for n, v in out.items() for k, (_, e, f) in enumerate(v)}
        self.faces, done = [], set()
        for e in self.edges:
            e.left = e.right = None
        for e0 in self.edges:
            for f0 in (True, False):
                if (id(e0), f0) in done:
                    continue
                walk, e, f = [], e0, f0
                while (id(e), f) not in done:
                    done.add((id(e), f))
                    walk.append((e, f))
                    n, k = place[(id(e), not f)]
                    _, e, f = out[n][(k - 1) % len(out[n])]
                face = Face(walk)
                for x, forward in walk:
                    if forward:
                        x.right = face
                    else:
                        x.left = face
                if face.area > 0:
                    face.middle = face.inner_point()
                    face.shape = next((i for i, r in enumerate(self.inside) if face.middle in r), None)
                    face.edge = any(x.kind == "outline" for x, _ in walk)
                    self.faces.append(face)
        solid = set(self.faces)
        for e in self.edges:
            e.left = e.left if e.left in solid else None
            e.right = e.right if e.right in solid else None

    def pieces(self):
        """The faces that are pieces: openings left out."""
        holes = range(len(self.shapes), len(self.inside))
        return [f for f in self.faces if f.shape not in holes]

    def _poor(self, f, smallest, thin):
        if f.area < 1.0:
            return True
        if f.shape is not None:
            return False
        return f.area < smallest or 4 * math.pi * f.area / f.perimeter ** 2 < thin

    def _merge(self, face, largest):
        """Takes out the border that makes the roundest piece with a neighbour. False if none may go."""
        best = None
        for other in dict.fromkeys(x for e, _ in face.walk for x in (e.left, e.right) if x not in (face, None)):
            shared = [e for e, _ in face.walk if other in (e.left, e.right) and e.kind in ("line", "plain")]
            if not shared or other.shape is not None or face.area + other.area > largest:
                continue
            gone = sum(e.path.length() for e in shared)
            around = face.perimeter + other.perimeter - 2 * gone
            score = (face.area + other.area) / around ** 2 - 0.02 * (face.area + other.area) / largest
            if best is None or score > best[0]:
                best = (score, shared)
        if best is None:
            return False
        self.edges = [e for e in self.edges if not any(e is s for s in best[1])]
        self._prune()
        self._faces()
        return True

    # -- knobs -----------------------------------------------------------------------------------

    def lock(self, rng, waist=(3.3, 4.6), clear=2.5, plain_share=0.0, middle=0.22, largest=3400.0):
        """Puts a knob on every joint it can; `waist` is the range of neck widths, `clear` the least distance of a
        knob from any other line. Joints of two edge pieces come first; where none fits the two become one piece,
        up to `largest` mm2, and what is left over is listed in `unlocked`."""
        keep = set()
        while True:
            bare = [(e, e.path) for e in self.edges]
            self.unlocked = self._lock_edges(rng, waist, clear)
            weak = [es for es in self.unlocked
                    if es[0].left.area + es[0].right.area <= largest and id(es[0]) not in keep]
            if not weak:
                break
            for e, path in bare:
                e.path, e.knobbed = path, False
            gone = min(weak, key=lambda es: es[0].left.area + es[0].right.area)
            self.edges = [e for e in self.edges if not any(e is x for x in gone)]
            self._prune()
            self._straighten()
            self._faces()
            while self._widen(largest):
                pass
        near, must = self._near(), self._must()
        rest = [e for e in self.edges if e.kind in ("line", "plain") and not e.knobbed and not any(e is m for m in must)]
        for e in sorted(rest, key=lambda e: -e.path.length()):
            if e.kind == "plain" and rng.random() >= plain_share:
                continue
            self._knob(e, near, rng, waist, clear, middle, hard=False)
        return self

    def _must(self):
        return [e for e in self.edges if e.left and e.right and e.left is not e.right and e.left.edge and e.right.edge
                and e.kind in ("line", "plain")]

    def _near(self):
        near = Near()
        for e in self.edges:
            near.put(e.points(), e)
        return near

    def _lock_edges(self, rng, waist, clear):
        near, pairs = self._near(), {}
        for e in sorted(self._must(), key=lambda e: -e.path.length()):
            pairs.setdefault(frozenset((id(e.left), id(e.right))), []).append(e)
        return [es for es in pairs.values()
                if not any(self._knob(e, near, rng, waist, clear, 0.30, hard=True) for e in es)]

    def _knob(self, e, near, rng, waist, clear, middle, hard):
        length = e.path.length()
        top = min(waist[1], waist[0] + 0.11 * max(0.0, length - 12))
        sizes = [rng.uniform(waist[0], top), waist[0]] + ([3.2] if hard else [])
        side0 = rng.choice((1, -1))
        for size in sizes:
            tries = [rng.uniform(0.5 - middle, 0.5 + middle) for _ in range(7)] + ([0.2 + 0.05 * k for k in range(13)] if hard else [0.5])
            for share in tries:
                at = share * length
                room = span(size) / 2 + 0.7
                if at < room or at > length - room:
                    continue
                if not _even(e.path, at, span(size)):
                    continue
                for side in (side0, -side0):
                    whole, knob = knob_on(e.path, at, side, size, rng)
                    if self._free(e, knob, near, at, clear if size > 3.25 else clear - 0.15, span(size) / 2):
                        near.drop(e.points(), e)
                        e.path, e.knobbed = whole, True
                        near.put(e.points(), e)
                        return True
        return False

    def _free(self, e, knob, near, at, clear, half):
        own = e.path.flat(0.5)
        lengths, s = [0.0], 0.0
        for p, q in zip(own[0], own[0][1:]):
            s += abs(q - p)
            lengths.append(s)
        far = [p for p, s in zip(own[0], lengths) if abs(s - at) > half + 1.5]
        head = knob[len(knob) // 6: -len(knob) // 6]
        for p in knob:
            if any(o is not e for _, o in near.within(p, clear)):
                return False
        return all(abs(p - q) > clear * 0.72 for p in head[::2] for q in far)

    # -- out -------------------------------------------------------------------------------------

    def strokes(self):
        """The cut lines without outline and shapes, edges of one source line joined to long strokes."""
        groups = {}
        for e in self.edges:
            if e.kind in ("line", "plain"):
                groups.setdefault(e.source, []).append(e)
        out = []
        for _, es in sorted(groups.items()):
            es.sort(key=lambda e: e.order)
            current = es[0].path
            for e in es[1:]:
                if abs(current.end - e.path.start) < 1e-9:
                    current = current.joined(e.path)
                else:
                    out.append(current)
                    current = e.path
            out.append(current)
        return out

    def report(self):
        ps = self.pieces()
        areas = sorted(f.area for f in ps)
        joints = [e for e in self.edges if e.kind in ("line", "plain")]
        return (f"{len(ps)} pieces ({sum(f.edge for f in ps)} edge), {areas[0]:.0f} / {areas[len(areas) // 2]:.0f} / {areas[-1]:.0f} mm2, "
                f"{sum(e.knobbed for e in joints)} of {len(joints)} lines knobbed, {len(self.unlocked)} edge joints without")


class Face:
    """One face of the arrangement, by the edges round it."""

    def __init__(self, walk):
        self.walk = walk
        pts = []
        for e, forward in walk:
            q = e.path.flat(0.5)[0]
            pts.extend(q[:-1] if forward else q[:0:-1])
        self.pts = pts
        pairs = list(zip(pts, pts[1:] + pts[:1]))
        self.area = sum(p.real * q.imag - q.real * p.imag for p, q in pairs) / 2
        self.perimeter = sum(abs(q - p) for p, q in pairs)
        self.shape, self.edge, self.middle = None, False, None

    def inner_point(self):
        """A point well inside: as far off one of the longest flat stretches of the border as there is room for."""
        stretches = sorted(zip(self.pts, self.pts[1:] + self.pts[:1]), key=lambda s: -abs(s[1] - s[0]))[:10]
        for off in (1.2, 0.5, 0.2, 0.1):
            for p, q in stretches:
                z = (p + q) / 2 + (q - p) / abs(q - p) * 1j * off if p != q else p
                if _winds(self.pts, z) and all(abs(z - x) > off * 0.6 for x in self.pts):
                    return z
        p, q = stretches[0]
        return (p + q) / 2 + (q - p) / abs(q - p) * 0.05j


def _necks(face, least=2.4, wide=9.0):
    """The pairs of edges between which a face is narrower than `least`, with more than `wide` mm2 on both sides."""
    pts, owner = [], []
    for e, forward in face.walk:
        q = e.path.flat(0.5)[0]
        q = q[:-1] if forward else q[:0:-1]
        pts.extend(q)
        owner.extend([e] * len(q))
    n, near = len(pts), Near(2.5)
    for i, p in enumerate(pts):
        near.put([p], i)
    cross = [0.0]
    for p, q in zip(pts, pts[1:] + pts[:1]):
        cross.append(cross[-1] + (p.real * q.imag - q.real * p.imag) / 2)
    for i, p in enumerate(pts):
        for q, j in near.within(p, least):
            if j <= i + 8 or i + n - j <= 8:
                continue
            part = cross[j] - cross[i] + (q.real * p.imag - p.real * q.imag) / 2
            middle = (p + q) / 2
            if min(part, face.area - part) > wide and _round(pts[i:j + 1]) > 0.2 and _round(pts[j:] + pts[:i + 1]) > 0.2:
                if part > 0 and _winds(pts, middle):
                    yield owner[i], owner[j]


def _round(pts):
    """4 pi area / perimeter squared of a closed run of points."""
    pairs = list(zip(pts, pts[1:] + pts[:1]))
    around = sum(abs(q - p) for p, q in pairs)
    return 4 * math.pi * abs(sum(p.real * q.imag - q.real * p.imag for p, q in pairs) / 2) / around ** 2 if around else 0


def _winds(pts, z):
    """Whether z lies inside the closed run of points."""
    inside = False
    for p, q in zip(pts, pts[1:] + pts[:1]):
        if (p.imag > z.imag) != (q.imag > z.imag) and z.real < p.real + (q.real - p.real) * (z.imag - p.imag) / (q.imag - p.imag):
            inside = not inside
    return inside


def _even(path, at, length):
    """Whether the path runs straight enough around `at` for a knob of that length to stand on it."""
    p, q = (path.at_length(at + k * length / 2) for k in (-1.25, 1.25))
    a, b = path.point(p), path.point(q)
    v = (b - a) / max(abs(b - a), 1e-9)
    turn = min((path.tangent(p) * v.conjugate()).real, (path.tangent(q) * v.conjugate()).real)
    return abs(b - a) > 1.25 * length * 0.96 and turn > 0.86


def _cross(a, b, c, d):
    """Where segment ab meets cd, as shares of both; an end within 0.03 mm of the other line counts."""
    r, s = b - a, d - c
    den = r.real * s.imag - r.imag * s.real
    la, lc = abs(r), abs(s)
    if abs(den) < 1e-12 or la < 1e-9 or lc < 1e-9:
        return None
    w = c - a
    t = (w.real * s.imag - w.imag * s.real) / den
    u = (w.real * r.imag - w.imag * r.real) / den
    et, eu = 0.03 / la, 0.03 / lc
    return (t, u) if -et <= t <= 1 + et and -eu <= u <= 1 + eu else None
