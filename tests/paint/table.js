"use strict";
// What was measured, as tables.

const median = (figures) => [...figures].sort((a, b) => a - b)[Math.floor(figures.length / 2)];
exports.median = median;

const ms = (figure) => (figure === undefined ? "" : figure.toFixed(figure < 9.95 ? 1 : 0)).padStart(8);
const times = (figure, base) => (figure === undefined ? "" : (figure / base).toFixed(1)).padStart(7);
const WIDE = 50;

/// The kinds in the order they came, each with its worst tap of every pass, and of those the median.
function worstOf(passes) {
  const kinds = new Map();
  for (const [nth, taps] of passes.entries())
    for (const { kind, longest, paint } of taps) {
      const worst = kinds.get(kind) ?? kinds.set(kind, []).get(kind);
      worst[nth] ??= { longest: 0, paint: 0 };
      worst[nth].longest = Math.max(worst[nth].longest, longest);
      worst[nth].paint = Math.max(worst[nth].paint, paint);
    }
  const of = (worst, what) => median(worst.filter(Boolean).map((taps) => taps[what]));
  return [...kinds].map(([kind, worst]) => ({ kind, longest: of(worst, "longest"), paint: of(worst, "paint") }));
}

/// One table over all rates: `measured` holds, for each, its rate, the passes over the app and those over the floor.
exports.taps = (measured) => {
  const sides = measured.map(({ rate, app, floor }) => {
    const all = floor.flat();
    const base = { longest: median(all.map((tap) => tap.longest)), paint: median(all.map((tap) => tap.paint)) };
    return { rate, base, kinds: worstOf(app) };
  });
  const columns = ({ longest, paint }, base) =>
    [ms(longest), times(longest, base.longest), ms(paint), times(paint, base.paint)].join("");
  console.log("\nThe worst tap of each kind: its longest task and its tap to paint, in ms and as a multiple of the one-button page's");
  console.log(" ".repeat(WIDE) + sides.map(({ rate }) => `  ${`${rate === 1 ? "full speed" : `${rate} times slower`}`.padStart(30)}`).join(""));
  const heads = `${"longest".padStart(8)}${"x".padStart(7)}${"paint".padStart(8)}${"x".padStart(7)}`;
  console.log("kind".padEnd(WIDE) + sides.map(() => `  ${heads}`).join(""));
  const one = sides.map(({ base }) => `  ${columns(base, base)}`).join("");
  console.log("the one-button page (median)".padEnd(WIDE) + one);
  for (const { kind } of sides[0].kinds) {
    const row = sides.map(({ base, kinds }) => {
      const found = kinds.find((other) => other.kind === kind) ?? {};
      return `  ${columns(found, base)}`;
    });
    console.log(kind.padEnd(WIDE) + row.join(""));
  }
  for (const { rate, base, kinds } of sides) {
    if (!kinds.length) continue;
    console.log(`\n${rate === 1 ? "Full speed" : `${rate} times slower`}, of ${kinds.length} kinds:`);
    for (const [what, said] of [["longest", "longest task"], ["paint", "tap to paint"]]) {
      const worst = kinds.reduce((worst, kind) => (kind[what] > worst[what] ? kind : worst));
      const over = (limit) => kinds.filter((kind) => kind[what] > limit).length;
      const figure = `${worst[what].toFixed(0)} ms, ${(worst[what] / base[what]).toFixed(1)} times the one-button page's`;
      console.log(`  ${said}: worst ${figure} (${worst.kind}); over 50 ms: ${over(50)}, over 100 ms: ${over(100)}`);
    }
  }
};

/// The starts: for each rate, the runs of the app and of the floor.
exports.starts = (names, measured) => {
  console.log(`\nTime to usable, median of ${measured[0].app.length}, in ms and as a multiple of the one-button page's`);
  console.log(" ".repeat(16) + "rate".padStart(6) + "Scaleside".padStart(11) + "one button".padStart(12) + "x".padStart(7));
  for (const { rate, app, floor } of measured)
    for (const [nth, name] of names.entries()) {
      const of = (runs) => median(runs.map((run) => run[nth]));
      const [own, base] = [of(app), of(floor)];
      console.log(name.padEnd(16) + `${rate}x`.padStart(6) + ms(own).padStart(11) + ms(base).padStart(12) + (base ? times(own, base) : ""));
    }
};
