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

// Each page holds a lock named as its build's cache for as long as it is open, and asks for a sweep when it has started:
// only then is the page gone that stood in its place.
async function sweep() {
  const { held } = await navigator.locks.query();
  const inUse = new Set(held.map((lock) => lock.name));
  const old = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  // One of them may be a newer build that waits to be taken.
  if (registration.installing || registration.waiting) return;
  // A page of an earlier build holds the lock that copies in all folders shared once.
  const unused = old.filter((name) => !inUse.has(name) && !inUse.has(`scaleside ${name.slice(PREFIX.length)}`));
  await Promise.all(unused.map((name) => caches.delete(name)));
}

// A file of this build by its name. Of an address that names none, what the host has there, such as a copy of the app in
// a folder below this one; else a page that says so, with a way back from however far below this folder that is.
async function page(cache, request) {
  const name = new URL(request.url).pathname.slice(new URL(registration.scope).pathname.length) || "index.html";
  if (FILES.some(([path]) => path === name)) return cache.match(name);
  const there = await fetch(request).catch(() => undefined);
  if (there?.ok || there?.type === "opaqueredirect") return there;
  const wrong = await cache.match("404.html");
  if (!wrong) return undefined;
  const text = (await wrong.text()).replace('href="./"', `href="${registration.scope}"`);
  return new Response(text, { status: 404, headers: wrong.headers });
}

// A page opened just before an update still asks for the older build's script and module: their names carry their
// hash, so whichever cache holds the name holds the right bytes. Every other name is answered from this build alone.
async function answer(request) {
  const cache = await caches.open(CACHE);
  if (request.mode === "navigate") return (await page(cache, request)) ?? fetch(request);
  const kept = await cache.match(request, { ignoreSearch: true });
  if (kept) return kept;
  const hashed = /-[0-9a-f]{16}\.(bin|js|json|wasm)$/.test(new URL(request.url).pathname);
  return (hashed && (await caches.match(request))) || fetch(request);
}

addEventListener("install", (event) => event.waitUntil(install()));
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
