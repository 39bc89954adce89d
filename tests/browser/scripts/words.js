// The words that the page shows without a tap, also those a scroll away: of a list only what is chosen, and nothing that is
// folded, drawn for readers of the screen alone, or only says that this is the demo.
const shown = [];
const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
for (let node = walker.nextNode(); node; node = walker.nextNode()) {
  const part = node.parentElement;
  if (!part.checkVisibility() || part.closest(".unseen, .tag, option, script, style, noscript, svg")) continue;
  shown.push(node.data);
}
for (const list of document.querySelectorAll("select")) {
  if (list.checkVisibility()) shown.push(list.selectedOptions[0]?.text ?? "");
}
// What has neither a letter nor a figure is no word.
const words = shown.join(" ").split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word));
return { count: words.length, text: words.join(" ") };
