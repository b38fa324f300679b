#!/usr/bin/env python3
"""Put hostile strings wherever an owner may write, publish, and look in a real browser and by strict readers whether any is more than words.

    python3 tests/safety/hostile.py BINARY SCRATCH

Each design of the shop carries one string in all its fields. Pages are opened in Chromium twice: as they are, counting what their
Content-Security-Policy had to stop (nothing), and without it, where still nothing may run; every element is hovered, focused and clicked.
"""
import csv
import http.server
import io
import json
import os
import pathlib
import re
import subprocess
import sys
import threading
import urllib.parse
import xml.etree.ElementTree as ET

import injections
from common import DRAWING, clear, publish, write

# Opens each page in a frame, pokes at every element, and tells what became of it.
HARNESS = """<!doctype html><meta charset="utf-8"><body><pre id="out"></pre><script>
const pages = PAGES, found = [];
async function look(page) {
  const frame = document.createElement("iframe");
  const loaded = new Promise(done => frame.onload = done);
  let stopped = 0;
  frame.src = page;
  document.body.append(frame);
  await Promise.race([loaded, new Promise(done => setTimeout(done, 8000))]);
  const doc = frame.contentDocument;
  if (!doc) return found.push([page, "led away"]);
  doc.addEventListener("securitypolicyviolation", () => stopped++);
  for (const a of doc.querySelectorAll("a,area,form,button"))
    if (/^\\s*(javascript|data|vbscript|file):/i.test(a.href || a.action || "")) { found.push([page, "an address: " + (a.href || a.action)]); a.click(); }
  for (const element of doc.querySelectorAll("*")) {
    for (const a of element.attributes) if (/^on/i.test(a.name)) found.push([page, `a handler: ${element.tagName} ${a.name}`]);
    for (const event of ["mouseover", "mouseenter", "focus", "click", "toggle", "animationstart", "error", "load"])
      if (event !== "click" || element.tagName !== "A") element.dispatchEvent(new Event(event, {bubbles: false, cancelable: true}));
  }
  await new Promise(done => setTimeout(done, 20));
  if (doc.documentElement.dataset.ran) found.push([page, "ran"]);
  if (stopped) found.push([page, `the policy stopped ${stopped}`]);
  if (doc.baseURI !== frame.contentWindow.location.href) found.push([page, "another base"]);
  if (!doc.querySelector("h1")) found.push([page, "no page at all"]);
  frame.remove();
}
(async () => {
  for (const page of pages) await look(page);
  if (document.documentElement.dataset.ran) found.push(["this page", "ran"]);
  document.getElementById("out").textContent = JSON.stringify({done: pages.length, found});
})();
</script>"""

SELF_TEST = '<!doctype html><meta charset="utf-8"><title>x</title><h1>x</h1><p title="x" onmouseover="document.documentElement.dataset.ran=1">x</p>'


def quoted(text):
    """A TOML string."""
    return json.dumps(text, ensure_ascii=False).replace("\u2028", "\\u2028").replace("\u2029", "\\u2029").replace("\x7f", "\\u007f")


def record(text, blank, at):
    # Codes are ASCII and stand once each.
    q, code = quoted(text), quoted((re.sub(r"[^ -~]", "", text).strip() + f" {at}").strip())
    offers = f'[[offer]]\nform = "painted"\nprice = "84.00"\nlead_time = {q}\ncode = {code}\n'
    if blank:
        offers += f'[[offer]]\nform = "blank"\nprice = "24.00"\ncontains = [{q}]\n'
    return f"""title = {q}
summary = {q}
edition = {q}
subjects = [{q}]
status = "published"
added = 2026-03-14
[in.de]
title = {q}
summary = {q}
[board]
wood = "own"
thickness = "4 mm"
[drawing]
width = "16 mm"
[drawing.layers]
cut = "cuts"
colour = "paint"
[[paint]]
number = 1
name = {q}
colour = "#f2c14e"
mix = {q}
wash = {q}
[[paint]]
number = 2
name = "Sea"
colour = "#3a6ea5"
{offers}"""


