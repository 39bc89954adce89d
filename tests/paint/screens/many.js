"use strict";
// A class of two thousand codes, and a thousand tests side by side.
const fs = require("node:fs");
const path = require("node:path");

const CODES = 2_000;
const TESTS = 1_000;

exports.classes = async (hand, phone) => {
  const codes = fs.readFileSync(process.env.PAINT_CODES, "utf8");
  await phone.go("#/classes");
  await hand.begin();
  await hand.type("classes: type a name", "#class-name", "Tues");
  await hand.tap("classes: start the class", "Start the class");
  await hand.paste("class: paste 2,000 codes", "#pasted", codes, `${CODES} results`);
  const place = await phone.place();
  for (const head of ["Yield", "Student"]) await hand.tap("class of 2,000: sort", head);
  await hand.tap("class of 2,000: show more", "Show more");
  await hand.tap("class of 2,000: open a result", { part: ".opener" });
  await hand.tap("class of 2,000: add codes", { name: "Add codes", part: ".dock" });
  await phone.go("#/classes");
  await hand.tap("classes: open a class of 2,000", { part: `a[href='${place}']` }, `${CODES} results`);
  return hand.end();
};

/// All invented: two fish over three hundred days, no two lines alike.
function table() {
  const lines = ["fish;form;delivered;ready;begun"];
  for (let nth = 0; nth < TESTS; nth += 1) {
    const day = new Date(Date.UTC(2025, 0, 1 + (nth % 300))).toISOString().slice(0, 10);
    lines.push(`${nth % 2 ? "Cod" : "Snapper"};whole;${2000 + 2 * nth};${800 + 2 * (nth % 90)};${day}`);
  }
  return lines.join("\r\n");
}

exports.compare = async (hand, phone) => {
  const file = path.join(phone.profile, "tests.csv");
  fs.writeFileSync(file, table());
  await phone.go("#/compare");
  await hand.begin();
  await hand.choose("compare: choose a table of 1,000 tests", "#bring-tests", file, `${TESTS} tests will be added`);
  await hand.tap("compare: add 1,000 tests", `Add ${TESTS} tests`, `${TESTS} tests added`);
  await hand.tap("compare 1,000: unfold the choices", "Kit, technique, month; how sure");
  for (const by of await phone.page.$$eval("input[name=by]", (found) => found.map((_, nth) => nth + 1)))
    await hand.tap("compare 1,000: side by side", { part: `label:nth-of-type(${by}):has(input[name=by])` });
  await hand.tap("compare 1,000: how sure", "19 times in 20");
  await hand.tap("compare 1,000: one fish", { name: "Cod", part: "section.noprint" });
  await hand.tap("compare 1,000: save as a table", "Save as a table (CSV)");
  await hand.tap("compare 1,000: open cheapest to eat", "Cheapest to eat");
  await hand.type("cheapest of 1,000: type a portion", "#eaten-portion", "160");
  await hand.tap("all fish: open the list of 1,000", { part: "a.corner" });
  await hand.tap("all fish, 1,000: show earlier", "Show earlier fish");
  await hand.tap("all fish, 1,000: compare", "Compare your fish");
  await phone.go("#/");
  await hand.tap("all fish, 1,000: open a fish", { part: "main .rows a[href*='/fish/']" });
  await phone.go("#/");
  await hand.tap("all fish, 1,000: start a fish", "Start a fish");
  return hand.end();
};
