"use strict";
// How long a thumb waits, on every screen: `.ci/paint` says how to ask.
const { host } = require("./host.js");
const { Hand } = require("./hand.js");
const { Phone } = require("./phone.js");
const start = require("./start.js");
const table = require("./table.js");
const many = require("./screens/many.js");

const APP = "dist";
const FLOOR = "target/floor";
const RATES = [1, 6];
const FLOOR_TAPS = 15;
const SCREENS = {
  home: require("./screens/home.js"),
  fish: require("./screens/fish.js"),
  service: require("./screens/service.js"),
  dish: require("./screens/dish.js"),
  class: many.classes,
  compare: many.compare,
  backup: require("./screens/backup.js"),
};
const STARTS = "start";

async function measured(folder, rate, taps) {
  const site = await host(folder);
  const phone = await Phone.open(site.address);
  try {
    await phone.slow(rate);
    return await taps(new Hand(phone), phone);
  } finally {
    await phone.switchOff();
    await site.stop();
  }
}

/// Walks through a screen. One that can't be walked to its end is said, and costs neither its earlier taps nor others.
const walk = (name) => async (hand, phone) => {
  try {
    return await SCREENS[name](hand, phone);
  } catch (error) {
    console.error(`${name}: ${error.stack}`);
    process.exitCode = 1;
    return hand.end().catch(() => []);
  }
};

async function floor(hand) {
  await hand.begin();
  for (let nth = 0; nth < FLOOR_TAPS; nth += 1) await hand.tap("one button", { part: "button" });
  return hand.end();
}

async function taps(screens, passes) {
  const all = [];
  for (const rate of RATES) {
    const side = { rate, app: [], floor: [] };
    for (let pass = 0; pass < passes; pass += 1) {
      side.floor.push(await measured(FLOOR, rate, floor));
      const app = [];
      for (const name of screens) {
        process.stderr.write(`${name}, ${rate}x, pass ${pass + 1} of ${passes}\n`);
        app.push(...(await measured(APP, rate, walk(name))));
      }
      side.app.push(app);
    }
    all.push(side);
  }
  table.taps(all);
}

async function starts(runs) {
  const all = [];
  for (const rate of RATES) {
    const side = { rate, app: [], floor: [] };
    for (let run = 0; run < runs; run += 1) {
      process.stderr.write(`starts, ${rate}x, run ${run + 1} of ${runs}\n`);
      side.app.push(await start.app(APP, rate));
      side.floor.push(await start.floor(FLOOR, rate));
    }
    all.push(side);
  }
  table.starts(start.STARTS, all);
}

async function main(asked) {
  const short = asked.includes("--short");
  const passes = Number(asked.find((word) => /^\d+$/.test(word)) ?? 1);
  const named = asked.filter((word) => word in SCREENS || word === STARTS);
  const unknown = asked.find((word) => word !== "--short" && !/^\d+$/.test(word) && !named.includes(word));
  if (unknown) throw new Error(`“${unknown}” is none of: ${[...Object.keys(SCREENS), STARTS].join(", ")}`);
  const screens = short ? ["fish"] : Object.keys(SCREENS).filter((name) => !named.length || named.includes(name));
  if (screens.length) await taps(screens, passes);
  if (short || !named.length || named.includes(STARTS)) await starts(short ? 1 : Math.max(5, passes));
}

main(process.argv.slice(2)).catch((error) => {
  console.error(error);
  process.exit(1);
});
