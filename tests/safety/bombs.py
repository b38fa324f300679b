#!/usr/bin/env python3
"""Drawings and files made to exhaust whoever reads them: each design ends in bounded time and memory, with figures or a clear error.

    python3 tests/safety/bombs.py BINARY SCRATCH [ONLY]

Each case is a shop of its own with one bad design. The bounds are wide, since they only tell an end from none: 60 s of processor time and 2 GB.
"""
import os
import pathlib
import resource
import struct
import subprocess
import sys
import zlib

from common import RECORD, SHOP, clear, write
from privacy import chunk

SECONDS, BYTES = 60, 2 << 30


def svg(content, head='width="100mm" height="100mm" viewBox="0 0 100 100"', before=""):
    return f'{before}<svg xmlns="http://www.w3.org/2000/svg" {head}>{content}</svg>'


def cuts(content, **how):
    return svg(f'<g id="cuts" fill="none" stroke="#000">{content}</g>', **how)


FRAME = '<rect width="100" height="100"/>'


def uses(fan, levels, inner):
    rows = [f'<g id="u0">{inner}</g>']
    rows += [f'<g id="u{n}">' + f'<use href="#u{n - 1}"/>' * fan + "</g>" for n in range(1, levels)]
    return f'<defs>{"".join(rows)}</defs><g id="cuts" stroke="#000"><use href="#u{levels - 1}"/></g>'


