// Keeping and sharing what is set up: in this browser, in the address of the
// page, in a link, in files. What a link or a file holds, and whether it is
// sound, is the machine's business; here it is only carried.
import { byId, show } from "./dom.js";
import { t, say, keep, recall } from "./words.js";

const held = "setup"; // under this name it is held in the browser
const rest = 300; // ms without a further change
const most = 5_000_000; // bytes of a file that are looked at; the machine reads fewer

export class Keep {
  #machine;
  #open; // sends a command that opens something, and shows what came of it
  #first; // the link of a machine that nobody has touched
  #due = 0;
  link = ""; // of what is set

  constructor(machine, open) {
    this.#machine = machine;
    this.#open = open;
    const on = (id, act) => byId(id).addEventListener("click", act);
    on("link-copy", () => this.#copy());
    on("file-save", async () => this.#save("json", "application/json", await this.#machine.ask("file")));
    on("file-open", () => byId("file").click());
    on("run-save", () => this.#saveRun());
    on("csv-save", async () => this.#save("csv", "text/csv", await this.#machine.ask("csv")));
    on("png-save", async () => this.#save("png", "image/png", await this.#machine.ask("picture", { labels: byId("names").checked })));
    byId("file").addEventListener("change", (e) => this.#read(e.target));
    byId("link").addEventListener("focus", (e) => e.target.select());
    addEventListener("hashchange", (e) => this.#follow(new URL(e.newURL).hash));
    addEventListener("pagehide", () => this.store());
  }

  // begin opens what the address holds, or else what this browser held. What
  // is damaged is told, and what was there stays.
  async begin() {
    this.#first = await this.#machine.ask("link");
    const before = recall(held);
    if (before) await this.#take("open.link", before, "keep.bad.held");
    await this.#follow(location.hash);
    for (const e of document.querySelectorAll("#keep button, #link")) e.disabled = false;
    this.changed();
  }

  // changed is told whenever what is set has changed. What is to be held is asked
  // for at once, so that it is here when the page is left.
  async changed() {
    if (this.#first === undefined) return;
    this.link = await this.#machine.ask("link");
    clearTimeout(this.#due);
    this.#due = setTimeout(() => this.store(), rest);
  }

  // store holds what is set in this browser and in the address of the page.
  store() {
    if (this.#first === undefined) return;
    clearTimeout(this.#due);
    const { link } = this;
    if (!link) return;
    keep(held, link === this.#first ? "" : link);
    if (location.hash.length > 1 || link !== this.#first) history.replaceState(null, "", `#${link}`);
    byId("link").value = this.#address(link);
  }

  #address(link) { return `${location.origin}${location.pathname}#${link}`; }

  // #follow opens what an address of the page holds, unless it names a place on
  // it. The word that the address has changed comes late: by then store may have
  // put the machine's own link back there.
  async #follow(hash) {
    const place = hash.slice(1);
    if (place && !document.getElementById(place)) return this.#take("open.link", hash, "keep.bad.link");
  }

  async #take(how, text, bad) {
    const reply = await this.#open({ do: how, text });
    if (reply.error) this.#tell(t(bad), say(reply.say), t("keep.stays"));
    else this.#tell();
    return !reply.error;
  }

  async #read(input) {
    const [file] = input.files;
    if (!file) return;
    const text = await file.slice(0, most).text();
    input.value = ""; // so that the same file can be chosen again
    if (await this.#take("open.file", text, "keep.bad.file")) this.#said(t("keep.opened", { name: file.name }));
  }

  async #copy() {
    this.store();
    try {
      await navigator.clipboard.writeText(byId("link").value);
      this.#said(t("keep.copied"));
    } catch {
      byId("link").focus();
      this.#said(t("keep.copy.by.hand"));
    }
  }

  // #saveRun saves the run, or both where there are two machines.
  async #saveRun() {
    const runs = (await Promise.all([this.#machine.ask("run"), this.#machine.ask("run", { second: true })])).filter(Boolean);
    runs.forEach((run, i) => this.#save("json", "application/json", run, runs.length > 1 ? `-run-${i + 1}` : "-run"));
    if (!runs.length) this.#said(t("keep.run.not"));
  }

  #save(kind, type, content, what = "") {
    const name = `riddle-${byId("crop").value}-${new Date().toLocaleDateString("sv")}${what}.${kind}`;
    const url = URL.createObjectURL(new Blob([content], { type }));
    Object.assign(document.createElement("a"), { href: url, download: name }).click();
    setTimeout(() => URL.revokeObjectURL(url), 10_000);
    this.#said(t("keep.saved", { name }));
  }

  #said(text) { show(byId("keep-said"), text); }

  // #tell says what was wrong, or takes back what was said.
  #tell(...texts) {
    byId("wrong").hidden = texts.length === 0;
    show(byId("wrong"), texts.join(" "));
  }
}
