#!/usr/bin/env python3
"""Looks at printed sheets as a printer and a reader see them.

    tests/sheets/check.py FOLDER ... [--figures MEASURED.json]

For every PDF below the folders: `qpdf --check` finds nothing; all fonts are embedded (`pdffonts`); every page is A4 or Letter; no word reaches
beyond the page or lies on another word (`pdftotext -bbox`); the file has less than 3 MB; and `pdfua` (a checker of the machine-checkable part of
PDF/UA-1, not ours) finds no error. For every SVG: it is XML, and true to size: millimetres, one unit to the millimetre.
With the output of `kerfleaf measure --json`: English guides, count and bench sheets print its figures; a guide has every paint by name, and every cell's
number on its drawing; nothing but greys is on the drawing's pages.
Needs qpdf, poppler-utils, and the Python package pdfua in this interpreter.
"""

import json
import re
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

# ISO 216 A4, and ANSI/ASME Y14.1 size A, in points; either way round.
PAPERS = [(210 / 25.4 * 72, 297 / 25.4 * 72), (612.0, 792.0)]
# Most printers leave 3 mm blank (common practice, no source).
EDGE_PT = 3 / 25.4 * 72


def run(*command):
    done = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    return done.returncode, done.stdout


def pages(path):
    """Width, height and words with their boxes, page by page."""
    _, html = run("pdftotext", "-bbox", str(path), "-")
    for page in re.split(r"<page ", html)[1:]:
        width, height = (float(v) for v in re.match(r'width="([\d.]+)" height="([\d.]+)"', page).groups())
        boxes = re.findall(r'<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*?)</word>', page)
        yield width, height, [(word, *map(float, box)) for *box, word in boxes]


def overlaps(a, b):
    """Whether two words lie on each other: boxes hold room above and below the letters, so half a line may be shared."""
    _, ax, ay, au, av = a
    _, bx, by, bu, bv = b
    across = min(au, bu) - max(ax, bx)
    down = min(av, bv) - max(ay, by)
    return across > 0.25 * min(au - ax, bu - bx) and down > 0.55 * min(av - ay, bv - by)


def wrong_in_pdf(path):
    code, said = run("qpdf", "--check", str(path))
    if code:
        yield f"qpdf: {said.strip().splitlines()[-1]}"
    _, fonts = run("pdffonts", str(path))
    for line in fonts.splitlines()[2:]:
        # Columns counted from the right: emb sub uni object ID.
        if line.split()[-5] != "yes":
            yield f"a font is not embedded: {line}"
    if path.stat().st_size >= 3_000_000:
        yield f"{path.stat().st_size} bytes"
    for number, (width, height, words) in enumerate(pages(path), 1):
        if number == 2 and "painting-guide" in path.name and len(words) < 60:
            yield f"the cover runs over to a second page, with {len(words)} words"
        short, long = sorted((width, height))
        if not any(abs(short - a) < 0.1 and abs(long - b) < 0.1 for a, b in PAPERS):
            yield f"page {number}: {width} x {height} pt"
        for word, x, y, u, v in words:
            if x < EDGE_PT or y < EDGE_PT or u > width - EDGE_PT or v > height - EDGE_PT:
                yield f"page {number}: `{word}` reaches beyond the page at {x:.0f}, {y:.0f}"
        words.sort(key=lambda w: w[2])
        for i, a in enumerate(words):
            for b in words[i + 1 :]:
                if b[2] > a[4]:
                    break
                if overlaps(a, b):
                    yield f"page {number}: `{a[0]}` and `{b[0]}` lie on each other at {a[1]:.0f}, {a[2]:.0f}"


def wrong_for_readers(paths):
    """What pdfua finds, for all files in one go."""
    if not paths:
        return
    done = subprocess.run(
        [sys.executable, "-m", "pdfua", "check", "--format", "json", *map(str, paths)], stdout=subprocess.PIPE, text=True
    )
    # One object a file, one after the other.
    reader, at = json.JSONDecoder(), 0
    text, seen = done.stdout.strip(), 0
    while at < len(text):
        report, at = reader.raw_decode(text, at)
        at += len(text[at:]) - len(text[at:].lstrip())
        seen += 1
        for finding in report["findings"]:
            if finding["severity"].lower() == "error":
                yield f"{report['file']}: {finding}"
    if seen != len(paths):
        yield f"pdfua told of {seen} of {len(paths)} files"


def text(path, first=1, last=9999):
    _, said = run("pdftotext", "-layout", "-f", str(first), "-l", str(last), str(path), "-")
    return said


