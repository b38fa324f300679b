// What every browser test needs: a host for a published folder, a real Chromium, and a list of faults.
//
// The packages come from target/browser (see tests/run): playwright-core drives the Chromium of the system.
import { createRequire } from "node:module";
import { createServer } from "node:http";
import { gzipSync } from "node:zlib";
import { existsSync, readFileSync, statSync } from "node:fs";
import { join, resolve } from "node:path";

const TYPES = { html: "text/html; charset=utf-8", css: "text/css", js: "text/javascript", json: "application/json", webp: "image/webp", jpg: "image/jpeg",
  png: "image/png", svg: "image/svg+xml", pdf: "application/pdf", xml: "application/xml", csv: "text/csv" };

export const packages = createRequire(resolve("target/browser/") + "/");

/** Serves folders by the first part of the path ("" for the root), text packed as hosts do; `headers` are sent with every answer of that folder. */
export async function host(folders, headers = {}) {
  const asked = [];
  const server = createServer((request, answer) => {
    const path = decodeURIComponent(new URL(request.url, "http://x").pathname);
    asked.push(path);
    const part = Object.keys(folders).filter((p) => p && path.startsWith(`/${p}/`)).sort((a, b) => b.length - a.length)[0] ?? "";
    const inside = path.slice(part ? part.length + 2 : 1);
    let file = folders[part] === undefined ? "" : join(folders[part], inside);
    if (file && existsSync(file) && statSync(file).isDirectory()) {
      if (!path.endsWith("/")) return answer.writeHead(301, { location: `${path}/` }).end();
      file = join(file, "index.html");
    }
    const found = file && existsSync(file);
    if (!found) file = join(folders[part] ?? folders[""], "404.html");
    const bytes = existsSync(file) ? readFileSync(file) : Buffer.from("");
    const type = TYPES[file.split(".").pop()] ?? "text/plain; charset=utf-8";
    const packed = /text|json|svg|xml/.test(type);
    const head = { "content-type": type, "cache-control": path.includes("/made/") ? "max-age=31536000, immutable" : "no-cache", ...(packed && { "content-encoding": "gzip" }), ...(headers[part] ?? {}) };
    answer.writeHead(found ? 200 : 404, head).end(packed ? gzipSync(bytes) : bytes);
  });
  await new Promise((done) => server.listen(0, "127.0.0.1", done));
  return { url: `http://127.0.0.1:${server.address().port}/`, asked, close: () => server.close() };
}

export async function browser() {
  const { chromium } = packages("playwright-core");
  const executablePath = process.env.CHROMIUM ?? ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"].find(existsSync);
  return chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-gpu"] });
}

/** Collects faults; `end` prints them, or how many checks held, and sets the exit code. */
export function ledger(name) {
  const faults = [];
  let held = 0;
  return {
    faults,
    check(good, words) {
      if (good) held += 1;
      else {
        faults.push(words);
        console.log(`FAULT ${words}`);
      }
      return good;
    },
    end(least) {
      if (held < least) faults.push(`only ${held} checks were made, at least ${least} were due`);
      console.log(faults.length ? `${name}: ${faults.length} faults\n${faults.slice(0, 40).join("\n")}` : `${name}: ${held} checks hold`);
      process.exitCode = faults.length ? 1 : 0;
    },
  };
}

/** Puts what a page complains of into `faults`: errors of scripts, of its policy, of addresses that lead nowhere. */
export function listen(page, faults, name) {
  page.on("pageerror", (error) => faults.push(`${name}: ${error.message}`));
  page.on("console", (message) => {
    if (["error", "warning"].includes(message.type())) faults.push(`${name}: ${message.text()}`);
  });
  page.on("requestfailed", (request) => {
    if (request.failure()?.errorText !== "net::ERR_ABORTED") faults.push(`${name}: ${request.url()} ${request.failure()?.errorText}`);
  });
}
