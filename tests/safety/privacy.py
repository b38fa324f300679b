#!/usr/bin/env python3
"""Plant a secret in every place of a shop that text can be put, publish, and look for each in every published byte.

    python3 tests/safety/privacy.py BINARY SCRATCH

Each secret is a word of its own that stands nowhere else. Looked through are names of files and their bytes, PDFs unpacked by qpdf, chunks of
WebP and JPEG files, text that is escaped or percent-encoded, and UTF-16. Handbook, "Privacy".
"""
import base64
import os
import pathlib
import re
import struct
import subprocess
import sys
import zlib

from common import clear, publish, write


class Planted:
    """Words that nobody would write, each with the place it was put in."""

    def __init__(self):
        self.places = {}

    def __call__(self, place):
        # Letters alone, so that the word is the same in any escaping and can stand in any name.
        letters = "bcdfghjklmnpqrstvwxz"
        number, word = len(self.places) + 7, "zq"
        for _ in range(10):
            word += letters[number % 20]
            number = number * 7919 % 1_000_003
        assert word not in self.places
        self.places[word] = place
        return word


def exif(secret):
    """A TIFF block with ImageDescription, Artist and a user comment. Exif 2.32, 4.6."""
    def entry(tag, text, at):
        return struct.pack("<HHII", tag, 2, len(text) + 1, at), text.encode() + b"\0"
    rows, data, at = b"", b"", 8 + 2 + 3 * 12 + 4
    for tag, what in ((0x010E, "EXIF description"), (0x013B, "EXIF artist"), (0x8298, "EXIF copyright")):
        row, text = entry(tag, secret(what), at + len(data))
        rows, data = rows + row, data + text
    return b"II*\0" + struct.pack("<IH", 8, 3) + rows + b"\0\0\0\0" + data


def xmp(secret, what):
    return f'<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description xmlns:dc="http://purl.org/dc/elements/1.1/" dc:creator="{secret(what)}"/></rdf:RDF></x:xmpmeta>'.encode()


def iptc(secret):
    """An APP13 block with a by-line. IPTC IIM 4.2, dataset 2:80."""
    word = secret("IPTC by-line").encode()
    record = b"\x1c\x02\x50" + struct.pack(">H", len(word)) + word
    return b"Photoshop 3.0\x008BIM\x04\x04\0\0" + struct.pack(">I", len(record)) + record + b"\0" * (len(record) % 2)


def jpeg(plain, secret):
    """A JPEG with every segment that carries words. ITU-T T.81, B.2.4."""
    def segment(marker, data):
        return bytes([0xFF, marker]) + struct.pack(">H", len(data) + 2) + data
    extra = segment(0xE1, b"Exif\0\0" + exif(secret)) + segment(0xE1, b"http://ns.adobe.com/xap/1.0/\0" + xmp(secret, "XMP of a JPEG"))
    extra += segment(0xED, iptc(secret)) + segment(0xFE, secret("JPEG comment").encode()) + segment(0xEF, secret("JPEG APP15").encode())
    return plain[:2] + extra + plain[2:] + secret("behind the end of a JPEG").encode()


def chunk(kind, data):
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def png(secret):
    """A PNG with every chunk that carries words. W3C PNG, 11.3."""
    texts = chunk(b"tEXt", b"Author\0" + secret("PNG tEXt").encode())
    texts += chunk(b"zTXt", b"Comment\0\0" + zlib.compress(secret("PNG zTXt").encode()))
    texts += chunk(b"iTXt", b"XML:com.adobe.xmp\0\0\0\0\0" + xmp(secret, "PNG iTXt"))
    texts += chunk(b"eXIf", exif(secret)) + chunk(b"prVt", secret("PNG private chunk").encode())
    rows = b"".join(b"\0" + bytes([(x * 7) % 256 for x in range(96)]) for _ in range(24))
    head = chunk(b"IHDR", struct.pack(">IIBBBBB", 32, 24, 8, 2, 0, 0, 0))
    return b"\x89PNG\r\n\x1a\n" + head + texts + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"") + secret("behind the end of a PNG").encode()


