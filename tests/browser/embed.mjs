// The examples of tests/embedding, each in a real Chromium: another site with hostile styles and a strict policy, and a Rust server without a disk.
//
//   node tests/browser/embed.mjs PUBLISHED [SERVER SHOP]
//
// SERVER is the built example `serve`; it draws the whole SHOP first, which takes a while.
import { mkdtempSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { spawn } from "node:child_process";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { browser, host, ledger, listen } from "./host.mjs";

const [folder, program, shop] = process.argv.slice(2);
const { check, faults, end } = ledger("embedding");
const { designs } = JSON.parse(readFileSync(join(folder, "catalogue.json"), "utf8"));
const design = designs[0];
const subject = design.subjects[0];
const alike = designs.filter((other) => other.subjects.includes(subject)).slice(0, 3);

const catalogue = await host({ shop: folder, "": folder }, { shop: { "access-control-allow-origin": "*" } });
const site = mkdtempSync(join(tmpdir(), "site-"));
for (const name of readdirSync("tests/embedding").filter((name) => /html|css/.test(name))) {
  const text = readFileSync(join("tests/embedding", name), "utf8");
  const filled = text.replaceAll("https://puzzles.example/", `${catalogue.url}shop/`).replaceAll("DESIGN", design.slug).replaceAll("SUBJECT", subject);
  writeFileSync(join(site, name), filled);
}
const other = await host({ "": site });
const chromium = await browser();

{
  const page = await chromium.newPage({ viewport: { width: 1000, height: 900 } });
  listen(page, faults, "elements");
  await page.goto(`${other.url}elements.html`);
  await page.waitForFunction(() => document.querySelector("kerf-shelf")?.shadowRoot?.querySelector(".card"));
  const seen = await page.evaluate(async () => {
    const look = (name) => [...document.querySelector(name).shadowRoot.querySelectorAll(".card")].map((card) => {
      const style = (part) => getComputedStyle(card.querySelector(part));
      return { href: card.href, title: card.querySelector(".title").textContent, size: style(".title").fontSize, colour: style(".title").color, spacing: style(".facts").letterSpacing,
        shown: card.getClientRects().length > 0, width: card.getBoundingClientRect().width, facts: card.querySelector(".facts").textContent };
    });
    return { card: look("kerf-card"), shelf: look("kerf-shelf"), seen: getComputedStyle(document.querySelector("kerf-card")).display };
  });
  check(seen.card.length === 1 && seen.card[0].title === design.title, `elements: the card is ${JSON.stringify(seen.card)}`);
  check(seen.card[0]?.href === `${catalogue.url}shop/designs/${design.slug}/`, `elements: the card leads to ${seen.card[0]?.href}`);
  check(seen.shelf.map((card) => card.title).join() === alike.map((d) => d.title).join(), `elements: the shelf holds ${seen.shelf.map((card) => card.title)}`);
  for (const card of [...seen.card, ...seen.shelf]) {
    check(card.shown && seen.seen === "block", "elements: the site's styles hide a card");
    check(card.size === "19.2px" && card.spacing === "normal" && card.colour !== "rgb(0, 255, 0)" && card.width <= 1000, `elements: the site's styles reach a card: ${JSON.stringify(card)}`);
    check(/\d/.test(card.facts), "elements: a card without figures");
  }
  await page.locator("kerf-card img").scrollIntoViewIfNeeded();
  await page.waitForFunction(() => document.querySelector("kerf-card").shadowRoot.querySelector("img").naturalWidth > 0, null, { timeout: 5000 }).catch(() => check(false, "elements: the picture does not load"));
  await page.evaluate(() => document.querySelector("kerf-card").setAttribute("design", ""));
  await page.waitForFunction(() => !document.querySelector("kerf-card").shadowRoot.querySelector(".card"));
  await page.close();
}

{
  const page = await chromium.newPage({ viewport: { width: 1000, height: 900 } });
  listen(page, faults, "frame");
  await page.goto(`${other.url}frame.html`);
  const frame = page.frameLocator("iframe");
  check((await frame.locator("h1").textContent()) === design.title, "frame: not the design");
  check(await frame.locator("img").evaluate((image) => image.decode().then(() => image.naturalWidth > 0)), "frame: its picture does not load");
  check((await frame.locator("a").first().getAttribute("target")) === "_top", "frame: its link would open inside the frame");
  await frame.locator("a").first().click();
  await page.waitForURL(`**/designs/${design.slug}/**`);
  await page.close();
}

if (program) {
  const server = spawn(program, [shop], { stdio: ["ignore", "pipe", "inherit"] });
  const url = await new Promise((done, failed) => {
    server.stdout.on("data", (data) => done(String(data).match(/http:\S+/)[0]));
    server.on("exit", () => failed(new Error("the server ended")));
  });
  const page = await chromium.newPage();
  listen(page, faults, "server");
  await page.goto(url);
  check((await page.locator(".entry").count()) === Math.min(35, designs.length), "server: not all designs");
  await page.locator(".entry > a").first().click();
  await page.waitForSelector(".bench");
  check(await page.locator(".main img").evaluate((image) => image.decode().then(() => image.naturalWidth > 0)), "server: a picture does not load");
  const same = await (await fetch(`${url}designs/${design.slug}/index.html`)).text();
  check(same === readFileSync(join(folder, `designs/${design.slug}/index.html`), "utf8"), "server: another page than the published one");
  server.kill();
}

await chromium.close();
catalogue.close();
other.close();
end(10);
