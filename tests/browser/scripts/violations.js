return axe.run(document, { resultTypes: ["violations"] }).then(({ violations }) =>
  violations.map(({ id, help, nodes }) => `${id}: ${help}: ${nodes.map(({ target }) => target.join(" ")).join(", ")}`),
);
