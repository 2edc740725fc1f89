// The strip chart: losses by cause and broken grain over time, with every
// change of a setting marked on it, to be scrolled back. Lines are told apart
// by their strokes and by the names at their ends; the text says the same.
import { byId, make, draw, show } from "./dom.js";
import { t, number, clock, unit, onLanguage } from "./words.js";
import { Scale, seriesOf, remembered, nice, ends, title } from "./lines.js";

const span = 120; // s that the chart shows
const high = 200;

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

  get #last() { return this.#points.at(-1)?.at ?? 0; }

  // follow keeps up with the machine: a new point a second.
  async follow(state) {
    const mark = `${Math.floor(state.seconds)} ${state.logged} ${state.revision}`;
    if (mark === this.#drawn) return;
    this.#drawn = mark;
    if (state.seconds < this.#last) this.#points = [];
    const after = this.#last, news = await this.#machine.ask("chart", { after });
    if (after !== this.#last) return; // another answer came first
    this.#points = remembered([...this.#points, ...news.points]);
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
    const series = seriesOf(seen);
    const top = nice(Math.max(0.5, ...series.flatMap((s) => s.values.map(([, v]) => v))));
    const scale = new Scale(this.svg.clientWidth || 400, high, begin, end, top);
    this.svg.setAttribute("viewBox", `0 0 ${scale.wide} ${high}`);
    this.svg.replaceChildren(...scale.grid(), ...times(scale), ...this.#marks(scale), ...series.map((s) => scale.line(s)), ...ends(series, scale));
    this.#say(series, seen, begin, end);
  }

  // #marks stands a line at each change, with its number in the log.
  #marks(scale) {
    return this.#changes.filter((c) => c.at >= scale.from && c.at <= scale.to).map((c) => draw("g", { class: "mark" },
      draw("path", { d: `M${scale.x(c.at)} ${scale.head}V${scale.foot}` }),
      draw("text", { x: scale.x(c.at) + 2, y: scale.head + 8 }, String(c.id)), draw("title", {}, t(c.text.key, c.text.with))));
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

function times(scale) {
  const list = [];
  for (let at = Math.ceil(scale.from / 30) * 30; at <= scale.to; at += 30) {
    list.push(draw("text", { x: scale.x(at), y: high - 4, "text-anchor": "middle" }, `${number(at)} ${unit("s")}`),
      draw("path", { class: "grid", d: `M${scale.x(at)} ${scale.foot}v4` }));
  }
  return list;
}
