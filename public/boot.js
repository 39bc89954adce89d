// Starts the app, keeps it for use without a signal, and says so plainly when it stops.

// Another copy of the app may live in another folder of the same site: see device/folder.rs.
const here = new URL("./", location);
window.__scalesideFolder = here.pathname === "/" ? "" : `${here.pathname} `;

// What a share sheet brought is looked through for a code.
if (location.search.startsWith("?shared") && !location.hash) history.replaceState(null, "", "#/c/");

const shell = document.getElementById("shell");
const aborted = document.getElementById("aborted");

// A module that has aborted can't be trusted with another tap: nothing of it stays on the screen.
function abort() {
  document.body.classList.add("aborted");
  aborted.hidden = false;
  aborted.querySelector("button").focus();
  if (!lacks) help("offer");
}

// A trap is a RuntimeError; a stack that ran out inside the module is a RangeError.
function watch(error) {
  if (error instanceof WebAssembly.RuntimeError || error instanceof RangeError) abort();
}

// A page that never started is asked of its host anew, past what the browser remembers of it. What helps comes only now.
let lacks = false;
const help = (what) => import("./mend.js").then((module) => module[what](aborted)).catch((error) => console.info(error));
const again = async () => {
  if (!lacks) return location.reload();
  await help("heal");
  location.replace(`?again=${Date.now()}${location.hash}`);
};
aborted.querySelector("button").addEventListener("click", again);
addEventListener("error", (event) => watch(event.error));
addEventListener("unhandledrejection", (event) => watch(event.reason));
addEventListener("scaleside-aborted", abort);

// Not every host says what a module is: without that it can't be compiled as it comes.
async function compiled(wasm) {
  const came = await fetch(wasm);
  if (came.headers.get("content-type")?.startsWith("application/wasm")) return WebAssembly.compileStreaming(came);
  return WebAssembly.compile(await came.arrayBuffer());
}

async function start({ js, wasm }) {
  try {
    const at = (name) => new URL(name, document.baseURI).href;
    // The module is compiled beside the page while the page reads the script.
    const [app, module] = await Promise.all([import(at(js)), compiled(at(wasm))]);
    await app.default({ module_or_path: module });
    shell.remove();
  } catch (error) {
    console.error(error);
    lacks = true;
    // Once by itself; after that the cook is told, and chooses.
    if (!location.search.startsWith("?again")) return again();
    const said = aborted.querySelector("p");
    said.textContent = said.dataset.lacks;
    abort();
  }
}

// The lock lasts as long as this page: the service worker keeps this build's files until it is gone.
function holdBuild() {
  const build = document.querySelector('meta[name="scaleside-build"]').content;
  navigator.locks?.request(`scaleside ${here} ${build}`, { mode: "shared" }, () => new Promise(() => {}));
}

// The page says that a new version is ready; the app asks the cook, and tells the page what was chosen.
function offerUpdate() {
  window.__scalesideUpdate = "ready";
  dispatchEvent(new CustomEvent("scaleside-update-ready"));
}

// The browser's own question whether to install the app is asked when the cook wants it: see device/install.rs.
addEventListener("beforeinstallprompt", (event) => {
  event.preventDefault();
  window.__scalesideInstall = event;
});

async function keepOffline() {
  const workers = navigator.serviceWorker;
  if (!workers) return;
  let taken = false;
  workers.addEventListener("controllerchange", () => {
    if (taken) location.reload();
  });
  workers.controller?.postMessage({ start: true });
  const registration = await workers.register("sw.js", { updateViaCache: "none" });
  const follow = (worker) =>
    worker?.addEventListener("statechange", () => {
      if (worker.state === "installed" && registration.active) offerUpdate();
    });
  if (registration.waiting) offerUpdate();
  follow(registration.installing);
  registration.addEventListener("updatefound", () => follow(registration.installing));
  addEventListener("scaleside-update-take", () => {
    taken = true;
    // Another tab may have taken it already: then the newer build is a reload away.
    if (registration.waiting) registration.waiting.postMessage({ take: true });
    else location.reload();
  });
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") registration.update().catch(() => {});
  });
}

// What is fetched for later must not stand in the way of what is wanted now.
const idle = () => new Promise((done) => (window.requestIdleCallback ?? setTimeout)(done));
const loaded = new Promise((done) => (document.readyState === "complete" ? done() : addEventListener("load", done)));

holdBuild();
start(document.querySelector("script[data-wasm]").dataset)
  .then(() => loaded)
  .then(idle)
  .then(keepOffline)
  // No signal, or a page served without a secure address: the app runs all the same.
  .catch((error) => console.info(error));
