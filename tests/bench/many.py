#!/usr/bin/env python3
"""Make a shop of many designs from the demo shop.

    python3 tests/bench/many.py DEMO INTO COUNT [FROM]

Designs are numbered from FROM (0). Each is one of the demo's smaller ones under a name, a date and a size of its own, so that no two are
alike to any cache. They are 32 mm wide, so that pictures are small and a thousand can be drawn in minutes.
"""
import pathlib
import re
import shutil
import sys

KINDS = ["kite-over-the-flats", "star-chart", "eel-ring", "winter-roofs", "lamp-room"]


def design(demo, into, number):
    kind = KINDS[number % len(KINDS)]
    folder = into / "designs" / f"{kind}-{number:04}"
    folder.mkdir(parents=True, exist_ok=True)
    source = demo / "designs" / kind
    for file in source.glob("*.*"):
        shutil.copyfile(file, folder / file.name)
    record = (source / "record.toml").read_text(encoding="utf-8")
    record = re.sub(r'^(title\s*=\s*"[^"]*)"', rf'\1 {number}"', record, count=1, flags=re.M)
    record = re.sub(r"^added\s*=.*$", f"added = {2001 + number // 336}-{1 + number // 28 % 12:02}-{1 + number % 28:02}", record, flags=re.M)
    record = re.sub(r'^(code\s*=\s*"[^"]*)"', rf'\1-{number}"', record, flags=re.M)
    record = re.sub(r'^(neck|join|width)\s*=.*$', "", record, flags=re.M)
    record = record.replace("[drawing.layers]", f'[drawing]\njoin = "0.02 mm"\nwidth = "{32 + number / 1000:.3f} mm"\n\n[drawing.layers]', 1)
    # Guides are set for every tenth alone: a second each would hide all else.
    if number % 10:
        record = re.sub(r'^\[\[offer\]\]\s*\nform\s*=\s*"blank".*?(?=^\[|\Z)', "", record, flags=re.M | re.S)
    (folder / "record.toml").write_text(record, encoding="utf-8")


def main():
    demo, into, count = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2]), int(sys.argv[3])
    first = int((sys.argv[4:] or [0])[0])
    into.mkdir(parents=True, exist_ok=True)
    if not (into / "shop.toml").exists():
        text = (demo / "shop.toml").read_text(encoding="utf-8")
        # One language and paper: the question is how the work grows with designs.
        text = re.sub(r"^languages\s*=.*$", 'languages = ["en"]', text, flags=re.M)
        text = re.sub(r"^paper\s*=.*$", 'paper = ["a4"]', text, flags=re.M)
        (into / "shop.toml").write_text(text, encoding="utf-8")
        shutil.copytree(demo / "pages", into / "pages")
        for file in demo.glob("*.svg"):
            shutil.copyfile(file, into / file.name)
    for number in range(first, first + count):
        design(demo, into, number)


if __name__ == "__main__":
    main()
