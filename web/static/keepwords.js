// Words of keeping, sharing and working without a network.
const words = {
  "offline.ready": "Kept in this browser: the page opens without a network from now on.",
  "offline.new": "A new version of Riddle is ready.",
  "offline.take": "Load it now",
  "offline.elsewhere": "A new version was taken in another window. Load this page again when it suits you.",
};

export const t = (key, slots = {}) => words[key].replace(/\{(\w+)\}/g, (_, name) => String(slots[name] ?? ""));
