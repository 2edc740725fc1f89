// The printed sheet: what is set, what is read, the picture, the chart if it is
// wanted, the date, and lines to write on.
import { byId, make, draw } from "./dom.js";
import { Scale, seriesOf, nice, ends } from "./lines.js";
import { t, say, sentences, unit, number, amount, measured, spread, clock, language, setting } from "./words.js";
import { money, moneyLines, none } from "./money.js";
import { loadOf } from "./readings.js";

const lines = { short: 4, long: 26 }; // to write on: what a page leaves, and a page of its own
const lineHigh = 26; // px

export class Sheet {
  #machine;
  #pictures = [];

  constructor(machine) {
    this.#machine = machine;
    byId("print-sheet").addEventListener("click", () => this.#print());
    addEventListener("beforeprint", () => this.fill());
    addEventListener("keydown", (e) => { // by then there is time for the answers
      if (e.key !== "p" || !(e.ctrlKey || e.metaKey) || e.shiftKey || e.altKey) return;
      e.preventDefault();
      this.#print();
    });
  }

  async #print() {
    await this.fill();
    await Promise.allSettled([...byId("print").querySelectorAll("img")].map((i) => i.decode()));
    print();
  }

  // fill writes the sheet anew.
  async fill() {
    if (document.body.dataset.state !== "ready") return;
    const charted = byId("print-chart").checked;
    const [setup, state, second, record] = await Promise.all([this.#machine.ask("setup"), this.#machine.ask("state"), this.#machine.ask("second"), charted ? this.#machine.ask("chart") : null]);
    const looks = second ? [{ labels: false }, { labels: false, second: true }] : [{ labels: true }];
    const pictures = await Promise.all(looks.map((how) => this.#machine.ask("picture", { theme: "projector", whole: true, ...how })));
    for (const url of this.#pictures) URL.revokeObjectURL(url);
    this.#pictures = [];
    byId("print").replaceChildren(
      this.#head(setup, state),
      make("div", { className: "print-pictures" }, ...pictures.map((bytes, i) => (second ? this.#half(`pair.${["first", "second"][i]}`, bytes) : this.#picture(bytes)))),
      make("p", { className: "print-sum", textContent: sentences(state.sum) }),
      make("div", { className: second ? "print-columns two" : "print-columns" },
        make("div", {}, ...settingsOf(setup, second), ...costOf(second ? state.compare.money : [state.money])), second ? comparison(state.compare) : readings(state)),
      ...(record ? [chart(record)] : []),
      notes(record ? "long" : "short"),
      make("p", { className: "print-foot" }, t("footer"), make("span", { textContent: byId("link").value })),
    );
  }

  #head(setup, state) {
    const day = new Intl.DateTimeFormat(language(), { dateStyle: "long", timeStyle: "short" }).format(new Date());
    const facts = [day, clock(state.seconds), `${t("field.seed")} ${setup.seed}`, say(setup.slice)];
    return make("header", {}, make("h1", { textContent: `Riddle: ${say(setup.caption)}` }), make("p", { textContent: facts.join(" · ") }),
      make("p", { textContent: [say(setup.weather), setup.situation ? t(`situation.${setup.situation.name}.shows`) : ""].filter(Boolean).join(" ") }));
  }

  // #half is one of two machines, both as large and without names of parts.
  #half(name, bytes) {
    return make("figure", {}, this.#picture(bytes), make("figcaption", { textContent: t(name) }));
  }

  #picture(bytes) {
    const url = URL.createObjectURL(new Blob([bytes], { type: "image/png" }));
    this.#pictures.push(url);
    return make("img", { src: url, alt: t("machine.picture") });
  }
}

const row = (...cells) => make("tr", {}, make("th", { scope: "row", textContent: cells[0] }), ...cells.slice(1).map((textContent) => make("td", { textContent })));

// says is a row whose value is a text and not a number.
const says = (...cells) => Object.assign(row(...cells), { className: "says" });

const table = (caption, heads, rows) => make("table", {}, make("caption", { textContent: caption }),
  ...(heads.length ? [make("thead", {}, make("tr", {}, ...heads.map((textContent) => make("th", { scope: "col", textContent }))))] : []),
  make("tbody", {}, ...rows));

function valueOf(c) {
  if (c.switch) return t(c.value ? "on" : "off");
  const value = setting(c.value, c);
  return c.unit ? t("set.value", { value, unit: unit(c.unit) }) : value;
}

function usualOf(c) {
  if (!c.usual[0]) return "";
  const [from, to] = [c.usual[0].from, c.usual[0].to].map((v) => setting(v, c));
  return t("set.usual", { from, to });
}

// settingsOf lists settings, of both machines where there are two, and the
// conditions.
function settingsOf(setup, second) {
  const has = setup.controls.filter((c) => c.has);
  const other = (c) => second.controls.find((o) => o.name === c.name);
  const settings = has.filter((c) => !c.condition).map((c) => (second
    ? row(t(`field.${c.name}`), valueOf(c), valueOf(other(c)))
    : row(t(`field.${c.name}`), valueOf(c), usualOf(c))));
  const conditions = has.filter((c) => c.condition).map((c) => [t(`field.${c.name}`), valueOf(c)]);
  return [table(t("pair.setting.all"), second ? ["", t("pair.first"), t("pair.second")] : [], settings), Object.assign(table(t("field"), [], inPairs(conditions)), { className: "pairs" })];
}

// inPairs sets names and values two and two in a row, down the first column and
// then down the second.
function inPairs(list) {
  const half = Math.ceil(list.length / 2), cell = (textContent, i) => make(i % 2 ? "td" : "th", { textContent });
  return list.slice(0, half).map((first, i) => make("tr", {}, ...[...first, ...(list[half + i] ?? ["", ""])].map(cell)));
}

// costOf lists the lines of the one cost that are known, of both machines where
// there are two, and what the page says beside them. A line may be missing of one.
function costOf(list) {
  const at = t("print.price", { price: money(list[0].price, list[0].sold) }), lines = list.map(moneyLines);
  const longest = lines.reduce((a, b) => (b.length > a.length ? b : a));
  const of = (name) => lines.map((l) => l.find(([n]) => n === name)?.[1] ?? none);
  const known = longest.map(([name]) => [name, ...of(name)]).filter(([, ...values]) => values.some((v) => v !== none));
  return [table(`${t("money")}, ${at}`, list.length > 1 ? ["", t("pair.first"), t("pair.second")] : [], known.map((cells) => row(...cells))),
    ...(list.length > 1 ? [] : [...list[0].refused, list[0].free].filter(Boolean).map((text) => make("p", { textContent: say(text) })))];
}

function readings(state) {
  const part = ({ key, value }) => row(t(key), measured(value));
  return make("div", {},
    table(`${t("loss.caption")}; ${t("loss.m2")}, ${t("loss.ft2")}: ${t("loss.kernels")}`, ["", t("loss.span", { s: state.spans[1] }), t("loss.span", { s: state.spans[2] }), unit(state.losses[0].perHa.u), t("loss.m2"), t("loss.ft2")],
      state.losses.map((l) => Object.assign(row(t(`loss.${l.id}`), amount(l.short), [amount(l.long), spread(l.long)].join(" "), l.perHa ? amount(l.perHa) : "", ...(l.area ?? ["", ""]).map((q) => (q ? amount(q) : ""))), { className: l.inner ? "inner" : "" }))),
    table(`${t("tank")} ${say(state.tank.head)}`, [], [...state.tank.parts.map(part), ...(state.grade ? [says(t("print.grade"), say(state.grade.text))] : [])]),
    table(`${t("returns")} ${say(state.returns.head)}`, [], state.returns.parts.map(part)),
    table(t("loads"), [], state.loads.map((l) => says(t(l.key), loadOf(l)))));
}

function comparison({ rows, span }) {
  return make("div", {}, table(t("pair.span", { s: span }), ["", t("pair.first"), t("pair.second"), t("pair.more")], rows.filter((r) => !r.minor).map((r) => {
    const line = row(`${t(r.key)}${r.first.u ? `, ${unit(r.first.u)}` : ""}`, amount(r.first), amount(r.second), amount(r.more));
    if (r.sure) line.className = "sure";
    return line;
  })), make("p", { textContent: t("pair.how") }));
}

// chart is the whole record over time, with every change marked.
function chart({ now, points, changes }) {
  const series = seriesOf(points), begin = points[0]?.at ?? 0, wide = 700, high = 170;
  const top = nice(Math.max(0.5, ...series.flatMap((s) => s.values.map(([, v]) => v))));
  const scale = new Scale(wide, high, begin, Math.max(now, begin + 60), top);
  const marks = changes.filter((c) => c.at >= begin).map((c) => draw("g", { class: "mark" },
    draw("path", { d: `M${scale.x(c.at)} ${scale.head}V${scale.foot}` }), draw("text", { x: scale.x(c.at) + 2, y: scale.head + 8 }, String(c.id))));
  const times = [0, 0.25, 0.5, 0.75, 1].map((k) => scale.from + k * (scale.to - scale.from)).map((v) =>
    draw("text", { x: scale.x(v), y: high - 2, "text-anchor": "middle" }, `${number(v)} ${unit("s")}`));
  return make("section", { className: "print-chart" }, make("h2", { textContent: t("chart") }), make("p", { textContent: t("chart.lines") }),
    draw("svg", { class: "chart", viewBox: `0 0 ${wide} ${high}` }, ...scale.grid(), ...times, ...marks, ...series.map((s) => scale.line(s)), ...ends(series, scale)),
    ...changes.map((c) => make("p", { textContent: `${c.id}: ${clock(c.at)}, ${say(c.text)}` })).slice(-6));
}

// notes are lines to write on, drawn, so that every printer prints them.
function notes(room) {
  const n = lines[room];
  const ruled = draw("svg", { class: `ruled ${room}`, viewBox: `0 0 700 ${n * lineHigh}`, preserveAspectRatio: "none", "aria-hidden": "true" },
    ...Array.from({ length: n }, (_, i) => draw("path", { d: `M0 ${(i + 1) * lineHigh - 1}H700`, "vector-effect": "non-scaling-stroke" })));
  return make("section", { className: "print-notes" }, make("h2", { textContent: t("print.notes") }), ruled);
}
