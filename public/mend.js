// What helps a page that can't start, or that stopped: it comes only then.

// Has the worker fetch what lacks; where its host has no such build any more, takes the build that it has. Nothing is
// thrown away, and a host that does not answer is not waited for.
export function heal() {
  const mended = (worker) =>
    new Promise((done) => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = ({ data }) => done(data);
      worker.postMessage({ whole: true }, [port2]);
    });
  const changed = (worker, state) =>
    new Promise((done) => {
      const look = () => (worker.state === state || worker.state === "redundant") && done();
      worker.addEventListener("statechange", look);
      look();
    });
  const healed = async () => {
    const registration = await navigator.serviceWorker?.getRegistration();
    if (!registration?.active || (await mended(registration.active))) return;
    await registration.update();
    const newer = registration.waiting ?? registration.installing;
    if (!newer) return;
    if (newer !== registration.waiting) await changed(newer, "installed");
    newer.postMessage({ take: true });
    await changed(newer, "activated");
  };
  const late = new Promise((done) => setTimeout(done, 6000));
  return Promise.race([healed().catch((error) => console.info(error)), late]);
}

// A record whose screen stops the app is called by its name, and can be set aside: its copies are moved to where the next
// start finds them only once its first screen stands, and puts them into the bin.
export function offer(aborted) {
  const [, at, id, more] = /^#\/(fish|dish|class)\/(\w+)(.*)/.exec(location.hash) ?? [];
  if (!id) return;
  // Its name is the heading of its own screen, and stands above that of each other.
  const name = document.querySelector(more ? ".page .where b" : ".page h1")?.textContent || "this entry";
  const said = document.createElement("p");
  said.textContent = `It stopped on “${name}”. If it does so again, set that aside: it goes into the bin, whole, and everything else opens.`;
  const aside = document.createElement("button");
  aside.type = "button";
  aside.textContent = `Set “${name}” aside`;
  aside.addEventListener("click", () => {
    const of = `/${at === "dish" ? "recipe" : at}/${id}/`;
    for (const side of ["a", "b"]) {
      const kept = `${window.__scalesideFolder}scaleside/1${of}${side}`;
      const text = localStorage.getItem(kept);
      if (text === null) continue;
      localStorage.removeItem(kept);
      localStorage.setItem(`${window.__scalesideFolder}scaleside stuck${of}${side}`, text);
    }
    location.hash = "#/";
    location.reload();
  });
  aborted.append(said, aside);
}
