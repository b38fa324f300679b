// What programs read, held against what others made:
//
//   node tests/browser/data.mjs PUBLISHED
//
// JSON-LD of every page: each type, property and enumeration value is in the published vocabulary of schema.org (as typed by schema-dts), each unit code
// in UN/CEFACT Recommendation 20. catalogue.json: valid by its published schema (Ajv, JSON Schema 2020-12), and the schema refuses what is wrong.
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { ledger, packages } from "./host.mjs";

const folder = process.argv[2];
const { check, end } = ledger("data");

/* schema.org: `interface OfferBase extends IntangibleBase { "price"?: …; }`, and enumeration values as addresses. */
const vocabulary = readFileSync(packages.resolve("schema-dts/package.json").replace("package.json", "dist/schema.d.ts"), "utf8").replace(/\/\*[\s\S]*?\*\//g, "");
const types = new Map();
for (const [, name, parents, body] of vocabulary.matchAll(/interface (\w+?)(?:Base|Leaf) extends ([^{]+)\{([^}]*)\}/g)) {
  const known = types.get(name) ?? { parents: [], own: new Set() };
  known.parents.push(...parents.split(",").map((parent) => parent.trim().replace(/(Base|Leaf)$/, "")));
  for (const [, property] of body.matchAll(/"?([a-zA-Z@]+)"?\??:/g)) known.own.add(property);
  types.set(name, known);
}
const has = (type, property) => {
  const known = types.get(type);
  return Boolean(known) && (known.own.has(property) || known.parents.some((parent) => parent !== type && has(parent, property)));
};
check(types.size > 700 && has("Offer", "price") && !has("Offer", "petals"), `schema.org: only ${types.size} types were read`);

// UN/CEFACT Recommendation 20, revision 17: the codes for millimetre and gram.
const UNITS = new Set(["MMT", "GRM"]);
const found = new Set();
function walk(node, at) {
  if (Array.isArray(node)) return node.forEach((item) => walk(item, at));
  if (typeof node === "string") {
    if (node.startsWith("https://schema.org/")) check(vocabulary.includes(`"${node}"`), `${at}: ${node} is not in the vocabulary`);
    return;
  }
  if (node === null || typeof node !== "object") return;
  const type = node["@type"];
  if (type) {
    found.add(type);
    check(types.has(type), `${at}: there is no type ${type}`);
    for (const key of Object.keys(node).filter((key) => !key.startsWith("@"))) check(has(type, key), `${at}: ${type} has no property ${key}`);
    if (node.unitCode) check(UNITS.has(node.unitCode), `${at}: unit ${node.unitCode}`);
  }
  for (const [key, value] of Object.entries(node)) if (key !== "@context") walk(value, `${at} ${key}`);
}
const html = readdirSync(folder, { recursive: true }).filter((name) => name.endsWith(".html"));
for (const name of html) {
  for (const [, data] of readFileSync(join(folder, name), "utf8").matchAll(/<script type="application\/ld\+json">(.*?)<\/script>/gs)) walk(JSON.parse(data), name);
}
for (const type of ["Product", "Offer", "QuantitativeValue", "OfferShippingDetails", "BreadcrumbList", "Organization"]) check(found.has(type), `no page has a ${type}`);

const Ajv = packages("ajv/dist/2020").default;
const ajv = new Ajv({ strict: true, allErrors: true, allowUnionTypes: true });
const schema = JSON.parse(readFileSync(join(folder, "catalogue.schema.json"), "utf8"));
const validate = ajv.compile(schema);
const catalogue = JSON.parse(readFileSync(join(folder, "catalogue.json"), "utf8"));
check(validate(catalogue), `catalogue.json: ${ajv.errorsText(validate.errors)}`);
for (const [words, spoil] of [
  ["a count in words", (c) => (c.designs[0].pieces.count = "many")],
  ["a price that is a number", (c) => (c.designs[0].offers[0].price = 12.5)],
  ["a key nobody knows", (c) => (c.designs[0].secret = 1)],
  ["no slug", (c) => delete c.designs[0].slug],
]) {
  const copy = structuredClone(catalogue);
  spoil(copy);
  check(!validate(copy), `the schema lets through ${words}`);
}
end(500);
