// Every figure that the page shows and that says not who: its text, shortened. A figure is a number with a unit, a share, a
// decimal, money, a time of day or a length of time, wherever it stands: in a button, a picture, a heading, on paper, beside
// the page. No figure: what a cook types or chooses (fields, and the labels of fields and of choices), what a cook typed
// (`data-typed`), the moment at which something was written down, a code.
const UNIT = "%|g\\b|kg\\b|oz\\b|lb\\b|°C|°|min\\b|minutes?\\b|s\\b|sec\\b|seconds?\\b|mm\\b|cm\\b|ml\\b|l\\b|kB\\b|MB\\b|W\\/|points?\\b|hours?\\b|days?\\b|times\\b";
const NUMBER = new RegExp(`\\d[\\d.,]*\\s?(${UNIT})|[€$£±×÷]\\s?\\d|\\d:\\d\\d|(?<![\\d.])\\d+\\.\\d+(?![\\d.]*\\d)(?!\\.)|\\b[A-Z]{3}\\s?\\d`);
const WRITTEN = /\d{1,2} [A-Z][a-z]{2} \d{4} at \d\d:\d\d/g;
const NOT = "input, textarea, select, label[for], label:has(> input[type=radio]), script, style, pre, dialog, noscript, .code, [data-typed]";
const found = { said: 0, silent: [] };
const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
while (walk.nextNode()) {
  const text = walk.currentNode;
  // A number and its unit may stand in two texts of one line.
  const own = [...text.parentElement.childNodes].filter((one) => one.nodeType === 3).map((one) => one.data).join("");
  if (!/\d/.test(text.data) || !NUMBER.test(own.replace(WRITTEN, "")) || text.parentElement.closest(NOT)) continue;
  if (text.parentElement.closest("[data-says]")) {
    found.said += 1;
  } else {
    found.silent.push(`${text.parentElement.tagName.toLowerCase()}.${text.parentElement.getAttribute("class") ?? ""}: ${own.trim().slice(0, 110)}`);
  }
}
return found;
