// What makes the screen wider than the phone, when it is. Measured by the layout: a phone makes a page that is too wide
// smaller, and innerWidth grows with it.
const { scrollWidth, clientWidth } = document.documentElement;
if (scrollWidth <= clientWidth) return null;
// The innermost that jut out: what is fixed is as wide as the page, whatever made it so, and what is cut off by what it
// lies in makes nothing wider.
const isCut = (element) => {
  const around = element.parentElement?.closest("main *, header *");
  if (!around) return false;
  const cuts = getComputedStyle(around).overflowX !== "visible" && around.getBoundingClientRect().right <= clientWidth;
  return cuts || isCut(around);
};
const jutsOut = (element) => element.getBoundingClientRect().right > clientWidth && !isCut(element);
const innermost = [...document.querySelectorAll("main *, header *")].filter(
  (element) => !element.closest(".running") && jutsOut(element) && ![...element.children].some(jutsOut),
);
return `${scrollWidth} wide on ${clientWidth}: ${innermost.map((element) => element.outerHTML.slice(0, 100)).slice(0, 4).join(" and ")}`;
