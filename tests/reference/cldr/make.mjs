// Money, numbers, plural forms and the order of words as ICU has them, for tests of our own: `node tests/reference/cldr/make.mjs`.
// Made with ICU 78.2 (CLDR 48). `Intl.NumberFormat` knows a currency's decimals (ISO 4217) as well.
import { writeFileSync } from "node:fs";

const languages = ["en", "en-GB", "en-AU", "en-CA", "en-NZ", "de", "de-CH", "fr", "fr-CA", "es", "es-MX", "it", "nl", "pt", "pt-PT", "da", "sv", "nb", "fi", "pl", "cs", "ja", "ar", "he"];
const currencies = ["EUR", "GBP", "USD", "JPY", "CHF", "CAD", "AUD", "NZD", "DKK", "SEK", "NOK", "PLN", "CZK", "XOF", "KWD", "THB"];
const amounts = ["0", "5", "84", "1234", "1234567"];
const cases = [];
for (const language of languages) {
  for (const currency of currencies) {
    const format = new Intl.NumberFormat(language, { style: "currency", currency });
    const { maximumFractionDigits: decimals } = format.resolvedOptions();
    for (const whole of amounts) {
      const amount = decimals ? `${whole}.${"509".slice(0, decimals)}` : whole;
      cases.push({ language, currency, amount, text: format.format(amount) });
    }
  }
}
writeFileSync(new URL("amounts.json", import.meta.url), "[\n" + cases.map((c) => JSON.stringify(c)).join(",\n") + "\n]\n");

// The languages that the program has words in. Plural forms up to 100,000: what a shop counts; the form "many" of French and Spanish begins at a million.
const counts = [...Array(201).keys(), 999, 1000, 1001, 1999, 10_000, 99_999, 100_000];
const numbers = ["0", "0.5", "1", "7.25", "84", "999", "1000", "1234", "1234.5", "9999", "10000", "12345.6", "1234567.891"];
const words = ["zebra", "Zug", "Äpfel", "apple", "Apfel", "Apfelbaum", "éte", "été", "eta", "cote", "côte", "coté", "côté", "ñandú", "nana", "nz", "Straße", "Strasse", "strasse", "Ölofen", "offen",
  "œuf", "oeuf", "of", "Llama", "lluvia", "luz", "chico", "cosa", "Fähre", "fahre", "faehre", "eel", "Eel ring", "eel-ring", "Ferry 2", "Ferry 10", "år", "az", "ça", "cb", "d’eau", "deau", "île", "ils"];
const spoken = ["en", "de", "fr", "es"].map((language) => {
  const plural = new Intl.PluralRules(language);
  const format = new Intl.NumberFormat(language, { maximumFractionDigits: 3 });
  return { language, plurals: counts.map((n) => [n, plural.select(n)]), numbers: numbers.map((n) => [n, format.format(n)]), order: [...words].sort(new Intl.Collator(language).compare) };
});
writeFileSync(new URL("languages.json", import.meta.url), "[\n" + spoken.map((s) => JSON.stringify(s)).join(",\n") + "\n]\n");
