// Walks through the catalogue as people take them: by keyboard alone, without a script, from a disk, under a sub-path, by touch.
//
//   node tests/browser/walks.mjs PUBLISHED
import { readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { browser, host, ledger, listen } from "./host.mjs";

const folder = process.argv[2];
const { check, faults, end } = ledger("walks");
const catalogue = JSON.parse(readFileSync(join(folder, "catalogue.json"), "utf8"));
const total = catalogue.designs.length;
const server = await host({ "": folder, "a/b/shop": folder });
const chromium = await browser();
const shown = (page) => page.locator(".shelf:not([hidden]) .entry").count();
const titles = (page) => page.locator(".shelf:not([hidden]) .entry h2").allTextContents();

/** The search: each field against the same question put to catalogue.json. */
async function searches(page, name) {
  const status = page.locator(".finder [role=status]");
  const asks = async (words, act, wanted) => {
    await act();
    const expected = catalogue.designs.filter(wanted).map((design) => design.title).sort();
    await page.waitForFunction((n) => document.querySelectorAll(".found:not([hidden]) .entry").length === n, Math.min(36, expected.length)).catch(() => {});
    const found = (await titles(page)).sort();
    check(JSON.stringify(found) === JSON.stringify(expected), `${name}, ${words}: found ${found}, wanted ${expected}`);
    await page.locator(".finder [type=reset]").click();
    await page.waitForFunction(() => document.querySelector(".found").hidden);
  };
  const { designs } = catalogue;
  const one = designs.find((design) => /[a-z]{5,}/i.test(design.title));
  const word = one.title.match(/[a-z]{5,}/i)[0];
  const typo = word.slice(0, 2) + word[3] + word[2] + word.slice(4);
  await page.fill("[name=q]", typo);
  await page.waitForFunction(() => !document.querySelector(".found").hidden);
  check((await titles(page)).includes(one.title), `${name}: “${typo}” does not find ${one.title}`);
  check(/\d/.test(await status.textContent()), `${name}: the status says nothing`);
  await page.fill("[name=q]", "");
  await page.click(".narrow");
  await asks("blanks", () => page.check("[name=form][value=blank]"), (d) => d.offers.some((o) => o.form === "blank"));
  const steady = designs[0].difficulty.word;
  await asks(steady, () => page.check(`[name=word][value=${steady}]`), (d) => d.difficulty.word === steady);
  await asks("ready", () => page.check("[name=ready]"), (d) => d.offers.some((o) => o.stock > 0));
  const subject = designs[0].subjects[0];
  await asks(subject, () => page.selectOption("[name=subject]", subject), (d) => d.subjects.includes(subject));
  await asks("up to 80 pieces", () => page.fill("[name=count-to]", "80"), (d) => d.pieces.count <= 80);
  await asks("from 250 mm", () => page.fill("[name=side-from]", "250"), (d) => Math.max(d.size.width_mm, d.size.height_mm) >= 250 - 0.1);
  await asks("up to 60", () => page.fill("[name=price-to]", "60"), (d) => d.offers.some((o) => Number(o.price) <= 60));
  await page.selectOption("[name=sort]", "few");
  await page.waitForFunction(() => !document.querySelector(".found").hidden);
  const order = [...designs].sort((a, b) => a.pieces.count - b.pieces.count).map((d) => d.pieces.count);
  const seen = (await page.locator(".found .facts span:first-child").allTextContents()).map((text) => Number(text.replace(/\D/g, "")));
  check(JSON.stringify(seen) === JSON.stringify(order.slice(0, 36)), `${name}: by pieces ${seen}`);
  // The state is in the address, and an address brings it back.
  const address = page.url();
  check(address.includes("sort=few"), `${name}: ${address} does not hold the order`);
  await page.goto("about:blank");
  await page.goto(address);
  await page.waitForFunction(() => !document.querySelector(".found").hidden);
  check((await page.inputValue("[name=sort]")) === "few", `${name}: the address does not bring the order back`);
  await page.locator(".finder [type=reset]").click();
  check((await shown(page)) === Math.min(total, 35), `${name}: clearing does not bring the shelf back`);
}

// From the root, under a sub-path, from a disk.
for (const [name, base] of [["root", server.url], ["sub-path", `${server.url}a/b/shop/`], ["disk", `${pathToFileURL(resolve(folder))}/`]]) {
  const page = await chromium.newPage({ viewport: { width: 1280, height: 900 } });
  listen(page, faults, name);
  await page.goto(`${base}index.html`);
  await searches(page, name);
  await page.locator(".shelf:not([hidden]) .entry > a").first().click();
  await page.waitForSelector(".bench");
  check(await page.locator(".main img").evaluate((image) => image.complete && image.naturalWidth > 0), `${name}: a product's picture does not load`);
  await page.close();
}

// Keyboard alone: search, go to a product, look at its pictures, come back.
{
  const page = await chromium.newPage({ viewport: { width: 1280, height: 900 } });
  listen(page, faults, "keyboard");
  await page.goto(server.url);
  const focused = () => page.evaluate(() => {
    const node = document.activeElement;
    const style = getComputedStyle(node);
    return { body: node === document.body, name: node.name || node.className || node.tagName, text: node.textContent.trim().slice(0, 40), ring: style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2 };
  });
  await page.keyboard.press("Tab");
  check((await focused()).name === "skip", "keyboard: the first stop is not the way to the contents");
  await page.keyboard.press("Enter");
  let stops = 0;
  while ((await focused()).name !== "q" && stops++ < 60) await page.keyboard.press("Tab");
  check((await focused()).name === "q", "keyboard: Tab never comes to the search");
  check((await focused()).ring, "keyboard: the search shows no focus");
  await page.keyboard.type(catalogue.designs[0].title.slice(0, 5));
  await page.waitForFunction(() => !document.querySelector(".found").hidden);
  stops = 0;
  while (!(await page.evaluate(() => document.activeElement.closest(".found .entry"))) && stops++ < 30) await page.keyboard.press("Tab");
  check((await focused()).ring, "keyboard: a design shows no focus");
  await page.keyboard.press("Enter");
  await page.waitForSelector(".bench");
  stops = 0;
  while (!(await page.evaluate(() => document.activeElement.closest(".pictures a"))) && stops++ < 60) await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  await page.waitForSelector("dialog.viewer[open]");
  const picture = () => page.locator(".viewer img").getAttribute("src");
  const before = await picture();
  await page.keyboard.press("ArrowRight");
  check((await picture()) !== before, "keyboard: the arrow does not turn to the next picture");
  await page.keyboard.press("ArrowLeft");
  check((await picture()) === before, "keyboard: the arrow does not turn back");
  await page.locator(".viewer [aria-pressed]").focus();
  await page.keyboard.press("Enter");
  check(await page.locator(".stage.near").count(), "keyboard: nothing brings the picture nearer");
  const pixels = await page.locator(".viewer img").evaluate((image) => image.getBoundingClientRect().width / image.naturalWidth);
  check(pixels <= 1.01, `keyboard: the picture is shown at ${pixels} of its own pixels`);
  await page.keyboard.press("Escape");
  const gone = page.waitForSelector("dialog.viewer", { state: "detached", timeout: 2000 }).then(() => true, () => false);
  check(await gone, "keyboard: Escape does not close the picture");
  check(await page.evaluate(() => Boolean(document.activeElement.closest(".pictures"))), "keyboard: focus does not come back to the picture");
  // Every stop of a product page shows where it is.
  await page.evaluate(() => document.activeElement.blur());
  const unseen = [];
  for (let at = 0; at < 80; at++) {
    await page.keyboard.press("Tab");
    const stop = await focused();
    if (stop.body) break;
    if (!stop.ring) unseen.push(`${stop.name} ${stop.text}`);
  }
  check(!unseen.length, `keyboard: no focus to be seen on ${unseen}`);
  await page.close();
}

// Two designs side by side, true to each other's scale.
{
  const page = await chromium.newPage({ viewport: { width: 1280, height: 900 } });
  listen(page, faults, "side by side");
  await page.goto(server.url);
  await page.click(".weigh");
  await page.waitForSelector(".pick");
  const by = [...catalogue.designs].sort((a, b) => a.size.width_mm - b.size.width_mm);
  const pair = [by[0], by.at(-1)];
  for (const design of pair) await page.click(`.entry[data-slug="${design.slug}"] .pick`);
  check(page.url().includes("compare="), "side by side: not in the address");
  await page.click(".tray button");
  await page.waitForSelector("dialog.scales[open]");
  const widths = await page.locator(".scales .boards img").evaluateAll(async (images) => {
    await Promise.all(images.map((image) => image.decode()));
    return images.map((image) => image.getBoundingClientRect().width);
  });
  // The picture shows a rim of table round the board: 5.5 % of its longer side and its thickness, on either side.
  const window = ({ size }) => size.width_mm + 2 * (0.055 * Math.max(size.width_mm, size.height_mm) + size.thickness_mm);
  const wanted = window(pair[0]) / window(pair[1]);
  check(Math.abs(widths[0] / widths[1] - wanted) < 0.02, `side by side: ${widths} is not ${wanted}`);
  const address = page.url();
  await page.goto("about:blank");
  await page.goto(address);
  check(await page.waitForSelector("dialog.scales[open]", { timeout: 5000 }).then(() => true, () => false), "side by side: the address does not bring it back");
  await page.close();
}

// By touch: a swipe turns to the next picture.
{
  const context = await chromium.newContext({ viewport: { width: 390, height: 800 }, hasTouch: true, isMobile: true });
  const page = await context.newPage();
  listen(page, faults, "touch");
  await page.goto(`${server.url}designs/${catalogue.designs[0].slug}/`);
  await page.tap(".main a");
  await page.waitForSelector("dialog.viewer[open]");
  const before = await page.locator(".viewer img").getAttribute("src");
  const session = await context.newCDPSession(page);
  const touch = (type, x) => session.send("Input.dispatchTouchEvent", { type, touchPoints: type === "touchEnd" ? [] : [{ x, y: 400 }] });
  await touch("touchStart", 300);
  for (const x of [250, 200, 150, 100]) await touch("touchMove", x);
  await touch("touchEnd", 100);
  await page.waitForTimeout(200);
  check((await page.locator(".viewer img").getAttribute("src")) !== before, "touch: a swipe does not turn to the next picture");
  await context.close();
}

// Without a script every design is reached from the first page by links alone, and nothing asks for a script.
{
  const context = await chromium.newContext({ viewport: { width: 1280, height: 900 }, javaScriptEnabled: false });
  const page = await context.newPage();
  const seen = new Set();
  let next = server.url;
  while (next) {
    await page.goto(next);
    for (const href of await page.locator(".entry > a").evaluateAll((links) => links.map((link) => link.href))) seen.add(href);
    check(!(await page.locator(".finder").isVisible()) , "without a script: fields that do nothing are shown");
    next = (await page.locator("a[rel=next]").count()) ? await page.locator("a[rel=next]").evaluate((link) => link.href) : null;
  }
  check(seen.size === total, `without a script: ${seen.size} of ${total} designs are reached`);
  await page.goto([...seen][0]);
  check(await page.locator(".card dd").first().isVisible(), "without a script: no figures");
  await page.locator(".main a").click();
  check(/\.(webp|jpg)$/.test(page.url()), "without a script: a picture does not lead to its largest size");
  await context.close();
}

await chromium.close();
server.close();
end(50);
