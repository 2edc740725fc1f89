// The view for a room: the machine fills the screen, what is read from afar is
// large, and what only concerns the one at the desk is away. Escape leaves.
import { byId, show } from "./dom.js";
import { t, onLanguage } from "./words.js";

export class Present {
  #on = false;

  constructor() {
    byId("present").addEventListener("click", () => this.#turn(!this.#on));
    document.addEventListener("fullscreenchange", () => { if (!document.fullscreenElement) this.#turn(false); });
    addEventListener("keydown", (e) => { if (e.key === "Escape" && this.#on) this.#turn(false); });
    onLanguage(() => this.#name());
  }

  #name() { show(byId("present"), t(this.#on ? "present.leave" : "present")); }

  async #turn(on) {
    if (on === this.#on) return;
    this.#on = on;
    if (on) document.body.dataset.present = "on";
    else delete document.body.dataset.present;
    this.#name();
    scrollTo(0, 0);
    if (on) await document.documentElement.requestFullscreen?.().catch(() => {}); // the view stands without it too
    else if (document.fullscreenElement) await document.exitFullscreen();
    if (!on) byId("present").focus();
  }
}
