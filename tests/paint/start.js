"use strict";
// Time to usable: from the start of the navigation to the end of the first frame in which the first screen's main
// button stands, with the page's thread free again. From then on a touch is answered, and one is made to see that it
// is. The browser is closed and started again on its profile between the starts, and that is not counted; the page's
// thread alone is slowed down, not the compiler's.
//
// A first visit has an empty profile. A second start comes from the worker's cache, or for the one-button page, which
// has no worker, from the browser's own. For an offline start the host is stopped, so the one-button page has none.
const { host } = require("./host.js");
const { Phone, wait } = require("./phone.js");

exports.STARTS = ["first visit", "second start", "offline start"];

/// In the page, before anything of it: watches for the button that is called so.
function watch(name) {
  const isThere = () => [...document.querySelectorAll("button")].some((button) => button.textContent.trim() === name);
  new MutationObserver((_, watch) => {
    if (!isThere()) return;
    watch.disconnect();
    requestAnimationFrame(() => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = () => { window.paintUsable = performance.now(); };
      port2.postMessage(0);
    });
  }).observe(document, { childList: true, characterData: true, subtree: true });
}

async function start(phone, address, { button, answer }) {
  await phone.page.evaluateOnNewDocument(watch, button);
  await phone.visit(address);
  const usable = await (await phone.page.waitForFunction(() => window.paintUsable, { polling: 200 })).jsonValue();
  const found = await phone.find({ name: button });
  await found.tap();
  await phone.see(answer);
  return usable;
}

/// The milliseconds of one start of each kind, in the order of STARTS.
async function starts(folder, rate, page) {
  const site = await host(folder);
  const phone = new Phone();
  phone.rate = rate;
  await phone.switchOn();
  const first = await start(phone, site.address, page);
  if (page.worker) {
    await phone.page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
    // What a build keeps only once it is at rest is kept by then.
    await wait(3_000);
  }
  await phone.switchOn();
  const took = [first, await start(phone, site.address, page)];
  await site.stop();
  if (page.worker) {
    await phone.switchOn();
    took.push(await start(phone, site.address, page));
  }
  await phone.switchOff();
  return took;
}

const APP = { button: "Start a fish", answer: "What came in?", worker: true };
const FLOOR = { button: "0", answer: "1", worker: false };

exports.app = (folder, rate) => starts(folder, rate, APP);
exports.floor = (folder, rate) => starts(folder, rate, FLOOR);
