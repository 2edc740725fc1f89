// The legend: each kind of material by its shape, its name, and what one dot
// of it stands for.
import { byId, make, draw, show } from "./dom.js";

// shapes of the kinds on a field of 36 by 20.
const shapes = {
  sound: [["ellipse", { cx: 18, cy: 10, rx: 9, ry: 5, class: "filled" }]],
  light: [["ellipse", { cx: 18, cy: 10, rx: 8, ry: 3, class: "lined" }]],
  broken: [["path", { d: "M18 4.5A9 5.5 0 0 0 18 15.5L20.5 12L17.5 9Z", class: "filled" }]],
  piece: [["path", { d: "M6 10C9 3 27 3 30 10C27 17 9 17 6 10Z", class: "lined" }], ["circle", { cx: 13, cy: 10, r: 2, class: "filled" }],
    ["circle", { cx: 18.5, cy: 10, r: 2, class: "filled" }], ["circle", { cx: 24, cy: 10, r: 2, class: "filled" }]],
  chaff: [["path", { d: "M10 13C12 6 22 4 26 8", class: "lined" }]],
  short: [["path", { d: "M11 12L25 8M18 7.5L18.6 12.3", class: "lined" }]],
  straw: [["path", { d: "M3 14L33 6M17 7.5L18.5 12.5", class: "lined" }]],
  weed: [["path", { d: "M18 3V17M11 6L25 14M25 6L11 14", class: "lined" }]],
};

export function showLegend(kinds) {
  const list = byId("legend");
  if (list.children.length === 0) list.append(...kinds.map(entry));
  kinds.forEach((kind, i) => show(list.children[i].lastChild.lastChild, kind.dot));
}

function entry(kind) {
  const shape = draw("svg", { class: `shape ${kind.id}`, viewBox: "0 0 36 20", "aria-hidden": "true" },
    ...shapes[kind.id].map(([tag, attributes]) => draw(tag, attributes)));
  return make("li", {}, shape, make("span", {}, make("strong", { textContent: kind.label }), make("span", { className: "dot" })));
}
