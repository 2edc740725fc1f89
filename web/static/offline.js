// Use without a network: the whole page is kept in the browser after the first
// visit. A new version is told of, and taken only on the user's word.
import { byId, make, show } from "./dom.js";
import { t, onLanguage } from "./words.js";

const usable = "serviceWorker" in navigator && isSecureContext && window.top === window;

// offline keeps the page; save is called before a new version is taken.
export async function offline(save) {
  if (!usable) return;
  const held = navigator.serviceWorker.controller;
  let taking = false;
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (taking) location.reload();
    else if (held) tell(t("offline.elsewhere"));
  });
  try {
    const place = await navigator.serviceWorker.register("worker.js", { updateViaCache: "none" });
    const take = () => {
      taking = true;
      save();
      place.waiting?.postMessage("take");
    };
    if (held) look(place);
    follow(place, () => tell(t("offline.new"), make("button", { type: "button", id: "take", textContent: t("offline.take"), onclick: take })));
    await navigator.serviceWorker.ready;
    kept();
  } catch (error) {
    console.warn("The page could not be kept for use without a network.", error);
  }
}

// look asks the host for a newer version. A browser does so by itself at times,
// but not each time that the page is opened; without a network there is none.
const look = (place) => place.update().catch(() => {});

// follow calls ready once a newer version lies ready beside the one in use.
function follow(place, ready) {
  const tellOf = () => { if (place.waiting && navigator.serviceWorker.controller) ready(); };
  const watch = () => place.installing?.addEventListener("statechange", tellOf);
  place.addEventListener("updatefound", watch);
  watch();
  tellOf();
}

function kept() {
  if (!document.body.dataset.offline) onLanguage(kept);
  document.body.dataset.offline = "ready";
  const line = byId("offline");
  if (line) show(line, t("offline.ready"));
}

// tell shows a line that stays until it is acted on.
function tell(text, ...more) {
  const line = byId("news");
  line.hidden = false;
  line.replaceChildren(make("span", { textContent: text }), ...more);
}
