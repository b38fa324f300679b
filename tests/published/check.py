#!/usr/bin/env python3
"""Look through a published folder as a visitor's browser, a host and a curious neighbour would.

    python3 check.py SHOP PUBLISHED

Standard library only; `qpdf` unpacks the PDFs. Checks: every address in a page leads to a file of the folder; no page asks another host
for anything; every page is whole without a script; pictures have size, alternative text and at most 300 kB; pictures of the whole keep
to 4 pixels a millimetre; nothing of drafts, personal layers, the workshop's rates or the machine is in any byte.
"""
import csv
import html.parser
import io
import json
import os
import pathlib
import re
import subprocess
import sys
import tomllib
import urllib.parse

LOADS = {"img": ["src", "srcset"], "source": ["srcset"], "script": ["src"], "iframe": ["src"], "video": ["src"], "audio": ["src"], "object": ["data"], "embed": ["src"]}
VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}
# Most pixels to the millimetre, by the view in a picture's name. Handbook, privacy.
SCALE = {"whole": 4.0, "plain": 4.0}
# A picture shows some table round the board: by how much its width may pass the board's own at the scale.
TABLE = 1.3


class Page(html.parser.HTMLParser):
    """Addresses, pictures and the balance of elements of one page."""

    def __init__(self):
        super().__init__()
        self.links, self.loads, self.images, self.ids, self.open, self.faults = [], [], [], set(), [], []

    def handle_starttag(self, tag, attrs):
        a = dict(attrs)
        if "id" in a:
            if a["id"] in self.ids:
                self.faults.append(f"the id {a['id']} stands twice")
            self.ids.add(a["id"])
        if tag not in VOID:
            self.open.append(tag)
        if tag == "a" and "href" in a:
            self.links.append(a["href"])
        if tag == "link" and "href" in a:
            rel = a.get("rel", "")
            (self.links if rel in ("canonical", "alternate", "next", "prev") else self.loads).append(a["href"])
        for name in LOADS.get(tag, []):
            if name in a:
                parts = [p.strip().split()[0] for p in a[name].split(",")] if name == "srcset" else [a[name]]
                self.loads.extend(parts)
        if tag == "img":
            self.images.append(a)
        for name, value in a.items():
            if name.startswith("on"):
                self.faults.append(f"{tag} has a {name}")
            if name == "style" and "url(" in (value or ""):
                self.faults.append(f"{tag} loads something by its style")

    def handle_startendtag(self, tag, attrs):
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.open.pop()

    def handle_endtag(self, tag):
        if tag in VOID:
            return
        if not self.open or self.open[-1] != tag:
            self.faults.append(f"</{tag}> closes {self.open[-1:] or 'nothing'}")
        else:
            self.open.pop()


def resolve(page, address):
    """The file of the folder that an address in a page leads to."""
    path = urllib.parse.unquote(urllib.parse.urlsplit(address).path)
    if not path:
        return page
    return os.path.normpath(os.path.join(os.path.dirname(page), path))


def check_pages(files, site_address):
    faults = []
    pages = {}
    for name in sorted(n for n in files if n.endswith(".html")):
        page = Page()
        page.feed(files[name].decode("utf-8"))
        page.faults += [f"{tag} is never closed" for tag in page.open if tag not in ("p", "li")]
        pages[name] = page
        faults += [f"{name}: {fault}" for fault in page.faults]
    for name, page in pages.items():
        for address in page.loads + page.links:
            parts = urllib.parse.urlsplit(address)
            if parts.scheme or parts.netloc:
                own = site_address and address.startswith(site_address)
                if address in page.loads and not own:
                    faults.append(f"{name}: asks {address}")
                elif parts.scheme not in ("https", "mailto", "tel"):
                    faults.append(f"{name}: links to {address}")
                continue
            if address.startswith("/"):
                faults.append(f"{name}: {address} is not relative")
            target = resolve(name, address)
            if target not in files:
                faults.append(f"{name}: {address} leads nowhere")
            elif parts.fragment and target in pages and parts.fragment not in pages[target].ids:
                faults.append(f"{name}: {address} has no such place")
        for image in page.images:
            if not image.get("width") or not image.get("height"):
                faults.append(f"{name}: {image.get('src')} has no size, so the page jumps")
            if image.get("alt") is None:
                faults.append(f"{name}: {image.get('src')} has no alternative text")
    reached, todo = {"index.html", "404.html"}, ["index.html"]
    while todo:
        name = todo.pop()
        for address in pages[name].links if name in pages else []:
            parts = urllib.parse.urlsplit(address)
            target = resolve(name, address)
            if not parts.scheme and target in pages and target not in reached:
                reached.add(target)
                todo.append(target)
    faults += [f"{name}: no page leads there" for name in pages if name not in reached and not name.startswith("embed/")]
    return faults


def jpeg_size(data):
    at = 2
    while at < len(data):
        marker, length = data[at + 1], int.from_bytes(data[at + 2:at + 4], "big")
        if 0xC0 <= marker <= 0xCF and marker not in (0xC4, 0xC8, 0xCC):
            return int.from_bytes(data[at + 7:at + 9], "big"), int.from_bytes(data[at + 5:at + 7], "big")
        at += 2 + length
    return None


