// What makes the screen wider than the phone, when it is.
const { scrollWidth } = document.scrollingElement;
if (scrollWidth <= innerWidth) return null;
const widest = [...document.querySelectorAll("main *, header *, nav *")].find(
  (element) => element.getBoundingClientRect().right > innerWidth,
);
return `${scrollWidth} wide on ${innerWidth}: ${widest?.outerHTML.slice(0, 160)}`;
