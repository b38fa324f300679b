"""Arrangements held against GEOS: unary_union and polygonize of the very same lines.

    python3 arrangement.py random [COUNT] [SEED]     random drawings
    python3 arrangement.py maps FOLDER               the three open maps, as unpacked from their npm packages
    python3 arrangement.py speed                     knobbed boards of 1,000, 5,000 and 20,000 pieces

Needs shapely. Prints every drawing that differs; exit status 1 if any does. The program's side is the ignored test
`figures_of_given_lines` of tests/arrangement.rs.
"""

import json, math, os, random, subprocess, sys, tempfile, time
from pathlib import Path

import shapely
from shapely.geometry import LineString
from shapely.ops import polygonize, unary_union

ROOT = Path(__file__).resolve().parents[2]


def figures(files):
    run = subprocess.run(
        ["cargo", "test", "--release", "--no-default-features", "--test", "arrangement", "--", "--ignored", "--nocapture"],
        cwd=ROOT, env={**os.environ, "KERFLEAF_LINES": "\n".join(map(str, files))}, capture_output=True, text=True)
    out = [json.loads(line.split("FIGURES ", 1)[1]) for line in run.stdout.splitlines() if "FIGURES " in line]
    if len(out) != len(files):
        sys.exit(run.stdout[-3000:] + run.stderr[-3000:])
    return out


def write(folder, name, lines, join, **more):
    file = Path(folder) / f"{name}.json"
    file.write_text(json.dumps({"join": join, "lines": [
        {"closed": closed, "points": [c for p in points for c in p]} for points, closed in lines], **more}))
    return file


def geos(lines):
    strings = [LineString(points + points[:1] if closed else points) for points, closed in lines]
    start = time.thread_time()
    union = unary_union(strings)
    faces = list(polygonize(union))
    seconds = time.thread_time() - start
    return {"faces": len(faces), "areas": sorted(f.area for f in faces), "length": union.length, "seconds": seconds}


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
        far = round(far)
        for _ in range(rng.randint(2, 60)):
            n = rng.randint(2, 6)
            lines.append(([at(rng.randint(0, 8), rng.randint(0, 8)) for _ in range(n)], rng.random() < 0.3 and n > 2))
        scale = 1
    elif kind == 3:  # circles
        for _ in range(rng.randint(2, 40)):
            x, y, r, n = rng.uniform(0, 100), rng.uniform(0, 100), rng.uniform(1, 40), rng.randint(8, 200)
            lines.append(([at(x + r * math.cos(2 * math.pi * i / n), y + r * math.sin(2 * math.pi * i / n)) for i in range(n)], True))
    elif kind == 4:  # waves that cross waves
        for i in range(rng.randint(2, 12)):
            a, p, n = rng.uniform(0, 6), rng.uniform(0, 9), rng.randint(20, 300)
            y = rng.uniform(0, 100)
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
            keep.append((points, closed))
    return keep or a_random_drawing(rng)


def random_drawings(count, seed):
    rng = random.Random(seed)
    print("seed", seed)
    drawings = [a_random_drawing(rng) for _ in range(count)]
    wrong = 0
    with tempfile.TemporaryDirectory() as folder:
        files = [write(folder, f"{i:05}", d, 0.0) for i, d in enumerate(drawings)]
        mine = figures(files)
        for i, (drawing, got) in enumerate(zip(drawings, mine)):
            want = geos(drawing)
            size = max(abs(c) for points, _ in drawing for p in points for c in p)
            # Areas below this are rounding: the same width over the whole drawing's length.
            dust = 1e-11 * size * want["length"] + 1e-300
            a = [x for x in got["areas"] if x > dust]
            b = [x for x in want["areas"] if x > dust]
            same = len(a) == len(b) and all(abs(p - q) <= 1e-6 * q + dust for p, q in zip(a, b))
            same = same and abs(got["length"] - want["length"]) <= 1e-8 * want["length"] + 1e-9 * size and got["euler"]
            if not same:
                wrong += 1
                kept = Path(tempfile.gettempdir()) / f"kerfleaf-differs-{seed}-{i}.json"
                kept.write_text(files[i].read_text())
                print(i, "faces", got["faces"], want["faces"], "above dust", len(a), len(b), "length", got["length"], want["length"], "euler", got["euler"], kept)
    print(count - wrong, "of", count, "agree")
    return wrong


