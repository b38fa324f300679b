#!/usr/bin/env python3
"""Turn a TopoJSON file into a drawing: every arc one path in a group `cuts`.

    python3 to_svg.py FILE.json [-o OUT.svg] [--scale MM] [--margin MM] [--flip-y] [--object NAME]

FILE.json   for instance states-albers-10m.json of the npm package us-atlas
--scale     millimetres per map unit (a pixel in the albers files, a degree in world-atlas); default 1
--margin    empty border round the drawing in millimetres; default 5
--flip-y    for files with latitude upwards (world-atlas)
--object    only the arcs that this object of the file uses; default: all arcs

Standard library only. Reads the named file, writes one SVG; the counts go to the error stream.
"""

import argparse
import json
import sys


def decode(topology):
    """Arcs as lists of (x, y) map units; delta-coded and scaled where the file has a transform."""
    transform = topology.get("transform")
    for arc in topology["arcs"]:
        if transform is None:
            yield [(float(p[0]), float(p[1])) for p in arc]
            continue
        (kx, ky), (dx, dy) = transform["scale"], transform["translate"]
        x = y = 0
        line = []
        for step in arc:
            x += step[0]
            y += step[1]
            line.append((x * kx + dx, y * ky + dy))
        yield line


def used_arcs(geometry):
    """Index numbers of the arcs that a geometry uses (~i means arc i backwards)."""
    if geometry.get("type") == "GeometryCollection":
        for part in geometry["geometries"]:
            yield from used_arcs(part)
        return
    stack = [geometry.get("arcs", [])]
    while stack:
        item = stack.pop()
        if isinstance(item, int):
            yield item if item >= 0 else ~item
        else:
            stack.extend(item)


def number(value):
    text = f"{value:.9f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def main(argv=None):
    ask = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    ask.add_argument("file")
    ask.add_argument("-o", "--out")
    ask.add_argument("--scale", type=float, default=1.0)
    ask.add_argument("--margin", type=float, default=5.0)
    ask.add_argument("--flip-y", action="store_true")
    ask.add_argument("--object")
    args = ask.parse_args(argv)

    with open(args.file, encoding="utf-8") as handle:
        topology = json.load(handle)
    lines = list(decode(topology))
    if args.object is not None:
        keep = set(used_arcs(topology["objects"][args.object]))
        lines = [line for i, line in enumerate(lines) if i in keep]

    drawn = [line for line in lines if len(set(line)) > 1]
    sign = -1.0 if args.flip_y else 1.0
    xs = [x for line in drawn for x, _ in line]
    ys = [sign * y for line in drawn for _, y in line]
    left, top = min(xs), min(ys)
    width = (max(xs) - left) * args.scale + 2 * args.margin
    height = (max(ys) - top) * args.scale + 2 * args.margin

    out = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{number(width)}mm" height="{number(height)}mm" '
        f'viewBox="0 0 {number(width)} {number(height)}">',
        '<g id="cuts" fill="none" stroke="#000" stroke-width="0.1">',
    ]
    for line in drawn:
        # Each point is computed the same way in every arc, so shared ends get the same digits.
        points = " ".join(
            number((x - left) * args.scale + args.margin)
            + ","
            + number((sign * y - top) * args.scale + args.margin)
            for x, y in line
        )
        out.append(f'<path d="M{points}"/>')
    out += ["</g>", "</svg>", ""]
    text = "\n".join(out)

    if args.out:
        with open(args.out, "w", encoding="utf-8") as handle:
            handle.write(text)
    else:
        sys.stdout.write(text)
    print(
        f"{len(lines)} arcs, {len(drawn)} drawn, {len(lines) - len(drawn)} of one point left out, "
        f"{number(width)} x {number(height)} mm",
        file=sys.stderr,
    )


if __name__ == "__main__":
    main()
