// Money as each language writes it: the sign of the currency that the user has
// put in stands where the language puts one, and what it is for comes after a
// stroke, as in $8.04/ac.
import { byId } from "./dom.js";
import { t, unit, language, keep, recall, payIn } from "./words.js";

const currency = byId("currency");
currency.value = recall("currency") || "$";
currency.addEventListener("input", () => keep("currency", currency.value.trim()));

const formats = new Map();

// format is that of a language: a word for the currency stands apart from the
// number, a sign where the language has it.
function format(word, after) {
  const key = `${language()} ${word} ${after}`;
  if (!formats.has(key)) {
    formats.set(key, new Intl.NumberFormat(language() === "xx" ? "en" : language(), {
      style: "currency", currency: "USD", currencyDisplay: word ? "code" : "narrowSymbol", minimumFractionDigits: after, maximumFractionDigits: after,
    }));
  }
  return formats.get(key);
}

// amountOf is a sum in the user's currency.
function amountOf(v) {
  const sign = currency.value.trim(), after = Math.abs(v) < 100 ? 2 : 0;
  const parts = format(/\p{L}/u.test(sign), after).formatToParts(Number(v.toFixed(after)) || 0);
  const as = { currency: sign, minusSign: "−" };
  return parts.map(({ type, value }) => as[type] ?? value).join("").trim();
}

// none stands where there is no sum.
export const none = "–";

// money writes a sum for a unit of land, grain or time.
export function money(v, per) {
  return v === null ? none : t("money.per", { money: amountOf(v), unit: unit(per) });
}

payIn(money);

// moneyLines are the lines of the one cost, each with its name.
export const moneyLines = ({ lines, land, perHour }) => [
  ...lines.map(({ key, value }) => [t(key), money(value, land)]),
  [t("money.net"), money(perHour, "h")],
];