def coloured(path, page):
    """Whether a page has any pixel that is not grey: what must be read from it then needs a colour printer."""
    done = subprocess.run(["pdftoppm", "-r", "40", "-f", str(page), "-l", str(page), str(path)], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    # PPM, binary: "P6", width, height, 255, then three bytes a pixel.
    head = re.match(rb"P6\s+(\d+)\s+(\d+)\s+255\s", done.stdout)
    pixels = done.stdout[head.end() :]
    red, green, blue = pixels[0::3], pixels[1::3], pixels[2::3]
    return red != green or green != blue


def wrong_figures(path, designs):
    """Where an English sheet prints other figures than `measure` gives. Says nothing of sheets that it does not know."""
    guide = re.search(r"designs/([^/]+)/painting-guide-(a4|letter)\.pdf$", str(path))
    bench = re.search(r"/([^/]+)-(count|bench)-(a4|letter)\.pdf$", str(path))
    slug = guide.group(1) if guide else bench.group(1) if bench else None
    if slug not in designs or "personal" in path.parts or (guide and path.parts[-4:-3] == ("de",)):
        return
    yield None  # one more sheet whose figures were looked at
    design, said = designs[slug], re.sub(r"\s+", " ", text(path))
    wanted = [design["mark"]]
    metres = lambda mm: f"{mm / 1000:.2f} m"
    if guide:
        paint = design["paint"]
        first = re.sub(r"\s+", " ", text(path, 1, 1))
        wanted += [c["name"] for c in paint["colours"]] if paint else []
        for number in [design["pieces"]["count"]] + ([paint["cells"]] if paint else []):
            if not re.search(rf"\b{number}\b", first):
                yield f"{number} is not on the first page"
        drawn = [n for n, (_, _, words) in enumerate(pages(path), 1) if "100 mm" in " ".join(w[0] for w in words) and "measure it before" in " ".join(w[0] for w in words)]
        if not drawn:
            yield "no page with a rule"
        on_drawing = [w for n in drawn for w in text(path, n, n).split()]
        for colour in paint["colours"] if paint else []:
            found = on_drawing.count(str(colour["number"]))
            if found < colour["cells"]:
                yield f"{colour['number']} stands {found} times on the drawing, for {colour['cells']} cells"
        for n in drawn:
            if coloured(path, n):
                yield f"page {n}: a drawing that needs a colour printer"
    elif bench.group(2) == "count":
        wanted.append(f"{design['pieces']['count']} pieces in all")
    else:
        wanted += [f"Cut {metres(design['lines']['cut_mm'])}"]
        wanted += [f"Score {metres(design['lines']['score_mm'])}"] if design["lines"]["score_mm"] else []
    for words in wanted:
        if words not in said:
            yield f"`{words}` is not on it"


def wrong_in_svg(path):
    root = ET.fromstring(path.read_text(encoding="utf-8"))
    view = [float(v) for v in root.get("viewBox").split()]
    for side, length in (("width", view[2]), ("height", view[3])):
        text = root.get(side)
        if not text.endswith("mm") or abs(float(text[:-2]) - length) > 1e-9:
            yield f"{side} {text} for {length} units"


def main():
    folders, figures = sys.argv[1:], None
    if "--figures" in folders:
        at = folders.index("--figures")
        figures, folders = folders[at + 1], folders[:at] + folders[at + 2 :]
    designs = {}
    if figures:
        designs = {d["slug"]: d for d in json.loads(Path(figures).read_text(encoding="utf-8"))["designs"] if "pieces" in d}
    wrong, count, measured = [], 0, 0
    pdfs = sorted(p for folder in folders for p in Path(folder).rglob("*.pdf"))
    svgs = sorted(p for folder in folders for p in Path(folder).rglob("*spare*.svg"))
    for path in pdfs:
        count += 1
        wrong += [f"{path}: {what}" for what in wrong_in_pdf(path)]
        for what in wrong_figures(path, designs):
            measured += what is None
            wrong += [f"{path}: {what}"] if what else []
    for path in svgs:
        count += 1
        wrong += [f"{path}: {what}" for what in wrong_in_svg(path)]
    wrong += wrong_for_readers(pdfs)
    # Two paints of the kite say no mix: the guide suggests one, and says that it is to be tried first.
    for guide in (p for p in pdfs if p.parent.name == "kite-over-the-flats" and p.parent.parent.parent.name != "de"):
        tried = run("pdftotext", str(guide), "-")[1].count("A mix to try on scrap first")
        if tried != 2:
            wrong.append(f"{guide}: {tried} suggested mixes, and two paints without a mix")
    for line in wrong[:60]:
        print(line)
    print(f"{count} sheets, {measured} of them with figures looked at, {len(wrong)} things wrong")
    sys.exit(1 if wrong or not count or (figures and not measured) else 0)


if __name__ == "__main__":
    main()
