"use strict";
// The demo dish, every side of it.

module.exports = async function dish(hand, phone) {
  await phone.go("#/dishes");
  await hand.begin();
  await hand.tap("dishes: open the demo dish", "Open the demo dish");
  await phone.see("Add a line");
  const place = await phone.place();
  await hand.type("dish: type the name", "#dish-name", "Plate");
  await hand.type("dish: type the covers", "#dish-covers", "12");
  await hand.tap("dish: open a line", { part: "main .rows a[href$='/line/2']" });
  await hand.type("line: type the quantity", "#line-quantity", "120");
  await hand.tap("line: done", "Done");
  await hand.tap("dish: add a line", "Add a line");
  await hand.type("line: type the name", "#line-name", "Leeks");
  await hand.tap("line: use a published trim", "Use 44 %");
  await hand.type("line: type the quantity", "#line-quantity", "400");
  await hand.type("line: type the price", "#line-price", "3.30");
  await hand.next("line: price per", "#line-per");
  await hand.tap("line: made ahead", "Made ahead");
  for (const [side, link, field] of [
    ["plate", "Read the plate", "#menu-price"],
    ["scale", "Scale it", "#dish-wanted"],
    ["order", "What to buy", "#dish-margin"],
  ]) {
    await phone.go(place);
    await hand.tap(`dish: open the ${side}`, link);
    await hand.type(`${side}: type`, field, "25");
  }
  await phone.go(place);
  await hand.tap("dish: open the steps", "Steps of the service");
  await phone.go(place);
  await hand.tap("dish: open the journal", "Journal: photos and notes");
  await hand.type("dish's journal: type", "#taste", "Crisp");
  await phone.go("#/dishes");
  await hand.tap("dishes: open a dish", { part: `main .rows a[href^='${place}']` });
  await phone.go("#/dishes");
  await hand.tap("dishes: write a dish", "Write a dish");
  await phone.go("#/dishes");
  await hand.tap("dishes: open bring in a dish", "Bring in a dish");
  await hand.tap("bring in a dish: read it", "Read it");
  return hand.end();
};
