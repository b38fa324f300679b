"""Checks a drawn design with a general geometry library, and makes a preview; not needed to draw.

    python demo-drawings/check.py SLUG [preview.png]      (needs shapely)

Reads the paths that draw.py wrote (M, L, C, Z only), joins ends within 0.1 mm, and tells pieces, edge pieces,
areas, narrow necks (inset by half the kerf, then by 1 mm), loose ends, edge joints that slide, paint cells.
"""

import math
import pathlib
import re
import subprocess
import sys
import tomllib
import xml.etree.ElementTree as ET

from shapely import affinity
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import polygonize, snap, unary_union
from shapely.strtree import STRtree

HERE = pathlib.Path(__file__).resolve().parent
ROOT = []
SVG = "{http://www.w3.org/2000/svg}"


def transform(text):
    """An affine (a, b, d, e, x, y) in shapely's order."""
    m = (1, 0, 0, 1, 0, 0)
    for name, args in re.findall(r"(\w+)\(([^)]*)\)", text or ""):
        v = [float(x) for x in re.split(r"[ ,]+", args.strip())]
        if name == "translate":
            n = (1, 0, 0, 1, v[0], v[1] if len(v) > 1 else 0)
        elif name == "scale":
            n = (v[0], 0, 0, v[-1], 0, 0)
        else:
            a, (x, y) = math.radians(v[0]), v[1:] or (0, 0)
            n = (math.cos(a), math.sin(a), -math.sin(a), math.cos(a), x - x * math.cos(a) + y * math.sin(a), y - x * math.sin(a) - y * math.cos(a))
        m = (m[0] * n[0] + m[2] * n[1], m[1] * n[0] + m[3] * n[1], m[0] * n[2] + m[2] * n[3], m[1] * n[2] + m[3] * n[3],
             m[0] * n[4] + m[2] * n[5] + m[4], m[1] * n[4] + m[3] * n[5] + m[5])
    return m


def after(m, n):
    return (m[0] * n[0] + m[2] * n[1], m[1] * n[0] + m[3] * n[1], m[0] * n[2] + m[2] * n[3], m[1] * n[2] + m[3] * n[3],
            m[0] * n[4] + m[2] * n[5] + m[4], m[1] * n[4] + m[3] * n[5] + m[5])


def read_path(d, m):
    nums, pts, cur, lines = re.findall(r"[MLCZ]|-?[\d.]+(?:e-?\d+)?", d), [], None, []
    i, cmd = 0, None
    at = lambda k: complex(float(nums[k]), float(nums[k + 1]))
    while i < len(nums):
        if nums[i] in "MLCZ":
            cmd = nums[i]
            i += 1
            if cmd == "Z":
                if abs(pts[0] - pts[-1]) > 1e-9:
                    pts.append(pts[0])
                continue
        if cmd == "M":
            pts = [at(i)]
            lines.append(pts)
            i, cmd = i + 2, "L"
        elif cmd == "L":
            pts.append(at(i))
            i += 2
        else:
            a, b, c, e = pts[-1], at(i), at(i + 2), at(i + 4)
            for k in range(1, 25):
                t = k / 24
                s = 1 - t
                pts.append(s * s * s * a + 3 * s * s * t * b + 3 * s * t * t * c + t * t * t * e)
            i += 6
    f = lambda z: (m[0] * z.real + m[2] * z.imag + m[4], m[1] * z.real + m[3] * z.imag + m[5])
    return [[f(z) for z in p] for p in lines]


def walk(el, m, fill, name, out):
    if "display:none" in el.get("style", ""):
        return
    m = after(m, transform(el.get("transform")))
    fill = el.get("fill", fill)
    own = [v for k, v in el.attrib.items() if k == "id" or k.endswith("}label")]
    name = own + (name or [])
    if el.tag == SVG + "path":
        for p in read_path(el.get("d"), m):
            for n in name or [None]:
                out.setdefault(n, []).append((p, fill))
    elif el.tag == SVG + "use":
        walk(ROOT[0].find(f".//*[@id='{el.get('href')[1:]}']"), m, fill, name, out)
    elif el.tag == SVG + "circle":
        x, y = float(el.get("cx")), float(el.get("cy"))
        for n in name or [None]:
            out.setdefault(n, []).append(((m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]), fill))
    for child in el:
        walk(child, m, fill, name, out)


def layers(slug):
    folder = HERE.parent / "demo-shop" / "designs" / slug
    root = ET.parse(folder / "drawing.svg").getroot()
    ROOT[:] = [root]
    unit = {"mm": 1.0, "cm": 10.0, "in": 25.4, "px": 25.4 / 96}
    size = re.match(r"([\d.]+)(\w*)", root.get("width"))
    width = float(size[1]) * unit[size[2] or "px"]
    box = [float(v) for v in root.get("viewBox").split()]
    k, out = width / box[2], {}
    walk(root, (k, 0, 0, k, 0, 0), None, None, out)
    record = tomllib.loads((folder / "record.toml").read_text()) if (folder / "record.toml").exists() else {}
    return out, record, (width, box[3] * k)


