// The page: it shows what the machine in the frame tells and sends what the
// user asks for. What there is to set, to choose and to read comes from the
// machine; nothing of the trade is known here.
import { byId, fill, show } from "./dom.js";
import { Machine } from "./machine.js";
import { Settings } from "./settings.js";
import { showState } from "./readings.js";
import { showLegend } from "./legend.js";
import { Plate } from "./plate.js";
import { offline } from "./offline.js";

const machine = new Machine(byId("machine"));
const plate = new Plate(machine);
const settings = new Settings({
  change: (name, text) => apply({ do: "set", name, text }),
  hold: (control) => plate.hold(control),
});
const choices = ["run", "step", "reset", "speed", "crop", "situation", "zone", "theme", "air", "names", "restore", "seed"];
const dark = matchMedia("(prefers-color-scheme: dark)");
let described, setup, running = false, revision = -1, started = false;

dress();

machine.on("loading", ({ share }) => plain(`Loading the machine: ${Math.round(share * 100)} %`));
machine.on("failed", ({ why }) => fail(`The machine could not be loaded (${why}). Load the page again; if that does not help, try a current browser.`));
machine.on("touched", touched);
machine.on("state", take);
machine.on("ready", begin);

function plain(text) {
  byId("loading").hidden = text === "";
  byId("loading").textContent = text;
}

function fail(text) {
  document.body.dataset.state = "failed";
  plain(text);
}

// begin takes up a machine that has just come up: at first, and again if the
// frame had to load itself anew.
function begin() {
  described = machine.ask("describe");
  fill(byId("speed"), described.speeds);
  fill(byId("crop"), described.crops);
  fill(byId("zone"), [{ value: "", label: "Follow the part in hand" }, ...described.zones]);
  fill(byId("theme"), [{ value: "", label: "As the system" }, ...described.themes]);
  for (const id of choices) byId(id).disabled = false;
  plain("");
  document.body.dataset.state = "ready";
  if (!started) byId("field").open = !plate.narrow();
  if (!started) byId("zone").value = plate.narrow() ? "" : described.zones[0].value;
  byId("names").checked = started ? byId("names").checked : !plate.narrow();
  if (started) resume(setup);
  showSetup(machine.ask("setup"));
  look();
  const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
  if (started ? running : !still) machine.send({ do: "start" });
  if (!started) offline(() => {});
  started = true;
  machine.listen();
}

// resume brings a machine that had to start anew to what was set.
function resume(before) {
  const scene = before.situation;
  machine.send(scene ? { do: "situation", name: scene.name } : { do: "crop", name: before.crop });
  machine.send({ do: "seed", text: before.seed });
  machine.send({ do: "speed", value: before.speed });
  for (const { name, value, has } of before.controls) if (has) machine.send({ do: "set", name, text: String(value) });
}

// apply sends a command and shows what it changed; it returns what was wrong.
function apply(command) {
  const reply = machine.send(command);
  if (reply.setup) showSetup(reply.setup, reply.error && reply.field);
  return reply;
}

function showSetup(next, wrong) {
  setup = next;
  byId("step").title = next.step;
  revision = next.revision;
  byId("caption").textContent = next.caption;
  byId("slice").textContent = byId("slice-note").textContent = next.slice;
  byId("weather").textContent = next.situation ? next.situation.weather : "";
  byId("shows").textContent = next.situation ? next.situation.shows : "";
  byId("speed").value = String(next.speed);
  byId("crop").value = next.crop;
  const of = described.situations.filter((s) => s.crop === next.crop).map((s) => ({ value: s.name, label: s.title }));
  fill(byId("situation"), [{ value: "", label: "As practice starts" }, ...of]);
  byId("situation").value = next.situation ? next.situation.name : "";
  byId("seed").value = next.seed;
  settings.show(next.controls, wrong);
  showLegend(next.kinds);
  plate.setControls(next.controls);
}

function take(state) {
  running = state.running;
  byId("run").textContent = running ? "Pause" : "Start";
  const plugged = state.state === "plugged";
  if (plugged && [byId("run"), byId("step")].includes(document.activeElement)) byId("reset").focus();
  byId("run").disabled = byId("step").disabled = plugged;
  byId("plate").dataset.state = state.state;
  showState(state);
  settings.under(state.under);
  plate.place(state);
  if (state.revision !== revision) showSetup(machine.ask("setup"));
}

// touched names the part that was touched and leads to the setting that it
// obeys.
function touched({ x, y }) {
  const part = machine.ask("touch", { x, y });
  if (!part.name) return;
  show(byId("status"), `${part.name}: ${part.purpose}`);
  if (part.setting) settings.go(part.setting);
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
  plate.look({ zone: byId("zone").value, theme, air: byId("air").checked, names: byId("names").checked });
}

byId("run").addEventListener("click", () => machine.send({ do: running ? "pause" : "start" }));
byId("step").addEventListener("click", () => machine.send({ do: "pause" }) && machine.send({ do: "step" }));
byId("reset").addEventListener("click", () => apply({ do: "reset" }));
byId("restore").addEventListener("click", () => apply({ do: "restore" }));
byId("speed").addEventListener("change", (e) => apply({ do: "speed", value: Number(e.target.value) }));
byId("crop").addEventListener("change", (e) => apply({ do: "crop", name: e.target.value }));
byId("situation").addEventListener("change", (e) => apply({ do: "situation", name: e.target.value }));
byId("seed").addEventListener("change", (e) => {
  byId("seed-wrong").textContent = apply({ do: "seed", text: e.target.value.trim() }).error || "";
});
for (const id of ["zone", "theme", "air", "names"]) byId(id).addEventListener("change", look);
dark.addEventListener("change", look);

if (typeof WebAssembly !== "object" || typeof WebAssembly.instantiateStreaming !== "function") {
  fail("This browser has no WebAssembly, in which the machine is computed. A browser of the last few years has it.");
} else if (!document.createElement("canvas").getContext("webgl2")) {
  fail("This browser does not offer WebGL 2, with which the machine is drawn. It may be turned off in the browser's settings, or the graphics driver may be too old.");
} else {
  machine.load("frame.html");
}
