// The legend: each kind of material in the shape in which it is drawn, its
// name, and what one dot of it stands for.
import { byId, make, draw } from "./dom.js";
import { t, say, language } from "./words.js";

let shown = "";

export function showLegend(kinds) {
  const now = language() + JSON.stringify(kinds);
  if (now === shown) return;
  shown = now;
  byId("legend").replaceChildren(...kinds.map(entry));
}

function entry({ label, dot, tone, size, shape }) {
  const half = size * 0.55;
  const picture = draw("svg", { class: `shape tone-${tone}`, viewBox: `${-half} ${-half} ${2 * half} ${2 * half}`, "aria-hidden": "true" },
    ...shape.map(({ path, width, erase }) => draw("path", {
      d: path, class: `${width ? "line" : "fill"}${erase ? " erase" : ""}`, "stroke-width": width,
    })));
  return make("li", {}, picture, make("span", {}, make("strong", { textContent: t(label) }), say(dot)));
}
