return axe.run(document, { resultTypes: ["violations"], rules: { "color-contrast-enhanced": { enabled: true } } }).then(({ violations }) =>
  violations.map(({ id, help, nodes }) => `${id}: ${help}: ${nodes.map(({ target }) => target.join(" ")).join(", ")}`),
);
