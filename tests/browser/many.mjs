// A catalogue of a thousand designs: what the first view costs, how fast the search answers, and that it is still good without a script.
//
//   node tests/browser/many.mjs MANY
//
// MANY is made by `cargo run --release --example thousand`.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { browser, host, ledger, listen } from "./host.mjs";

const folder = process.argv[2];
const { check, faults, end } = ledger("a thousand designs");
const { designs } = JSON.parse(readFileSync(join(folder, "catalogue.json"), "utf8"));
check(designs.length >= 1000, `only ${designs.length} designs`);
const server = await host({ "": folder });
const chromium = await browser();

// The first view on a phone and on a desk: all that comes before anybody scrolls, as it goes over the wire.
for (const [name, viewport, scale] of [["phone", { width: 390, height: 844 }, 2], ["desk", { width: 1440, height: 900 }, 1]]) {
  const context = await chromium.newContext({ viewport, deviceScaleFactor: scale });
  const page = await context.newPage();
  listen(page, faults, name);
  const session = await context.newCDPSession(page);
  await session.send("Network.enable");
  let bytes = 0;
  session.on("Network.loadingFinished", (event) => (bytes += event.encodedDataLength));
  await page.goto(server.url, { waitUntil: "networkidle" });
  // Pictures below the fold are asked for by the browser a screen or two ahead; the first view is what can be seen.
  const seen = await page.evaluate(() => performance.getEntriesByType("resource").concat(performance.getEntriesByType("navigation")).filter((entry) => {
    const image = [...document.images].find((image) => image.currentSrc === entry.name);
    return !image || image.getBoundingClientRect().top < innerHeight;
  }).reduce((sum, entry) => sum + entry.transferSize, 0));
  check(seen > 10_000 && seen < 300_000, `${name}: the first view takes ${seen} bytes`);
  console.log(`${name}: first view ${Math.round(seen / 1000)} kB, with what the browser asks for ahead ${Math.round(bytes / 1000)} kB`);
  await context.close();
}

const page = await chromium.newPage({ viewport: { width: 1280, height: 900 } });
listen(page, faults, "search");
await page.goto(server.url);
await page.focus("[name=q]");
await page.waitForFunction(() => self.kerfleafShelf?.index);
/** Milliseconds from an input to the answer on the page, layout included. */
const answer = (name, value) => page.evaluate(async ([name, value]) => {
  const field = document.querySelector(`[name="${name}"]`);
  const found = document.querySelector(".found");
  const status = document.querySelector(".finder [role=status]");
  field.focus();
  const changed = new Promise((done) => new MutationObserver(done).observe(status, { childList: true, characterData: true, subtree: true }));
  const start = performance.now();
  if (field.type === "checkbox") field.checked = value;
  else field.value = value;
  field.dispatchEvent(new Event("input", { bubbles: true }));
  await changed;
  found.getBoundingClientRect();
  return { ms: performance.now() - start, status: status.textContent };
}, [name, value]);
const times = [];
for (const [name, value] of [["q", "f"], ["q", "fe"], ["q", "ferry"], ["q", "fery tied"], ["q", "quiet markte"], ["q", ""], ["count-to", "90"], ["count-to", "60"], ["form", true], ["sort", "title"], ["sort", "price"], ["price-to", "70"], ["side-from", "200"], ["ready", true]]) {
  if (name === "q" && value === "") {
    await page.fill("[name=q]", "");
    continue;
  }
  const { ms, status } = await answer(name, value);
  times.push(ms);
  check(ms < 50, `${name} = ${value}: ${ms.toFixed(1)} ms (${status})`);
}
console.log(`answers: ${times.map((ms) => ms.toFixed(0)).join(", ")} ms`);
check((await page.locator(".found .entry").count()) <= 36, "more than a page of answers is drawn at once");

// Without a script: pages of results lead to every design.
const context = await chromium.newContext({ javaScriptEnabled: false });
const plain = await context.newPage();
let next = server.url;
let pages = 0;
const reached = new Set();
while (next) {
  await plain.goto(next, { waitUntil: "domcontentloaded" });
  pages += 1;
  for (const href of await plain.locator(".entry > a").evaluateAll((links) => links.map((link) => link.href))) reached.add(href);
  next = (await plain.locator("a[rel=next]").count()) ? await plain.locator("a[rel=next]").evaluate((link) => link.href) : null;
}
check(reached.size === designs.length, `${reached.size} of ${designs.length} designs are reached without a script, on ${pages} pages`);
await chromium.close();
server.close();
end(17);
