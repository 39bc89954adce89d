// What makes the screen wider than the phone, when it is. Measured by the layout: a phone makes a page that is too wide
// smaller, and innerWidth grows with it.
const { scrollWidth, clientWidth } = document.documentElement;
if (scrollWidth <= clientWidth) return null;
// The innermost that jut out: what is fixed is as wide as the page, whatever made it so.
const jutsOut = (element) => element.getBoundingClientRect().right > clientWidth;
const innermost = [...document.querySelectorAll("main *, header *")].filter(
  (element) => !element.closest(".running") && jutsOut(element) && ![...element.children].some(jutsOut),
);
return `${scrollWidth} wide on ${clientWidth}: ${innermost.map((element) => element.outerHTML.slice(0, 100)).slice(0, 4).join(" and ")}`;
