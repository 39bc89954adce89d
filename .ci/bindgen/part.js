// The parts of the app: parts.json, made by .ci/pack, says which modules each of them takes and where their bytes lie.
// Bytes are taken only when they are those of this build: .ci/precache writes the hash of each file beside its name.
// What was refused once is asked of the host itself, past what the browser keeps: at once, since a service worker that
// was killed answers nothing and the next one does, and after that when it is next asked for.
const refused = new Set();

async function fetched(name, integrity) {
  // To ask for a file takes the page a moment, and a part has many.
  for (let waits = rest(); waits; waits = rest()) await waits;
  const again = refused.has(name);
  try {
    const came = await fetch(new URL(name, import.meta.url), { cache: again ? "reload" : "default", integrity });
    refused.delete(name);
    return came;
  } catch (error) {
    refused.add(name);
    if (again) throw error;
    return fetched(name, integrity);
  }
}

// What is loaded once; what failed is tried again when it is next asked for.
const loading = new Map();

function once(what, load) {
  if (!loading.has(what)) {
    const loads = load();
    loads.catch(() => loading.delete(what));
    loading.set(what, loads);
  }
  return loading.get(what);
}

const table = () => once("table", async () => (await fetched("./parts.json", "")).json());

// How long the page may be kept busy at a stretch, in milliseconds: a finger is answered in between.
const TURN = 4;
let began = 0;
let rests;

// Lets the browser have a turn of its own, where this one has lasted long enough. Whoever waits meanwhile waits for the
// same one.
function rest() {
  if (rests) return rests;
  if (performance.now() - began < TURN) return undefined;
  rests = new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      rests = undefined;
      began = performance.now();
      done();
    };
    port2.postMessage(0);
  });
  return rests;
}

// What a module lies in: the file itself, or the bytes of all that share one.
function brought({ files, modules }, at) {
  const [place, , shared] = modules[at];
  const [name, hash] = files[place];
  return once(name, async () => {
    const came = await fetched(name, hash);
    return shared === undefined ? came : came.arrayBuffer();
  });
}

// Small modules lie one behind the other in one file. They are small enough to be compiled at once: each by itself on
// another thread would take longer to send there and back.
const module = (all, at, before) =>
  once(at, async () => {
    const [place, from, to] = all.modules[at];
    const came = brought(all, at);
    await Promise.all([came, before]);
    if (to === undefined) {
      // It can be read once: the next try needs another.
      loading.delete(all.files[place][0]);
      await __wbg_load(await came, getSharedImports());
    } else {
      const pack = await came;
      for (let waits = rest(); waits; waits = rest()) await waits;
      new WebAssembly.Instance(new WebAssembly.Module(pack.slice(from, to)), getSharedImports());
    }
  });

// The styles of the parts, which stand before any of them is shown.
const dressed = () =>
  once("styles", async () => {
    const came = await fetched("./later.css", "");
    const sheet = await new CSSStyleSheet().replace(await came.text());
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
  });

async function part(name) {
  const [all] = await Promise.all([table(), dressed()]);
  const needs = all.parts[name];
  const own = needs[needs.length - 1];
  await module(all, own, Promise.all(needs.slice(0, -1).map((at) => module(all, at))));
  // What is here now is put to use at once, which takes its own time.
  began = 0;
  await rest();
}

// What shows the screen that is asked for first is on its way beside the module that will ask for it. Only a hint: what it
// does not name is fetched when it is asked for, and what fails here is tried again then.
const SHOWN_BY = { yield: "beside", service: "stove" };
const first = SHOWN_BY[location.hash.split("/").pop()];
if (first) {
  dressed().catch(() => {});
  table()
    .then((all) => Promise.all(all.parts[first].map((at) => brought(all, at))))
    .catch(() => {});
}
