#!/usr/bin/env python3
"""Measure three maps and compare with counts, lengths and areas found by other means.

    python3 check.py BIN WORKDIR

WORKDIR keeps the map files between runs. Exit status 0 only if every figure holds; 3 if the files cannot be had.
Sources and methods: README.md beside this file.
"""
import hashlib
import json
import os
import pathlib
import subprocess
import sys
import tarfile

HERE = pathlib.Path(__file__).parent
PACKAGES = ["us-atlas@3.0.1", "world-atlas@2.0.2"]
MAPS = {
    "states": {
        "file": "states-albers-10m.json", "flip": False, "join": "0.1 mm", "findings": {"stray-part": 142, "doubled-line": 1, "loose-end": 0},
        "sha256": "6e7bb086a3c791490361968a3094f377f7726c5d0c4900fec03cc42db2305a3d",
        "count": 197, "edge": 181, "interior": 16, "cut_mm": 31518.7396, "board_mm2": 1333342.9756, "box": (2029.3821, 1187.1861),
        "smallest_mm2": 0.258585 * 4, "median_mm2": 2.687629 * 4, "largest_mm2": 28678.4057 * 4,
    },
    "counties": {
        "file": "counties-albers-10m.json", "flip": False, "join": "0.004 mm", "findings": {"loose-end": 0},
        "sha256": "a674dfa31b625e92635f32684a61ae135b05a91507f17f2d5164833237fecf46",
        "count": 3306, "edge": 556, "interior": 2750, "cut_mm": 144578.9074, "board_mm2": 1333331.4546, "box": (2029.3821, 1187.1861),
        "smallest_mm2": 0.0117185 * 4, "median_mm2": 65.123079 * 4, "largest_mm2": 2169.1039 * 4,
    },
    "countries": {
        "file": "countries-110m.json", "flip": True, "join": "0.00002 mm", "findings": {"loose-end": 0},
        "sha256": "2516c915867c7baf18ddec727aec46c315541a07cfb3d79a6559b05d5e94eee8",
        "count": 427, "edge": 197, "interior": 230, "cut_mm": 18510.8044, "board_mm2": 102145.2155, "box": (720.0, 338.5083),
        "smallest_mm2": 5.43207e-06 * 4, "median_mm2": 6.907086 * 4, "largest_mm2": 5601.9894 * 4,
    },
}
RECORD = """title = "{name}"
status = "published"
[board]
wood = "birch-plywood"
thickness = "4 mm"
kerf = "0 mm"
[drawing]
join = "{join}"
[drawing.layers]
cut = "cuts"
"""
SHOP = 'name = "Maps"\ncurrency = "EUR"\norder = "mailto:maps@example.org"\n'


def fetch(folder):
    folder.mkdir(parents=True, exist_ok=True)
    for package in PACKAGES:
        done = subprocess.run(["npm", "pack", "--silent", package], cwd=folder, stdout=subprocess.PIPE, text=True)
        if done.returncode:
            sys.exit(3)
        with tarfile.open(folder / done.stdout.strip().splitlines()[-1]) as archive:
            for member in archive.getmembers():
                name = os.path.basename(member.name)
                if name in {m["file"] for m in MAPS.values()}:
                    (folder / name).write_bytes(archive.extractfile(member).read())


def near(got, want, share=1e-6):
    return abs(got - want) <= share * abs(want)


def main():
    binary, folder = sys.argv[1], pathlib.Path(sys.argv[2])
    if not all((folder / m["file"]).exists() for m in MAPS.values()):
        fetch(folder)
    shop = folder / "shop"
    shop.mkdir(exist_ok=True)
    (shop / "shop.toml").write_text(SHOP)
    for name, m in MAPS.items():
        raw = (folder / m["file"]).read_bytes()
        if hashlib.sha256(raw).hexdigest() != m["sha256"]:
            sys.exit(f"{m['file']} is not the file that the numbers belong to")
        design = shop / "designs" / name
        design.mkdir(parents=True, exist_ok=True)
        (design / "record.toml").write_text(RECORD.format(name=name, join=m["join"]))
        call = [sys.executable, str(HERE / "to_svg.py"), str(folder / m["file"]), "-o", str(design / "drawing.svg"), "--scale", "2"]
        subprocess.run(call + (["--flip-y"] if m["flip"] else []), check=True, stderr=subprocess.DEVNULL)
    done = subprocess.run([binary, "measure", str(shop), "--json"], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
    by = {d["slug"]: d for d in json.loads(done.stdout)["designs"]}
    wrong = []
    for name, m in MAPS.items():
        d = by[name]
        if "pieces" not in d:
            wrong.append(f"{name}: {d['error']}")
            continue
        p = d["pieces"]
        rows = [(k, p[k], m[k], p[k] == m[k]) for k in ("count", "edge", "interior")]
        rows += [("cut_mm", d["lines"]["cut_mm"], m["cut_mm"], near(d["lines"]["cut_mm"], m["cut_mm"]))]
        rows += [("board_mm2", p["board_mm2"], m["board_mm2"], near(p["board_mm2"], m["board_mm2"]))]
        rows += [(k, p[k], m[k], near(p[k], m[k], 1e-5)) for k in ("smallest_mm2", "median_mm2", "largest_mm2")]
        box = (d["size"]["width_mm"], d["size"]["height_mm"])
        rows += [("size", box, m["box"], all(near(g, w) for g, w in zip(box, m["box"])))]
        for kind, count in m["findings"].items():
            got = sum(f["kind"] == kind for f in d["findings"])
            rows += [(kind, got, count, got == count)]
        wrong += [f"{name}: {field}: got {got}, expected {want}" for field, got, want, holds in rows if not holds]
    print("\n".join(wrong) if wrong else f"{len(MAPS)} maps hold: pieces, edge, lengths, areas, findings")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
