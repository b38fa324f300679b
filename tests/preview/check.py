"""The preview in a real browser: `check.py kerfleaf-program [designs]`, with a shop of so many designs (26 where silent).

Times from a save to what is seen, other origins and names that lead here, keyboard, screen reader, and what is left after a kill.
The times wanted are those of a machine with nothing else to do. Where others are at work, the median of five is divided by how many times
longer than its processor time a short loop takes, by the median of loops run right after each: others' work cannot make it fail, and our
own cannot hide behind one loop that had bad luck.
"""

import http.client
import http.server
import pathlib
import re
import shutil
import signal
import statistics
import subprocess
import sys
import tempfile
import threading
import time
import urllib.parse

from browser import Browser

ROOT = pathlib.Path(__file__).resolve().parents[2]
# Handbook, commands, `preview`.
WANTED_S = 0.3
WANTED_PICTURE_S = 1.0


def many(folder, count):
    """A shop of so many designs, the demo's again and again under other names and codes."""
    shutil.copytree(ROOT / "demo-shop", folder, ignore=shutil.ignore_patterns("published", "sheets", "photos", ".*"))
    designs = sorted(p for p in (folder / "designs").iterdir() if (p / "record.toml").exists())
    for i in range(count - len(designs)):
        old = designs[i % len(designs)]
        new = old.with_name(f"{old.name}-{i // len(designs) + 2}")
        shutil.copytree(old, new)
        record = new / "record.toml"
        text = re.sub(r'^(code\s*=\s*)"([^"]*)"', rf'\1"\2-{i}"', record.read_text(encoding="utf-8"), flags=re.M)
        text = re.sub(r"^\[photos\].*?(?=^\[|\Z)", "", text, flags=re.M | re.S)
        record.write_text(text, encoding="utf-8")
    for spare in [d for d in designs if d.name not in ("eel-ring", "ferry-at-half-tide")][max(count - 2, 0):]:
        shutil.rmtree(spare)
    return count


def files(folder):
    return {str(p.relative_to(folder)): p.stat().st_size for p in sorted(folder.rglob("*")) if p.is_file()}


def start(program, shop, *more):
    process = subprocess.Popen([program, "preview", str(shop), *more], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    STARTED.append(process)
    address = process.stdout.readline().strip()
    assert re.fullmatch(r"http://127\.0\.0\.1:\d+/[a-z2-7]{32}/", address), address
    return process, address


def get(port, path, method="GET", **headers):
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=60)
    connection.putrequest(method, path, skip_host="Host" in headers)
    for name, value in headers.items():
        connection.putheader(name.replace("_", "-"), value)
    connection.endheaders()
    answer = connection.getresponse()
    return answer.status, answer.read(), dict(answer.getheaders())


def save(path, text):
    """As an editor saves: beside it, then in its place. Gives the moment."""
    beside = path.with_name(".beside")
    beside.write_text(text, encoding="utf-8")
    moment = time.monotonic()
    beside.replace(path)
    return moment


def crowd():
    """How much longer than its processor time a loop takes just now: 1 on a machine that has a core to spare."""
    wall, own = time.monotonic(), time.thread_time()
    while time.thread_time() - own < 0.05:
        pass
    return max(1.0, (time.monotonic() - wall) / 0.05)


def since(moment):
    """Seconds since a moment, and how crowded the machine is."""
    return time.monotonic() - moment, crowd()


def times(what, found, wanted_s=WANTED_S):
    clock, crowded = [c for c, _ in found], statistics.median(c for _, c in found)
    alone = statistics.median(clock) / crowded
    print(f"  {what}: by the clock median {statistics.median(clock) * 1000:.0f} ms, longest {max(clock) * 1000:.0f} ms; "
          f"alone {alone * 1000:.0f} ms on a machine {crowded:.1f} times as crowded", flush=True)
    if alone > wanted_s:
        SLOW.append(f"{what}: {alone * 1000:.0f} ms, wanted {wanted_s * 1000:.0f} ms")


def refusals(address):
    """What is not the shop's own page gets nothing: no body, no word of why."""
    url = urllib.parse.urlsplit(address)
    port, token = url.port, url.path
    assert get(port, token)[0] == 200
    for what, call in {
        "no token": dict(path="/"), "half a token": dict(path=token[:-6] + "/"), "another host": dict(path=token, Host=f"evil.example:{port}"),
        "another origin": dict(path=token, Origin="http://evil.example"), "another site": dict(path=token, Sec_Fetch_Site="cross-site"),
        "the same site": dict(path=token, Sec_Fetch_Site="same-site"),
    }.items():
        status, body, _ = get(port, **call)
        assert (status, body) == (403, b""), (what, status, body[:80])
    assert get(port, token, method="POST")[0] == 405
    for path in ("catalogue/../shop.toml", "catalogue/%2e%2e/shop.toml", "bench/../../shop.toml", "shop.toml", "catalogue/sales.csv"):
        assert get(port, token + path)[0] == 404, path
    assert get(port, token)[2]["Cross-Origin-Resource-Policy"] == "same-origin"
    raw = http.client.HTTPConnection("127.0.0.1", port)
    raw.request("GET", token, headers={"X-Long": "x" * 40000})
    assert raw.getresponse().status == 400


