#!/usr/bin/env python3
"""Make a shop of many designs from the demo shop.

    python3 tests/bench/many.py DEMO INTO COUNT [FROM]

Designs are numbered from FROM (0). Each is the demo's smallest under a name, a date and a size of its own, so that no two are
alike to any cache. They are a centimetre wide, so that pictures are small and a thousand can be drawn in minutes.
"""
import pathlib
import re
import shutil
import sys

# The one of fewest pieces, which is measured and drawn quickly.
KIND = "kite-over-the-flats"

# One language and paper: the question is how the work grows with designs.
OTHER_WORDS = re.compile(r"^\[\[?in\..*?(?=^\[(?!\[?in\.)|\Z)", re.M | re.S)
OTHER_LANGUAGE = re.compile(r"\.[a-z]{2,3}(-\w+)?\.md$")


def design(demo, into, number):
    folder = into / "designs" / f"{KIND}-{number:04}"
    folder.mkdir(parents=True, exist_ok=True)
    source = demo / "designs" / KIND
    for file in source.glob("*.*"):
        if not OTHER_LANGUAGE.search(file.name):
            shutil.copyfile(file, folder / file.name)
    record = OTHER_WORDS.sub("", (source / "record.toml").read_text(encoding="utf-8"))
    record = re.sub(r'^(title\s*=\s*"[^"]*)"', rf'\1 {number}"', record, count=1, flags=re.M)
    record = re.sub(r"^added\s*=.*$", f"added = {2001 + number // 336}-{1 + number // 28 % 12:02}-{1 + number % 28:02}", record, flags=re.M)
    record = re.sub(r'^(code\s*=\s*"[^"]*)"', rf'\1-{number}"', record, flags=re.M)
    record = re.sub(r'^(neck|join|width)\s*=.*$|^\[drawing\]\s*$', "", record, flags=re.M)
    record = record.replace("[drawing.layers]", f'[drawing]\njoin = "0.005 mm"\nwidth = "{10 + number / 1000:.3f} mm"\n\n[drawing.layers]', 1)
    # Guides are set for every tenth alone: a second each would hide all else.
    if number % 10:
        record = re.sub(r'^\[\[offer\]\]\s*\nform\s*=\s*"blank".*?(?=^\[|\Z)', "", record, flags=re.M | re.S)
    (folder / "record.toml").write_text(record, encoding="utf-8")


def main():
    demo, into, count = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2]), int(sys.argv[3])
    first = int((sys.argv[4:] or [0])[0])
    into.mkdir(parents=True, exist_ok=True)
    if not (into / "shop.toml").exists():
        text = OTHER_WORDS.sub("", (demo / "shop.toml").read_text(encoding="utf-8"))
        text = re.sub(r"^languages\s*=.*$", 'languages = ["en"]', text, flags=re.M)
        text = re.sub(r"^paper\s*=.*$", 'paper = ["a4"]', text, flags=re.M)
        (into / "shop.toml").write_text(text, encoding="utf-8")
        shutil.copytree(demo / "pages", into / "pages", ignore=lambda _, names: [n for n in names if OTHER_LANGUAGE.search(n)])
        for file in demo.glob("*.svg"):
            shutil.copyfile(file, into / file.name)
    for number in range(first, first + count):
        design(demo, into, number)


if __name__ == "__main__":
    main()
