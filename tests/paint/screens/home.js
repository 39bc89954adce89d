"use strict";
// The list of fish and what lies beside it: every screen opened from where its link stands.

module.exports = async function home(hand, phone) {
  await phone.see("Start a fish");
  await hand.begin();
  await hand.tap("home: open the settings", { part: "a[href='#/settings']" });
  for (const box of ["Sound", "Vibration"]) await hand.tap("settings: a box", box);
  await hand.tap("settings: open what is kept", "What is kept, backup and bin");
  await hand.tap("what is kept: open the bin", "Bin: put back what was removed");
  await hand.tap("any screen: back to all fish", { part: "a.corner" });
  for (const shelf of ["Dishes and orders", "Compare your fish", "For tutors: classes", "Cautions and sources"]) {
    await hand.tap(`home: open ${shelf.toLowerCase()}`, shelf);
    await phone.go("#/");
  }
  await hand.tap("home: start a fish", "Start a fish");
  await hand.next("delivery: choose the fish", "#species");
  await phone.page.select("#species", "snapper");
  await hand.tap("delivery: a choice", "Whole");
  await hand.type("delivery: type the price", "#price", "18.90");
  await hand.tap("delivery: a choice", "2 g");
  await hand.tap("delivery: no probe thermometer", "No probe thermometer");
  await hand.type("delivery: type the portions", "#portions", "4");
  await hand.tap("delivery: to the scale", "Weigh it whole");
  await phone.go("#/compare");
  await hand.tap("compare: the demo's three tests", "Open the demo's three tests");
  await hand.tap("compare: open cheapest to eat", "Cheapest to eat");
  await hand.type("cheapest: type a price", "#quote-1", "13.00");
  return hand.end();
};
