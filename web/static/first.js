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

(() => {
  const gate = new AbortController();

  // counted passes a response on and tells how much of it has come, in steps
  // of a twentieth. One out of the page's own keeping is passed on as it is.
  function counted(response, size) {
    if (navigator.serviceWorker?.controller) return response;
    let got = 0, told = 0;
    const meter = new TransformStream({
      transform(chunk, out) {
        got += chunk.byteLength;
        const share = Math.min(1, Math.floor((20 * got) / size) / 20);
        if (share > told) window.riddle.loaded(told = share);
        out.enqueue(chunk);
      },
    });
    return new Response(response.body.pipeThrough(meter), { headers: { "Content-Type": "application/wasm" } });
  }

  async function load() {
    const version = await (await fetch("version.json", { cache: "no-cache", signal: gate.signal })).json();
    const response = await fetch(version.wasm, { signal: gate.signal });
    if (!response.ok) throw new Error(`${version.wasm}: ${response.status}`);
    return WebAssembly.compileStreaming(counted(response, version.size));
  }

  window.riddle.stop = () => gate.abort();
  window.riddle.code = load();
  window.riddle.code.catch(() => {}); // the frame tells
})();