def plant(root, shop_text, strings, markdown):
    q = quoted(shop_text)
    write(root / "shop.toml", f"""name = {q}
tagline = {q}
about = {q}
price_note = {q}
currency = "EUR"
order = "mailto:bench@example.org"
web_address = "https://bench.example.org"
languages = ["en", "de"]
paper = ["a4"]
[maker]
name = {q}
address = {q}
eu_person = {q}
[[wood]]
id = "own"
name = {q}
kind = "panel"
density = "640 kg/m3"
[[postage]]
zone = {q}
service = {q}
up_to = "1 kg"
price = "5.90"
""")
    for at, text in enumerate(strings):
        folder = root / "designs" / f"design-{at:03}"
        write(folder / "record.toml", record(text, at % 40 == 0 and text.isascii(), at))
        write(folder / "drawing.svg", DRAWING)
        write(folder / "story.md", text)
    for at, text in enumerate(markdown):
        write(root / "pages" / f"page-{at:03}.md", text)


class Server(http.server.SimpleHTTPRequestHandler):
    """The folder under /kept, and under /bare the same without its policies."""
    folder, harness = None, b""

    def do_GET(self):
        path = urllib.parse.unquote(urllib.parse.urlsplit(self.path).path)
        kind, _, rest = path.lstrip("/").partition("/")
        if kind in ("harness", "self"):
            return self.answer(self.harness if kind == "harness" else SELF_TEST.encode(), "text/html")
        file = self.folder / rest
        file = file / "index.html" if file.is_dir() else file
        if not file.is_file():
            return self.send_error(404)
        data = file.read_bytes()
        if kind == "bare":
            data = re.sub(rb"<meta[^>]*Content-Security-Policy[^>]*>", b"", data)
        self.answer(data, self.guess_type(str(file)))

    def answer(self, data, kind):
        self.send_response(200)
        self.send_header("Content-Type", kind + ("; charset=utf-8" if kind.startswith("text/") else ""))
        self.end_headers()
        self.wfile.write(data)

    def log_message(self, *_):
        pass