def maps(folder):
    sys.path.insert(0, folder)
    found = {p.name: p for p in Path(folder).rglob("*.json")}
    wrong = 0
    with tempfile.TemporaryDirectory() as tmp:
        for name, scale, join, counts in [
            ("states-albers-10m.json", 2, 0.1, (197, 181, 143)),
            ("counties-albers-10m.json", 2, 0.004, (3306, 556, 143)),
            ("countries-110m.json", 2, 0.00002, (427, 197, 97)),
        ]:
            topology = json.loads(found[name].read_text())
            (kx, ky), (dx, dy) = topology["transform"]["scale"], topology["transform"]["translate"]
            lines = []
            for arc in topology["arcs"]:
                x = y = 0
                points = []
                for step in arc:
                    x, y = x + step[0], y + step[1]
                    points.append((scale * (x * kx + dx), scale * (y * ky + dy)))
                if len(set(points)) > 1:
                    lines.append((points, False))
            got = figures([write(tmp, name, lines, join, repeat=5)])[0]
            mine = (got["faces"], got["edge"], got["parts"])
            print(name, mine, "expected", counts, "length", got["length"] / scale, "area", sum(got["areas"]) / scale**2,
                  "line parts", got["line_parts"], {k: got["findings"].count(k) for k in set(got["findings"])}, f"{got['seconds'] * 1e3:.2f} ms",
                  f"GEOS {geos(lines)['seconds'] * 1e3:.0f} ms")
            wrong += mine != counts
    return wrong


def knob(a, b, rng, n):
    """A knobbed joint from a to b, n points: a straight run, a waist, a round head."""
    (ax, ay), (bx, by) = a, b
    ux, uy = bx - ax, by - ay
    side = rng.choice([-1, 1])
    mid, head = rng.uniform(0.45, 0.55), rng.uniform(0.9, 1.1)
    ctrl = [(0, 0), (0.2, 0.03), (mid - 0.06, 0.06), (mid - 0.05, 0.0), (mid - 0.06, -0.02), (mid - 0.16, -0.22 * head), (mid, -0.25 * head),
            (mid, -0.25 * head), (mid + 0.16, -0.22 * head), (mid + 0.06, -0.02), (mid + 0.05, 0.0), (mid + 0.06, 0.06), (0.8, 0.03), (1, 0)]
    curves = [(ctrl[0], ctrl[1], ctrl[2], ctrl[3]), (ctrl[3], ctrl[4], ctrl[5], ctrl[6]), (ctrl[7], ctrl[8], ctrl[9], ctrl[10]), (ctrl[10], ctrl[11], ctrl[12], ctrl[13])]
    out = []
    per = n // 4
    for c in curves:
        for i in range(per):
            t = i / per
            s = 1 - t
            x = s**3 * c[0][0] + 3 * s * s * t * c[1][0] + 3 * s * t * t * c[2][0] + t**3 * c[3][0]
            y = side * (s**3 * c[0][1] + 3 * s * s * t * c[1][1] + 3 * s * t * t * c[2][1] + t**3 * c[3][1])
            out.append((ax + ux * x - uy * y, ay + uy * x + ux * y))
    out.append(b)
    return out


def knobbed(columns, rows, rng, n=80, apart=False):
    step = 20.0
    def node(i, j):
        loose = 0 < i < columns and 0 < j < rows
        return (i * step + (rng.uniform(-2, 2) if loose else 0), j * step + (rng.uniform(-2, 2) if loose else 0))
    grid = [[node(i, j) for j in range(rows + 1)] for i in range(columns + 1)]
    lines = [([grid[0][0], grid[columns][0], grid[columns][rows], grid[0][rows]], True)]
    for j in range(1, rows):
        row = [knob(grid[i][j], grid[i + 1][j], rng, n) for i in range(columns)]
        lines += [(r, False) for r in row] if apart else [(row[0] + [p for r in row[1:] for p in r[1:]], False)]
    for i in range(1, columns):
        column = [knob(grid[i][j], grid[i][j + 1], rng, n) for j in range(rows)]
        lines += [(c, False) for c in column] if apart else [(column[0] + [p for c in column[1:] for p in c[1:]], False)]
    return lines


def speed():
    rng = random.Random(7)
    with tempfile.TemporaryDirectory() as tmp:
        for apart in (False, True):
            for columns, rows in [(40, 25), (100, 50), (200, 100)]:
                lines = knobbed(columns, rows, rng, apart=apart)
                points = sum(len(p) for p, _ in lines)
                got = figures([write(tmp, "board", lines, 0.1, repeat=7, kerf=False)])[0]
                want = geos(lines)
                print("one line a joint" if apart else "one line a row", columns * rows, "pieces", points, "points:", got["faces"], want["faces"],
                      f"{got['seconds'] * 1e3:.1f} ms, GEOS {want['seconds'] * 1e3:.0f} ms, {want['seconds'] / got['seconds']:.1f} times",
                      f"{got['seconds'] / points * 1e9:.0f} ns a point", "area", sum(got["areas"]), sum(want["areas"]))
    return 0


if __name__ == "__main__":
    what, *rest = sys.argv[1:] or ["random"]
    if what == "random":
        sys.exit(random_drawings(int(rest[0]) if rest else 300, int(rest[1]) if len(rest) > 1 else random.randrange(10**6)) > 0)
    sys.exit((maps(rest[0]) if what == "maps" else speed()) > 0)