def check_pictures(files, figures):
    faults = []
    for name, data in sorted(files.items()):
        if not name.endswith((".webp", ".jpg")):
            continue
        if len(data) > 300_000:
            faults.append(f"{name}: {len(data)} bytes")
        for secret in (b"Exif", b"<x:xmpmeta", b"Photoshop", b"EXIF"):
            if secret in data[:4096]:
                faults.append(f"{name}: carries {secret.decode()}")
        if name.endswith(".jpg") and name.startswith("made/"):
            width, _ = jpeg_size(data)
            slug, view = max(((s, v) for s in figures for v in SCALE if f"/{s}-{v}-" in name), default=(None, None))
            if slug and width > SCALE[view] * TABLE * figures[slug]["size"]["width_mm"]:
                faults.append(f"{name}: {width} pixels for {figures[slug]['size']['width_mm']:.0f} mm")
    return faults


def secrets(shop):
    """What must be in no byte: texts of drafts, names of personal layers, paths and names of this machine."""
    found = {str(shop.resolve()): "the shop's path", str(pathlib.Path.home()): "the home folder"}
    names = [(os.uname().nodename, "the machine's name"), (os.environ.get("USER"), "the user's name")]
    # Names of a few letters stand in any compressed picture by chance.
    found.update({name: what for name, what in names if name and len(name) > 6})
    for record in sorted(shop.glob("designs/*/record.toml")):
        data = tomllib.loads(record.read_text(encoding="utf-8"))
        slug = record.parent.name
        if data["status"] == "draft":
            found[slug] = f"the draft {slug}"
            for key in ("title", "summary"):
                if key in data:
                    found[data[key]] = f"the {key} of the draft {slug}"
        layers = data.get("drawing", {}).get("layers", {})
        for layer in ("personal", "personal_score"):
            chosen = layers.get(layer, [])
            for selector in chosen if isinstance(chosen, list) else [chosen]:
                for word in [selector] if isinstance(selector, str) else [selector.get("id"), selector.get("label")]:
                    if word:
                        found[word] = f"the layer {layer} of {slug}"
        for line in record.read_text(encoding="utf-8").splitlines():
            comment = re.match(r"\s*#\s*(.{24,})", line)
            if comment:
                found[comment[1].strip()] = f"a comment in {slug}"
    for key in tomllib.loads((shop / "shop.toml").read_text(encoding="utf-8")).get("workshop", {}):
        if "_" in key:  # `sheet` alone is a word
            found[key] = f"the workshop's key {key}"
    return found


def check_secrets(files, shop):
    faults = []
    for secret, what in secrets(shop).items():
        needle = secret.encode()
        escaped = json.dumps(secret)[1:-1].encode()
        for name, data in files.items():
            if needle in data or escaped in data or secret in name:
                faults.append(f"{name}: holds {what}")
    return faults


def unpacked(path):
    done = subprocess.run(["qpdf", "--qdf", "--object-streams=disable", str(path), "-"], stdout=subprocess.PIPE)
    return done.stdout


def check_table(files, catalogue):
    """RFC 4180, read by another library: a header, as many cells in every row, CRLF, one row an offer, no cell that begins a formula."""
    data = files["catalogue.csv"].decode("utf-8")
    faults = ["catalogue.csv: a line ends without CRLF"] if re.search(r"(?<!\r)\n", data) else []
    rows = list(csv.reader(io.StringIO(data, newline=""), strict=True))
    if len(rows) != 1 + sum(len(d["offers"]) for d in catalogue["designs"]) or len({len(row) for row in rows}) != 1:
        faults.append("catalogue.csv: not one row of equal length an offer")
    faults += [f"catalogue.csv: {cell!r} begins a formula" for row in rows for cell in row if cell[:1] in tuple("=+-@\t\r")]
    return faults


def check_guides(folder):
    faults = []
    for path in sorted(folder.rglob("*.pdf")):
        done = subprocess.run(["qpdf", "--check", str(path)], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
        if done.returncode:
            faults.append(f"{path.name}: {done.stdout.strip().splitlines()[-1]}")
        if path.stat().st_size > 3_000_000:
            faults.append(f"{path.name}: {path.stat().st_size} bytes")
    return faults


def main():
    shop, folder = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
    files = {str(p.relative_to(folder)): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}
    catalogue = json.loads(files["catalogue.json"])
    settings = tomllib.loads((shop / "shop.toml").read_text(encoding="utf-8"))
    published = {p.parent.name for p in shop.glob("designs/*/record.toml") if tomllib.loads(p.read_text(encoding="utf-8"))["status"] == "published"}
    measured = json.loads(subprocess.run(["target/release/kerfleaf", "measure", str(shop), "--json"], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL).stdout)
    figures = {d["slug"]: d for d in measured["designs"] if d.get("status") == "published"}
    faults = []
    missing = [s for s in published if f"designs/{s}/index.html" not in files or f"designs/{s}/picture.jpg" not in files]
    faults += [f"{slug}: has no page or no picture" for slug in missing]
    if {d["slug"] for d in catalogue["designs"]} != published:
        faults.append("catalogue.json does not list the published designs")
    for name in ("pages/difficulty/index.html", "pages/care/index.html", "pages/cautions/index.html", "404.html", "robots.txt", "kerfleaf.txt", "catalogue.csv", "catalogue.schema.json"):
        if name not in files:
            faults.append(f"{name} is missing")
    faults += [f"embed/{slug}.html is missing" for slug in published if f"embed/{slug}.html" not in files]
    faults += [] if "embed/kerfleaf.js" in files else ["embed/kerfleaf.js is missing"]
    faults += check_table(files, catalogue)
    faults += check_pages(files, settings.get("web_address"))
    faults += check_pictures(files, figures)
    plain = {n: (unpacked(folder / n) if n.endswith(".pdf") else d) for n, d in files.items()}
    faults += check_secrets(plain, shop)
    faults += check_guides(folder)
    print("\n".join(faults) if faults else f"{len(files)} files hold: addresses, pictures, privacy, guides")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
