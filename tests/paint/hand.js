"use strict";
// A hand on the phone whose every touch is measured: a real touch, key, paste or file, as the browser itself makes
// them, never a click made by a script.
//
// Tap to paint runs from the event's own time (the finger leaving the glass, the key going down, the file chosen) to
// the end of the first frame after the app has handled it; where it opens another screen, of the first frame in which
// that screen stands. The longest task is the longest stretch in which the page's thread did one thing, from
// the touch until it has come to rest, by the browser's own trace and the thread's own clock, so that what else this
// machine does is not counted: a plan worked out after the paint is. Tap to paint has no such clock: measure on a
// quiet machine.
const { wait } = require("./phone.js");

const TRACED = ["-*", "disabled-by-default-devtools.timeline", "blink.user_timing"];
/// How long the page is watched after a tap, in milliseconds at full speed.
const AFTER = 150;

/// In the page: waits for the event and then for the frame that answers it.
function arm(number) {
  performance.mark(`tap ${number}`);
  const place = location.hash;
  const heading = () => document.querySelector("main:not([hidden]) h1");
  const [first, title] = [heading(), heading()?.textContent];
  let from = null;
  const frame = (then) =>
    requestAnimationFrame(() => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = then;
      port2.postMessage(0);
    });
  window.paintOver?.abort();
  window.paintOver = new AbortController();
  const hears = (kinds, then) => {
    for (const kind of kinds) addEventListener(kind, then, { capture: true, signal: window.paintOver.signal });
  };
  hears(["pointerup", "keydown", "beforeinput", "change"], (event) => { from ??= event.timeStamp; });
  // Another screen stands once its heading does; or, where that reads the same, once the page's own listeners have
  // heard of the change of address.
  let [isTurned, isShown, shown] = [false, false, () => {}];
  const judge = () => {
    const isOther = isTurned || heading() !== first || heading()?.textContent !== title;
    if (isShown || location.hash === place || !isOther) return;
    isShown = true;
    shown();
  };
  const watch = new MutationObserver(judge);
  watch.observe(document.body, { childList: true, characterData: true, subtree: true });
  hears(["hashchange"], () => setTimeout(() => {
    isTurned = true;
    judge();
  }));
  window.paintOver.signal.addEventListener("abort", () => watch.disconnect());
  window.paintAnswer = new Promise((done) => {
    const painted = () => done(performance.now() - from);
    const look = () => {
      if (isShown || location.hash === place) painted();
      else shown = () => frame(painted);
    };
    let handled = false;
    const handles = () => {
      if (handled) return;
      handled = true;
      frame(look);
    };
    // A long paste is taken before it comes into its field.
    hears(["click", "input", "change", "paste"], handles);
    // A place that is opened by its address alone has no touch.
    window.paintOpen = (place) => {
      from = performance.now();
      location.hash = place;
      handles();
    };
  });
}

/// In the page: waits until it has nothing left to do.
function rest(number) {
  performance.mark("ours");
  return new Promise((done) => {
    const idle = () => {
      performance.mark(`done ${number}`);
      done();
    };
    requestIdleCallback(idle, { timeout: 20_000 });
  });
}

