// The words in the pictures of this screen: how many, the smallest in CSS pixels, and the least contrast with what they
// stand on, by WCAG 2.2, 1.4.3. An engine can't tell what lies below words that are drawn.
const figures = (colour) => colour.match(/[\d.]+/g).map(Number);
const light = (colour) => {
  const [r, g, b] = figures(colour).map((part) => {
    const share = part / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};
const below = (word) => {
  const bar = word.parentElement.querySelector(":scope > rect:not(.band)");
  if (bar && word.closest(".bar")) return getComputedStyle(bar).fill;
  for (let part = word; part; part = part.parentElement) {
    const colour = getComputedStyle(part).backgroundColor;
    if (figures(colour)[3] !== 0) return colour;
  }
  return "rgb(255, 255, 255)";
};
const words = [...document.querySelectorAll(".page svg text")].filter((word) => word.checkVisibility() && word.textContent.trim());
// A word may be turned: how much it is drawn larger is the length of what a unit along it becomes.
const scale = ({ a, b }) => Math.hypot(a, b);
const sizes = words.map((word) => parseFloat(getComputedStyle(word).fontSize) * scale(word.getScreenCTM()));
const contrasts = words.map((word) => {
  const [one, other] = [light(getComputedStyle(word).fill), light(below(word))].sort((a, b) => b - a);
  return (one + 0.05) / (other + 0.05);
});
return [words.length, Math.min(99, ...sizes), Math.min(21, ...contrasts)];
