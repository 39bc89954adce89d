"use strict";
// The plan and the service of a dish of forty steps, at peace and with a quarrel standing.
const { wait } = require("../phone.js");

const STEPS = 40;

module.exports = async function service(hand, phone) {
  const rate = phone.rate;
  await phone.slow(1);
  const place = await cooked(phone);
  await phone.slow(rate);
  await hand.begin();
  await hand.tap("forty steps: open the steps", "Change the steps of the dish");
  await hand.tap("forty steps: unfold a step", "Heat the pan");
  await hand.tap("forty steps: keep a step", "Keep the step");
  await phone.go(`${place}/prepare`);
  await hand.tap("forty steps: open the plan", "Plan of the service");
  await choices(hand, "plan of forty");
  await phone.go(`${place}/prepare`);
  await hand.tap("forty steps: a tick", { part: "main .choices.one > label" });
  await start(hand, "forty steps");
  await cook(hand, "service of forty", "");
  await hand.tap("service of forty: open the plan as a list", "The plan as a list");
  await phone.go(`${place}/pass`);
  await hand.tap("pass: back to a service of forty", "Back");
  await again(phone, place);

  await phone.go(`${place}/plan`);
  await phone.unfold();
  await hand.type("plan of forty: type what makes a quarrel", "#at-once", "1", "This does not fit");
  await choices(hand, "quarrel in a plan of forty");
  await phone.see("This does not fit");
  await phone.go(`${place}/prepare`);
  await start(hand, "quarrel, forty steps");
  await cook(hand, "quarrel in a service of forty", ", batch 1");
  await hand.tap("quarrel in a service of forty: take a way out", { part: "main .doubt button" });
  return hand.end();
};

/// The demo weighed and its dish made one of forty steps; the screen is its plan.
async function cooked(phone) {
  await phone.press("Open the demo");
  await phone.see("Weigh it as delivered");
  const place = await phone.place();
  await phone.press("Take this weight");
  await phone.see("1 of ");
  await phone.go(`${place}/weigh-ready`);
  await phone.press("Raw");
  await phone.press("Take this weight");
  await phone.see("What this fish gave");
  await phone.go(`${place}/steps`);
  const steps = () => phone.page.evaluate(() => document.querySelectorAll("details.sheet").length);
  for (let there = await steps(); there < STEPS; there = await steps()) {
    await phone.press("Add a step");
    await wait(20);
  }
  await phone.go(`${place}/plan`);
  await phone.see("Step by step");
  await phone.unfold();
  return place;
}

async function choices(hand, of) {
  await hand.phone.unfold();
  for (const nth of [2, 1]) await hand.tap(`${of}: cooks`, { part: `label:has(input[name=cooks]):nth-of-type(${nth})` });
  await hand.tap(`${of}: pans`, { part: "label:has(input[name=pans]:not(:checked))" });
  await hand.tap(`${of}: pans`, { part: "label:has(input[name=pans])" });
  await hand.tap(`${of}: at an hour`, "At an hour");
  await hand.tap(`${of}: as soon as it can`, "As soon as it can");
}

async function start(hand, of) {
  await hand.tap(`${of}: start the service`, "Start the service", "Start anyway");
  await hand.tap(`${of}: start anyway`, "Start anyway");
}

/// Everything that can be done with a step.
async function cook(hand, of, panful) {
  await hand.tap(`${of}: due`, { part: ".dock .due" });
  await hand.tap(`${of}: undo the due`, "Undo");
  await hand.tap(`${of}: how and why`, "How, why");
  await hand.tap(`${of}: close it`, "Close");
  await hand.tap(`${of}: open all steps`, "All steps");
  const on = (kind, step, button) => hand.tap(`${of}: ${kind}`, { name: button, part: `article[aria-label="${step}"]` });
  const skin = `Skin side down${panful}`;
  await on("begin", "Warm the plates", "Begin");
  await on("done", "Warm the plates", "Warming");
  await on("done", `Heat the pan${panful}`, "Shimmering");
  await on("begin", skin, "Begin");
  await on("hold", skin, "Hold");
  await on("go on", skin, "Go on");
  await on("more", skin, "+30 s");
  await on("done", skin, "Turned, heat off");
  await hand.tap(`${of}: unfold what is done`, { part: "main > details:last-of-type > summary" });
  await on("undo", "Warm the plates", "Not done after all");
}

/// The service forgotten, so that it can be planned otherwise.
async function again(phone, place) {
  await phone.go(`${place}/all-steps`);
  await phone.press("Start the service again…");
  await phone.press("Start again");
  await phone.see("Chill and prepare");
}