# A lossless picture of 1 by 1 pixel. RFC 9649, 3.
VP8L = base64.b64decode("UklGRhoAAABXRUJQVlA4TA0AAAAvAAAAEAcQERGIiP4HAA==")


def webp(secret):
    """An extended WebP with Exif and XMP. RFC 9649, 2.7."""
    def part(kind, data):
        return kind + struct.pack("<I", len(data)) + data + b"\0" * (len(data) % 2)
    size = struct.unpack("<I", VP8L[16:20])[0]
    body = part(b"VP8X", bytes([0x0C, 0, 0, 0, 0, 0, 0, 0, 0, 0])) + part(b"VP8L", VP8L[20:20 + size])
    body += part(b"EXIF", exif(secret)) + part(b"XMP ", xmp(secret, "XMP of a WebP")) + part(b"wrds", secret("WebP unknown chunk").encode())
    return b"RIFF" + struct.pack("<I", len(body) + 4) + b"WEBP" + body


def drawing(secret):
    return f"""<?xml version="1.0"?><!-- {secret("SVG comment before the root")} --><?pi {secret("SVG processing instruction")}?>
<!DOCTYPE svg [<!ENTITY unused "{secret("SVG entity")}">]>
<svg xmlns="http://www.w3.org/2000/svg" xmlns:tool="{secret("SVG namespace")}" width="60mm" height="45mm" viewBox="0 0 60 45" tool:file="{secret("SVG attribute of the root")}">
<title>{secret("SVG title")}</title><desc>{secret("SVG desc")}</desc>
<metadata><tool:author>{secret("SVG metadata")}</tool:author></metadata>
<style>/* {secret("CSS comment")} */ .{secret("CSS class")} {{ stroke: #000 }}</style><script>{secret("SVG script")}</script>
<defs><g id="{secret("SVG id in defs")}"/></defs>
<g id="paint"><rect width="60" height="20" fill="#f2c14e"/><rect y="20" width="60" height="25" fill="#3a6ea5"/></g>
<g id="cuts" tool:label="{secret("SVG label of a cut group")}" data-note="{secret("SVG data attribute")}" fill="none" stroke="#000"><rect width="60" height="45"/><!-- {secret("SVG comment in a layer")} -->
<path id="{secret("SVG id of a cut")}" class="{secret("SVG class of a cut")}" d="M30 0C36 15 24 30 30 45"><title>{secret("SVG title of a cut")}</title></path></g>
<g id="{secret("id of the personal layer")}" tool:label="{secret("label of the personal layer")}" fill="none" stroke="#000"><path id="{secret("id in a personal layer")}" data-for="{secret("attribute in a personal layer")}" d="M5 5H25V25"/><text>{secret("text in a personal layer")}</text></g>
<g id="{secret("id of the personal score layer")}"><path d="M40 5H50V25" stroke="#000"/></g>
<g id="{secret("id of a group of no layer")}"><text x="1" y="1">{secret("text of no layer")}</text><image href="data:text/plain,{secret("data address")}" width="1" height="1"/></g>
</svg>"""


def offers(secret, word):
    return f"""[[offer]]
form = "painted" # {secret("comment behind a value")}
price = "84.00"
pack = "{word}"
[[offer]]
form = "blank"
price = "24.00"
"""


