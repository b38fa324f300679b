// Amounts of money as ICU writes them, for tests of our own writing: `node tests/reference/money/make.mjs`.
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
