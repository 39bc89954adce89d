// Prints what the npm package csp_evaluator finds wrong with the content security policy of a page, one line a finding.
const { readFileSync } = require("node:fs");
const npm = process.env.SCALESIDE_NPM;
const { CspParser } = require(`${npm}/csp_evaluator/dist/parser.js`);
const { CspEvaluator } = require(`${npm}/csp_evaluator/dist/evaluator.js`);
const { Severity } = require(`${npm}/csp_evaluator/dist/finding.js`);

const policy = readFileSync(process.argv[2], "utf8").match(/http-equiv="?Content-Security-Policy"? content="([^"]+)"/)[1];
for (const { severity, directive, value, description } of new CspEvaluator(new CspParser(policy).csp).evaluate())
  console.log(`${Severity[severity]}: ${directive} ${value ?? ""}: ${description}`);
