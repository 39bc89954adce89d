// Prints how many of the pictures in a folder jsQR reads: node qr_photos.js FOLDER. The folder holds their grey values, a byte
// a point, and list.json, which tells of each its name, width, height and what it says.
const { readFileSync } = require("node:fs");
const { join } = require("node:path");
const { default: read } = require(`${process.env.SCALESIDE_NPM}/jsqr`);

const folder = process.argv[2];
const list = JSON.parse(readFileSync(join(folder, "list.json"), "utf8"));
const says = ([name, wide, high]) => {
  const grey = readFileSync(join(folder, name));
  const colours = new Uint8ClampedArray(4 * grey.length);
  grey.forEach((light, at) => colours.set([light, light, light, 255], 4 * at));
  return read(colours, wide, high)?.data ?? "";
};
console.log(list.filter((picture) => picture[3] && says(picture) === picture[3]).length);
