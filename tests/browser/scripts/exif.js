// Prints what is written into a picture beside the picture itself, and its size, read by another library than the browser.
const { readFileSync } = require("node:fs");
const exifr = require(`${process.env.SCALESIDE_NPM}/exifr`);
const bytes = readFileSync(process.argv[2]);

// Width and height stand in the frame header of a JPEG (ITU-T T.81, B.2.2).
function size() {
  for (let at = 2; at < bytes.length; at += 2 + bytes.readUInt16BE(at + 2)) {
    const mark = bytes[at + 1];
    if (mark >= 0xc0 && mark <= 0xc2) return [bytes.readUInt16BE(at + 7), bytes.readUInt16BE(at + 5)];
  }
}

const everything = { tiff: true, exif: true, gps: true, xmp: true, iptc: true, icc: false, jfif: false };
exifr
  .parse(bytes, everything)
  .then((read) => process.stdout.write(JSON.stringify({ ...read, read: read ?? {}, size: size() })));
