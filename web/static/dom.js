// Small helpers to make and find elements.

export const byId = (id) => document.getElementById(id);

// make returns a new element with properties and children.
export function make(tag, properties = {}, ...children) {
  const element = Object.assign(document.createElement(tag), properties);
  element.append(...children);
  return element;
}

// draw returns a new element of a drawing with attributes and children.
export function draw(tag, attributes = {}, ...children) {
  const element = document.createElementNS("http://www.w3.org/2000/svg", tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  element.append(...children);
  return element;
}

// fill gives a select its options and keeps what is chosen, if it is there.
export function fill(select, choices) {
  const before = select.value;
  select.replaceChildren(...choices.map(({ value, label }) => make("option", { value, textContent: label })));
  if (choices.some((c) => c.value === before)) select.value = before;
}

// rove makes a row of buttons one stop of Tab, as a toolbar (WAI-ARIA 1.2): the
// arrows, Home and End move in it, and Tab comes back to where it was left. The
// function that it returns takes up buttons that have come or gone.
export function rove(row) {
  const all = () => [...row.querySelectorAll("button, input")];
  const hold = (held) => {
    for (const e of all()) e.tabIndex = e === held ? 0 : -1;
  };
  const way = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 };
  row.setAttribute("role", "toolbar");
  row.addEventListener("focusin", (event) => hold(event.target));
  row.addEventListener("keydown", (event) => {
    const list = all(), at = list.indexOf(event.target), last = list.length - 1;
    let to = at + (way[event.key] ?? 0);
    if (event.key === "Home") to = 0;
    if (event.key === "End") to = last;
    if (at < 0 || to === at) return;
    event.preventDefault();
    list[(to + list.length) % list.length].focus();
  });
  const begin = () => hold(all().find((e) => e === document.activeElement) ?? all()[0]);
  begin();
  return begin;
}

// show sets an element's text where it differs, so that nothing is read out
// or laid out twice.
export function show(element, text) {
  if (element.textContent !== text) element.textContent = text;
}
