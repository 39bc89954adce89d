// Prints what the npm package csp_evaluator finds wrong with a content security policy, one line a finding.
const npm = process.env.SCALESIDE_NPM;
const { CspParser } = require(`${npm}/csp_evaluator/dist/parser.js`);
const { CspEvaluator } = require(`${npm}/csp_evaluator/dist/evaluator.js`);
const { Severity } = require(`${npm}/csp_evaluator/dist/finding.js`);

const policy = process.argv[2];
for (const { severity, directive, value, description } of new CspEvaluator(new CspParser(policy).csp).evaluate())
  console.log(`${Severity[severity]}: ${directive} ${value ?? ""}: ${description}`);
