// What three engines of three houses find wrong on this screen, or can't tell; one line a kind of finding.
return (async () => {
  const found = new Map();
  const note = (what, where) => found.set(what, [...(found.get(what) ?? []), where]);

  const rules = { "color-contrast-enhanced": { enabled: true } };
  const axed = await axe.run(document, { resultTypes: ["violations", "incomplete"], rules });
  for (const kind of ["violations", "incomplete"])
    for (const { id, nodes } of axed[kind])
      for (const { target, any, all, none } of nodes) {
        const why = [...any, ...all, ...none].map(({ id, data }) => data?.messageKey ?? id).join(" ");
        note(`axe ${kind} ${id} ${why}`, target.join(" "));
      }

  const { results } = await new ace.Checker().check(document, ["WCAG_2_2"]);
  for (const { ruleId, reasonId, value, path, message } of results)
    if (value[1] !== "PASS") note(`ibm ${value[1]} ${ruleId} ${reasonId}: ${message}`, path.dom);

  await new Promise((done) => HTMLCS.process("WCAG2AA", document, done));
  for (const { type, code, msg, element } of HTMLCS.getMessages()) {
    // An address after "#/" is a screen of the app, not a place on this one: the tests open each of them.
    if (code.endsWith(".NoSuchID") && element.getAttribute("href").startsWith("#/")) continue;
    if (type !== HTMLCS.NOTICE) note(`htmlcs ${code.split(".").slice(3).join(".")}: ${msg}`, element.outerHTML?.slice(0, 120) ?? "");
  }
  return [...found].map(([what, where]) => `${what}: ${where.length} times, ${where.slice(0, 3).join(" | ")}`);
})();