def others(address, port):
    """Another page of the same browser, that even knows the address, and a name that leads here."""
    page = f"""<script>
      const told = [];
      const at = "{address}";
      Promise.allSettled([
        fetch(at).then(r => r.text()), fetch(at, {{mode: "no-cors"}}).then(r => {{ if (r.type !== "opaque" || r.status) throw 1; throw 2; }}),
        new Promise((y, n) => {{ const i = new Image(); i.onload = y; i.onerror = n; i.src = at + "catalogue/designs/eel-ring/picture.jpg"; }}),
        new Promise((y, n) => {{ const s = document.createElement("script"); s.onload = y; s.onerror = n; s.src = at + "bench/preview.js"; document.head.append(s); }}),
      ]).then(all => document.title = all.map(a => a.status).join());
    </script>""".encode()

    class Page(http.server.BaseHTTPRequestHandler):
        def do_GET(self):
            self.send_response(200)
            self.send_header("Content-Type", "text/html")
            self.end_headers()
            self.wfile.write(page)

        def log_message(self, *_):
            pass

    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Page)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    browser = Browser("--host-resolver-rules=MAP evil.example 127.0.0.1")
    try:
        browser.go(f"http://127.0.0.1:{server.server_port}/")
        browser.until("document.title !== ''")
        assert browser.run("document.title") == "rejected,rejected,rejected,rejected", browser.run("document.title")
        browser.go(address.replace("127.0.0.1", "evil.example"))
        assert browser.run("document.body.innerText") .strip() == "" or "403" in browser.run("document.body.innerText")
        assert "Workbench" not in browser.run("document.documentElement.outerHTML")
    finally:
        browser.close()
        server.shutdown()


def bench(browser, address, shop):
    """The bench view of one design: what is seen, by keyboard and by ear, and how soon a save shows."""
    slug = "ferry-at-half-tide"
    record = shop / "designs" / slug / "record.toml"
    text = record.read_text(encoding="utf-8")
    browser.go(f"{address}bench/{slug}/")
    browser.until("document.querySelectorAll('#drawing [data-piece]').length > 0")
    pieces = browser.run("document.querySelectorAll('#drawing [data-piece]').length")
    assert f"{pieces} pieces" in browser.names("image")[0], browser.names("image")
    assert {"plain", "by size", "edge", "equal ones", "novelty"} <= set(browser.names("radio")), browser.names("radio")
    assert "Kerf" in browser.names("slider"), browser.names("slider")
    findings = browser.run("document.querySelectorAll('#findings button').length")
    assert findings > 0 and len([n for n in browser.names("button") if re.match(r"\d+\. ", n)]) == findings
    for show in ("size", "edge", "twins", "novelty", "plain"):
        browser.run(f"document.querySelector('input[value={show}]').click()")
        fills = browser.run("new Set([...document.querySelectorAll('#drawing [data-piece]')].map(p => p.getAttribute('fill'))).size")
        assert fills == 1 if show == "plain" else fills >= 1 if show == "twins" else fills > 1, (show, fills)
    browser.run("document.querySelector('#joints').click()")
    assert browser.run("document.querySelectorAll('#drawing circle, #drawing rect').length") > pieces
    # By keyboard alone: to the first finding that has a place, and into it.
    before = browser.run("document.querySelector('#drawing').getAttribute('viewBox')")
    placed = browser.run("document.querySelector('#drawing .mark')?.dataset.finding ?? null")
    for _ in range(200):
        browser.key("Tab")
        if browser.run("document.activeElement.dataset.finding ?? null") == placed:
            break
    if placed is not None:
        browser.key("Enter", text="\r")
        assert browser.run("document.activeElement.getAttribute('aria-pressed')") == "true"
        assert browser.run("document.querySelector('#drawing').getAttribute('viewBox')") != before
    browser.run("document.querySelector('#whole').click()")
    assert browser.run("document.querySelector('#drawing').getAttribute('viewBox')") == before
    # The slider: a wider kerf leaves a lighter board, and the figures follow.
    weight = "[...document.querySelectorAll('#figures dt')].find(d => d.textContent === 'Board').nextSibling.textContent"
    own = browser.run(weight)
    browser.run("(() => { const k = document.querySelector('#kerf'); k.value = 0.6; k.dispatchEvent(new Event('input')); })()")
    tried = browser.until(f"document.querySelector('#kerf-words').textContent.includes('0.60 mm, tried') && {weight} !== '{own}'")
    print(f"  kerf slider to figures: {tried * 1000:.0f} ms")
    assert float(browser.run(weight).split()[0]) < float(own.split()[0])
    browser.run("document.querySelector('#kerf-own').click()")
    browser.until(f"{weight} === '{own}'")

    found = []
    for i in range(5):
        moment = save(record, text.replace('thickness = "6 mm"', f'thickness = "{5 - i * 0.5} mm"'))
        browser.until(f"[...document.querySelectorAll('#figures dd')].some(d => d.textContent.includes('× {5 - i * 0.5:.1f} mm')) && document.body.dataset.version > {i}")
        found.append(since(moment))
    times("figures and bench view after a save", found)
    found = []
    for i in range(5):
        moment = save(record, text.replace('title    = "Ferry at half tide"', f'title    = "Ferry {i}"'))
        browser.until(f"document.querySelector('#title').textContent.startsWith('Ferry {i}')")
        found.append(since(moment))
    times("words on the bench after a save", found)
    broken = text.replace("[board]", "[bord]")
    save(record, broken)
    browser.until("document.querySelector('#mistakes').textContent.includes('bord')")
    assert "Did you mean" in browser.run("document.querySelector('#mistakes').textContent")
    save(record, text)
    browser.until("document.querySelector('#mistakes').textContent === ''")


