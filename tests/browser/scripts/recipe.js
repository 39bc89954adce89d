// Reads a dish by two tools that know nothing of this app, and prints what they find as JSON:
// jsonld expands it as any linked-data program would; the TypeScript compiler, with schema-dts, holds every property
// against the vocabulary of schema.org itself.
const fs = require('fs');
const npm = process.env.SCALESIDE_NPM;
const jsonld = require(`${npm}/jsonld`);
const ts = require(`${npm}/typescript`);

const text = fs.readFileSync(process.argv[2], 'utf8');

// The context of schema.org, as far as a dish needs it: every term is one of its own. There is no network here.
const documentLoader = async (url) => {
  if (!/^https?:\/\/schema\.org\/?$/.test(url)) throw new Error(`asked for ${url}`);
  return { contextUrl: null, documentUrl: url, document: { '@context': { '@vocab': 'https://schema.org/' } } };
};

const faults = () => {
  const name = `${npm}/dish-under-test.ts`;
  const source = `import type { Recipe, WithContext } from 'schema-dts';\nexport const dish: WithContext<Recipe> = ${text};\n`;
  const options = { strict: true, noEmit: true, skipLibCheck: true, types: [], moduleResolution: ts.ModuleResolutionKind.Node10, module: ts.ModuleKind.CommonJS, target: ts.ScriptTarget.ES2020 };
  const host = ts.createCompilerHost(options);
  const read = host.getSourceFile;
  host.getSourceFile = (file, ...rest) => (file === name ? ts.createSourceFile(file, source, options.target) : read(file, ...rest));
  const known = host.fileExists;
  host.fileExists = (file) => file === name || known(file);
  const program = ts.createProgram([name], options, host);
  return ts.getPreEmitDiagnostics(program).map((fault) => ts.flattenDiagnosticMessageText(fault.messageText, '\n'));
};

const values = (list) => (list ?? []).map((value) => value['@value']);
const term = (name) => `https://schema.org/${name}`;

(async () => {
  const [dish, ...more] = await jsonld.expand(JSON.parse(text), { documentLoader });
  const supplies = (dish[term('supply')] ?? []).map((supply) => {
    const [quantity] = supply[term('requiredQuantity')];
    return [values(supply[term('name')])[0], values(quantity[term('value')])[0], values(quantity[term('unitCode')])[0]];
  });
  console.log(JSON.stringify({
    types: dish['@type'],
    more: more.length,
    name: values(dish[term('name')])[0],
    ingredients: values(dish[term('recipeIngredient')]),
    supplies,
    parts: (dish[term('hasPart')] ?? []).map((part) => values(part[term('name')])[0]),
    faults: faults(),
  }));
})();
