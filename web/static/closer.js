// Looking closer: buttons for lenses, parts and stories in the order of the
// crop, moving the view, and the story of one kernel. Everything that can be
// had by pointing at the picture stands here as a button too.
import { byId, make, rove, show } from "./dom.js";
import { t, say, clock } from "./words.js";

const moves = [["closer", { zoom: 1.5 }], ["farther", { zoom: 1 / 1.5 }], ["left", { dx: -0.2 }], ["right", { dx: 0.2 }], ["up", { dy: -0.2 }], ["down", { dy: 0.2 }], ["back", { home: true }]];
const still = matchMedia("(prefers-reduced-motion: reduce)");

const button = (text, press) => {
  const b = make("button", { type: "button", textContent: text });
  b.addEventListener("click", () => press(b));
  return b;
};
const group = (name, ...children) => {
  const g = make("div", { className: "group" }, make("h3", { textContent: name }), make("p", { className: "buttons" }, ...children));
  g.setAttribute("aria-label", name);
  g.takeUp = rove(g);
  return g;
};

export class Closer {
  #do;
  #lenses = new Map();
  #pointing = false;
  #story = "";
  #ride;
  #hz; // ticks a second
  #timer;
  #zone = "";

  // actions: ask, apply, zone (choose a lens), light (point a part out), run, step.
  constructor(actions) { this.#do = actions; }

  begin({ zones, stories, tickHz }) {
    this.#hz = tickHz;
    const root = byId("closer");
    this.point = button(t("ride.point"), () => this.#toPoint(!this.#pointing));
    this.point.setAttribute("aria-pressed", "false");
    this.stay = make("input", { type: "checkbox", id: "stay" });
    this.stay.addEventListener("change", () => this.#do.look());
    this.shown = make("input", { type: "checkbox", id: "passes", checked: this.passes });
    this.shown.addEventListener("change", () => this.#do.look());
    this.note = make("p", { className: "purpose", id: "closer-note" });
    this.note.setAttribute("role", "status");
    this.parts = group(t("closer.parts"));
    this.rotors = make("p", { className: "purpose" });
    root.replaceChildren(
      make("h2", { id: "closer-title", textContent: t("closer") }),
      group(t("closer.lenses"), ...zones.map((z) => {
        const b = button(t(`zone.${z}`), () => this.#do.zone(z));
        this.#lenses.set(z, b);
        return b;
      })),
      group(t("closer.move"), ...moves.map(([text, move]) => button(t(`move.${text}`), () => this.move(move)))),
      this.parts,
      make("p", { className: "buttons" }, make("label", { className: "tick" }, this.shown, ` ${t("closer.passes")}`)),
      make("p", { className: "purpose", textContent: t("closer.passes.does") }),
      group(t("closer.stories"), ...stories.map((s) => button(t(`story.ask.${s}`), () => this.#take(this.#do.apply({ do: "ride", name: s })))), this.point,
        make("label", { className: "tick" }, this.stay, ` ${t("ride.stay")}`)),
      this.note, this.rotors, make("p", { className: "purpose", textContent: t("closer.keys") }));
    this.zone(this.#zone);
    byId("ride-here").replaceChildren(this.#panel());
  }

  #panel() {
    this.name = make("h3");
    this.name.setAttribute("tabindex", "-1");
    this.clock = make("span", { className: "purpose" });
    this.slider = make("input", { type: "range", id: "rewind" });
    this.slider.addEventListener("input", () => { this.#halt(); this.#to(Number(this.slider.value)); });
    this.play = button(t("ride.replay"), () => (this.#timer ? this.#halt() : this.#replay()));
    this.lines = make("ol", { className: "story" });
    this.about = make("p", { className: "purpose" });
    this.panel = make("div", { className: "ride", hidden: true }, this.name,
      make("p", { className: "buttons" }, make("label", { htmlFor: "rewind", textContent: t("ride.rewind") }), this.slider, this.clock, this.play,
        button(t("ride.leave"), () => this.#leave())), this.lines, this.about);
    return this.panel;
  }

  get passes() { return this.shown?.checked || false; }

  get stays() { return this.stay?.checked || false; }

  // setup brings the parts up to date: the header differs between crops.
  setup({ parts }) {
    const list = this.parts.querySelector("p"), names = parts.map((p) => t(`part.${p.id}`)).join();
    if (list.dataset.names === names) return;
    list.dataset.names = names;
    list.replaceChildren(...parts.map((p) => {
      const name = t(`part.${p.id}`);
      return button(name, () => {
        this.#do.light(p);
        this.#say(t("part.touched", { name, does: t(`part.${p.id}.does`) }));
      });
    }));
    this.parts.takeUp();
  }

  zone(name) {
    this.#zone = name;
    for (const [value, b] of this.#lenses) b.setAttribute("aria-pressed", String(value === name));
  }

  key(key) {
    const n = Number(key);
    if (key === " ") this.#do.run();
    else if (key === ".") this.#do.step();
    else if (key === ",") this.#do.back();
    else if (n >= 1 && n <= this.#lenses.size) this.#do.zone([...this.#lenses.keys()][n - 1]);
  }

  move(move) { this.#do.ask("move", move); }

  // grasp takes up the dot at a spot, if that is what pointing is for now. It
  // reports whether it was.
  grasp(spot, always = false) {
    if (!this.#pointing && !always) return false;
    this.#take(this.#do.ask("grasp", spot));
    return true;
  }

  async #take(asked) {
    const reply = await asked;
    if (reply.error) this.#say(say(reply.say));
    else await this.#taken();
  }

  #toPoint(on) {
    this.#pointing = on;
    this.point.setAttribute("aria-pressed", String(on));
    this.#say(on ? t("ride.pointing") : "");
  }

  #say(text) { show(this.note, text); }

  async #taken() {
    this.#halt();
    this.#toPoint(false);
    this.#story = "";
    const state = await this.#do.ask("state");
    this.fresh = true;
    this.state(state);
  }

  async #leave() {
    this.#halt();
    this.#do.apply({ do: "ride-off" });
    this.move({ home: true });
    this.state(await this.#do.ask("state"));
    this.#say("");
    this.point.focus();
  }

  async #to(tick) {
    this.#do.apply({ do: "ride-to", value: tick });
    this.state(await this.#do.ask("state"));
  }

  // #replay moves the ring along its way at the pace at which it went; with
  // reduced motion it goes from event to event.
  #replay() {
    const { from, to, at, story } = this.#ride;
    let tick = at >= to ? from : at, last = performance.now();
    show(this.play, t("ride.halt"));
    this.#timer = setInterval(() => {
      const now = performance.now();
      tick = still.matches ? (story.find((s) => s.tick > tick)?.tick ?? to) : tick + ((now - last) * this.#hz) / 1000;
      last = now;
      if (tick >= to) this.#halt();
      this.#to(Math.min(tick, to));
    }, still.matches ? 1500 : 50);
  }

  #halt() {
    clearInterval(this.#timer);
    this.#timer = undefined;
    if (this.play) show(this.play, t("ride.replay"));
  }

  // state shows how the ride stands.
  state({ ride, rotors }) {
    if (!this.panel) return;
    show(this.rotors, rotors ? say(rotors) : "");
    this.#ride = ride;
    this.panel.hidden = !ride;
    if (!ride) return;
    show(this.name, say(ride.title));
    const shown = clock(ride.at / this.#hz);
    show(this.clock, shown);
    show(this.about, say(ride.note));
    Object.assign(this.slider, { min: ride.from, max: ride.to, value: ride.at });
    this.slider.setAttribute("aria-valuetext", shown);
    const lines = ride.story.map((s) => say(s.text)), text = lines.join("\n");
    if (text !== this.#story) {
      this.#story = text;
      this.lines.replaceChildren(...ride.story.map((s, i) => {
        const b = button(lines[i], () => { this.#halt(); this.#to(s.tick); });
        return make("li", {}, b);
      }));
    }
    [...this.lines.children].forEach((li, i) => {
      li.classList.toggle("ahead", !ride.story[i].past);
    });
    if (this.fresh) {
      this.fresh = false;
      this.name.focus({ preventScroll: true });
    }
  }
}