exports.Hand = class Hand {
  constructor(phone) {
    this.phone = phone;
    this.taps = [];
  }

  /// Measures what is done from here on until `end`.
  async begin() {
    await this.phone.page.tracing.start({ categories: TRACED });
  }

  /// Every tap with its kind, its longest task and its tap to paint in milliseconds.
  async end() {
    const trace = await this.phone.page.tracing.stop();
    const longest = longestTasks(JSON.parse(Buffer.from(trace)).traceEvents);
    return this.taps.splice(0).map((tap, number) => ({ ...tap, longest: longest(number) }));
  }

  async measure(kind, act, until) {
    const { page, rate } = this.phone;
    const number = this.taps.length;
    await page.evaluate(rest, "nothing");
    await page.evaluate(arm, number);
    await act();
    const late = wait(40_000).then(() => { throw new Error(`no answer to: ${kind}`); });
    late.catch(() => {});
    const paint = await Promise.race([page.evaluate(() => window.paintAnswer), late]);
    if (until) await this.phone.see(until);
    await wait(AFTER * Math.sqrt(rate));
    await page.evaluate(rest, number);
    this.taps.push({ kind, paint });
  }

  /// Taps what is called so, in a part of the screen; a part alone is given as `{ part }`.
  async tap(kind, what, until) {
    const found = await this.phone.find(typeof what === "string" ? { name: what } : what);
    const at = await found.evaluate((found) => {
      found.scrollIntoView({ block: "center" });
      const { x, y, width, height } = found.getBoundingClientRect();
      return { x: x + width / 2, y: y + height / 2 };
    });
    const touch = (type, touchPoints) => this.phone.tools.send("Input.dispatchTouchEvent", { type, touchPoints });
    // Both at once: a busy page answers the first so late that the touch would be a long press, which is no tap.
    const act = () => Promise.all([touch("touchStart", [at]), touch("touchEnd", [])]);
    await this.measure(kind, act, until);
  }

  /// Types a text into a field over what is there, each key measured.
  async type(kind, field, text, until) {
    await this.focus(field);
    for (const [nth, key] of [...text].entries()) {
      const last = nth + 1 === text.length;
      await this.measure(kind, () => this.phone.page.keyboard.press(key), last ? until : undefined);
    }
  }

  /// Takes the next line of a list, by its key.
  async next(kind, list) {
    await this.focus(list);
    await this.measure(kind, () => this.phone.page.keyboard.press("ArrowDown"));
  }

  /// Pastes a text into a field, from the clipboard.
  async paste(kind, field, text, until) {
    const permissions = ["clipboardReadWrite", "clipboardSanitizedWrite"];
    await this.phone.tools.send("Browser.grantPermissions", { permissions });
    await this.phone.page.evaluate((text) => navigator.clipboard.writeText(text), text);
    await this.focus(field);
    const key = { key: "v", code: "KeyV", windowsVirtualKeyCode: 86, modifiers: 2 };
    const down = { ...key, type: "rawKeyDown", commands: ["paste"] };
    await this.measure(kind, () => this.phone.tools.send("Input.dispatchKeyEvent", down), until);
    await this.phone.tools.send("Input.dispatchKeyEvent", { ...key, type: "keyUp" });
  }

  /// Chooses a file.
  async choose(kind, field, file, until) {
    const found = await this.phone.find({ part: field });
    await this.measure(kind, () => found.uploadFile(file), until);
  }

  /// Opens a place by its address, as a link in a message does.
  async open(kind, place) {
    await this.measure(kind, () => this.phone.page.evaluate((place) => window.paintOpen(place), place));
  }

  async focus(part) {
    const found = await this.phone.find({ part });
    await found.evaluate((field) => { field.focus(); field.select?.(); });
  }
};

/// The longest task of each tap, without those in which this benchmark itself asked the page for something.
function longestTasks(events) {
  const marks = events.filter(({ cat, name }) => cat === "blink.user_timing" && /^(tap|done|ours)\b/.test(name));
  const home = ({ pid, tid }) => pid === marks[0].pid && tid === marks[0].tid;
  const at = new Map(marks.map(({ name, ts }) => [name, ts]));
  const holds = ({ ts, dur }) => marks.some((mark) => mark.ts >= ts && mark.ts <= ts + dur);
  const tasks = events.filter((event) => event.name === "RunTask" && event.ph === "X" && home(event));
  return (number) => {
    const [from, to] = [at.get(`tap ${number}`), at.get(`done ${number}`)];
    if (from === undefined || to === undefined) throw new Error(`the trace has lost tap ${number}`);
    const own = tasks.filter((task) => task.ts > from && task.ts < to && !holds(task));
    return Math.max(0, ...own.map(({ dur, tdur }) => tdur ?? dur)) / 1000;
  };
}
