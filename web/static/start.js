// Loads the machine, tells the page how far it is, and starts it.
const tell = (message) => parent.postMessage(message, location.origin);

window.riddleReady = () => tell({ riddle: "ready" });

// counted passes a response on and tells how much of it has come.
function counted(response, size) {
  let got = 0;
  const meter = new TransformStream({
    transform(chunk, out) {
      got += chunk.byteLength;
      tell({ riddle: "loading", share: Math.min(1, got / size) });
      out.enqueue(chunk);
    },
  });
  return new Response(response.body.pipeThrough(meter), { headers: { "Content-Type": "application/wasm" } });
}

async function start() {
  const version = await (await fetch("version.json", { cache: "no-cache" })).json();
  const response = await fetch(version.wasm);
  if (!response.ok) throw new Error(`${version.wasm}: ${response.status}`);
  const go = new Go();
  const { instance } = await WebAssembly.instantiateStreaming(counted(response, version.size), go.importObject);
  await go.run(instance);
  throw new Error("the machine has stopped");
}

start().catch((error) => tell({ riddle: "failed", why: String(error.message || error) }));
