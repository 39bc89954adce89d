// The builds that the service worker keeps for this copy of the app, each with its files.
return (async () => {
  const { scope } = await navigator.serviceWorker.ready;
  const prefix = `scaleside ${scope} `;
  const builds = (await caches.keys()).filter((name) => name.startsWith(prefix));
  const files = async (name) => (await (await caches.open(name)).keys()).map(({ url }) => url.slice(scope.length) || "index.html").sort();
  return Promise.all(builds.map(async (name) => [name.slice(prefix.length), await files(name)]));
})();
