// The readings: where the grain ended up.
import { byId, make, draw, show } from "./dom.js";

const rows = new Map();
let told = 0;

export function showState(state) {
  show(byId("clock"), [state.clock, state.pace, `${state.dots} dots`, state.warning].filter(Boolean).join(" · "));
  show(byId("short"), state.short);
  show(byId("long"), state.long);
  state.losses.forEach(showLoss);
  showSample("tank", state.tank);
  showSample("returns", state.returns);
  show(byId("sum"), state.sum);
  show(byId("twin"), state.twin);
  showAlarm(state.alarm);
  if (state.noticeId !== told) {
    told = state.noticeId;
    show(byId("status"), state.notice);
  }
}

function showLoss(loss) {
  let row = rows.get(loss.id);
  if (!row) {
    row = newLoss(loss);
    rows.set(loss.id, row);
    byId("losses").append(row.element);
  }
  show(row.short, loss.short);
  show(row.long, loss.long);
  row.long.title = loss.spread;
  show(row.perHa, loss.perHa);
  show(row.count, loss.count);
  row.tally.setAttribute("d", `M0 1.5H${3 * Math.min(loss.fresh, 107)}`);
}

function newLoss(loss) {
  const cell = () => make("td");
  const tally = draw("path", { d: "M0 1.5H0" });
  const head = make("th", { scope: "row", title: loss.where }, loss.label, draw("svg", { class: "tally", "aria-hidden": "true" }, tally));
  const row = { tally, short: cell(), long: cell(), perHa: cell(), count: cell() };
  row.element = make("tr", { id: `loss-${loss.id}`, className: loss.inner ? "inner" : "" }, head, row.short, row.long, row.perHa, row.count);
  return row;
}

function showSample(id, sample) {
  show(byId(`${id}-head`), sample.head);
  const list = byId(id);
  if (list.children.length !== sample.parts.length) {
    list.replaceChildren(...sample.parts.map((part) => make("div", {}, make("dt", { textContent: part.label }), make("dd"))));
  }
  sample.parts.forEach((part, i) => show(list.children[i].lastChild, `${part.value} %`));
}

function showAlarm(alarm) {
  const box = byId("alarm");
  if (!alarm) {
    box.hidden = true;
    return;
  }
  show(byId("alarm-title"), alarm.title);
  show(byId("alarm-why"), alarm.why);
  show(byId("alarm-caution"), alarm.caution);
  box.hidden = false;
}
