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

// show sets an element's text where it differs, so that nothing is read out
// or laid out twice.
export function show(element, text) {
  if (element.textContent !== text) element.textContent = text;
}
