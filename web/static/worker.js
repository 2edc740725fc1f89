// Keeps the whole page in the browser, so that it opens without a network. The
// list of files comes with each build, with a fingerprint of every file: a set
// is kept whole or not at all, and a new one waits until the user takes it.
importScripts("shelf.js");

const scope = new URL("./", self.location).href;
const family = `riddle ${scope} `;
const place = family + self.shelf.build;
const kept = ["Content-Type", "Content-Security-Policy", "X-Content-Type-Options", "Referrer-Policy"];

async function fingerprint(bytes) {
  const sum = await crypto.subtle.digest("SHA-256", bytes);
  return [...new Uint8Array(sum)].map((b) => b.toString(16).padStart(2, "0")).join("");
}

// bring returns a file as the list wants it: from an older set if it has not
// changed, or else from the network.
async function bring(name, wanted) {
  const url = new URL(name, scope).href;
  const old = await caches.match(url);
  for (const get of [() => old, () => fetch(url, { cache: "no-cache" })]) {
    const response = await get();
    if (!response?.ok) continue;
    const bytes = await response.arrayBuffer();
    if ((await fingerprint(bytes)) !== wanted) continue;
    const headers = kept.filter((h) => response.headers.has(h)).map((h) => [h, response.headers.get(h)]);
    return new Response(bytes, { headers });
  }
  throw new Error(`${name} cannot be had as this version has it`);
}

async function fill() {
  const had = await caches.has(place);
  const shelf = await caches.open(place);
  try {
    await Promise.all(Object.entries(self.shelf.files).map(async ([name, wanted]) =>
      shelf.put(new URL(name, scope).href, await bring(name, wanted))));
  } catch (error) {
    if (!had) await caches.delete(place);
    throw error;
  }
}

async function clear() {
  const names = await caches.keys();
  await Promise.all(names.filter((n) => n.startsWith(family) && n !== place).map((n) => caches.delete(n)));
  await self.clients.claim();
}

// nameOf returns which file of the page an address asks for.
function nameOf(address) {
  const url = new URL(address);
  if (!(url.origin + url.pathname).startsWith(scope)) return "";
  return (url.origin + url.pathname).slice(scope.length) || "index.html";
}

async function answer(name, request) {
  const found = await (await caches.open(place)).match(new URL(name, scope).href, { ignoreVary: true });
  return found || fetch(request);
}

self.addEventListener("install", (event) => event.waitUntil(fill()));
self.addEventListener("activate", (event) => event.waitUntil(clear()));
self.addEventListener("message", (event) => { if (event.data === "take") self.skipWaiting(); });
self.addEventListener("fetch", (event) => {
  const name = event.request.method === "GET" ? nameOf(event.request.url) : "";
  if (Object.hasOwn(self.shelf.files, name)) event.respondWith(answer(name, event.request));
});