def catalogue(browser, address, shop):
    """A product page: price and words in place, pictures on demand, drafts among the others."""
    slug = "eel-ring"
    record = shop / "designs" / slug / "record.toml"
    text = record.read_text(encoding="utf-8")
    price = re.search(r'^price\s*=\s*"([\d.]+)"', text, flags=re.M).group(1)
    browser.go(f"{address}catalogue/designs/{slug}/index.html")
    browser.until("document.querySelector('.kerfleaf-bar') !== null")
    browser.run("scrollTo(0, 300)")
    found = []
    for i in range(5):
        moment = save(record, text.replace(f'"{price}"', f'"{901 + i}.00"'))
        browser.until(f"document.body.innerText.includes('{901 + i}.00')")
        found.append(since(moment))
    times("words and prices on a page of the catalogue after a save", found)
    assert browser.run("scrollY") == 300, "the place on the page was lost"
    save(record, text.replace('status   = "published"', 'status   = "draft"').replace('status = "published"', 'status = "draft"'))
    browser.until("document.querySelector('.kerfleaf-bar strong') !== null")
    browser.go(f"{address}catalogue/index.html")
    assert browser.run(f"document.querySelectorAll('a[href*=\"{slug}/\"]').length") > 0, "drafts are shown"
    save(record, text)
    # A picture that nobody has asked for, drawn when it is.
    browser.go("about:blank")
    port = urllib.parse.urlsplit(address).port
    found = []
    for i in range(5):
        save(record, re.sub(r'^thickness\s*=.*$', f'thickness = "{4 + i / 10} mm"', text, flags=re.M))
        time.sleep(1.0)
        html = get(port, urllib.parse.urlsplit(address).path + f"catalogue/designs/{slug}/index.html")[1].decode()
        picture = sorted(set(re.findall(r'made/eel-ring-whole-(\d+)\.\w+\.webp', html)), key=int)
        wide = next(w for w in picture if int(w) >= 640)
        name = re.search(rf"made/eel-ring-whole-{wide}\.\w+\.webp", html).group(0)
        moment = time.monotonic()
        status, body, _ = get(port, urllib.parse.urlsplit(address).path + "catalogue/" + name)
        assert status == 200 and body[:4] == b"RIFF", (status, name)
        found.append(since(moment))
    times(f"a picture {wide} px wide, drawn on demand", found, WANTED_PICTURE_S)
    save(record, text)


STARTED = []
SLOW = []


def main(program, count):
    try:
        walk(program, count)
    finally:
        for process in STARTED:
            process.kill()
            process.wait()


def walk(program, count):
    with tempfile.TemporaryDirectory() as folder:
        shop = pathlib.Path(folder) / "shop"
        count = many(shop, count)
        before = files(shop)
        moment = time.monotonic()
        process, address = start(program, shop)
        port = urllib.parse.urlsplit(address).port
        while b'"version":0' in get(port, urllib.parse.urlsplit(address).path + "news?since=0")[1]:
            pass
        print(f"{count} designs read and measured in {time.monotonic() - moment:.1f} s", flush=True)
        refusals(address)
        others(address, port)
        browser = Browser()
        try:
            browser.go(address)
            assert browser.run("document.querySelectorAll('tbody tr').length") == count
            bench(browser, address, shop)
            catalogue(browser, address, shop)
            assert not browser.problems, browser.problems
        finally:
            browser.close()
        # Killed in the middle, and started again at the same port.
        process.kill()
        process.wait()
        assert files(shop) == before, "something was left in the shop"
        again, second = start(program, shop, "--port", str(port))
        assert get(port, urllib.parse.urlsplit(address).path)[0] == 403, "the old token still opens"
        assert get(port, urllib.parse.urlsplit(second).path)[0] == 200
        # Ctrl-C is how the program says it ends: no failure, and nothing more is said.
        again.send_signal(signal.SIGINT)
        assert again.wait() == 0, again.returncode
        assert files(shop) == before, "something was left in the shop"
        nobody = subprocess.run([program, "preview", folder], capture_output=True, text=True)
        assert nobody.returncode == 2 and "shop.toml" in nobody.stderr, nobody
    assert not SLOW, "\n".join(["too slow:", *SLOW])
    print("the preview holds")


main(sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 26)
