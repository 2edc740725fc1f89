// The settings: each a slider, a number, two step buttons, its unit, the range
// that is usual, and what it does. A change is sent once it has come to rest.
import { byId, make, draw, show } from "./dom.js";
import { t, say, unit, setting, field, typed } from "./words.js";

const rest = 150; // ms without a further change

export class Settings {
  #do;
  #items = new Map();

  constructor(actions) { this.#do = actions; }

  // show brings all controls up to date; wrong names one that keeps its text.
  show(controls, wrong) {
    for (const control of controls) {
      let item = this.#items.get(control.name);
      if (!item) {
        item = control.switch ? new Switch(control, this.#do) : new Slider(control, this.#do);
        this.#items.set(control.name, item);
        byId(control.stand).append(item.element);
      }
      item.show(control, control.name === wrong);
    }
  }

  // under puts the live readings beneath their settings.
  under(texts) {
    for (const [name, item] of this.#items) show(item.live, say(texts[name]));
  }

  // go leads to a setting.
  go(name) { this.#items.get(name)?.focus(); }
}

// Setting is what slider and switch have in common.
class Setting {
  constructor(control, actions) {
    this.actions = actions;
    this.control = control;
    this.id = `set-${control.name}`;
    this.live = make("p", { className: "live" });
    this.wrong = make("p", { className: "wrong", id: `${this.id}-wrong` });
    this.wrong.setAttribute("role", "alert");
    this.range = make("p", { className: "range" });
    this.does = make("span");
    this.couples = make("span", { className: "couples" });
    this.purpose = make("p", { className: "purpose", id: `${this.id}-does` }, this.does, " ", this.couples);
    this.name = make("span");
    this.unit = make("span", { className: "unit" });
    this.element = make("div", { className: "setting" });
    this.element.dataset.name = control.name;
    this.element.addEventListener("focusin", () => actions.hold(this.control));
    this.element.addEventListener("pointerenter", () => actions.hold(this.control, true));
  }

  get label() { return t(`field.${this.control.name}`); }

  // word brings the words up to date.
  word() {
    const { name, couples } = this.control;
    show(this.name, this.label);
    show(this.unit, this.control.unit ? ` ${unit(this.control.unit)}` : "");
    show(this.does, t(`field.${name}.does`));
    show(this.couples, couples ? t("set.with", { list: couples.map((c) => ({ key: `field.${c}` })) }) : "");
  }

  send(text) { return this.tell({ do: "set", text }); }

  // tell has the machine change the setting, and says what was wrong with that.
  async tell(command) {
    const { say: wrong } = await this.actions.change({ ...command, name: this.control.name });
    this.wrong.textContent = say(wrong);
  }
}

class Slider extends Setting {
  #timer;

  constructor(control, actions) {
    super(control, actions);
    this.slider = make("input", { type: "range", id: this.id });
    this.number = make("input", { type: "number" });
    this.down = make("button", { type: "button", className: "nudge", textContent: "−" });
    this.up = make("button", { type: "button", className: "nudge", textContent: "+" });
    this.back = make("button", { type: "button", className: "back" });
    this.slider.setAttribute("aria-describedby", `${this.purpose.id} ${this.id}-range`);
    this.range.id = `${this.id}-range`;
    this.number.setAttribute("aria-describedby", this.wrong.id);
    this.band = draw("rect", { y: 0, height: 4 });
    const label = make("label", { htmlFor: this.id }, this.name, this.unit);
    const mark = draw("svg", { class: "usual", viewBox: "0 0 100 4", preserveAspectRatio: "none", "aria-hidden": "true" }, this.band);
    this.element.append(label, make("div", { className: "stepper" }, this.down, this.number, this.up),
      make("div", { className: "track" }, this.slider, mark), this.range, this.back, this.live, this.wrong, this.purpose);
    this.slider.addEventListener("input", () => this.#moved(Number(this.slider.value)));
    this.slider.addEventListener("change", () => this.#settle());
    this.number.addEventListener("input", () => this.#typed());
    this.number.addEventListener("change", () => this.#settle());
    this.number.addEventListener("keydown", (e) => { // as a number's own arrows do
      const up = { ArrowUp: true, ArrowDown: false }[e.key];
      if (up === undefined || !this.control.parts) return;
      e.preventDefault();
      this.#nudge(up);
    });
    this.down.addEventListener("click", () => this.#nudge(false));
    this.up.addEventListener("click", () => this.#nudge(true));
    this.back.addEventListener("click", () => { this.send(this.control.startHeld); this.slider.focus(); });
  }

  // word brings the words up to date.
  word() {
    super.word();
    const { control, label: name } = this, u = unit(control.unit);
    this.number.ariaLabel = u ? t("set.number", { name, unit: u }) : t("set.number.plain", { name });
    this.down.ariaLabel = t("set.down", { name });
    this.up.ariaLabel = t("set.up", { name });
    const value = this.#said(control.start);
    show(this.back, t("set.reset", { value }));
    this.back.ariaLabel = t("set.reset.label", { name, value });
    this.back.hidden = !control.has || !control.moved;
    const [from, to] = (control.usual[0] ? [control.usual[0].from, control.usual[0].to] : [control.from, control.to]).map((v) => this.#plain(v));
    show(this.range, control.has ? t(control.usual[0] ? "set.usual" : "set.legal", { from, to }) : t("set.absent"));
  }

  // #plain is a value as it is read.
  #plain(v) { return setting(v, this.control); }

  #said(v) { return this.control.unit ? t("set.value", { value: this.#plain(v), unit: unit(this.control.unit) }) : this.#plain(v); }

  focus() { this.slider.focus(); }

  show(control, keepText) {
    this.control = control;
    for (const input of [this.slider, this.number]) {
      Object.assign(input, { min: control.from, max: control.to, step: input === this.number ? "any" : control.step });
    }
    Object.assign(this.number, { type: control.parts ? "text" : "number", inputMode: control.parts ? "text" : "decimal" });
    for (const part of [this.slider, this.number, this.down, this.up]) part.disabled = !control.has;
    this.element.classList.toggle("absent", !control.has);
    this.word();
    this.#mark(control);
    if (!this.#timer) this.#set(control, keepText);
  }

  #set({ value, text, has }, keepText) {
    this.slider.value = value;
    this.slider.setAttribute("aria-valuetext", this.#said(value));
    if (!keepText) this.number.value = has ? text : "";
  }

  #mark({ usual: [band], from, to, has }) {
    const share = (v) => (100 * (v - from)) / (to - from);
    this.band.setAttribute("x", has && band ? share(band.from) : 0);
    this.band.setAttribute("width", has && band ? Math.max(1, share(band.to) - share(band.from)) : 0);
  }

  #moved(value) {
    this.number.value = field(value, this.control);
    this.slider.setAttribute("aria-valuetext", this.#said(value));
    this.#later();
  }

  #typed() {
    const value = typed(this.number.value);
    if (!Number.isNaN(value)) this.slider.value = value;
    this.#later();
  }

  // #nudge goes to the next step, after what was being typed.
  async #nudge(up) {
    await this.#settle();
    this.tell({ do: "nudge", up });
  }

  #later() {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#settle(), rest);
  }

  #settle() {
    if (!this.#timer) return undefined;
    clearTimeout(this.#timer);
    this.#timer = undefined;
    return this.send(this.number.value);
  }
}

class Switch extends Setting {
  constructor(control, actions) {
    super(control, actions);
    this.box = make("input", { type: "checkbox", id: this.id });
    this.box.setAttribute("aria-describedby", this.purpose.id);
    this.element.append(make("label", { className: "tick" }, this.box, this.name), this.live, this.wrong, this.purpose);
    this.box.addEventListener("change", () => this.send(this.box.checked ? "on" : "off"));
  }

  focus() { this.box.focus(); }

  show(control) {
    this.control = control;
    this.box.checked = control.value !== 0;
    this.box.disabled = !control.has;
    this.word();
  }
}
