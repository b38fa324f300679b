"""The side of GEOS in tests/geos.rs: `unary_union` and `polygonize` of the very same lines, and buffers of the same faces.

    python3 check.py draw COUNT SEED     random drawings, one line of JSON each
    python3 check.py compare             reads what the program made of lines, one line of JSON each; prints what differs
    python3 check.py time FILE FACES     seconds that GEOS takes for the lines of a file, the best of three
    python3 check.py run BIN SHOP        seconds, processor seconds and MB of `BIN measure SHOP --json`, the best of five

Needs shapely and numpy. Exit status 1 if anything differs.
"""

import json
import math
import random
import resource
import subprocess
import sys
import time

import shapely
from shapely.geometry import LineString, Polygon
from shapely.ops import polygonize, unary_union


def a_random_drawing(rng):
    kind, lines = rng.randrange(7), []
    far = rng.choice([0, 0, 0, 1e4, 1e6])
    scale = 1 if far else rng.choice([1, 1, 1, 1e-3])

    def at(x, y):
        return (far + x * scale, far * 0.7 + y * scale)

    if kind == 0:
        for _ in range(rng.randint(2, 120)):
            lines.append(([at(rng.uniform(0, 100), rng.uniform(0, 100)) for _ in range(2)], False))
    elif kind == 1:
        for _ in range(rng.randint(1, 12)):
            lines.append(([at(rng.uniform(0, 100), rng.uniform(0, 100)) for _ in range(rng.randint(3, 40))], rng.random() < 0.5))
    elif kind == 2:  # whole coordinates: touches, overlaps, many lines through one point
        far, scale = round(far), 1
        for _ in range(rng.randint(2, 60)):
            n = rng.randint(2, 6)
            lines.append(([at(rng.randint(0, 8), rng.randint(0, 8)) for _ in range(n)], rng.random() < 0.3 and n > 2))
    elif kind == 3:  # circles
        for _ in range(rng.randint(2, 40)):
            x, y, r, n = rng.uniform(0, 100), rng.uniform(0, 100), rng.uniform(1, 40), rng.randint(8, 200)
            turns = [2 * math.pi * i / n for i in range(n)]
            lines.append(([at(x + r * math.cos(t), y + r * math.sin(t)) for t in turns], True))
    elif kind == 4:  # waves that cross waves
        for i in range(rng.randint(2, 12)):
            a, p, n, y = rng.uniform(0, 6), rng.uniform(0, 9), rng.randint(20, 300), rng.uniform(0, 100)
            wave = [(100 * k / n, y + a * math.sin(p + k * 12 / n)) for k in range(n + 1)]
            lines.append(([at(*(q if i % 2 else q[::-1])) for q in wave], False))
    elif kind == 5:  # near-parallel fans
        for _ in range(rng.randint(3, 30)):
            lines.append(([at(0, 50 + rng.uniform(-1, 1)), at(100, 50 + rng.uniform(-1, 1))], False))
    else:  # scribble
        x, y, line = 50, 50, []
        for _ in range(rng.randint(50, 1500)):
            x, y = x + rng.uniform(-4, 4), y + rng.uniform(-4, 4)
            line.append(at(x, y))
        lines.append((line, rng.random() < 0.5))
    keep = []
    for points, closed in lines:
        points = [p for i, p in enumerate(points) if i == 0 or p != points[i - 1]]
        if closed and len(points) > 1 and points[0] == points[-1]:
            points.pop()
        if len(points) > 2 or (len(points) == 2 and not closed):
            keep.append({"points": points, "closed": closed})
    return {"lines": keep, "size": 100 * scale} if keep else a_random_drawing(rng)