def plant(root, secret, plain_jpeg):
    pack = secret("name of a pack")
    write(root / "shop.toml", f"""# {secret("comment of shop.toml")}
name = "Small bench"
currency = "EUR"
order = "mailto:bench@example.org"
web_address = "https://bench.example.org"
languages = ["en", "de"]
[look]
logo = "logo-{secret("file name of the logo")}.svg"
[[pack]]
name = "{pack}"
inner = ["240 mm", "210 mm", "30 mm"]
outer = ["250 mm", "220 mm", "35 mm"]
weight = "95 g"
price = "7481.93"
[[wood]]
id = "own-board"
name = "Own board"
kind = "panel"
density = "640 kg/m3"
source = "{secret("source of a wood")}"
[workshop]
hourly_rate = "9317.46" # {secret("comment in the workshop")}
sheet_price = "6173.29"
extras_price = "5519.84"
cut_speed = "7193 mm/s"
handling_minutes = 48311
""")
    secret.places.update({"7481.93": "price of a pack", "9317.46": "hourly rate", "6173.29": "price of a sheet", "5519.84": "price of extras", "48311": "handling minutes"})
    logo = next(line.split('"')[1] for line in (root / "shop.toml").read_text().splitlines() if line.startswith("logo"))
    write(root / logo, f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20"><!-- {secret("comment in the logo")} --><title>{secret("title of the logo")}</title><g id="{secret("id in the logo")}"><rect width="40" height="20" fill="#345"/></g></svg>')
    svg = drawing(secret)
    ids = {place: word for word, place in secret.places.items()}
    file = f"{secret('file name of the drawing')}.svg"
    record = f"""# {secret("comment of a record")}
title = "Boat"
status = "published"
[board]
wood = "own-board"
thickness = "4 mm"
[drawing]
file = "{file}"
[drawing.layers]
cut = "cuts"
colour = "paint"
personal = ["{ids["id of the personal layer"]}"]
personal_score = ["{ids["id of the personal score layer"]}"]
[[paint]]
number = 1
name = "Sand"
colour = "#f2c14e"
[[paint]]
number = 2
name = "Sea"
colour = "#3a6ea5"
{offers(secret, pack)}
"""
    boat = root / "designs" / "boat"
    write(boat / "record.toml", record)
    write(boat / file, svg)
    photos = {f"01-{secret('file name of a photograph')}.jpg": jpeg(plain_jpeg, secret), f"02-{secret('file name of a PNG')}.png": png(secret), f"03-{secret('file name of a WebP')}.webp": webp(secret)}
    for name, data in photos.items():
        write(boat / "photos" / name, data)
    write(boat / f"notes-{secret('file beside the record')}.txt", secret("text of a file beside the record"))
    write(boat / "story.md", f"A story.\n\n<!-- {secret('comment in a story')} -->\n\n[//]: # ({secret('reference used as a comment')})\n")
    draft = root / "designs" / secret("slug of a draft")
    write(draft / "record.toml", record.replace("published", "draft").replace('"Boat"', f'"{secret("title of a draft")}"').replace("status", f'summary = "{secret("summary of a draft")}"\nsubjects = ["{secret("subject of a draft")}"]\nstatus', 1))
    write(draft / file, svg.replace("paint", "paint", 1))
    write(draft / "story.md", secret("story of a draft"))
    write(draft / "photos" / f"{secret('photograph of a draft')}.jpg", plain_jpeg)
    broken = root / "designs" / secret("slug of a broken draft")
    write(broken / "record.toml", f'title = "{secret("title of a broken draft")}"\nstatus = "draft"\nnonsense = "{secret("unknown key of a draft")}"\n')
    write(root / "sales.csv", f'date,code,number,price,currency,mark\n2026-01-02,{secret("sales.csv")},1,84.00,EUR,abcdef\n')
    write(root / "pages" / "visit.md", f"# Visit\n\n<!-- {secret('comment in a page')} -->\n")
    write(root / "pages" / f".{secret('hidden page')}.md", secret("text of a hidden page"))
    write(root / "notes" / "customers.txt", secret("file of no meaning"))
    write(root / "theme" / f"{secret('theme file of no meaning')}.txt", secret("text of a theme file of no meaning"))


def forms(secret):
    """A word as bytes in the ways that files spell it."""
    plain = secret.encode()
    yield plain
    yield plain.hex().encode()
    yield plain.hex().upper().encode()
    yield secret.encode("utf-16-be")
    yield secret.encode("utf-16-le")
    yield base64.b64encode(plain)[:-4]


def published_bytes(folder):
    for path in sorted(p for p in folder.rglob("*") if p.is_file()):
        data = path.read_bytes()
        if path.suffix == ".pdf":
            data += subprocess.run(["qpdf", "--qdf", "--object-streams=disable", str(path), "-"], stdout=subprocess.PIPE).stdout
            # What a reader sees, whatever the fonts make of the bytes.
            data += subprocess.run(["pdftotext", str(path), "-"], stdout=subprocess.PIPE).stdout
        if path.suffix == ".png":
            data += b"".join(zlib.decompress(part.split(b"\0\0", 1)[1]) for part in re.findall(rb"zTXt(.*?\0\0.*?)....IEND", data, re.S))
        yield str(path.relative_to(folder)), data


def parts_of(name, data):
    """Parts of a picture beside its pixels."""
    if name.endswith(".webp"):
        at, found = 12, []
        while at + 8 <= len(data):
            kind, size = data[at:at + 4], struct.unpack("<I", data[at + 4:at + 8])[0]
            found.append(kind)
            at += 8 + size + size % 2
        extra = set(found) - {b"VP8 ", b"VP8L", b"VP8X", b"ALPH"}
        return [f"{name}: a part {kind}" for kind in extra] + ([f"{name}: bytes behind its end"] if at != len(data) else [])
    if name.endswith(".jpg"):
        at, extra = 2, []
        while at + 4 <= len(data) and data[at + 1] != 0xDA:
            marker, size = data[at + 1], struct.unpack(">H", data[at + 2:at + 4])[0]
            if marker == 0xFE or (0xE1 <= marker <= 0xEF):
                extra.append(f"{name}: a segment {marker:#x}")
            at += 2 + size
        return extra + ([] if data.endswith(b"\xff\xd9") else [f"{name}: bytes behind its end"])
    return []


def main():
    binary, scratch = os.path.abspath(sys.argv[1]), clear(sys.argv[2]).absolute()
    secret = Planted()
    root = scratch / secret("folder above the shop") / secret("name of the shop's folder")
    seed = scratch / "seed"
    # A first shop makes a plain JPEG by the program itself.
    from common import shop
    shop(seed, designs=1)
    assert publish(binary, seed).returncode == 0
    plant(root, secret, next((seed / "published" / "designs").rglob("picture.jpg")).read_bytes())
    who = secret("user name")
    env = dict(os.environ, USER=who, LOGNAME=who, HOME=f"/home/{who}", HOSTNAME=secret("host name"), PWD=str(root), TMPDIR=str(scratch), SECRET=secret("environment"))
    done = publish(binary, root, env=env)
    assert done.returncode == 0, done.stdout
    folder = root / "published"
    secret.places[os.uname().nodename] = "the machine's own name"
    files = dict(published_bytes(folder))
    faults = [fault for name, data in files.items() for fault in parts_of(name, (folder / name).read_bytes())]
    # A short name of a machine stands in any compressed stream by chance.
    words = {word: place for word, place in secret.places.items() if len(word) > 4}
    for word, place in words.items():
        for name, data in files.items():
            if word.lower() in name.lower() or any(form in data for form in forms(word)):
                faults.append(f"{name}: holds the secret of “{place}”")
    # The search itself must find what is public.
    for public in ("Small bench", "Sand"):
        if not any(form in data for data in files.values() for form in forms(public)):
            faults.append(f"the search does not even find {public!r}")
    if not any("pdf" in name and b"Boat" in data for name, data in files.items()):
        print("  no guide was made, so none was searched")
    if len(words) < 40:
        faults.append(f"only {len(words)} secrets")
    print("\n".join(faults) if faults else f"{len(words)} secrets planted, 0 found in {len(files)} files")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
