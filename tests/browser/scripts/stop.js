// What has the focus, by the name that controls.js gives it, and whether it is in sight; nothing once the focus has left the page.
const at = document.activeElement;
if (!at || at === document.body) return null;
const box = (at.closest("label") ?? at).getBoundingClientRect();
const dock = document.querySelector(".dock");
const floor = dock.contains(at) ? innerHeight : dock.getBoundingClientRect().top;
// Some of it must be in sight: above the dock, below the top.
const inSight = box.top < floor - 4 && box.bottom > 4;
const name = at.type === "radio" ? `radio ${at.name}` : `${at.tagName} ${at.id || (at.labels?.[0] ?? at).innerText || at.ariaLabel}`;
// An hour that is shown moves on while the screen is gone through.
return [name.replace(/\d\d:\d\d/g, "hour").trim(), inSight];
