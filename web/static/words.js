// The words of the page. A catalogue for each language, words/CODE.json, maps
// keys to texts; {slots} take values. What the model itself names (settings,
// parts, crops, situations) comes in English from Go and is translated by the
// other catalogues under the same keys.
//
// In HTML data-word names the text of an element, data-word-label its
// aria-label, data-word-title its title. In scripts t(KEY, {slot: value}) is a
// text, and say(MESSAGE) what the machine tells.

// Languages, each by its own name.
export const languages = { en: "English", es: "Español", de: "Deutsch", fr: "Français", pt: "Português" };

let code = "en", words = {}, english = {}, model = {};
let digits = new Map(), plural, list, spoken = false, pay = String;
const listeners = [];

// language is what the page speaks now.
export const language = () => code;

// onLanguage calls a listener whenever the language has changed.
export const onLanguage = (listener) => listeners.push(listener);

const patience = 15_000; // ms for a language; English is waited for, since nothing stands behind it

async function read(name) {
  const response = await fetch(new URL(`words/${name}.json`, import.meta.url), name === "en" ? {} : { signal: AbortSignal.timeout(patience) });
  if (!response.ok) throw new Error(`words/${name}.json: ${response.status}`);
  return response.json();
}

// choose has the page speak a language; "xx" is a test language that is 40 %
// longer than English. Where its words cannot be had, the page speaks on as it
// did, or English at first. It returns whether it speaks what was asked for.
export async function choose(name) {
  const other = name in languages && name !== "en";
  const [own, base] = await Promise.all([other ? read(name).catch(() => null) : {}, Object.keys(english).length ? english : read("en").catch(() => null)]);
  if (!own && spoken) return false;
  if (!base && !(own && other)) throw Object.assign(new Error("no words"), { file: "words/en.json" });
  english = base ?? {};
  words = own ?? {};
  code = own && (other || name === "xx") ? name : "en";
  spoken = true;
  digits = new Map();
  const tag = code === "xx" ? "en" : code;
  plural = new Intl.PluralRules(tag);
  list = new Intl.ListFormat(tag, { style: "short", type: "unit" });
  document.documentElement.lang = tag;
  dress(document);
  for (const listener of listeners) listener();
  return own !== null;
}

// fromModel takes the English words of the model.
export function fromModel(given) { model = given; }

// wanted is the language that was chosen before, or else the first of the
// reader's that the page has.
export function wanted() {
  const asked = new URLSearchParams(location.search).get("lang");
  const wishes = [asked, recall("language"), ...navigator.languages].filter(Boolean).map((l) => (l === "xx" ? l : l.slice(0, 2)));
  return wishes.find((l) => l in languages || l === "xx") || "en";
}

// keep and recall hold a choice in this browser, where it allows that.
export function keep(name, value) { try { localStorage.setItem(`riddle.${name}`, value); } catch { /* then it is not kept */ } }
export function recall(name) { try { return localStorage.getItem(`riddle.${name}`); } catch { return null; } }

const find = (key) => words[key] ?? model[key] ?? english[key];
const longer = (text) => (code === "xx" ? text.replace(/([^\s{}]+)(?![^{]*\})/g, (w) => w + "ii".repeat(Math.ceil(w.length / 5))) : text);

// has reports whether there is a text of that key.
export const has = (key) => find(key) !== undefined || find(`${key}.other`) !== undefined;

// t returns the text of a key with values in its slots. Where a count n decides
// the form, the catalogue holds key.one and key.other.
export function t(key, values = {}) {
  let text = find(key);
  if (text === undefined && typeof values.n === "number") text = find(`${key}.${plural.select(values.n)}`) ?? find(`${key}.other`);
  if (text === undefined) return key;
  return longer(text).replace(/\{(\w+)\}/g, (_, slot) => say(values[slot]));
}

// say puts into words what the machine tells: a message, a number with its
// unit, a list, or a text as it is.
export function say(what) {
  if (what === null || what === undefined) return "";
  if (typeof what === "number") return number(what, Number.isInteger(what) ? 0 : 2);
  if (typeof what === "string") return what;
  if (Array.isArray(what)) return list.format(what.map(say));
  if ("key" in what) return t(what.key, what.with);
  if ("money" in what) return pay(what.money, what.per);
  return quantity(what);
}

// payIn has sums of money written by whoever knows the currency.
export const payIn = (write) => { pay = write; };

// sentences joins messages that are sentences.
export const sentences = (messages) => messages.map(say).join(" ");

// number formats a number with so many digits after the point.
export function number(v, after = 0) {
  if (!digits.has(after)) {
    digits.set(after, new Intl.NumberFormat(code === "xx" ? "en" : code, { minimumFractionDigits: after, maximumFractionDigits: after }));
  }
  const text = digits.get(after).format(v);
  return (/[1-9]/.test(text) ? text : text.replace("-", "")).replace("-", "−");
}

// fraction writes a number to the nearest of so many parts, as 1 3/8.
export function fraction(v, parts) {
  let over = Math.round(Math.abs(v) * parts), under = parts;
  for (; under > 1 && over % 2 === 0; under /= 2) over /= 2;
  const whole = Math.floor(over / under), rest = over % under;
  const text = [whole || !rest ? number(whole) : "", rest ? `${rest}/${under}` : ""].filter(Boolean).join(" ");
  return v < 0 && over ? `−${text}` : text;
}

// typed reads a number as it is put in, a fraction too; NaN where it is none.
export function typed(text) {
  const [, whole, over, under] = /^\s*(?:(\d+)[\s-]+)?(\d+)\s*\/\s*(\d+)\s*$/.exec(text) ?? [];
  return over ? Number(whole ?? 0) + over / under : Number.parseFloat(text);
}

// setting is a value of a control as it is read.
export function setting(v, { digits, parts }) {
  if (parts) return fraction(v, parts);
  return number(v, Number.isInteger(Number(v.toFixed(4))) ? 0 : digits);
}

// field is a step of a control as a number field takes it.
export const field = (v, { digits, parts }) => (parts ? fraction(v, parts) : String(Number(v.toFixed(digits))));

// amount is the number of a quantity without its unit.
export function amount({ v, d, fine, parts }) {
  if (v === null || v === undefined) return "–";
  if (parts) return fraction(v, parts);
  return number(v, d + (fine && Math.abs(v) < 9.995 ? 1 : 0));
}

// quantity is a number with its unit.
export const quantity = (q) => (q.u ? `${amount(q)}\u00a0${unit(q.u)}` : amount(q));

// spread is the uncertainty of a count, or nothing.
export const spread = ({ se }) => (se ? `± ${number(se, 2)}` : "");

// measured is a quantity with its uncertainty.
export const measured = (q) => [quantity(q), spread(q)].filter(Boolean).join(" ");

// unit is the name of a unit.
export const unit = (u) => (u ? t(`unit.${u}`) : "");

// clock is a time after the first tick.
export function clock(seconds) {
  const tenths = Math.floor(seconds * 10 + 1e-9), minutes = Math.floor(tenths / 600);
  const rest = `${number((tenths % 600) / 10, 1)}\u00a0${unit("s")}`;
  return minutes ? `${number(minutes)}\u00a0${unit("min")} ${rest}` : rest;
}

// dress puts the words into elements that name them.
export function dress(root) {
  for (const e of root.querySelectorAll("[data-word]")) e.textContent = t(e.dataset.word);
  for (const e of root.querySelectorAll("[data-word-label]")) e.setAttribute("aria-label", t(e.dataset.wordLabel));
  for (const e of root.querySelectorAll("[data-word-title]")) e.title = t(e.dataset.wordTitle);
}