def named(record, key, default, found):
    v = record.get("drawing", {}).get("layers", {}).get(key, default)
    v = v if isinstance(v, list) else [v]
    return [x for s in v for x in found.get(s if isinstance(s, str) else s.get("id", s.get("label")), [])]


def joined(strokes):
    """Ends moved onto the nearest other line within 0.1 mm; the arrangement as shapely lines."""
    ls = [LineString(p) for p in strokes]
    tree, out, loose = STRtree(ls), [], []
    for i, l in enumerate(ls):
        pts = list(l.coords)
        if Point(pts[0]).distance(Point(pts[-1])) < 0.1:
            pts[-1] = pts[0]
            out.append(LineString(pts))
            continue
        for end in (0, -1):
            p = Point(pts[end])
            near = sorted((ls[j].distance(p), int(j)) for j in tree.query(p.buffer(0.11)) if j != i)
            near = [n for n in near if n[0] <= 0.1]
            if not near:
                loose.append(pts[end])
                continue
            q = ls[near[0][1]].interpolate(ls[near[0][1]].project(p))
            v = (q.x - pts[end][0], q.y - pts[end][1])
            n = math.hypot(*v) or 1.0
            before = pts[1] if end == 0 else pts[-2]
            w = (pts[end][0] - before[0], pts[end][1] - before[1])
            m = math.hypot(*w) or 1.0
            over = (q.x + 0.02 * w[0] / m, q.y + 0.02 * w[1] / m)
            pts = [over] + pts if end == 0 else pts + [over]
        out.append(LineString(pts))
    return out, loose


def slides(a, b):
    """Whether two pieces, inset, can be drawn apart along some line of 36."""
    a, b = a.buffer(-0.15), b.buffer(-0.15)
    if a.geom_type != "Polygon" or b.geom_type != "Polygon":
        return True
    for k in range(72):
        d = math.radians(5 * k)
        if all(not a.intersects(affinity.translate(b, s * math.cos(d), s * math.sin(d))) for s in (0.4, 1, 1.8, 2.6, 3.6, 5, 7, 10, 15, 22)):
            return True
    return False


def check(slug, preview=None):
    found, record, size = layers(slug)
    cut = [p for p, _ in named(record, "cut", "cuts", found)]
    novelty = [p for p, _ in named(record, "novelty", "figures", found)]
    holes = [Polygon(p) for p, _ in named(record, "void", "holes", found)]
    lines, loose = joined(cut + novelty + [list(h.exterior.coords) for h in holes])
    whole = unary_union(lines)
    pieces = [p for p in polygonize(whole) if p.area > 0.5 and not any(h.contains(p.representative_point()) for h in holes)]
    board = unary_union([p.buffer(0.001) for p in pieces])
    ring = unary_union([Polygon(b.exterior) for b in getattr(board, "geoms", [board])]).boundary
    edge = [p.boundary.intersection(ring.buffer(0.02)).length > 0.5 for p in pieces]
    net = sorted(p.buffer(-0.1).area for p in pieces)
    print(f"{slug}: {len(pieces)} pieces, {sum(edge)} edge, net {net[0]:.0f} / {net[len(net) // 2]:.0f} / {net[-1]:.0f} mm2, "
          f"{len(novelty)} novelty shapes, {sum(any(Polygon(n).buffer(.05).contains(p) for n in novelty) for p in pieces)} novelty pieces")
    for x, y in loose:
        print(f"  loose end at {x:.1f} {y:.1f}")
    for p in pieces:
        inner = p.buffer(-0.1)
        parts = [g for g in getattr(inner.buffer(-1.0), "geoms", [inner.buffer(-1.0)]) if g.area > 1]
        if len(parts) > 1 or inner.geom_type != "Polygon":
            small = min(parts, key=lambda g: g.area).centroid if parts else p.centroid
            print(f"  narrow neck near {small.x:.1f} {small.y:.1f} (parts {', '.join(f'{g.area:.0f}' for g in parts)})")
        if not 50 <= inner.area <= 4000:
            print(f"  area {inner.area:.0f} at {p.centroid.x:.1f} {p.centroid.y:.1f}")
    tree = STRtree(pieces)
    count = 0
    for i, p in enumerate(pieces):
        for j in tree.query(p):
            if j > i and edge[i] and edge[j] and p.buffer(.02).intersection(pieces[j].boundary).length > 0.3:
                count += 1
                if slides(p, pieces[j]):
                    c = p.buffer(.02).intersection(pieces[j].boundary).centroid
                    print(f"  slides apart at {c.x:.1f} {c.y:.1f}")
    print(f"  {count} edge joints")
    cells(record, found, board, holes)
    if preview:
        picture(slug, found, record, size, preview)


