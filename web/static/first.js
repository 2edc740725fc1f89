// Stands before all else, so that nothing waits for the rest of the page: the
// machine is fetched and compiled at once, and what the frame tells is held
// until the page's scripts are there to hear it. The frame finds here
//   riddle.code     a promise of the compiled machine
//   riddle.stop()   when it is not wanted after all
// and the page sets
//   riddle.hear     takes an event, riddle.early those that came before
//   riddle.loaded   takes the share of the machine that has come
window.riddle = { early: [], hear: (event) => window.riddle.early.push(event), loaded: () => {} };
addEventListener("message", (event) => window.riddle.hear(event));

// The guard says that a part of the page did not arrive, and offers to try
// again. It needs no words but its own, since they may be what is missing. What
// index.html shows by itself after a while is for when this script is missing.
(() => {
  const patience = 20_000; // ms in which nothing comes
  const loading = () => !document.body || document.body.dataset.state === "loading";
  let due = 0;

  function guard(text, aside) {
    const line = document.getElementById("guard");
    if (!line) return setTimeout(() => guard(text, aside), 100); // the page is not read that far
    line.className = "now";
    line.firstElementChild.textContent = text;
    if (aside) document.querySelector("main").before(line); // not with the machine's place, which may be ready
  }
  const lost = (address, aside) => guard(`A part of this page did not arrive: ${address.split("/").pop().split("?")[0]}.`, aside);

  // gone is the address of a file that a window asked for and did not get, as far
  // as the browser tells: a script fails alike when one that it needs is missing.
  function gone(from) {
    try {
      return from.performance.getEntriesByType("resource").findLast((e) => e.responseStatus >= 400 || (e.responseStatus === 0 && e.decodedBodySize === 0))?.name;
    } catch { // a page of the browser's own stands there
      return undefined;
    }
  }

  // lacked is the address of what a script lacked: a file that it names, a script
  // that came half and so has not all that is asked of it, or itself.
  const lacked = ({ error, message, filename }) => error?.file ?? /'(\.\/[^']+\.js)'/.exec(message)?.[1] ?? filename;

  // begun reports whether the scripts of the frame have come.
  function begun(frame) {
    try {
      return Boolean(frame.contentWindow.riddleReady);
    } catch { // a page of the browser's own stands there
      return false;
    }
  }

  // came puts off the word that nothing comes.
  function came() {
    clearTimeout(due);
    due = setTimeout(() => { if (loading()) guard("This is taking long. A part of the page may not have arrived."); }, patience);
  }

  document.documentElement.classList.add("watched");
  came();
  window.riddle.came = came;
  addEventListener("error", (event) => {
    const e = event.target;
    if (e.localName === "script") lost(gone(window) ?? e.src);
    else if (e.localName === "link" && e.rel === "stylesheet") lost(e.href, true);
    else if (e === window && /\.js$/.test(event.filename) && loading()) lost(lacked(event)); // it came half, or lacks another
  }, { capture: true });
  addEventListener("unhandledrejection", ({ reason }) => {
    const file = reason?.file ?? gone(window);
    if (!loading()) return;
    if (file) lost(file);
    else guard("A part of this page did not arrive.");
  });
  document.addEventListener("load", ({ target }) => {
    if (loading()) came();
    if (target.localName === "iframe" && !begun(target)) lost(gone(target.contentWindow) ?? target.src);
  }, { capture: true });
  addEventListener("click", (event) => {
    if (!event.target.closest?.("#guard a")) return;
    event.preventDefault();
    location.reload(); // the address as it is, with what it holds
  });
})();

(() => {
  const gate = new AbortController();

  // counted passes a response on and tells how much of it has come, in steps
  // of a twentieth. What passes is kept for its fingerprint.
  function counted(response, size, kept) {
    let got = 0, told = 0;
    const meter = new TransformStream({
      transform(chunk, out) {
        got += chunk.byteLength;
        kept.push(chunk.slice());
        window.riddle.came();
        const share = Math.min(1, Math.floor((20 * got) / size) / 20);
        if (share > told) window.riddle.loaded(told = share);
        out.enqueue(chunk);
      },
    });
    return new Response(response.body.pipeThrough(meter), { headers: { "Content-Type": "application/wasm" } });
  }

  async function fingerprint(parts) {
    const sum = await crypto.subtle.digest("SHA-256", await new Blob(parts).arrayBuffer());
    return [...new Uint8Array(sum)].map((b) => b.toString(16).padStart(2, "0")).join("");
  }

  // machine fetches and compiles the machine. One out of the page's own keeping
  // has been looked at there, and is passed on as it is.
  async function machine({ wasm, size, sha256 }, cache) {
    const response = await fetch(wasm, { cache, signal: gate.signal });
    if (!response.ok) throw new Error(`${wasm}: ${response.status}`);
    if (navigator.serviceWorker?.controller) return WebAssembly.compileStreaming(response);
    const parts = [];
    const code = await WebAssembly.compileStreaming(counted(response, size, parts));
    if (crypto.subtle && (await fingerprint(parts)) !== sha256) throw new Error(`${wasm} is damaged`);
    return code;
  }

  // load tries twice: what the browser had put by may be damaged.
  async function load() {
    const response = await fetch("version.json", { cache: "no-cache", signal: gate.signal });
    const version = await response.json().catch(() => { throw new Error(response.ok ? "version.json is damaged" : `version.json: ${response.status}`); });
    return machine(version, "default").catch((error) => {
      if (gate.signal.aborted) throw error;
      return machine(version, "reload").catch(({ message }) => {
        throw new Error(message.includes(version.wasm) ? message : `${version.wasm}: ${message}`);
      });
    });
  }

  window.riddle.stop = () => gate.abort();
  window.riddle.code = load();
  window.riddle.code.catch(() => {}); // the frame tells
})();
