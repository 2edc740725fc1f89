// The picture takes no input through the engine. Left to itself the engine
// would keep every key that is pressed while the picture has the focus, Tab
// among them, and every turn of the wheel; so each is stopped on its way, and
// the browser does with it what it does everywhere else.
const kept = ["keydown", "keyup", "keypress", "wheel", "touchstart", "touchmove", "touchend", "touchcancel",
  "mousedown", "mouseup", "mousemove", "contextmenu", "dragover", "drop"];
for (const kind of kept) {
  window.addEventListener(kind, (event) => event.stopImmediatePropagation(), { capture: true, passive: true });
}

// A touch of the picture is a question to the page: which part is this?
window.addEventListener("click", (event) => {
  parent.postMessage({ riddle: "touched", x: event.clientX / innerWidth, y: event.clientY / innerHeight }, location.origin);
}, { capture: true });
window.addEventListener("dblclick", (event) => {
  parent.postMessage({ riddle: "grasped", x: event.clientX / innerWidth, y: event.clientY / innerHeight }, location.origin);
}, { capture: true });

// Where the browser takes the graphics away, the engine loads the frame anew. How
// the machine stands is left with the page before that, to be taken up again; a
// machine that is not there yet or not any more leaves what was.
const leave = () => {
  try {
    window.riddle.ask('{"do":"standing"}', (text) => { parent.riddle.standing = text; });
  } catch { /* there is none to ask */ }
};
window.addEventListener("webglcontextlost", leave, { capture: true });
window.addEventListener("pagehide", leave);

// The page names the picture in its language.
new MutationObserver((_, observer) => {
  const canvas = document.querySelector("canvas");
  if (!canvas) return;
  observer.disconnect();
  canvas.setAttribute("tabindex", "0");
  canvas.setAttribute("role", "img");
  canvas.style.removeProperty("outline");
}).observe(document.documentElement, { childList: true, subtree: true });
window.riddleFrame = true; // start.js asks for it
