// What can be tapped and is smaller than 48 by 48 CSS pixels. A field counts together with the label around it.
const LEAST = 48;
const found = [];
for (const element of document.querySelectorAll(
  "a[href], button, input:not([type=hidden]), select, textarea, summary, [role=button], [role=tab], [role=switch], [role=checkbox], [role=radio], [tabindex='0']",
)) {
  if (!element.checkVisibility({ visibilityProperty: true })) continue;
  const target = element.closest("label") ?? element;
  const { width, height } = target.getBoundingClientRect();
  // Half a hundredth: a box of exactly 48 may come out a little less.
  if (width + 0.005 < LEAST || height + 0.005 < LEAST)
    found.push(`${target.outerHTML.slice(0, 120)} is ${width.toFixed(1)} by ${height.toFixed(1)}`);
}
return found;
