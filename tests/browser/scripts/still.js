// Notes every control that moves under a thumb: of each screen that comes, what is in sight a twentieth of a second later
// and lies elsewhere within a second, though nobody touched anything. Before that the page goes to its top, and no thumb is
// so quick. `window.moved` holds a line for each.
const SECOND = 1000;
const AT_ONCE = 50;
const CONTROLS = "a[href], button, select, summary, label, input[type=text]";
window.moved = [];
let [screen, since, at] = [null, 0, null];
const place = (control) => {
  const { left, top, width, height } = control.getBoundingClientRect();
  return [left, top, width, height].map(Math.round).join(" ");
};
const named = (control) => (control.ariaLabel ?? control.innerText ?? control.id).replace(/\s+/g, " ").slice(0, 40);
const look = (now) => {
  const heading = document.querySelector(".page main h1");
  if (heading && heading.innerText !== "One moment" && heading !== screen) {
    [screen, since, at] = [heading, now, null];
  }
  if (!at && now - since > AT_ONCE) {
    at = new Map();
    for (const control of document.querySelectorAll(CONTROLS)) {
      const { top, bottom } = control.getBoundingClientRect();
      if (control.checkVisibility({ visibilityProperty: true }) && bottom > 0 && top < innerHeight) at.set(control, place(control));
    }
  }
  for (const [control, was] of at && now - since < SECOND ? at : []) {
    if (!control.isConnected || !control.checkVisibility({ visibilityProperty: true })) continue;
    const is = place(control);
    if (is !== was) window.moved.push(`${screen.innerText}, after ${Math.round(now - since)} ms: ${named(control)} from ${was} to ${is}`);
    at.set(control, is);
  }
  requestAnimationFrame(look);
};
requestAnimationFrame(look);