def png_bomb(side):
    """A picture of one colour that is large when it is unpacked."""
    row = b"\0" + bytes(side * 3)
    packer, packed = zlib.compressobj(9), b""
    for _ in range(side):
        packed += packer.compress(row)
    packed += packer.flush()
    head = struct.pack(">IIBBBBB", side, side, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", packed) + chunk(b"IEND", b"")


def drawings():
    yield "groups a hundred thousand deep", cuts("<g>" * 100_000 + FRAME + "</g>" * 100_000)
    yield "uses that unfold ten to the fortieth", svg(uses(10, 40, FRAME))
    yield "uses that unfold to a million lines", svg(uses(10, 7, '<path d="M0 0H9"/>'))
    yield "a use that draws itself", cuts(FRAME + '<g id="a"><use href="#a"/></g>')
    yield "entities within entities", svg("<title>&j;</title>", before="<!DOCTYPE svg [<!ENTITY a 'xxxxxxxxxx'>" + "".join(f"<!ENTITY {b} '{f'&{a};' * 10}'>" for a, b in zip("abcdefghi", "bcdefghij")) + "]>")
    yield "one fat entity", svg("<title>" + "&a;" * 100_000 + "</title>", before=f"<!DOCTYPE svg [<!ENTITY a '{'x' * 100_000}'>]>")
    yield "an entity from a file", svg("<title>&a;</title>", before="<!DOCTYPE svg [<!ENTITY a SYSTEM 'file:///etc/passwd'>]>")
    yield "a path of two million lines", cuts(FRAME + '<path d="M0 0' + "L9 9L8 1" * 1_000_000 + '"/>')
    yield "a path of two million curves", cuts(FRAME + '<path d="M0 0' + "c1 9 9 1 0 0" * 2_000_000 + '"/>')
    yield "a curve a kilometre long", cuts(FRAME + '<path d="M0 0C900000 0 0 900000 900000 900000"/>')
    yield "a circle as large as may be", cuts('<circle cx="500000" cy="500000" r="499999"/>')
    yield "twenty thousand lines across twenty thousand", cuts(FRAME + "".join(f'<path d="M{n / 200} 0V100M0 {n / 200}H100"/>' for n in range(20_000)))
    yield "two thousand lines across two thousand", cuts(FRAME + "".join(f'<path d="M{n / 20} 0V100M0 {n / 20}H100"/>' for n in range(2_000)))
    yield "one star of fifty thousand lines", cuts(FRAME + "".join(f'<path d="M50 50L{n % 100} {n // 500}"/>' for n in range(50_000)))
    yield "the same line fifty thousand times", cuts(FRAME + '<path d="M0 50H100"/>' * 50_000)
    yield "fifty thousand lines that nearly lie on each other", cuts(FRAME + "".join(f'<path d="M0 {50 + n / 1e6}H100"/>' for n in range(50_000)))
    yield "three hundred thousand circles", cuts(FRAME + "".join(f'<circle cx="{n % 550 / 5.6}" cy="{n // 550 / 5.6}" r=".05"/>' for n in range(300_000)))
    yield "circles within circles, five thousand deep", cuts("".join(f'<circle cx="50" cy="50" r="{50 - n / 101}"/>' for n in range(5_000)))
    yield "dashes and patterns with arrays of a million numbers", cuts(f'<g stroke-dasharray="{"1 " * 1_000_000}">{FRAME}</g>')
    yield "a thousand patterns", cuts(FRAME + "".join(f'<pattern id="p{n}" width="1e-9" height="1e-9"><use href="#p{n + 1}"/></pattern>' for n in range(1_000)))
    yield "a hundred thousand style rules", svg("<style>" + "".join(f".c{n} g > path.x{n} {{ fill: red }}" for n in range(100_000)) + f'</style><g id="cuts">{FRAME * 100}</g>')
    # Within the bound of bytes: as many elements as so many rules may be held against, and more.
    rules = "".join(f".c{n} g > path.x{n} {{ fill: red }}" for n in range(20_000))
    line = '<path class="x1 c2" d="M1 1H2"/>'
    for many in (4_000, 6_000):
        yield f"twenty thousand style rules on {many} lines", svg(f'<style>{rules}</style><g id="cuts">{FRAME}{line * many}</g>')
    yield "a selector of a hundred thousand parts", svg("<style>" + "g " * 100_000 + f'{{ fill: red }}</style><g id="cuts">{FRAME}</g>')
    yield "a board a metre high and a hair wide", cuts('<rect width="1" height="1000"/>', head='width="1mm" height="1000mm" viewBox="0 0 1 1000"')
    yield "a board ten metres wide and a hair high", cuts('<rect width="10000" height="1"/>', head='width="10000mm" height="1mm" viewBox="0 0 10000 1"')
    yield "a board of ten square kilometres", cuts('<rect width="999999" height="999999"/>', head='width="999999mm" height="999999mm" viewBox="0 0 999999 999999"')
    yield "a board smaller than a hair", cuts('<rect width=".001" height=".001"/>')
    yield "ten thousand fills over each other", svg("<g id='cuts'>" + FRAME + "</g><g id='paint'>" + "".join(f"<circle cx='{n % 100}' cy='{n % 97}' r='30' fill='#f2c14e'/>" for n in range(10_000)) + "</g>")
    yield "thirty million bytes of nothing", cuts(FRAME + " " * 30_000_000)
    yield "a drawing of a hundred megabytes", cuts(FRAME + " " * 100_000_000)
    yield "bytes that are no text", b"\xff\xfe<\x00s\x00"
    yield "numbers beyond all numbers", cuts('<path d="M1e308 1e308L-1e308 1e999"/>', head='width="1e308mm" height="1e-308mm" viewBox="0 0 1e308 1e308"')


def run(binary, root, *call):
    def bounds():
        resource.setrlimit(resource.RLIMIT_AS, (BYTES + (1 << 30), BYTES + (1 << 30)))
        resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
    child = subprocess.Popen([binary, *call, str(root)], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, preexec_fn=bounds)
    told = child.stdout.read().decode(errors="replace")
    _, status, usage = os.wait4(child.pid, 0)
    child.returncode = os.waitstatus_to_exitcode(status)
    return child.returncode, told, usage.ru_utime + usage.ru_stime, usage.ru_maxrss << 10


def judged(name, outcome):
    code, told, seconds, size = outcome
    faults = []
    if code not in (0, 1):
        faults.append(f"ends with {code}: {told[-300:]}")
    if "panicked" in told:
        faults.append(told[-300:])
    if code == 1 and not told.strip():
        faults.append("says nothing")
    if seconds > SECONDS or size > BYTES:
        faults.append("over its bounds")
    first = next((line.strip(" ×│") for line in told.splitlines() if "×" in line), "figures")
    print(f"  {seconds:5.1f} s {size >> 20:5} MB  {name}: {first[:110]}", flush=True)
    return [f"{name}: {fault}" for fault in faults]


def main():
    binary, scratch, only = os.path.abspath(sys.argv[1]), clear(sys.argv[2]), (sys.argv[3:] or [""])[0]
    faults = []
    for name, text in drawings():
        if only not in name:
            continue
        root = clear(scratch / "shop")
        write(root / "shop.toml", SHOP.format(name="Bench"))
        # Nothing is joined away.
        record = RECORD.format(title="Bomb").replace("[drawing.layers]", '[drawing]\njoin = "0.0001 mm"\n[drawing.layers]')
        if "paint'" not in str(text[-2_000_000:]):
            record = record.replace('colour = "paint"\n', "")
        write(root / "designs" / "bomb" / "record.toml", record)
        write(root / "designs" / "bomb" / "drawing.svg", text)
        command = "publish" if name.startswith("a board") else "measure"
        faults += judged(name, run(binary, root, command))
    for name, file, data in (
        ("a photograph of a hundred million pixels", "photos/a.png", lambda: png_bomb(10_000)),
        ("a photograph of two thousand million pixels", "photos/a.png", lambda: png_bomb(45_000)),
        ("a record of ten megabytes", "record.toml", lambda: RECORD.format(title="x" * 10_000_000)),
        ("a record of a million nested lists", "record.toml", lambda: "a = " + "[" * 1_000_000),
        ("a story of a million quotes", "story.md", lambda: ">" * 1_000_000),
        ("a story of two million quotes", "story.md", lambda: ">" * 2_000_000),
        ("a story of a million open brackets", "story.md", lambda: "[a](" * 200_000 + "![[" * 80_000),
        ("a story of nested lists", "story.md", lambda: "".join(" " * n + "- a\n" for n in range(1_400))),
    ):
        if only not in name:
            continue
        root = clear(scratch / "shop")
        write(root / "shop.toml", SHOP.format(name="Bench"))
        from common import DRAWING
        write(root / "designs" / "bomb" / "record.toml", RECORD.format(title="Bomb"))
        write(root / "designs" / "bomb" / "drawing.svg", DRAWING)
        write(root / "designs" / "bomb" / file, data())
        faults += judged(name, run(binary, root, "publish"))
    print("\n".join(faults) if faults else "every one ends within its bounds")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
