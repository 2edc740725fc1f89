// Two machines side by side, with the same crop, field and seed: a table of the
// settings of both, and one of what both read with the difference.
import { byId, make, show } from "./dom.js";
import { t, say, unit, number, amount, quantity, spread, clock, onLanguage } from "./words.js";

const names = ["first", "second"];

export class Pair {
  #machine;
  #changed; // shows a setup that has changed otherwise
  #apply; // sends a command to the first machine and shows what it changed
  #on = false;
  #seen = [-1, -1]; // revisions of the setups that are shown
  #settings = new Map();
  #readings = new Map();

  constructor(machine, apply, changed) {
    this.#changed = changed;
    this.#machine = machine;
    this.#apply = apply;
    byId("pair").addEventListener("click", () => this.#ask(this.#on ? "end" : "begin"));
    byId("fork").addEventListener("click", () => { this.#ask("fork"); byId("pair").focus(); });
    byId("pair-end").addEventListener("click", () => { this.#ask("end"); byId("pair").focus(); });
    byId("pair-swap").addEventListener("click", () => this.#ask("swap"));
    byId("pair-over").addEventListener("click", () => this.#ask("copy", { name: "second" }));
    byId("pair-back").addEventListener("click", () => this.#ask("copy", { name: "first" }));
    onLanguage(() => { this.#seen = [-1, -1]; this.#settings.clear(); this.#readings.clear(); });
  }

  async #ask(what, more) {
    const reply = await this.#machine.ask(`pair.${what}`, more);
    show(byId("pair-wrong"), say(reply.say));
    this.#seen = [-1, -1];
    this.#changed(reply.setup);
    this.show(await this.#machine.ask("state"));
  }

  // show brings the tables up to date, or hides them where there is one machine.
  show(state) {
    const both = state.compare;
    this.#turn(Boolean(both));
    if (!both) return;
    if (both.setups[0] !== this.#seen[0] || both.setups[1] !== this.#seen[1]) {
      this.#seen = both.setups;
      Promise.all([this.#machine.ask("setup"), this.#machine.ask("second")]).then((setups) => { if (setups[1]) this.#set(setups.map((s) => s.controls)); });
    }
    document.body.dataset.stacked = both.stacked;
    both.seconds.forEach((s, i) => show(byId(`half-${names[i]}`), this.#standing(both, i, s, state)));
    show(byId("pair-span"), t("pair.span", { s: both.span }));
    this.#read(both);
  }

  #standing(both, i, seconds, state) {
    const alarm = both.alarm[i];
    if (alarm) return say(alarm.title);
    const parts = [clock(seconds), state.behind ? t("pair.pace", { pace: state.pace }) : "", both.grade[i] ? say(both.grade[i]) : ""];
    return parts.filter(Boolean).join(" · ");
  }

  #turn(on) {
    if (on === this.#on) return;
    this.#on = on;
    if (on) document.body.dataset.pair = "on";
    else delete document.body.dataset.pair;
    byId("two").hidden = byId("halves").hidden = !on;
    byId("pair").setAttribute("aria-pressed", String(on));
    byId("fork").disabled = on;
  }

  // #set shows the settings of both machines.
  #set([first, second]) {
    const list = first.filter((c) => !c.condition && c.has);
    if (list.some((c) => !this.#settings.has(c.name)) || list.length !== this.#settings.size) {
      this.#settings = new Map(list.map((c) => [c.name, this.#newSetting(c)]));
      byId("pair-settings").replaceChildren(...[...this.#settings.values()].map((r) => r.row));
    }
    for (const control of list) {
      const { row, cells } = this.#settings.get(control.name);
      const both = [control, second.find((c) => c.name === control.name)];
      cells.forEach((cell, i) => cell.show(both[i]));
      row.classList.toggle("differs", both[0].value !== both[1].value);
    }
  }

  #newSetting(control) {
    const cells = [0, 1].map((i) => new Cell(control, i, (what, more) => this.#send(i, what, { name: control.name, ...more })));
    const head = make("th", { scope: "row" }, t(`field.${control.name}`), make("small", { textContent: control.unit ? ` ${unit(control.unit)}` : "" }));
    return { cells, row: make("tr", {}, head, ...cells.map((c) => c.element)) };
  }

  async #send(i, what, more) {
    const reply = await (i === 0 ? this.#apply({ do: what, ...more }) : this.#machine.ask(`second.${what}`, more));
    show(byId("pair-wrong"), reply.error ? `${t(`field.${more.name}`)}: ${say(reply.say)}` : "");
    this.#seen = [-1, -1];
    this.show(await this.#machine.ask("state"));
  }

  // #read shows what both machines read.
  #read({ rows }) {
    for (const reading of rows) {
      let line = this.#readings.get(reading.key);
      if (!line) {
        line = newReading(reading);
        this.#readings.set(reading.key, line);
        if (this.#readings.size === rows.length) byId("pair-readings").replaceChildren(...[...this.#readings.values()].map((l) => l.row));
      }
      show(line.unit, reading.first.u ? ` ${unit(reading.first.u)}` : "");
      for (const which of names) {
        show(line[which].firstChild, amount(reading[which]));
        show(line[which].lastChild, spread(reading[which]));
      }
      show(line.more, signed(reading.more));
      line.row.classList.toggle("sure", reading.sure === true);
    }
  }
}

// signed is a difference with its sign.
function signed(q) {
  const text = amount(q);
  return q.v > 0 && /[1-9]/.test(text) ? `+${text}` : text;
}

function newReading({ key, inner, minor }) {
  const cell = () => make("td", {}, make("span"), make("small"));
  const line = { unit: make("small"), first: cell(), second: cell(), more: make("td") };
  const head = make("th", { scope: "row" }, t(key), line.unit);
  line.row = make("tr", { className: [inner ? "inner" : "", minor ? "minor" : ""].join(" ").trim() }, head, line.first, line.second, line.more);
  return line;
}

// Cell is one setting of one machine.
class Cell {
  constructor(control, i, send) {
    const which = t(`pair.${names[i]}`), name = t("pair.of", { name: t(`field.${control.name}`), machine: which });
    this.control = control;
    this.element = make("td");
    if (control.switch) {
      this.input = make("input", { type: "checkbox", ariaLabel: name });
      this.input.addEventListener("change", () => send("set", { text: this.input.checked ? "on" : "off" }));
      this.element.append(make("label", { className: "tick" }, this.input));
      return;
    }
    const u = unit(control.unit);
    this.input = make("input", { type: "number", inputMode: "decimal", step: "any", ariaLabel: u ? t("set.number", { name, unit: u }) : t("set.number.plain", { name }) });
    const nudge = (up, sign, key) => {
      const button = make("button", { type: "button", className: "nudge", textContent: sign, ariaLabel: t(key, { name }) });
      button.addEventListener("click", () => send("nudge", { up }));
      return button;
    };
    this.input.addEventListener("change", () => send("set", { text: this.input.value }));
    this.element.append(make("div", { className: "stepper" }, nudge(false, "−", "set.down"), this.input, nudge(true, "+", "set.up")));
  }

  show(control) {
    this.control = control;
    if (control.switch) this.input.checked = control.value !== 0;
    else Object.assign(this.input, { type: control.parts ? "text" : "number", inputMode: control.parts ? "text" : "decimal", min: control.from, max: control.to, value: control.text });
  }
}
