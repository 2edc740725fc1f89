// Moving the view with pointer, wheel and keys. The page is told; it asks the
// machine. This stands before the script that keeps all input from the engine.
(() => {
  const tell = (message) => parent.postMessage(message, location.origin);
  const keys = {
    "+": { zoom: 1.25 }, "=": { zoom: 1.25 }, "-": { zoom: 0.8 }, "0": { home: true },
    ArrowLeft: { dx: -0.1 }, ArrowRight: { dx: 0.1 }, ArrowUp: { dy: -0.1 }, ArrowDown: { dy: 0.1 },
  };
  addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const move = keys[event.key];
    if (move) tell({ riddle: "move", ...move });
    else if ([" ", ".", ","].includes(event.key) || /^[1-9a-z]$/.test(event.key)) tell({ riddle: "key", key: event.key });
    else return;
    event.preventDefault();
  }, { capture: true });

  addEventListener("wheel", (event) => {
    if (!event.ctrlKey) return; // the page scrolls
    event.preventDefault();
    tell({ riddle: "move", zoom: Math.exp(-event.deltaY / 300), at: { x: event.clientX / innerWidth, y: event.clientY / innerHeight } });
  }, { capture: true, passive: false });

  let held, far = 0;
  addEventListener("pointerdown", (event) => { held = event.isPrimary ? event : undefined; far = 0; }, { capture: true });
  addEventListener("pointermove", (event) => {
    if (!held || event.pointerId !== held.pointerId || event.buttons === 0) return;
    const dx = held.clientX - event.clientX, dy = held.clientY - event.clientY;
    far += Math.abs(dx) + Math.abs(dy);
    if (far < 6) return;
    held = event;
    tell({ riddle: "move", dx: dx / innerWidth, dy: event.pointerType === "touch" ? 0 : dy / innerHeight });
  }, { capture: true });
  addEventListener("pointerup", () => { held = undefined; }, { capture: true });
  addEventListener("click", (event) => { if (far >= 6) event.stopImmediatePropagation(); }, { capture: true }); // the end of a drag
  window.riddleView = true; // start.js asks for it
})();
