// Prints what the QR code in a picture says, read by another library than the app writes it with.
const { readFileSync } = require("node:fs");
const npm = process.env.SCALESIDE_NPM;
const { PNG } = require(`${npm}/pngjs`);
const { default: read } = require(`${npm}/jsqr`);
const { data, width, height } = PNG.sync.read(readFileSync(process.argv[2]));
const found = read(new Uint8ClampedArray(data), width, height);
if (!found) throw new Error("no QR code in the picture");
process.stdout.write(found.data);
