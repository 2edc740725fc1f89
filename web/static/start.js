// Starts the machine that the page has fetched, and tells the page.
const tell = (message) => parent.postMessage(message, location.origin);

// The page takes the machine up at once, before its first picture. What goes
// wrong there must not stop the machine.
window.riddleReady = () => {
  try {
    parent.riddle.hear({ source: window, origin: location.origin, data: { riddle: "ready" } });
  } catch (error) {
    reportError(error);
  }
};

// lacking names what the machine needs and this browser has not.
function lacking() {
  if (typeof WebAssembly !== "object" || typeof WebAssembly.compileStreaming !== "function") return "wasm";
  const context = document.createElement("canvas").getContext("webgl2");
  context?.getExtension("WEBGL_lose_context")?.loseContext(); // the engine makes its own
  return context ? "" : "webgl";
}

// The engine asks for a canvas that is smoothed and seen through and has room
// for stencils. What it shows is one finished picture, and where no graphics
// processor is at hand those wishes cost a third of the pictures.
const getContext = HTMLCanvasElement.prototype.getContext;
HTMLCanvasElement.prototype.getContext = function (kind, wishes) {
  return getContext.call(this, kind, { ...wishes, alpha: false, antialias: false, depth: false, stencil: false });
};

// missing names what of the frame has not arrived.
function missing() {
  const here = { "view.js": window.riddleView, "frame.js": window.riddleFrame, "wasm_exec.js": window.Go };
  return Object.keys(here).filter((name) => !here[name]);
}

async function start() {
  const lost = missing();
  if (lost.length) throw new Error(`${lost.join(", ")}: not arrived`);
  const lacks = lacking();
  if (lacks) {
    parent.riddle.stop();
    return tell({ riddle: "failed", lacks });
  }
  const go = new Go();
  const instance = await WebAssembly.instantiate(await parent.riddle.code, go.importObject);
  await go.run(instance);
  throw new Error("the machine has stopped");
}

start().catch((error) => tell({ riddle: "failed", why: String(error.message || error) }));
