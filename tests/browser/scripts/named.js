// The element that can be tapped and is called arguments[0].
const plain = (text) => (text ?? "").replace(/\s+/g, " ").trim();
const wanted = plain(arguments[0]);
const nameOf = (element) =>
  plain(element.getAttribute("aria-label") ?? (element.innerText || element.value || element.title || ""));
const shown = [
  ...document.querySelectorAll("a[href], button, label, summary, input, select, [role=button], [role=tab], [role=switch]"),
].filter((element) => !element.disabled && element.checkVisibility({ visibilityProperty: true }));
return shown.find((element) => nameOf(element) === wanted) ?? shown.find((element) => nameOf(element).includes(wanted));
