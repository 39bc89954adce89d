"use strict";
// A static host on this machine for one folder, which can be stopped. Nothing is compressed and no line is slow: what
// is measured is the phone, not the network. A file with a hash in its name may be kept for ever, so that the
// one-button page, which has no worker, starts from the browser's own cache the second time.
const fs = require("node:fs");
const http = require("node:http");
const path = require("node:path");

const TYPES = {
  ".css": "text/css; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".png": "image/png",
  ".svg": "image/svg+xml",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json",
};
const HASHED = /-[0-9a-f]{16}(_bg)?\.\w+$/;

exports.host = (folder) => {
  const answer = (request, response) => {
    const { pathname } = new URL(request.url, "http://localhost");
    const file = path.join(folder, pathname.endsWith("/") ? `${pathname}index.html` : pathname);
    fs.readFile(file, (error, bytes) => {
      if (error) return response.writeHead(404).end();
      const kept = HASHED.test(file) ? "max-age=31536000, immutable" : "no-cache";
      const type = TYPES[path.extname(file)] ?? "application/octet-stream";
      response.writeHead(200, { "cache-control": kept, "content-type": type }).end(bytes);
    });
  };
  const server = http.createServer(answer);
  const stop = () =>
    new Promise((done) => {
      server.close(done);
      server.closeAllConnections();
    });
  return new Promise((done) => {
    server.listen(0, "127.0.0.1", () => done({ address: `http://localhost:${server.address().port}/`, stop }));
  });
};
