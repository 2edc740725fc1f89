// The page: it shows what the machine in the frame tells and sends what the
// user asks for. What there is to set, to choose and to read comes from the
// machine; nothing of the trade is known here, and no words: those come from
// the catalogues.
import { byId, fill, show } from "./dom.js";
import { Machine } from "./machine.js";
import { Settings } from "./settings.js";
import { showState, sayPicture } from "./readings.js";
import { showLegend } from "./legend.js";
import { Plate } from "./plate.js";
import { Chart } from "./chart.js";
import { know } from "./lines.js";
import { Curve } from "./curve.js";
import { Log } from "./log.js";
import { Closer } from "./closer.js";
import { offline } from "./offline.js";
import { Keep } from "./keep.js";
import { Pair } from "./pair.js";
import { Present } from "./present.js";
import { Sheet } from "./print.js";
import { t, say, languages, language, choose, wanted, fromModel, onLanguage, keep, recall } from "./words.js";

const machine = new Machine(byId("machine"));
const plate = new Plate(machine);
const settings = new Settings({
  change: apply,
  hold: (control, passing) => {
    plate.hold(control, passing);
    if (!passing) curve.hold(control);
  },
});
const curve = new Curve(machine);
const chart = new Chart(machine);
const log = new Log(machine, (id) => apply({ do: "undo", value: id }));
const closer = new Closer({
  ask: (what, argument) => machine.ask(what, argument), apply: (command) => apply(command), look: () => look(),
  run: () => byId("run").click(), step: () => byId("step").click(), back: () => byId("back").click(),
  zone: (name) => { byId("zone").value = name; look(); },
  light: ({ id, zone }) => { byId("zone").value = zone; look(); plate.point(id); },
});
const keeping = new Keep(machine, apply);
const pair = new Pair(machine, apply, (next) => { if (next) showSetup(next); });
new Present();
new Sheet(machine);
const choices = ["run", "step", "back", "reset", "speed", "crop", "situation", "zone", "theme", "units", "air", "names", "restore", "seed", "pair", "fork", "present"];
const dark = matchMedia("(prefers-color-scheme: dark)");
let described, setup, last, running = false, revision = -1, started = false;

dress();
await speakAs(wanted());
fill(byId("language"), Object.entries(languages).map(([value, label]) => ({ value, label })));
byId("language").value = language();
document.title = t("title");

window.riddle.loaded = (share) => plain(t("loading.share", { share: Math.round(share * 100) }));
machine.on("failed", ({ why, lacks }) => fail(lacks ? t(`fail.${lacks}`) : t("fail.load", { why }), !lacks));
machine.on("touched", touched);
machine.on("grasped", (spot) => closer.grasp(spot, true));
machine.on("move", (move) => closer.move(move));
machine.on("key", ({ key }) => closer.key(key));
machine.on("state", take);
machine.on("ready", begin);
onLanguage(speak);
machine.begin();

function plain(text) {
  byId("loading").hidden = text === "";
  show(byId("loading-text"), text);
}

// fail says why there is no machine, over a still of it, and whether to try
// again.
function fail(text, again) {
  document.body.dataset.state = "failed";
  document.body.dataset.settled = "on";
  plain(text);
  byId("guard").hidden = true;
  byId("retry").hidden = !again;
  byId("still").src = "still.png";
  byId("still").hidden = byId("still-text").hidden = false;
}

// begin takes up a machine that has just come up: at first, and again if the
// frame had to load itself anew.
async function begin() {
  described = await machine.ask("describe");
  fromModel(described.words);
  know(described);
  offer();
  plate.begin();
  for (const id of choices) byId(id).disabled = false;
  plain("");
  nameFrame();
  document.body.dataset.state = "ready";
  if (!started) byId("field").open = !plate.narrow();
  if (!started) byId("zone").value = plate.narrow() ? "" : described.zones[0];
  byId("names").checked = started ? byId("names").checked : !plate.narrow();
  if (started) await comeBack();
  else if (recall("units")) machine.ask("units", { name: recall("units") });
  await refresh();
  if (!started) await keeping.begin();
  look();
  const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
  if (!started && !still) machine.ask("start");
  if (!started) machine.ask("warm");
  if (!started) offline(() => keeping.store());
  started = true;
  machine.listen();
}

// nameFrame says what is in the frame, in the language of the page.
function nameFrame() {
  const inside = byId("machine").contentDocument;
  inside.documentElement.lang = document.documentElement.lang;
  inside.title = t("machine.frame");
  inside.querySelector("canvas")?.setAttribute("aria-label", t("machine.picture"));
}

// offer fills the lists to choose from, in the language of the page.
function offer() {
  const named = (prefix) => (value) => ({ value, label: t(prefix + value) });
  fill(byId("speed"), described.speeds.map((times) => ({ value: String(times.v), label: t("speed.times", { n: times }) })));
  fill(byId("crop"), described.crops.map(named("crop.")));
  fill(byId("zone"), [{ value: "", label: t("view.follow") }, ...described.zones.map(named("zone."))]);
  fill(byId("theme"), [{ value: "", label: t("theme.system") }, ...described.themes.map(named("theme."))]);
  fill(byId("units"), described.units.map(named("units.")));
  closer.begin(described);
}

// speakAs has the page speak a language, or says that it cannot be had.
async function speakAs(name) {
  const can = await choose(name);
  byId("wrong").hidden = can;
  show(byId("wrong"), can ? "" : t("language.lost", { name: languages[name], stays: languages[language()] ?? language() }));
  return can;
}

