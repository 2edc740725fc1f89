// The plate: how the machine is drawn, the names of its parts over it, and the
// leads that join a setting to the part that it sets.
import { byId, make, draw } from "./dom.js";
import { t, language } from "./words.js";

const wide = matchMedia("(min-width: 80em)");
const slim = matchMedia("(max-width: 43.74em)");

export class Plate {
  #machine;
  #controls = new Map();
  #view = { zone: "", theme: "paper", air: false, names: false };
  #held; // the setting in hand
  #map; // where the parts lie on the picture
  #spoken = ""; // language and crop in which the machine knows the names
  #due = false; // leads are to be drawn
  #pointed = ""; // a part that is pointed out for itself
  #told = ""; // the parts that the machine leaves without a name

  constructor(machine) {
    this.#machine = machine;
    new ResizeObserver(() => this.#lead()).observe(byId("plate"));
    wide.addEventListener("change", () => this.#tell(false));
  }

  // begin has a machine that has just come up told all anew.
  begin() { this.#spoken = this.#told = ""; }

  narrow() { return slim.matches; }

  setup({ crop, controls, parts }) {
    this.#controls = new Map(controls.map((c) => [c.name, c]));
    this.#speak(`${language()} ${crop}`, parts);
    if (`${this.#led()}` !== this.#told) this.#tell(false);
    else this.#lead();
  }

  // #speak tells the machine the names of the parts in the language of the page.
  #speak(spoken, parts) {
    if (this.#spoken === spoken) return;
    this.#spoken = spoken;
    this.#machine.ask("names", { words: Object.fromEntries(parts.map(({ id }) => [id, t(`part.${id}`)])) });
  }

  // look sets how the machine is drawn.
  look(view) {
    this.#view = view;
    this.#tell();
    if (this.#map) this.#name();
  }

  // hold takes a setting in hand: its part is lit, and if the view follows, it
  // comes into view. A pointer that merely passes only lights the part.
  hold(control, passing = false) {
    if (this.#held === control.name && passing) return;
    this.#pointed = "";
    this.#held = control.name;
    this.#tell(!passing);
  }

  // point points a part out; an empty one ends it.
  point(part) {
    this.#pointed = part;
    this.#tell(false);
  }

  #zone = "";

  get zone() { return this.#zone; }

  #tell(follow = true) {
    const led = this.#led();
    this.#told = `${led}`;
    const held = this.#controls.get(this.#held);
    if (this.#view.zone) this.#zone = this.#view.zone;
    else if (follow) this.#zone = held?.zone || "whole";
    this.#machine.ask("look", { zone: this.#zone, theme: this.#view.theme, air: this.#view.air, lit: this.#pointed || (held?.has ? held.part : ""), names: this.#view.names, passes: this.#view.passes || false, stay: this.#view.stay || false, led });
    byId("plate").dataset.zone = this.#zone;
    this.#lead();
  }

  // place puts names and leads where the parts now lie.
  place(state) {
    if (!state.map) return;
    this.#map = state.map;
    this.#name();
    this.#lead();
  }

  // #led lists the parts to which the lead of a setting goes, and which it names.
  #led() {
    return wide.matches ? [...this.#controls.values()].filter((c) => c.stand === "settings" && c.has).map((c) => c.part) : [];
  }

  // #name sets the names of the other parts.
  #name() {
    const labels = this.#view.names ? this.#map.labels : [];
    const lines = draw("svg", { viewBox: "0 0 100 100", preserveAspectRatio: "none" }, ...labels.map(({ from, to }) =>
      draw("path", { d: `M${100 * from.x} ${100 * from.y}L${100 * to.x} ${100 * to.y}`, "vector-effect": "non-scaling-stroke" })));
    byId("labels").replaceChildren(lines, ...labels.map(({ part, at, size }) => {
      const name = make("span", { textContent: t(`part.${part}`) });
      Object.assign(name.style, { left: `${100 * at.x}%`, top: `${100 * at.y}%`, fontSize: `${size}px` });
      return name;
    }));
  }

  // #lead has the leads drawn with the next picture, however many ask for it.
  #lead() {
    if (this.#due) return;
    this.#due = true;
    requestAnimationFrame(() => {
      this.#due = false;
      this.#leads();
    });
  }

  // #leads draws the leads: up from each setting, across, and up to its part.
  #leads() {
    const svg = byId("leads");
    svg.replaceChildren();
    if (!this.#map || !wide.matches) return;
    const frame = byId("plate").getBoundingClientRect(), picture = byId("picture").getBoundingClientRect();
    svg.setAttribute("viewBox", `0 0 ${frame.width} ${frame.height}`);
    const ways = [...this.#controls.values()].map((control) => this.#way(control, frame, picture)).filter(Boolean);
    ways.forEach((way, i) => {
      const level = picture.bottom - frame.top + 4 + ((way.x0 < way.x1 ? i : ways.length - i) * (way.y0 - (picture.bottom - frame.top) - 8)) / ways.length;
      const held = way.name === this.#held ? "held" : "";
      svg.append(draw("path", { d: `M${way.x0} ${way.y0}V${level}H${way.x1}V${way.y1}`, class: held }),
        draw("circle", { cx: way.x1, cy: way.y1, r: held ? 4 : 2, class: held }));
    });
  }

  #way(control, frame, picture) {
    const at = this.#map.parts[control.part];
    const box = document.querySelector(`#settings .setting[data-name="${control.name}"]`)?.getBoundingClientRect();
    if (!at || !control.has || !box || at.x < 0 || at.x > 1 || at.y < 0 || at.y > 1) return null;
    return {
      name: control.name, x0: box.left + box.width / 2 - frame.left, y0: box.top - frame.top,
      x1: at.x * picture.width + picture.left - frame.left, y1: at.y * picture.height + picture.top - frame.top,
    };
  }
}
