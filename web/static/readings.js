// The readings: where the grain ended up.
import { byId, make, draw, show } from "./dom.js";
import { t, say, sentences, amount, quantity, measured, spread, unit, number, clock } from "./words.js";
import { moneyLines } from "./money.js";

const rows = new Map();
let told = 0, unsaid = true;

export function showState(state) {
  const dots = t("clock.dots", { n: state.dots });
  const pace = state.behind ? t("clock.pace", { pace: state.pace }) : "";
  show(byId("clock"), [clock(state.seconds), pace, dots, state.state === "slowing" ? t("clock.slowing") : ""].filter(Boolean).join(" · "));
  show(byId("now"), t("loss.now"));
  show(byId("short"), t("loss.span", { s: state.spans[1] }));
  show(byId("long"), t("loss.span", { s: state.spans[2] }));
  show(byId("per-land"), unit(state.losses[0].perHa.u));
  state.losses[0].area.forEach((q, i) => { byId(["per-m2", "per-ft2"][i]).ariaLabel = unit(q.u); });
  state.losses.forEach(showLoss);
  showSample("tank", state.tank);
  showGrade(state.grade);
  showSample("returns", state.returns);
  showLoads(state.loads);
  showMoney(state.money);
  show(byId("sum"), sentences(state.sum));
  if (state.warm === 1 && (unsaid || byId("twin").lang !== document.documentElement.lang || state.noticeId !== told)) sayPicture(state);
  showAlarm(state.alarm);
  if (state.noticeId !== told) {
    told = state.noticeId;
    show(byId("status"), say(state.notice));
  }
}

// sayPicture puts the picture into words: on request, and when what a change
// does has settled. A text that changes ten times a second can be read by
// nobody.
export function sayPicture(state) {
  unsaid = false;
  show(byId("twin"), sentences(state.twin));
  byId("twin").lang = document.documentElement.lang;
}

function showLoss(loss) {
  let row = rows.get(loss.id);
  if (!row) {
    row = newLoss(loss);
    rows.set(loss.id, row);
    byId("losses").append(row.element);
  }
  show(row.name, t(`loss.${loss.id}`));
  row.head.title = t(`loss.${loss.id}.where`);
  for (const span of ["now", "short", "long"]) {
    show(row[span].firstChild, amount(loss[span]));
    show(row[span].lastChild, spread(loss[span]));
  }
  show(row.perHa, loss.perHa ? amount(loss.perHa) : "");
  row.area.forEach((cell, i) => show(cell, loss.area ? amount(loss.area[i]) : ""));
  show(row.count, number(loss.count));
  row.tally.setAttribute("d", `M0 1.5H${3 * Math.min(loss.fresh, 107)}`);
}

function newLoss(loss) {
  const cell = () => make("td", {}, make("span"), make("small"));
  const tally = draw("path", { d: "M0 1.5H0" }), name = make("span");
  const head = make("th", { scope: "row" }, name, draw("svg", { class: "tally", "aria-hidden": "true" }, tally));
  const row = { tally, name, head, now: cell(), short: cell(), long: cell(), perHa: make("td"), area: [make("td"), make("td")], count: make("td") };
  row.element = make("tr", { id: `loss-${loss.id}`, className: loss.inner ? "inner" : "" }, head, row.now, row.short, row.long, row.perHa, ...row.area, row.count);
  return row;
}

// items keeps a list of names and values in step with what it shows.
function items(list, parts) {
  if (list.children.length !== parts.length) {
    list.replaceChildren(...parts.map(() => make("div", {}, make("dt"), make("dd"))));
  }
  parts.forEach(([name, value], i) => {
    show(list.children[i].firstChild, name);
    show(list.children[i].lastChild, value);
  });
}

function showSample(id, sample) {
  show(byId(`${id}-head`), say(sample.head));
  items(byId(id), sample.parts.map(({ key, value }) => [t(key), measured(value)]));
}

function showGrade(grade) {
  byId("grade").hidden = !grade;
  if (!grade) return;
  show(byId("grade-text"), say(grade.text));
  items(byId("grade-factors"), grade.factors.map(({ key, value }) => [t(key), quantity(value)]));
}

function showLoads(loads) {
  items(byId("loads"), loads.map((load) => [t(load.key), loadOf(load)]));
}

// loadOf says how hard a part works.
export const loadOf = ({ value, text, share }) =>
  [value ? measured(value) : "", say(text), share === null ? "" : t("load.share", { share: number(share) })].filter(Boolean).join(", ");

function showMoney(money) {
  show(byId("price-name"), t("money.price", { sold: unit(money.sold) }));
  if (document.activeElement !== byId("price")) byId("price").value = money.typed;
  items(byId("money"), [
    ...moneyLines(money),
    ...money.refused.map((text) => ["", say(text)]),
    ...(money.free ? [["", say(money.free)]] : []),
  ]);
}

function showAlarm(alarm) {
  const box = byId("alarm");
  if (!alarm) {
    box.hidden = true;
    return;
  }
  show(byId("alarm-title"), say(alarm.title));
  show(byId("alarm-why"), say(alarm.why));
  show(byId("alarm-caution"), sentences(alarm.caution));
  box.hidden = false;
}
