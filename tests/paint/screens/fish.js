"use strict";
// One fish from the scale to the summary: weighing, filleting, cost, mise en place, heat, pass, journal, code.
const path = require("node:path");

const PHOTO = path.join(__dirname, "../../vectors/photo_with_place.jpg");

module.exports = async function fish(hand, phone) {
  await phone.see("Open the demo");
  await hand.begin();
  await hand.tap("home: open the demo", "Open the demo");
  await weigh(hand);
  await phone.see("What this fish gave");
  const place = await phone.place();
  await hand.tap("yield: unfold the costs", "Costs, and where it went");
  await hand.tap("yield: unfold the portion weight", "Another portion weight");
  await hand.type("yield: type a portion", "#portion", "150");
  await hand.tap("yield: unfold the kept parts", "Parts kept for another dish");
  await hand.tap("yield: add a kept part", "Add a kept part");
  await hand.type("yield: type a kept part", "[id^=kept-weight-]", "90");
  await hand.tap("yield: open the mise en place", "Chill and prepare");
  await hand.tap("mise en place: into the fridge", "Fillets into the fridge");
  for (let line = 1; line <= 8; line += 1)
    await hand.tap("mise en place: a tick", { part: `main .choices.one > label:nth-of-type(${line})` });
  await phone.unfold();
  await hand.next("mise en place: another dish", "#which-dish");
  await heat(hand);
  await phone.go(`${place}/plan`);
  await phone.unfold();
  await hand.tap("plan: open the steps", "Change the steps of the dish");
  await hand.tap("steps: unfold a step", { part: "details.sheet summary" });
  await hand.tap("steps: keep a step", "Keep the step");
  await hand.tap("steps: add a step", "Add a step");
  await hand.tap("steps: keep as a dish", "Keep as a dish of my own");
  await phone.go(`${place}/pass`);
  for (const check of ["neat", "cooked", "hot"])
    await hand.tap("pass: an answer", { part: `label:has(input[name=${check}])` });
  await hand.type("pass: type a note", "#note", "Drier");
  await phone.go(place);
  await hand.tap("summary: open the journal", "Journal: photos and notes");
  await hand.type("journal: type", "#taste", "Crisp");
  await hand.choose("journal: add a photo", "#photo", PHOTO, "Take this photo out");
  await hand.tap("journal: back to the summary", "Back");
  await hand.tap("summary: open the code (QR)", "Send the result");
  await hand.type("code: type a nickname", "#nickname", "tern");
  const link = await phone.page.evaluate(() => [...document.querySelectorAll(".groups b")].map((group) => group.textContent).join(""));
  await phone.go(place);
  await hand.tap("summary: open the yield card", "Yield card to print");
  await hand.open("a code that came as a link", `#/c/${link}`);
  await phone.go("#/");
  await hand.tap("home: open a fish of the list", { part: "main .rows a[href*='/fish/']" });
  await phone.go(place);
  await hand.tap("summary: remove", "Remove this fish…");
  await hand.tap("summary: remove it", "Remove it");
  await phone.go("#/bin");
  await hand.tap("bin: put it back", "Put it back");
  return hand.end();
};

async function weigh(hand) {
  const taken = "take the last figure back";
  for (const key of [taken, taken, "4", "8", "decimal point", taken])
    await hand.tap("weighing: a key of the pad", { name: key, part: ".keys" });
  await hand.tap("weighing: a unit", "Kilos");
  await hand.tap("weighing: a unit", "Grams");
  const take = () => hand.tap("weighing: take the weight", "Take this weight");
  const next = async (steps) => {
    for (let step = 0; step < steps; step += 1) await hand.tap("filleting: next", "Next");
  };
  await take();
  await next(7);
  await take();
  await next(5);
  await hand.tap("weighing: raw", "Raw");
  await take();
}

async function heat(hand) {
  await hand.tap("mise en place: open the heat card", "How the fillet cooks");
  await hand.tap("heat: thick by eye", "Finger's width", "Its middle gets to");
  await hand.phone.unfold();
  await hand.type("heat: type a thickness", "#thickness", "21", "Its middle gets to");
  await hand.tap("heat: fold the pan", "Pan:");
  await hand.tap("heat: unfold the pan", "Pan:");
  for (const choice of ["material", "surface", "flame", "rule"])
    await hand.tap("heat: a choice", { part: `label:has(input[name=${choice}]:not(:checked))` }, "Its middle gets to");
  await hand.type("heat: type the core", "#core", "52", "Its middle gets to");
  await hand.tap("heat: cook it by this", "Cook it by this");
}