// speak puts the page into the language that has been chosen.
function speak() {
  document.title = t("title");
  if (!described) return;
  nameFrame();
  offer();
  refresh().then(() => { if (last) take(last); });
}

// comeBack brings a machine that had to load itself anew to where it stood; where
// it could not say how it stood, to what was set last.
async function comeBack() {
  const { units, speed } = setup;
  const standing = window.riddle.standing ? JSON.parse(window.riddle.standing) : { runs: [], link: keeping.link, units, speed, running };
  const reply = await machine.ask("comeback", standing);
  if (reply.error) show(byId("status"), say(reply.say));
}

// apply sends a command and shows what it changed; it returns what was wrong.
async function apply(command) {
  const reply = await machine.send(command);
  if (reply.setup) showSetup(reply.setup, reply.error && reply.field);
  return reply;
}

// refresh shows the setup as it now is.
async function refresh() { showSetup(await machine.ask("setup")); }

function showSetup(next, wrong) {
  setup = next;
  revision = next.revision;
  show(byId("caption"), say(next.caption));
  show(byId("slice"), say(next.slice));
  show(byId("slice-note"), say(next.slice));
  show(byId("weather"), say(next.weather));
  show(byId("shows"), next.situation ? t(`situation.${next.situation.name}.shows`) : "");
  show(byId("invite-text"), say(next.invite.text));
  byId("speed").value = String(next.speed);
  byId("crop").value = next.crop;
  byId("units").value = next.units;
  const of = described.situations.filter((s) => s.crop === next.crop).map(({ name }) => ({ value: name, label: t(`situation.${name}`) }));
  fill(byId("situation"), [{ value: "", label: t("situation.none") }, ...of]);
  byId("situation").value = next.situation ? next.situation.name : "";
  byId("seed").value = next.seed;
  settings.show(next.controls, wrong);
  showLegend(next.kinds);
  plate.setup(next);
  closer.setup(next);
  keeping.changed();
}

function take(state) {
  last = state;
  running = state.running;
  show(byId("run"), t(running ? "run.pause" : "run.start"));
  const plugged = state.state === "plugged";
  if (plugged && [byId("run"), byId("step")].includes(document.activeElement)) byId("reset").focus();
  byId("run").disabled = byId("step").disabled = plugged;
  byId("back").disabled = state.warm < 1;
  byId("plate").dataset.state = state.state;
  showState(state);
  pair.show(state);
  if (state.filling) show(byId("clock"), say(state.filling));
  settings.under(state.under);
  if (state.warm === 1) {
    if (!curve.held) curve.hold(setup.controls.find((c) => c.name === setup.invite.field));
    curve.follow(state);
    chart.follow(state);
    log.follow(state);
  }
  byId("invite").hidden = state.warm < 1 || state.logged > 0 || plugged;
  if (state.map) document.body.dataset.settled = "on"; // the first pictures are shown
  plate.place(state);
  closer.state(state);
  if (state.revision !== revision) refresh();
}

// touched names the part that was touched and leads to the setting that it
// obeys.
async function touched({ x, y }) {
  if (closer.grasp({ x, y })) return;
  const { part, setting } = await machine.ask("touch", { x, y });
  if (!part) return;
  show(byId("status"), t("part.touched", { name: t(`part.${part}`), does: t(`part.${part}.does`) }));
  if (setting) settings.go(setting);
}

// dress gives the page the theme that is chosen and returns it.
function dress() {
  const theme = byId("theme").value || (dark.matches ? "night" : "paper");
  document.documentElement.dataset.theme = theme;
  return theme;
}

// look tells the machine how it is to be drawn.
function look() {
  const theme = dress();
  plate.look({ zone: byId("zone").value, theme, air: byId("air").checked, names: byId("names").checked, passes: closer.passes, stay: closer.stays });
  closer.zone(plate.zone);
}

byId("invite-go").addEventListener("click", () => settings.go(setup.invite.field));
byId("retry").addEventListener("click", () => location.reload());
byId("more").addEventListener("click", ({ target }) => target.setAttribute("aria-expanded", target.getAttribute("aria-expanded") !== "true"));
byId("run").addEventListener("click", () => machine.ask(running ? "pause" : "start"));
byId("step").addEventListener("click", () => { machine.ask("pause"); machine.ask("step"); });
byId("back").addEventListener("click", () => apply({ do: "back" }));
byId("reset").addEventListener("click", () => apply({ do: "reset" }));
byId("twin-now").addEventListener("click", () => last && sayPicture(last));
byId("restore").addEventListener("click", () => apply({ do: "restore" }));
byId("speed").addEventListener("change", (e) => apply({ do: "speed", value: Number(e.target.value) }));
byId("crop").addEventListener("change", (e) => apply({ do: "crop", name: e.target.value }));
byId("situation").addEventListener("change", (e) => apply({ do: "situation", name: e.target.value }));
byId("seed").addEventListener("change", async (e) => show(byId("seed-wrong"), say((await apply({ do: "seed", text: e.target.value.trim() })).say)));
byId("price").addEventListener("change", async (e) => show(byId("price-wrong"), say((await apply({ do: "price", value: Number(e.target.value) })).say)));
byId("units").addEventListener("change", (e) => {
  keep("units", e.target.value);
  apply({ do: "units", name: e.target.value });
});
byId("language").addEventListener("change", async (e) => {
  const name = e.target.value;
  if (await speakAs(name)) keep("language", name);
  e.target.value = language();
});
for (const id of ["zone", "theme", "air", "names"]) byId(id).addEventListener("change", look);
dark.addEventListener("change", look);
