"use strict";
// A phone of 360 by 740 with a profile of its own, as a cook holds it: what is done here is not measured.
const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");
const puppeteer = require("puppeteer-core");

const NAMED = fs.readFileSync(path.join(__dirname, "../browser/scripts/named.js"), "utf8");
const FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync"];
const SCREEN = { width: 360, height: 740, deviceScaleFactor: 2, isMobile: true, hasTouch: true };
/// As long as a phone a sixth as fast may need for anything here, in milliseconds.
const PATIENCE = 120_000;

exports.wait = (ms) => new Promise((done) => setTimeout(done, ms));

exports.Phone = class Phone {
  constructor() {
    this.profile = fs.mkdtempSync(path.join(os.tmpdir(), "scaleside-paint-"));
    this.rate = 1;
  }

  static async open(address) {
    const phone = new Phone();
    await phone.switchOn();
    await phone.visit(address);
    return phone;
  }

  /// Starts the browser, or starts it again on what its profile has kept.
  async switchOn() {
    await this.browser?.close();
    this.browser = await puppeteer.launch({
      executablePath: process.env.CHROME_PATH,
      args: FLAGS,
      userDataDir: path.join(this.profile, "browser"),
      protocolTimeout: PATIENCE,
    });
    [this.page] = await this.browser.pages();
    await this.page.setViewport(SCREEN);
    this.tools = await this.page.createCDPSession();
    const saves = { behavior: "allow", downloadPath: this.downloads(), eventsEnabled: false };
    await this.tools.send("Browser.setDownloadBehavior", saves);
    await this.slow(this.rate);
  }

  async switchOff() {
    await this.browser.close();
    fs.rmSync(this.profile, { recursive: true, force: true });
  }

  downloads() {
    const folder = path.join(this.profile, "downloads");
    fs.mkdirSync(folder, { recursive: true });
    return folder;
  }

  /// Makes the page's thread so many times slower.
  async slow(rate) {
    this.rate = rate;
    await this.page.emulateCPUThrottling(rate);
  }

  async visit(address) {
    this.address = address;
    await this.page.goto(address);
  }

  /// Goes to a screen of the app by its address after `#`.
  async go(place) {
    await this.page.evaluate((to) => { location.hash = to; }, place);
    await this.page.waitForFunction((to) => location.hash === to && document.querySelector("main:not([hidden]) h1"), {}, place);
  }

  /// Opens all that is folded on the screen.
  async unfold() {
    await this.page.evaluate(() => {
      for (const fold of document.querySelectorAll(".page details")) fold.open = true;
    });
  }

  /// The fish, dish or class on the screen, such as `#/fish/k3f9`.
  place() {
    return this.page.evaluate(() => location.hash.split("/").slice(0, 3).join("/"));
  }

  /// Waits until a text stands on the page. What this itself costs the page is marked, and left out of what is measured.
  async see(text) {
    const stands = (text) => {
      performance.mark("ours");
      return document.body.textContent.includes(text);
    };
    try {
      await this.page.waitForFunction(stands, { polling: 100, timeout: PATIENCE }, text);
    } catch {
      const shown = await this.page.evaluate(() => `${location.hash}: ${document.body.innerText.slice(0, 1500)}`);
      throw new Error(`never saw “${text}” at ${shown}`);
    }
  }

  /// The element that is called so, in a part of the screen; with nothing but a part, the first that it finds.
  async find({ name, part = "html" }) {
    const script = name
      ? `(function () { ${NAMED} })(${JSON.stringify(name)}, ${JSON.stringify(part)})`
      : `document.querySelector(${JSON.stringify(part)})`;
    for (let tries = 0; tries < 200; tries += 1) {
      const found = (await this.page.evaluateHandle(script)).asElement();
      if (found) return found;
      await exports.wait(50);
    }
    const shown = await this.page.evaluate(() => `${location.hash}: ${document.body.innerText.slice(0, 1500)}`);
    throw new Error(`nothing is called “${name ?? part}” in ${part} at ${shown}`);
  }

  /// Presses what is called so.
  async press(name, part) {
    const found = await this.find({ name, part });
    await found.evaluate((found) => found.click());
  }

  /// Takes what is in a field for a text of its own.
  async fill(part, text) {
    const found = await this.find({ part });
    await found.evaluate((field) => { field.focus(); field.select?.(); });
    await this.tools.send("Input.insertText", { text });
  }

  /// The file that the app has given out, once it is there whole.
  async saved(ending) {
    for (let tries = 0; tries < 400; tries += 1) {
      const file = fs.readdirSync(this.downloads()).find((name) => name.endsWith(ending));
      if (file) return path.join(this.downloads(), file);
      await exports.wait(50);
    }
    throw new Error(`no file ${ending} was saved`);
  }
};
