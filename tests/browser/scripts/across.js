// What makes the screen wider than the phone, when it is. Measured by the layout: a phone makes a page that is too wide
// smaller, and innerWidth grows with it.
const { scrollWidth, clientWidth } = document.documentElement;
if (scrollWidth <= clientWidth) return null;
const widest = [...document.querySelectorAll("main *, header *, nav *")].find(
  (element) => element.getBoundingClientRect().right > clientWidth,
);
return `${scrollWidth} wide on ${clientWidth}: ${widest?.outerHTML.slice(0, 160)}`;
