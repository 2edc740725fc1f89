// The curve of the setting in hand: what each loss and broken grain would come
// to across its range by the forecast, the usual range shaded, and where the
// setting now stands.
import { byId, make, draw, show } from "./dom.js";
import { t, number, unit, setting, sentences, onLanguage } from "./words.js";
import { Scale, seriesOf, single, nice, ends, title } from "./lines.js";

const high = 200;

export class Curve {
  #machine;
  #name = "";
  #curve = null;
  #mark = "";

  constructor(machine) {
    this.#machine = machine;
    this.svg = draw("svg", { class: "chart", role: "img", "aria-labelledby": "curve-note", height: high });
    this.note = make("p", { className: "note", id: "curve-note" });
    this.text = make("p", { className: "note", id: "curve-text" });
    byId("curve").append(this.note, this.svg, this.text);
    byId("curve-sheet").addEventListener("toggle", () => this.#ask());
    new ResizeObserver(() => this.#draw()).observe(this.svg);
    onLanguage(() => this.#draw());
  }

  get held() { return this.#name; }

  // hold takes another setting in hand.
  hold(control) {
    if (!control || control.switch || !control.has || control.name === this.#name) return;
    this.#name = control.name;
    this.#ask();
  }

  // follow asks for more of the curve while it is being computed, and for
  // another one when anything was set.
  follow(state) {
    const mark = `${state.revision}`;
    if (mark === this.#mark && this.#curve?.done) return;
    this.#mark = mark;
    this.#ask();
  }

  async #ask() {
    const name = this.#name;
    if (!name || !byId("curve-sheet").open) return;
    const curve = await this.#machine.ask("curve", { name });
    if (name !== this.#name) return; // another one is in hand by now
    this.#curve = curve;
    this.#draw();
  }

  #draw() {
    const curve = this.#curve;
    if (!curve) return;
    const name = t(`field.${curve.field}`);
    show(this.note, t(curve.done ? "curve.note" : "curve.coming", { name }));
    const free = curve.points.filter((p) => !p.plugged);
    const series = seriesOf(free);
    const top = nice(Math.min(20, Math.max(1, ...series.flatMap((s) => s.values.map(([, v]) => v)))));
    const scale = new Scale(this.svg.clientWidth || 400, high, curve.from, curve.to, top);
    this.svg.setAttribute("viewBox", `0 0 ${scale.wide} ${high}`);
    const usual = curve.usual.map((b) => draw("rect", { class: "usual-range", ...scale.box(Math.max(b.from, curve.from), Math.min(b.to, curve.to)) }));
    const plugs = curve.points.filter((p) => p.plugged).map((p) => draw("path", { class: "plugs", d: `M${scale.x(p.at)} ${scale.head}V${scale.foot}` }));
    this.svg.replaceChildren(...usual, ...scale.grid(), ...this.#axis(scale, curve), ...plugs, ...series.map((s) => scale.line(s)), ...this.#here(scale, curve), ...ends(series, scale));
    this.#say(series, curve, name);
  }

  #axis(scale, curve) {
    const { from, to, unit: u } = curve;
    return [0, 0.5, 1].map((k) => draw("text", { x: scale.x(from + k * (to - from)), y: high - 4, "text-anchor": k === 0 ? "start" : k === 1 ? "end" : "middle" },
      `${setting(from + k * (to - from), curve)} ${k === 1 ? unit(u) : ""}`));
  }

  #here(scale, { here }) {
    return [draw("path", { class: "here", d: `M${scale.x(here)} ${scale.head - 4}V${scale.foot}` }),
      draw("text", { x: scale.x(here) + 3, y: scale.head + 6, class: "here-name" }, t("curve.here"))];
  }

  #say(series, curve, name) {
    const { done, points, text } = curve;
    if (!done || !series.length) return show(this.text, "");
    const list = series.filter(single).map(({ name: n, values }) => t("chart.alt.part", { name: title(n), a: number(values[0][1], 1), b: number(values.at(-1)[1], 1) }));
    const plugged = points.some((p) => p.plugged) ? t("curve.plugs") : "";
    return show(this.text, [sentences(text), t("curve.alt", { name, list }), plugged].filter(Boolean).join(" "));
  }
}
