// Prints what a host answers to a request for the address given: status, headers, and bytes as they came over the wire.
"use strict";
const http = require("node:http");
http.get(process.argv[2], { headers: { "accept-encoding": "gzip" } }, (answer) => {
  let size = 0;
  answer.on("data", (part) => (size += part.length));
  answer.on("end", () => console.log(JSON.stringify([answer.statusCode, answer.headers, size])));
});
