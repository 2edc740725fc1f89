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

// bring returns a file as the list wants it: from another set if it has not
// changed, or else from the network, past what the browser has put by if that
// will not do.
async function bring(name, wanted) {
  const url = new URL(name, scope).href;
  const old = await caches.match(url);
  for (const get of [() => old, () => fetch(url, { cache: "no-cache" }), () => fetch(url, { cache: "reload" })]) {
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

// answer hands a file out if it is still as it was kept. One that is damaged or
// missing is dropped and brought once more.
async function answer(name, request) {
  const url = new URL(name, scope).href, wanted = self.shelf.files[name], how = { ignoreVary: true };
  const shelf = await caches.open(place);
  const found = await shelf.match(url, how);
  if (found && (await fingerprint(await found.arrayBuffer())) === wanted) return shelf.match(url, how);
  await shelf.delete(url, how);
  try {
    const fresh = await bring(name, wanted);
    await shelf.put(url, fresh.clone());
    return fresh;
  } catch {
    if (!(await moved())) return Response.error();
    await caches.delete(place); // what is left of this version leads nowhere
    return fetch(request);
  }
}

// moved reports whether the host has another version by now.
async function moved() {
  try {
    const text = await (await fetch(new URL("shelf.js", scope).href, { cache: "reload" })).text();
    return text.startsWith("self.shelf = ") && !text.includes(self.shelf.build);
  } catch {
    return false;
  }
}

self.addEventListener("install", (event) => event.waitUntil(fill()));
self.addEventListener("activate", (event) => event.waitUntil(clear()));
self.addEventListener("message", (event) => { if (event.data === "take") self.skipWaiting(); });
self.addEventListener("fetch", (event) => {
  const name = event.request.method === "GET" ? nameOf(event.request.url) : "";
  if (Object.hasOwn(self.shelf.files, name)) event.respondWith(answer(name, event.request));
});
