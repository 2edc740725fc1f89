// What the strip chart and the curves have in common: lines of losses and of
// broken grain, told apart by their strokes and by the names at their ends.
import { draw } from "./dom.js";
import { t, number } from "./words.js";

let order = []; // of the table of losses
let shown = []; // the lines of a chart: the losses that have one, and broken grain
let sums = []; // those that are the sum of others
let reach = 0; // s that the machine remembers

// know takes in which losses there are, which of them are drawn, and how far back
// they are known.
export function know({ losses, recall }) {
  reach = recall;
  order = losses.map((l) => l.id);
  sums = losses.filter((l) => l.all).map((l) => l.id);
  shown = [...losses.filter((l) => l.drawn).map((l) => l.id), "broken"];
}

// remembered leaves out the points that the machine has forgotten.
export const remembered = (points) => points.slice(-reach);

// single reports whether a line is not the sum of others.
export const single = ({ name }) => !sums.includes(name);

// seriesOf parts points into lines, each a name and its values over `at`.
export function seriesOf(points) {
  const values = (name) => points.map((p) => [p.at, name === "broken" ? p.broken : p.loss[order.indexOf(name)]]).filter(([, v]) => v !== null);
  return shown.map((name) => ({ name, values: values(name) })).filter((s) => s.values.length);
}

export const title = (name) => t(name === "broken" ? "tank.broken" : `loss.${name}.short`);

// nice rounds up to 1, 2 or 5 times a power of ten.
export function nice(v) {
  const power = 10 ** Math.floor(Math.log10(v));
  return power * [1, 2, 5, 10].find((k) => k * power >= v * 0.999);
}

// Scale turns values into places on a drawing.
export class Scale {
  constructor(wide, high, from, to, top) {
    const room = 34 + 6.6 * (5 + Math.max(0, ...shown.map((name) => title(name).length))); // of the names at the ends, px
    Object.assign(this, { wide, from, to, top, left: 34, right: Math.max(wide / 3, wide - room), head: 10, foot: high - 18 });
  }

  x(v) { return this.left + ((v - this.from) / (this.to - this.from)) * (this.right - this.left); }

  y(v) { return this.foot - (Math.min(v, this.top * 1.03) / this.top) * (this.foot - this.head); }

  box(a, b) { return { x: this.x(a), width: Math.max(0, this.x(b) - this.x(a)), y: this.head, height: this.foot - this.head }; }

  grid() {
    const digits = [0, 1].find((d) => Number.isInteger((this.top / 2) * 10 ** d)) ?? 2; // as many as the middle line needs
    return [0, 0.5, 1].flatMap((k) => [
      draw("path", { class: "grid", d: `M${this.left} ${this.y(k * this.top)}H${this.right}` }),
      draw("text", { x: this.left - 4, y: this.y(k * this.top) + 4, "text-anchor": "end" }, number(k * this.top, digits)),
    ]);
  }

  line({ name, values }) {
    return draw("path", { class: `series ${name}`, d: `M${values.map(([at, v]) => `${this.x(at).toFixed(1)} ${this.y(v).toFixed(1)}`).join("L")}` });
  }
}

// ends are the names of the lines at their ends, moved apart where they would
// meet.
export function ends(series, scale) {
  const list = series.map(({ name, values }) => ({ name, x: scale.x(values.at(-1)[0]), at: scale.y(values.at(-1)[1]), v: values.at(-1)[1] })).sort((a, b) => a.at - b.at);
  list.forEach((e, i) => { e.to = i ? Math.max(e.at, list[i - 1].to + 13) : Math.max(e.at, scale.head); });
  for (let i = list.length - 1, most = scale.foot; i >= 0; i -= 1, most -= 13) list[i].to = Math.min(list[i].to, most);
  return list.flatMap(({ name, x, at, to, v }) => [
    draw("path", { class: "lead", d: `M${x} ${at}L${scale.right + 10} ${to}` }),
    draw("path", { class: `series ${name}`, d: `M${scale.right + 10} ${to}h14` }),
    draw("text", { x: scale.right + 27, y: to + 4 }, `${title(name)} ${number(v, 1)}`),
  ]);
}
