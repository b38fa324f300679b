// Every kind of page, in a real Chromium, at three widths, light and dark:
//
//   node tests/browser/pages.mjs PUBLISHED [MANY] [--all]
//
// No violation by axe-core (WCAG 2.0 to 2.2, A and AA, and its best practices), nothing wider than the window, nothing that jumps while it loads (layout
// shift 0), nothing the page's own policy forbids, no address that leads nowhere. Without --all: 320 px in dark and 1440 px in light.
// PUBLISHED is a shop of a few designs; MANY one with pages of results.
import { readFileSync, readdirSync, existsSync } from "node:fs";
import { join } from "node:path";
import { browser, host, ledger, listen, packages } from "./host.mjs";

const [folder, ...rest] = process.argv.slice(2);
const whole = rest.includes("--all");
const many = rest.find((word) => !word.startsWith("--"));
const axe = readFileSync(packages.resolve("axe-core/axe.min.js"), "utf8");
const { check, faults, end } = ledger("pages");

const { designs, shop } = JSON.parse(readFileSync(join(folder, "catalogue.json"), "utf8"));
const covered = designs.find((design) => design.pictures.some((picture) => picture.spoiler));
const plain = designs.find((design) => !design.guides.length) ?? designs[0];
const first = (part) => `${part}/${readdirSync(join(folder, part)).sort()[0]}/`;
const own = readdirSync(join(folder, "pages")).filter((name) => !["care", "cautions", "difficulty"].includes(name))[0];
const kinds = {
  index: "", "of a form": first("forms"), "of a subject": first("subjects"), product: `designs/${covered.slug}/`, "plain product": `designs/${plain.slug}/`,
  difficulty: "pages/difficulty/", care: "pages/care/", cautions: "pages/cautions/", "owner's page": `pages/${own}/`, "for a frame": `embed/${designs[0].slug}.html`,
  "lost address, deep": "no/such/place/at/all", "lost address below a sub-path": "a/b/shop/no/such/place",
};
for (const language of shop.languages.slice(1)) {
  kinds[`index in ${language}`] = `${language}/`;
  kinds[`product in ${language}`] = `${language}/designs/${covered.slug}/`;
}
if (many) Object.assign(kinds, { "first of many": "many/", "second of many": "many/page/2/" });

const server = await host({ "": folder, "a/b/shop": folder, ...(many && { many }) });
const chromium = await browser();
const sizes = whole ? [320, 768, 1440].flatMap((width) => ["light", "dark"].map((scheme) => [width, scheme])) : [[320, "dark"], [1440, "light"]];
for (const [width, scheme] of sizes) {
  const context = await chromium.newContext({ viewport: { width, height: 900 }, colorScheme: scheme, bypassCSP: false, reducedMotion: "reduce" });
  for (const [kind, address] of Object.entries(kinds)) {
    const name = `${kind} at ${width} px, ${scheme}`;
    const page = await context.newPage();
    const lost = kind.startsWith("lost");
    if (!lost) listen(page, faults, name);
    await page.addInitScript(() => {
      self.jumps = [];
      new PerformanceObserver((list) => list.getEntries().forEach((entry) => self.jumps.push(entry.value))).observe({ type: "layout-shift", buffered: true });
    });
    const answer = await page.goto(server.url + address, { waitUntil: "load" });
    check(answer.status() === (lost ? 404 : 200), `${name}: status ${answer.status()}`);
    await page.evaluate(async () => {
      for (let y = 0; y < document.body.scrollHeight; y += 800) {
        scrollTo(0, y);
        await new Promise((done) => setTimeout(done, 25));
      }
      scrollTo(0, 0);
    });
    const jumps = await page.evaluate(() => self.jumps.reduce((sum, value) => sum + value, 0));
    check(jumps === 0, `${name}: layout shift ${jumps}`);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    check(wide <= 0, `${name}: ${wide} px wider than the window`);
    const styled = await page.evaluate(() => getComputedStyle(document.body).marginTop === "0px");
    check(styled, `${name}: has no style`);
    if (lost) {
      // However deep the host shows it, every way home leads to the catalogue.
      const home = shop.web_address ? `${shop.web_address}/` : server.url + (address.startsWith("a/") ? "a/b/shop/" : "");
      const found = await page.waitForFunction((home) => [...document.querySelectorAll("main a, a.shop")].every((link) => link.href === home), home, { timeout: 5000 }).then(() => true, () => false);
      check(found, `${name}: the way home leads elsewhere`);
    }
    // Once as it comes, once with all that can be opened.
    for (const state of ["as it comes", "opened"]) {
      if (state === "opened") {
        const opened = await page.evaluate(() => {
          const covers = document.querySelectorAll("details:not([open])");
          covers.forEach((cover) => (cover.open = true));
          const narrow = document.querySelector(".narrow");
          if (narrow) narrow.click();
          return covers.length + (narrow ? 1 : 0);
        });
        if (!opened) continue;
      }
      const found = await violations(page);
      check(found.length === 0, `${name}, ${state}: ${found.join("; ")}`);
      const wider = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      check(wider <= 0, `${name}, ${state}: ${wider} px wider than the window`);
    }
    // An owner's words may be longer than a column.
    const stretched = await page.evaluate(() => {
      document.querySelectorAll("h1,h2:not(.unseen),h3,.summary").forEach((node) => (node.textContent = "Donaudampfschifffahrtsgesellschaftskapitänsmützen"));
      return document.documentElement.scrollWidth - document.documentElement.clientWidth;
    });
    check(stretched <= 0, `${name}: a long word makes it ${stretched} px wider than the window`);
    // Written from right to left nothing is lost either.
    const turned = await page.evaluate(() => {
      document.documentElement.dir = "rtl";
      return [...document.querySelectorAll("body *")].filter((node) => {
        const box = node.getBoundingClientRect();
        return box.width > 1 && (box.left < -1 || box.right > innerWidth + 1) && !node.closest("svg,.skip,.unseen") && getComputedStyle(node).position !== "absolute";
      }).map((node) => `${node.tagName}.${node.className}`).slice(0, 3);
    });
    check(turned.length === 0, `${name}, from right to left: ${turned} out of the window`);
    // Figures keep their order there: width before height, number before unit, as the drawing beside them is.
    const swapped = await page.evaluate(() => [...document.querySelectorAll(".card dd, .facts span")].filter((node) => {
      const text = node.innerText.match(/\d+ × \d+/) && document.createTreeWalker(node, NodeFilter.SHOW_TEXT);
      while (text?.nextNode()) {
        const at = text.currentNode.data.indexOf("×");
        if (at < 0) continue;
        const left = (from, to) => {
          const range = document.createRange();
          range.setStart(text.currentNode, from);
          range.setEnd(text.currentNode, to);
          return range.getBoundingClientRect().left;
        };
        return left(0, 1) > left(at, at + 1);
      }
      return false;
    }).length);
    check(swapped === 0, `${name}, from right to left: height stands before width`);
    await page.close();
  }
  await context.close();
}

async function violations(page) {
  // By way of the debugger, so that the page's policy need not allow it.
  await page.evaluate(axe + ";0");
  return page.evaluate(async () => {
    const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
    const { violations } = await self.axe.run(document, { runOnly: { type: "tag", values: tags } });
    return violations.map((v) => `${v.id} (${v.nodes.slice(0, 2).map((n) => n.html.slice(0, 120) + " " + (n.any[0]?.message ?? "")).join(" | ")})`);
  });
}

await chromium.close();
server.close();
end(Object.keys(kinds).length * sizes.length * 5);
