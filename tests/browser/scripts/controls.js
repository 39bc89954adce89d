// Everything that can be used on this screen, by name; radio buttons of one question are one stop of the Tab key.
const controls = [...document.querySelectorAll("a[href], button, input, select, textarea, summary")];
const names = controls
  .filter((at) => !at.disabled && at.checkVisibility({ visibilityProperty: true }))
  .map((at) =>
    at.type === "radio" ? `radio ${at.name}` : `${at.tagName} ${at.id || (at.labels?.[0] ?? at).innerText || at.ariaLabel}`.trim(),
  );
return [...new Set(names.map((name) => name.replace(/\d\d:\d\d/g, "hour").trim()))];