def cells(record, found, board, holes):
    shapes = named(record, "colour", "colours", found)
    names = {p["colour"]: p for p in record.get("paint", [])}
    face = unary_union([board]).buffer(-0.001)
    if shapes:
        top, out = None, []
        for pts, fill in reversed(shapes):
            g = Polygon(pts).buffer(0)
            out.append((g if top is None else g.difference(top), fill))
            top = g if top is None else top.union(g)
        by = {}
        for g, fill in out:
            by.setdefault(fill, []).append(g)
        bare = face.difference(top.buffer(0.01))
        if bare.area > 0.5:
            print(f"  {bare.area:.0f} mm2 of the board without colour")
        total = 0
        for fill, gs in sorted(by.items()):
            g = unary_union([x.buffer(0.002) for x in gs]).intersection(face)
            parts = [x for x in getattr(g, "geoms", [g]) if x.area > 0.02]
            total += len(parts)
            tiny = [x for x in parts if x.area < 12 or x.buffer(-0.75).is_empty]
            note = "" if fill in names or not names else "  NOT A PAINT"
            print(f"    {fill} {names.get(fill, {}).get('name', '')}: {len(parts)} cells, {sum(x.area for x in parts):.0f} mm2{note}")
            for x in tiny:
                c = x.representative_point()
                print(f"      small cell {x.area:.1f} mm2 at {c.x:.1f} {c.y:.1f}")
        print(f"  {total} cells of {len(by)} colours")
    marks = named(record, "marks", "marks", found)
    if marks:
        lines, _ = joined([p for p, _ in named(record, "score", "score", found)] + [list(x.exterior.coords) for x in getattr(face, "geoms", [face])])
        lines += [LineString(h.exterior.coords) for h in holes]
        faces = [f for f in polygonize(unary_union(lines)) if f.area > 0.01 and face.buffer(.1).contains(f.representative_point())]
        used = {}
        for f in faces:
            fills = {fill for p, fill in marks if f.contains(Point(p))}
            used[next(iter(fills), None)] = used.get(next(iter(fills), None), 0) + 1
            if len(fills) != 1 or f.area < 12:
                c = f.representative_point()
                print(f"  mark cell at {c.x:.1f} {c.y:.1f}: {f.area:.1f} mm2, fills {sorted(fills)}")
        print(f"  {len(faces)} mark cells: {used}")


def picture(slug, found, record, size, preview):
    w, h = size
    cut = [p for p, _ in named(record, "cut", "cuts", found)]
    rim = max((p for p in cut if p[0] == p[-1]), key=lambda p: Polygon(p).area)
    out = [f'<svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}">']
    path = lambda p: "M" + " L".join(f"{x:.2f} {y:.2f}" for x, y in p)
    out.append(f'<clipPath id="rim"><path d="{path(rim)}Z"/></clipPath><g clip-path="url(#rim)">')
    for p, fill in named(record, "colour", "colours", found):
        out.append(f'<path d="{path(p)}Z" fill="{fill}"/>')
    out.append("</g>")
    for p, _ in named(record, "score", "score", found):
        out.append(f'<path d="{path(p)}" fill="none" stroke="#6b4a2a" stroke-width=".25"/>')
    for key, default in (("cut", "cuts"), ("novelty", "figures"), ("void", "holes")):
        for p, _ in named(record, key, default, found):
            out.append(f'<path d="{path(p)}" fill="none" stroke="#111" stroke-width=".4"/>')
    marks = named(record, "marks", "marks", found)
    if marks:
        lines = [LineString(p) for p, _ in named(record, "score", "score", found)] + [LineString(rim)]
        fills = []
        for f in polygonize(unary_union(lines)):
            fill = next((c for p, c in marks if f.contains(Point(p))), None)
            d = " ".join(path(r.coords) + "Z" for r in [f.exterior, *f.interiors])
            fills.append(f'<path d="{d}" fill="{fill or "red"}" fill-rule="evenodd"/>')
        out[2:2] = fills
    for p, fill in marks:
        out.append(f'<circle cx="{p[0]}" cy="{p[1]}" r="1.5" fill="{fill}"/>')
    svg = pathlib.Path(preview).with_suffix(".svg")
    svg.write_text("\n".join(out + ["</svg>"]))
    subprocess.run(["rsvg-convert", "-b", "white", "-w", "1500", str(svg), "-o", preview], check=True)


if __name__ == "__main__":
    check(*sys.argv[1:])
