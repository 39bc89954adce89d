// Starts the module that works things out beside the page. The page says what the module is called, and which lock to
// hold: the page asks for the same one, and is given it when this worker is gone, however that came about.

// As for the page: see boot.js.
const { pathname } = new URL("./", location);
self.__scalesideFolder = pathname === "/" ? "" : `${pathname} `;

const held = (lock) =>
  new Promise((done) => {
    if (!navigator.locks) return done();
    navigator.locks.request(lock, () => {
      done();
      return new Promise(() => {});
    });
  });

onmessage = async ({ data: { js, wasm, lock } }) => {
  onmessage = null;
  await held(lock);
  importScripts(js);
  await wasm_bindgen({ module_or_path: wasm });
};

// A module that never came, or has aborted, answers nothing more: the page is told.
function end() {
  postMessage(null);
  close();
}

addEventListener("unhandledrejection", end);
addEventListener("error", end);
