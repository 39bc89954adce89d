// What is wrong with the service as the phone shows it, and what stands there: for the state that is on the screen.
const faults = [];
const say = (fault) => faults.push(fault);
const page = document.documentElement;
// Not the inner size of the window: a phone makes a page smaller that is too wide for it, and that grows with it.
const { clientWidth: wide, clientHeight: high } = page;
const inside = ({ left, right, top, bottom }, foot) =>
  left >= -0.5 && top >= -0.5 && right <= wide + 0.5 && bottom <= foot + 0.5;
if (page.scrollHeight > high + 1) say(`it scrolls by ${page.scrollHeight - high}`);
if (page.scrollWidth > wide) say(`it scrolls sideways by ${page.scrollWidth - wide}`);
const dock = document.querySelector("nav.dock");
const hit = (found) => {
  const { left, right, top, bottom } = found.getBoundingClientRect();
  const on = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
  return on === found || found.contains(on);
};
const due = dock.querySelector(".due");
if (due) {
  const box = due.getBoundingClientRect();
  if (box.height < 56) say(`the due tap is only ${box.height} high`);
  if (!inside(box, high)) say("the due tap is out of sight");
  if (!hit(due) && !due.disabled) say("the due tap is covered");
}
const foot = dock.getBoundingClientRect().top;
// Everything that is tapped or read lies above the dock, whole, and is hit where it is drawn.
for (const found of document.querySelectorAll(".stove button, .stove a, .stove .digits, .stove .say, .clockline b")) {
  const box = found.getBoundingClientRect();
  if (!box.width || found.closest(".longer, .aside")) continue;
  const name = found.innerText || found.textContent;
  if (!inside(box, foot)) say(`“${name}” is out of sight`);
  else if (found.matches("button, a") && !hit(found)) say(`“${name}” is covered`);
}
// What a screen reader is told of runs, whatever the screen draws.
const told = [...document.querySelectorAll("[aria-live].unseen")].map((live) => live.innerText).join(" ");
const running = (told.match(/ left\.|time is up\./g) ?? []).length;
const held = document.querySelectorAll(".stove .held").length;
const drawn = document.querySelectorAll(".stove article.large .digits, .stove .chip").length;
if (drawn - held !== running) say(`${running} timers run, ${drawn - held} are drawn`);
const digits = document.querySelector(".stove .digits");
const { width, height } = digits.getBoundingClientRect();
// Where there is room for the list and the lanes they stand beside it, and are there to be looked up.
const unseen = [...document.querySelectorAll("h1, .unseen, .aside")].map((part) => part.innerText).join(" ");
const count = (text) => text.split(/\s+/).filter(Boolean).length;
return {
  faults,
  // The figures of the picture are 100 of its 280 by 104 units high.
  digits: Math.round(Math.min(width / 280, height / 104) * 100),
  words: count(document.body.innerText) - count(unseen),
  text: document.body.innerText.replace(/\s+/g, " "),
  timers: drawn,
};
