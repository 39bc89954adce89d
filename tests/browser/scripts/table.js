// Reads a table from standard input with papaparse and writes its lines as JSON.
const { parse } = require('papaparse');
const text = require('fs').readFileSync(0, 'utf8').replace(/^\uFEFF/, '');
const { data, errors } = parse(text, { skipEmptyLines: true });
if (errors.length) throw new Error(JSON.stringify(errors));
console.log(JSON.stringify(data));
