"""The side of GEOS in tests/views.rs: paint cells as differences of the drawing's fills.

Reads one line of JSON for each design: `fills` (rings, even_odd, colour) in painting order, `pieces` (outer, holes), `cells` (colour, area) as the
program has them. What is visible of a fill is the fill less every later one, clipped to the pieces; parts of one colour that share a stretch are
one cell. Both sides work on the same grid, a millionth of a millimetre, where lines that only nearly meet do. Prints what differs by more than a hundredth of a square millimetre; exit status 1 then. Needs shapely.
"""

import collections
import json
import sys

import shapely
from shapely.geometry import Polygon
from shapely.ops import unary_union

DUST_MM2 = 0.01
CLOSE_MM2 = 0.01
GRID_MM = 2.0**-20


def filled(rings, even_odd):
    """What rings fill: faces of their arrangement by winding, or by parity."""
    lines = unary_union([shapely.LinearRing(r) for r in rings if len(r) > 2])
    inside = []
    for face in shapely.polygonize([lines]).geoms:
        p = face.representative_point()
        turns = sum(winding(p.x, p.y, ring) for ring in rings)
        if (turns % 2 if even_odd else turns) != 0:
            inside.append(face)
    return unary_union(inside)


def winding(x, y, ring):
    turns = 0
    for (ax, ay), (bx, by) in zip(ring, ring[1:] + ring[:1]):
        side = (bx - ax) * (y - ay) - (x - ax) * (by - ay)
        if ay <= y < by and side > 0:
            turns += 1
        elif by <= y < ay and side < 0:
            turns -= 1
    return turns


def parts(shape):
    return [g for g in getattr(shape, "geoms", [shape]) if g.geom_type == "Polygon" and g.area >= DUST_MM2]


def main():
    faults = []
    for row in sys.stdin:
        design = json.loads(row)
        board = unary_union([Polygon(p["outer"], p["holes"]) for p in design["pieces"]])
        shapes = [(filled(f["rings"], f["even_odd"]), f["colour"]) for f in design["fills"]]
        seen = collections.defaultdict(list)
        covered = Polygon()
        for shape, colour in reversed(shapes):
            seen[colour].append(shape.difference(covered).intersection(board))
            covered = covered.union(shape)
        theirs = {c: sorted(g.area for s in [shapely.union_all(all_, grid_size=GRID_MM)] for g in parts(s)) for c, all_ in seen.items()}
        ours = collections.defaultdict(list)
        for cell in design["cells"]:
            ours[cell["colour"]].append(cell["area"])
        for colour in sorted(set(theirs) | set(ours)):
            a, b = sorted(ours[colour]), theirs.get(colour, [])
            # A sliver on the very limit of dust may be on either side of it.
            a, b = ([v for v in areas if v > 2 * DUST_MM2] for areas in (a, b))
            if len(a) != len(b):
                faults.append(f"{design['name']} {colour}: {len(a)} cells, GEOS has {len(b)}")
            faults += [f"{design['name']} {colour}: {v:.4f}, GEOS {w:.4f} mm2" for v, w in zip(a, b) if abs(v - w) > CLOSE_MM2]
        print(f"{design['name']}: {len(design['cells'])} cells, {sum(map(len, theirs.values()))} of GEOS")
    print("\n".join(faults))
    sys.exit(1 if faults else 0)


main()
