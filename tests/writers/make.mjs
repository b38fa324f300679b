// Writes javascript-writer.svg with @svgdotjs/svg.js on svgdom: see README.md.
import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { createSVGWindow } from "svgdom";
import { SVG, registerWindow } from "@svgdotjs/svg.js";

const window = createSVGWindow();
registerWindow(window, window.document);
const mm = 96 / 25.4;
const [W, H, SUN] = [120 * mm, 90 * mm, [60 * mm, 30 * mm, 9 * mm]];
const ridge = [[0, 72], [25, 52], [48, 66], [80, 48], [120, 70]].map(([x, y]) => [x * mm, y * mm]);
const draw = SVG(window.document.documentElement).size(W, H).viewbox(0, 0, W, H);
const SHOP = "urn:example:shop-drawing";
draw.attr("xmlns:shop", SHOP, "http://www.w3.org/2000/xmlns/");
const layer = (label) => draw.group().attr("shop:label", label, SHOP);

const paint = layer("one");
paint.rect(W, H).fill("#9cc3d5");
paint.polygon([...ridge, [W, H], [0, H]]).fill("#6f8f4e");
paint.circle(2 * SUN[2]).center(SUN[0], SUN[1]).fill("#f0b93a");

const cut = layer("two").css({ fill: "none", stroke: "#111", "stroke-width": "0.4px" });
cut.path(`M0 0H${W}V${H}H0Z`);
for (const [x1, y1, x2, y2] of [[0, 30, 51, 30], [69, 30, 120, 30], [0, 60, 120, 60], [60, 0, 60, 21], [60, 39, 60, 90]])
  cut.line(x1 * mm, y1 * mm, x2 * mm, y2 * mm);
// Columns drawn once at the left and moved.
for (const x of [30, 90]) cut.line(0, 0, 0, H).transform({ translateX: x * mm });

const whole = layer("three").css({ fill: "none", stroke: "#111", "stroke-width": "0.4px" });
whole.circle(2 * SUN[2]).center(SUN[0], SUN[1]);

const light = layer("four").css({ fill: "none", stroke: "#999", "stroke-width": "0.4px" });
light.polyline(ridge);

writeFileSync(fileURLToPath(new URL("javascript-writer.svg", import.meta.url)), draw.svg() + "\n");
