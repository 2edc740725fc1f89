// The log of changes: each with its time, what was changed, the readings
// before it and once it had settled, and a way back to before it.
import { byId, make } from "./dom.js";
import { t, say, amount, clock, language } from "./words.js";

export class Log {
  #machine;
  #undo;
  #shown = "";

  // undo is called with the number of a line.
  constructor(machine, undo) {
    this.#machine = machine;
    this.#undo = undo;
  }

  async follow(state) {
    const mark = `${state.logged} ${state.revision} ${language()}`;
    if (mark === this.#shown) return;
    this.#shown = mark;
    const { changes } = await this.#machine.ask("chart", { after: state.seconds });
    if (mark !== this.#shown) return; // more has changed since
    const focused = document.activeElement?.dataset?.undo;
    byId("log").replaceChildren(changes.length ? make("ol", { className: "log", reversed: true }, ...changes.reverse().map((c) => this.#line(c)))
      : make("p", { className: "note", textContent: t("log.empty") }));
    if (focused) (byId("log").querySelector(`[data-undo="${focused}"]`) ?? byId("log").querySelector("button"))?.focus();
  }

  #line(c) {
    const text = say(c.text);
    const undo = make("button", { type: "button", textContent: t("log.undo"), ariaLabel: t("log.undo.label", { change: text }), onclick: () => this.#undo(c.id) });
    undo.dataset.undo = c.id;
    const readings = c.before.map((before, i) => {
      const after = c.after?.[i];
      return `${t(short(before.key))} ${amount(before.value)}${after ? ` → ${amount(after.value)}` : ""}`;
    }).join(" · ");
    const state = c.after ? "" : ` (${t(c.cut ? "log.cut" : "log.waiting")})`;
    return make("li", { value: c.id }, make("div", { className: "change" }, make("span", { className: "when", textContent: clock(c.at) }), make("strong", { textContent: text }), undo),
      make("p", { className: "note", textContent: `%: ${readings}${state}` }));
  }
}

const short = (key) => (key.startsWith("loss.") ? `${key}.short` : key);
