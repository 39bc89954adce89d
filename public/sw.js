// Keeps one build of the app for use without a signal, whole or not at all.

// Both lines are written by .ci/precache: every file of the build with the sha256 of its bytes.
const BUILD = "";
const FILES = [];

// Another copy of the app may live in another folder of the same site.
const PREFIX = `scaleside ${registration.scope} `;
const CACHE = PREFIX + BUILD;

// What was looked at says so: its bytes were those of this build when it was put there, and nothing else puts it there.
const LOOKED = "scaleside-looked";
const looked = ([path, sha256]) => `${path} ${sha256}`;

const hex = (buffer) => Array.from(new Uint8Array(buffer), (byte) => byte.toString(16).padStart(2, "0")).join("");

// A file of another build would pass for one of this build by its name, never by its bytes.
async function fetchExactly([path, sha256]) {
  const response = await fetch(path, { cache: "reload", priority: "low" });
  if (!response.ok) throw new Error(`${path}: ${response.status}`);
  const bytes = await response.arrayBuffer();
  if (hex(await crypto.subtle.digest("SHA-256", bytes)) !== sha256) throw new Error(`${path}: not of build ${BUILD}`);
  // A fresh response, since one that was redirected can't answer a navigation.
  const type = response.headers.get("content-type") ?? "application/octet-stream";
  return [path, new Response(bytes, { headers: { "content-type": type, [LOOKED]: looked([path, sha256]) } })];
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

// The files of this build that are not kept; no byte of those that are is read for it.
async function lacking(cache) {
  const kept = new Set((await cache.matchAll()).map((response) => response.headers.get(LOOKED)));
  return FILES.filter((file) => !kept.has(looked(file)));
}

async function fetchInto(cache, file) {
  const [path, response] = await fetchExactly(file);
  await cache.put(path, response.clone());
  return response;
}

// Fetches what lacks, where there is a signal and the host still has this build. Whether all is here then.
let mending;
const mend = () => (mending ??= mendOnce().finally(() => (mending = undefined)));
async function mendOnce() {
  const cache = await caches.open(CACHE);
  for (const file of await lacking(cache)) {
    try {
      await fetchInto(cache, file);
    } catch (error) {
      console.info(error);
      // No signal: the next one would not come either.
      if (error instanceof TypeError) break;
    }
  }
  return (await lacking(cache)).length === 0;
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

// No signal, and the page itself is gone from this phone: better than the browser's own words.
const sorry = () =>
  new Response(
    `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<meta name="color-scheme" content="light dark"><title>Scaleside</title><h1>Scaleside needs a signal once</h1>
<p>This browser has thrown away the files that start it. Everything you entered is kept.</p>
<p><a href="">Try again where there is a signal</a></p>`,
    { status: 503, headers: { "content-type": "text/html; charset=utf-8" } },
  );

// A file of this build by its name. Of an address that names none, what the host has there, such as a copy of the app in
// a folder below this one; else a page that says so, with a way back from however far below this folder that is.
async function page(cache, request) {
  const asked = new URL(request.url).pathname.slice(new URL(registration.scope).pathname.length);
  const name = asked === "index.html" ? "./" : asked || "./";
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
  if (request.mode === "navigate") return (await page(cache, request)) ?? fetch(request).catch(sorry);
  const kept = await cache.match(request, { ignoreSearch: true });
  if (kept) return kept;
  // A file that lacks comes back with the first who asks for it, and never as another than it was.
  const lacks = FILES.find(([path]) => new URL(path, registration.scope).href === request.url);
  if (lacks) return fetchInto(cache, lacks).catch(() => fetch(request));
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
addEventListener("message", (event) => {
  if (event.data?.take) skipWaiting();
  if (event.data?.whole) event.waitUntil(mend().then((whole) => event.ports[0].postMessage(whole ? BUILD : "")));
  if (event.data?.start || event.data?.sweep) event.waitUntil(sweep().then(mend));
});
addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(registration.scope)) return;
  event.respondWith(answer(request));
});
