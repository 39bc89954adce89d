// Keeps one build of the app for use without a signal, whole or not at all.

// Both lines are written by .ci/precache: every file of the build with the sha256 of its bytes.
const BUILD = "";
const FILES = [];

// Another copy of the app may live in another folder of the same site.
const PREFIX = `scaleside ${registration.scope} `;
const CACHE = PREFIX + BUILD;

const hex = (buffer) => Array.from(new Uint8Array(buffer), (byte) => byte.toString(16).padStart(2, "0")).join("");

// A file of another build would pass for one of this build by its name, never by its bytes.
async function fetchExactly([path, sha256]) {
  const response = await fetch(path, { cache: "reload", priority: "low" });
  if (!response.ok) throw new Error(`${path}: ${response.status}`);
  const bytes = await response.arrayBuffer();
  if (hex(await crypto.subtle.digest("SHA-256", bytes)) !== sha256) throw new Error(`${path}: not of build ${BUILD}`);
  // A fresh response, since one that was redirected can't answer a navigation.
  const type = response.headers.get("content-type") ?? "application/octet-stream";
  return [path, new Response(bytes, { headers: { "content-type": type } })];
}

// One after the other: all at once would take the processor from the page, which is in somebody's hand.
async function install() {
  const files = [];
  for (const file of FILES) files.push(await fetchExactly(file));
  try {
    const cache = await caches.open(CACHE);
    await Promise.all(files.map(([path, response]) => cache.put(path, response)));
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

// Each page holds a lock named after its build for as long as it is open, and asks for a sweep when it has started:
// only then is the page gone that stood in its place.
async function sweep() {
  const { held } = await navigator.locks.query();
  const inUse = new Set(held.map((lock) => lock.name));
  const old = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  // One of them may be a newer build that waits to be taken.
  if (registration.installing || registration.waiting) return;
  const unused = old.filter((name) => !inUse.has(`scaleside ${name.slice(PREFIX.length)}`));
  await Promise.all(unused.map((name) => caches.delete(name)));
}

// A page opened just before an update still asks for the older build's script and module: their names carry their
// hash, so whichever cache holds the name holds the right bytes. Every other name is answered from this build alone.
async function answer(request) {
  const cache = await caches.open(CACHE);
  if (request.mode === "navigate") return (await cache.match("./")) ?? fetch(request);
  const kept = await cache.match(request, { ignoreSearch: true });
  if (kept) return kept;
  const hashed = /-[0-9a-f]{16}\.(bin|js|json|wasm)$/.test(new URL(request.url).pathname);
  return (hashed && (await caches.match(request))) || fetch(request);
}

// What every start asks for first comes straight out of the cache, before this worker is awake: where a browser can, and
// by these names of this build alone. What is not found there is asked of the host.
const FIRST = /^(\.\/|boot-.*|scaleside(_bg)?-[0-9a-f]{16}\.(js|wasm))$/;

async function shorten(event) {
  const routes = FILES.filter(([path]) => FIRST.test(path)).map(([path]) => {
    const { origin, pathname } = new URL(path, registration.scope);
    const exactly = { baseURL: origin, pathname: pathname.replace(/[{}()*+?:\\]/g, "\\$&"), search: "" };
    return { condition: { urlPattern: new URLPattern(exactly), requestMethod: "get" }, source: { cacheName: CACHE } };
  });
  await event.addRoutes?.(routes);
}

addEventListener("install", (event) => {
  // A longer way is a way as well.
  shorten(event).catch((error) => console.info(error));
  event.waitUntil(install());
});
// The page of the first visit is taken on as well: what it has not asked for yet is here.
addEventListener("activate", (event) => event.waitUntil(clients.claim().then(sweep)));
// Whether every file of this build is kept, byte for byte.
async function isWhole() {
  const cache = await caches.open(CACHE);
  for (const [path, sha256] of FILES) {
    const kept = await cache.match(path);
    if (!kept || hex(await crypto.subtle.digest("SHA-256", await kept.arrayBuffer())) !== sha256) return false;
  }
  return true;
}

addEventListener("message", (event) => {
  if (event.data?.take) skipWaiting();
  if (event.data?.whole) event.waitUntil(isWhole().then((whole) => event.ports[0].postMessage(whole ? BUILD : "")));
  if (event.data?.sweep) event.waitUntil(sweep());
});
addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(registration.scope)) return;
  event.respondWith(answer(request));
});
