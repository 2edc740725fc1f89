// The settings: each a slider, a number, two step buttons, its unit, the range
// that is usual, and what it does. A change is sent once it has come to rest.
import { byId, make, draw, show } from "./dom.js";

const rest = 150; // ms without a further change
const digits = (step) => (String(step).split(".")[1] || "").length;

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
    for (const [name, item] of this.#items) show(item.live, texts[name] || "");
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
    this.purpose = make("p", { className: "purpose", id: `${this.id}-does`, textContent: control.purpose });
    this.element = make("div", { className: "setting" });
    this.element.dataset.name = control.name;
    this.element.addEventListener("focusin", () => actions.hold(this.control));
    this.element.addEventListener("pointerenter", () => actions.hold(this.control, true));
  }

  send(text) {
    const { error } = this.actions.change(this.control.name, text);
    this.wrong.textContent = error || "";
  }
}

class Slider extends Setting {
  #timer;

  constructor(control, actions) {
    super(control, actions);
    const name = control.unit ? `${control.label}, ${control.unit}` : control.label;
    this.slider = make("input", { type: "range", id: this.id });
    this.number = make("input", { type: "number", inputMode: "decimal", ariaLabel: `${name}, as a number` });
    this.down = make("button", { type: "button", className: "nudge", textContent: "−", ariaLabel: `${control.label} down` });
    this.up = make("button", { type: "button", className: "nudge", textContent: "+", ariaLabel: `${control.label} up` });
    this.slider.setAttribute("aria-describedby", this.purpose.id);
    this.number.setAttribute("aria-describedby", this.wrong.id);
    this.band = draw("rect", { y: 0, height: 4 });
    const label = make("label", { htmlFor: this.id }, control.label);
    if (control.unit) label.append(make("span", { className: "unit", textContent: ` ${control.unit}` }));
    const mark = draw("svg", { class: "usual", viewBox: "0 0 100 4", preserveAspectRatio: "none", "aria-hidden": "true" }, this.band);
    this.element.append(label, make("div", { className: "stepper" }, this.down, this.number, this.up),
      make("div", { className: "track" }, this.slider, mark), this.range, this.live, this.wrong, this.purpose);
    this.slider.addEventListener("input", () => this.#moved(this.slider.value));
    this.slider.addEventListener("change", () => this.#settle());
    this.number.addEventListener("input", () => this.#typed());
    this.number.addEventListener("change", () => this.#settle());
    this.down.addEventListener("click", () => this.#nudge(-1));
    this.up.addEventListener("click", () => this.#nudge(1));
  }

  focus() { this.slider.focus(); }

  show(control, keepText) {
    this.control = control;
    for (const input of [this.slider, this.number]) {
      Object.assign(input, { min: control.from, max: control.to, step: input === this.number ? "any" : control.step });
    }
    for (const part of [this.slider, this.number, this.down, this.up]) part.disabled = !control.has;
    this.element.classList.toggle("absent", !control.has);
    show(this.range, control.range);
    this.#mark(control);
    if (!this.#timer) this.#set(control.value, keepText);
  }

  #set(value, keepText) {
    this.slider.value = value;
    this.slider.setAttribute("aria-valuetext", `${this.slider.value} ${this.control.unit}`);
    if (!keepText) this.number.value = this.control.has ? value : "";
  }

  #mark({ usual: [band], from, to, has }) {
    const share = (v) => (100 * (v - from)) / (to - from);
    this.band.setAttribute("x", has && band ? share(band.from) : 0);
    this.band.setAttribute("width", has && band ? Math.max(1, share(band.to) - share(band.from)) : 0);
  }

  #moved(value) {
    this.number.value = value;
    this.slider.setAttribute("aria-valuetext", `${value} ${this.control.unit}`);
    this.#later();
  }

  #typed() {
    if (this.number.value !== "") this.slider.value = this.number.value;
    this.#later();
  }

  #nudge(way) {
    const { step, from, to } = this.control;
    const next = Number(this.number.value) + way * step;
    this.#moved(Math.min(to, Math.max(from, next)).toFixed(digits(step)));
    this.slider.value = this.number.value;
  }

  #later() {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#settle(), rest);
  }

  #settle() {
    if (!this.#timer) return;
    clearTimeout(this.#timer);
    this.#timer = undefined;
    this.send(this.number.value);
  }
}

class Switch extends Setting {
  constructor(control, actions) {
    super(control, actions);
    this.box = make("input", { type: "checkbox", id: this.id });
    this.box.setAttribute("aria-describedby", this.purpose.id);
    this.element.append(make("label", { className: "tick" }, this.box, ` ${control.label}`), this.live, this.wrong, this.purpose);
    this.box.addEventListener("change", () => this.send(this.box.checked ? "on" : "off"));
  }

  focus() { this.box.focus(); }

  show(control) {
    this.control = control;
    this.box.checked = control.value !== 0;
    this.box.disabled = !control.has;
  }
}
