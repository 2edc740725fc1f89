// The strip chart: losses by cause and broken grain over time, with every
// change of a setting marked on it, to be scrolled back. Lines are told apart
// by their strokes and by the names at their ends; the text says the same.
import { byId, make, draw, show } from "./dom.js";
import { t, number, clock, unit, onLanguage } from "./words.js";

const span = 120; // s that the chart shows
const order = ["header", "unthreshed", "walker", "shoe", "blown", "ridden", "total"]; // of the table of losses
const lines = ["total", "header", "unthreshed", "walker", "shoe", "broken"];
const high = 200, foot = 18, head = 8, left = 34;

export class Chart {
  #machine;
  #points = [];
  #changes = [];
  #now = 0;
  #drawn = "";

  constructor(machine) {
    this.#machine = machine;
    this.svg = draw("svg", { class: "chart", role: "img", "aria-labelledby": "chart-note", height: high });
    this.note = make("p", { className: "note", id: "chart-note" });
    this.text = make("p", { className: "note", id: "chart-text" });
    this.back = make("input", { type: "range", id: "chart-back", min: 0, max: 0, step: 1, value: 0 });
    this.backName = make("span");
    byId("chart").append(this.note, this.svg, make("label", { className: "scroll", htmlFor: "chart-back" }, this.backName, this.back), this.text);
    this.back.addEventListener("input", () => this.#draw());
    new ResizeObserver(() => this.#draw()).observe(this.svg);
    onLanguage(() => this.#draw());
  }

  // follow keeps up with the machine: a new point a second.
  follow(state) {
    const mark = `${Math.floor(state.seconds)} ${state.logged} ${state.revision}`;
    if (mark === this.#drawn) return;
    this.#drawn = mark;
    const last = this.#points.at(-1)?.at ?? 0;
    if (state.seconds < last) this.#points = [];
    const news = this.#machine.ask("chart", this.#points.at(-1)?.at ?? 0);
    this.#points.push(...news.points);
    this.#points = this.#points.slice(-600);
    this.#changes = news.changes;
    this.#now = news.now;
    this.back.max = Math.max(0, Math.ceil(this.#now - span));
    this.#draw();
  }

  #draw() {
    show(this.note, t("chart.lines"));
    show(this.backName, t("chart.back"));
    this.back.ariaValueText = t("chart.ago", { s: Number(this.back.value) });
    this.back.closest("label").hidden = Number(this.back.max) === 0;
    const end = Math.max(this.#now - Number(this.back.value), span), begin = end - span;
    const seen = this.#points.filter((p) => p.at >= begin && p.at <= end);
    const values = (name) => seen.map((p) => [p.at, name === "broken" ? p.broken : p.loss[order.indexOf(name)]]).filter(([, v]) => v !== null);
    const series = lines.map((name) => ({ name, values: values(name) })).filter((s) => s.values.length);
    const top = nice(Math.max(0.5, ...series.flatMap((s) => s.values.map(([, v]) => v))));
    const wide = this.svg.clientWidth || 400, right = wide - 100;
    const x = (at) => left + ((at - begin) / span) * (right - left), y = (v) => high - foot - (v / top) * (high - foot - head);
    this.svg.setAttribute("viewBox", `0 0 ${wide} ${high}`);
    this.svg.replaceChildren(...axes(top, y, right), ...times(begin, end, x), ...this.#marks(begin, end, x), ...series.map((s) => line(s, x, y)), ...names(series, y, right));
    this.#say(series, seen, begin, end);
  }

  // #marks stands a line at each change, with its number in the log.
  #marks(begin, end, x) {
    return this.#changes.filter((c) => c.at >= begin && c.at <= end).map((c) => draw("g", { class: "mark" },
      draw("path", { d: `M${x(c.at)} ${head}V${high - foot}` }),
      draw("text", { x: x(c.at) + 2, y: head + 8 }, String(c.id)), draw("title", {}, t(c.text.key, c.text.with))));
  }

  #say(series, seen, begin, end) {
    if (!series.length) {
      show(this.text, t("chart.empty"));
      return;
    }
    const list = series.map(({ name, values }) => t("chart.alt.part", { name: title(name), a: number(values[0][1], 1), b: number(values.at(-1)[1], 1) }));
    const marked = this.#changes.filter((c) => c.at >= begin && c.at <= end).length;
    show(this.text, `${t("chart.alt", { from: clock(seen[0].at), to: clock(seen.at(-1).at), list })} ${marked ? t("chart.alt.changes", { n: marked }) : ""}`);
  }
}

const title = (name) => t(name === "broken" ? "tank.broken" : `loss.${name}.short`);

// nice rounds up to 1, 2 or 5 times a power of ten.
export function nice(v) {
  const power = 10 ** Math.floor(Math.log10(v));
  return power * [1, 2, 5, 10].find((k) => k * power >= v * 0.999);
}

function axes(top, y, right) {
  return [0, 0.5, 1].flatMap((k) => [
    draw("path", { class: "grid", d: `M${left} ${y(k * top)}H${right}` }),
    draw("text", { x: left - 4, y: y(k * top) + 4, "text-anchor": "end" }, number(k * top, top < 4 ? 1 : 0)),
  ]);
}

function times(begin, end, x) {
  const list = [];
  for (let at = Math.ceil(begin / 30) * 30; at <= end; at += 30) {
    list.push(draw("text", { x: x(at), y: high - 4, "text-anchor": "middle" }, `${number(at)} ${unit("s")}`), draw("path", { class: "grid", d: `M${x(at)} ${high - foot}v4` }));
  }
  return list;
}

const line = ({ name, values }, x, y) => draw("path", { class: `series ${name}`, d: `M${values.map(([at, v]) => `${x(at).toFixed(1)} ${y(v).toFixed(1)}`).join("L")}` });

// names stand at the ends of their lines, moved apart where they would meet.
function names(series, y, right) {
  const ends = series.map(({ name, values }) => ({ name, at: y(values.at(-1)[1]), v: values.at(-1)[1] })).sort((a, b) => a.at - b.at);
  ends.forEach((e, i) => { e.to = i ? Math.max(e.at, ends[i - 1].to + 13) : Math.max(e.at, head + 4); });
  const over = ends.length ? ends.at(-1).to - (high - foot) : 0;
  for (let i = ends.length - 1, most = high - foot; over > 0 && i >= 0; i -= 1, most -= 13) ends[i].to = Math.min(ends[i].to, most);
  return ends.flatMap(({ name, at, to, v }) => [
    draw("path", { class: `lead ${name}`, d: `M${right} ${at}L${right + 10} ${to}` }),
    draw("text", { x: right + 13, y: to + 4 }, `${title(name)} ${number(v, 1)}`),
  ]);
}