def differs(made):
    """What differs between the program's figures of some lines and those of GEOS."""
    rings = [line["points"] + line["points"][:1] if line["closed"] else line["points"] for line in made["lines"]]
    union = unary_union([LineString(points) for points in rings])
    faces = sorted(f.area for f in polygonize(union))
    size = max(abs(c) for points in rings for p in points for c in p)
    # Areas below this are rounding: its width over the whole drawing's length.
    dust = 1e-11 * size * union.length + 1e-300
    mine = [a for a in made["areas"] if a > dust]
    theirs = [a for a in faces if a > dust]
    wrong = []
    if len(mine) != len(theirs):
        wrong.append(f"{len(mine)} faces, GEOS {len(theirs)}")
    elif any(abs(a - b) > 1e-6 * b + dust for a, b in zip(mine, theirs)):
        worst = max(zip(mine, theirs), key=lambda p: abs(p[0] - p[1]))
        wrong.append(f"an area of {worst[0]!r}, GEOS {worst[1]!r}")
    if abs(made["length"] - union.length) > 1e-8 * union.length + 1e-9 * size:
        wrong.append(f"length {made['length']!r}, GEOS {union.length!r}")
    if not made["euler"]:
        wrong.append("nodes, chains, faces and parts do not add up")
    for inset in made["insets"]:
        face = Polygon(inset["outer"], inset["holes"])
        if not face.is_valid:
            face = shapely.make_valid(face)
        left = face.buffer(-inset["by"], quad_segs=64)
        # Round corners in steps of 0.07 radians: a chord is 0.0006 of its radius from the round. Where little is left, that counts.
        rounds = 2 * 0.07**2 / 8 * inset["by"] * (face.length + 2 * math.pi * inset["by"])
        if abs(left.area - inset["area"]) > 1e-4 * left.area + rounds + 1e-9 * face.length:
            # A buffer inwards sometimes loses what little is left of a slim face, whose largest inscribed circle is wider yet;
            # taking away what is near each of its edges does not.
            rings = [inset["outer"], *inset["holes"]]
            edges = [LineString(edge) for ring in rings for edge in zip(ring, ring[1:] + ring[:1]) if edge[0] != edge[1]]
            left = face.difference(unary_union([edge.buffer(inset["by"], quad_segs=64) for edge in edges]))
        if abs(left.area - inset["area"]) > 1e-4 * left.area + rounds + 1e-9 * face.length:
            wrong.append(f"{inset['area']!r} mm² left of {face.area!r} less {inset['by']}, GEOS {left.area!r}, near {face.centroid}")
    return wrong


def timed(file, faces):
    with open(file, encoding="utf-8") as f:
        lines = json.load(f)
    strings = [LineString(line["points"] + line["points"][:1] if line["closed"] else line["points"]) for line in lines]
    best = math.inf
    for _ in range(3):
        start = time.thread_time()
        found = len(list(polygonize(unary_union(strings))))
        best = min(best, time.thread_time() - start)
    if found != faces:
        sys.exit(f"GEOS finds {found} faces, not {faces}")
    return best


def measured(binary, shop):
    wall = cpu = math.inf
    for _ in range(5):
        before, start = resource.getrusage(resource.RUSAGE_CHILDREN), time.monotonic()
        done = subprocess.run([binary, "measure", shop, "--json"], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        wall = min(wall, time.monotonic() - start)
        cpu = min(cpu, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
        json.loads(done.stdout)["designs"][0]["pieces"]
    return f"{wall:.3f}, {cpu:.3f}, {after.ru_maxrss / 1024:.0f}"


def main():
    if sys.argv[1] == "time":
        print(timed(sys.argv[2], int(sys.argv[3])))
        return 0
    if sys.argv[1] == "run":
        print(measured(sys.argv[2], sys.argv[3]))
        return 0
    if sys.argv[1] == "draw":
        rng = random.Random(int(sys.argv[3]))
        for _ in range(int(sys.argv[2])):
            print(json.dumps(a_random_drawing(rng)))
        return 0
    bad = 0
    for row in sys.stdin:
        made = json.loads(row)
        for what in differs(made):
            bad = 1
            print(f"{made['name']}: {what}")
    return bad


if __name__ == "__main__":
    sys.exit(main())