def in_browser(folder, pages):
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Server)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    Server.folder = folder
    faults = []
    lists = {"self": ["/self"], "kept": [f"/kept/{p}" for p in pages], "bare": [f"/bare/{p}" for p in pages]}
    for name, addresses in lists.items():
        Server.harness = HARNESS.replace("PAGES", json.dumps(addresses)).encode()
        call = ["chromium", "--headless", "--no-sandbox", "--disable-gpu", "--virtual-time-budget=2000000", "--timeout=240000", "--dump-dom", f"http://127.0.0.1:{server.server_port}/harness"]
        done = subprocess.run(call, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True, timeout=300)
        out = re.search(r'<pre id="out">(.*?)</pre>', done.stdout, re.S)
        if not out or not out[1]:
            faults.append(f"{name}: the browser did not finish")
            continue
        told = json.loads(out[1].replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&"))
        if name == "self":
            # A page that does run something must be caught, or nothing is proved.
            if not any(what == "ran" for _, what in told["found"]):
                faults.append("the harness does not notice a script that runs")
            continue
        faults += [f"{name} {page}: {what}" for page, what in told["found"]]
        print(f"  {told['done']} pages {'with' if name == 'kept' else 'without'} their policy")
    server.shutdown()
    return faults


def as_data(folder, strings):
    faults = []
    policies = 0
    for page in folder.rglob("*.html"):
        text = page.read_text(encoding="utf-8")
        policy = re.search(r'<meta http-equiv="Content-Security-Policy" content="([^"]*)"', text)
        policies += policy is not None
        if not policy or "default-src 'none'" not in policy[1].replace("&#39;", "'").replace("&#x27;", "'") or "unsafe" in policy[1]:
            faults.append(f"{page}: its policy is {policy and policy[1]}")
        for block in re.findall(r'<script type="application/ld\+json">(.*?)</script>', text, re.S):
            json.loads(block)
    products = {d["slug"]: d for d in json.loads((folder / "catalogue.json").read_text())["designs"]}
    plain = lambda text: "".join(c for c in text if c in "\n\t" or not (ord(c) < 32 or 0x7f <= ord(c) < 0xa0))
    for at, text in enumerate(strings):
        page = (folder / "designs" / f"design-{at:03}" / "index.html").read_text(encoding="utf-8")
        data = [json.loads(b) for b in re.findall(r'<script type="application/ld\+json">(.*?)</script>', page, re.S)]
        if not any(plain(text) in json.dumps(d, ensure_ascii=False) or plain(text) in walk(d) for d in data):
            faults.append(f"JSON-LD of {text!r} does not hold it")
        if products[f"design-{at:03}"]["title"] != plain(text):
            faults.append(f"catalogue.json spells {text!r} as {products[f'design-{at:03}']['title']!r}")
    for name in ("feed.xml", "sitemap.xml"):
        ET.fromstring((folder / name).read_text(encoding="utf-8"))
    titles = {e.text for e in ET.fromstring((folder / "feed.xml").read_text(encoding="utf-8")).iter("{http://www.w3.org/2005/Atom}title")}
    lost = [t for t in strings if plain(t) not in titles and plain(t).strip() not in {(x or "").strip() for x in titles}]
    faults += [f"the feed does not hold {t!r}" for t in lost[:5]]
    rows = list(csv.reader(io.StringIO((folder / "catalogue.csv").read_text(encoding="utf-8"), newline="")))
    if len({len(row) for row in rows}) != 1:
        faults.append("catalogue.csv has rows of different lengths")
    for cell in (cell for row in rows for cell in row):
        if re.match(r"\s*[=+@\uff1d\uff0b\uff0d\uff20]|\s*-(?![\d.]+$)", cell):
            faults.append(f"catalogue.csv: a spreadsheet would run {cell!r}")
    sheets = 0
    for path in folder.rglob("*.pdf"):
        sheets += 1
        data = subprocess.run(["qpdf", "--qdf", "--object-streams=disable", str(path), "-"], stdout=subprocess.PIPE).stdout
        # Content streams and strings are text; what acts stands in dictionaries.
        bare = re.sub(rb"stream\n.*?\nendstream|\((?:\\.|[^\\()])*\)|<[0-9a-fA-F]*>", b"", data, flags=re.S)
        for word in (b"/JavaScript", b"/JS", b"/Launch", b"/OpenAction", b"/AA", b"/EmbeddedFile", b"/SubmitForm", b"/GoToR", b"/ImportData"):
            if re.search(word + rb"\b", bare):
                faults.append(f"{path}: {word.decode()}")
    print(f"  {policies} policies, JSON-LD, catalogue.json, feed, sitemap, CSV and {sheets} PDFs read")
    return faults


def walk(value):
    """All texts in a JSON value."""
    if isinstance(value, dict):
        return [t for v in value.values() for t in walk(v)]
    if isinstance(value, list):
        return [t for v in value for t in walk(v)]
    return [value] if isinstance(value, str) else []


def main():
    binary, scratch = os.path.abspath(sys.argv[1]), clear(sys.argv[2]).absolute()
    # Sheets print letters that their fonts have; line ends and the like stand in for blanks there.
    strings = [text for text in dict.fromkeys(injections.ALL)]
    root = scratch / "shop"
    plant(root, f'"><script>{injections.RUN}</script>', strings, injections.MARKDOWN)
    done = publish(binary, root, "--quiet")
    if done.returncode:
        print(done.stdout[-3000:])
        return 1
    folder = root / "published"
    pages = sorted(str(p.relative_to(folder)) for p in folder.rglob("*.html"))
    # The same templates in another language prove nothing new, but for one product.
    pages = [p for p in pages if not p.startswith("de/") or "design-00" in p]
    faults = as_data(folder, strings) + in_browser(folder, pages)
    print("\n".join(faults[:40]) if faults else f"{len(strings)} strings in every field and {len(injections.MARKDOWN)} in Markdown: 0 ran, 0 left their element")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
