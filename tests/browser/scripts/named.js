// The element that can be tapped and is called arguments[0], in the part that the selector arguments[1] finds.
const plain = (text) => (text ?? "").replace(/\s+/g, " ").trim();
const wanted = plain(arguments[0]);
const nameOf = (element) =>
  plain(element.getAttribute("aria-label") ?? (element.innerText || element.value || element.title || ""));
const part = document.querySelector(arguments[1]);
const found =
  part?.querySelectorAll("a[href], button, label, summary, input, select, [role=button], [role=tab], [role=switch]") ?? [];
const shown = [...found].filter(
  (element) => !element.disabled && element.checkVisibility({ visibilityProperty: true }),
);
return shown.find((element) => nameOf(element) === wanted) ?? shown.find((element) => nameOf(element).includes(wanted));
