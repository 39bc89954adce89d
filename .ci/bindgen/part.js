// A part of the app is taken only when its bytes are those of this build: .ci/precache writes its name and their hash.
// What was refused once is asked of the host itself, past what the browser keeps.
const refused = new Set();

function part(name, integrity) {
  return () => {
    const cache = refused.has(name) ? "reload" : "default";
    const came = fetch(new URL(name, import.meta.url), { cache, integrity });
    came.then(() => refused.delete(name), () => refused.add(name));
    return async (imports) => __wbg_load(await came, imports);
  };
}
