// Prints what the npm package @mdn/mdn-http-observatory says of the headers of a host on this machine, one line a test:
// whether it passed, and why. What needs a certificate and a public name can't be tested here: the redirection to
// HTTPS, and strict transport security.
const tool = `${process.env.SCALESIDE_NPM}/@mdn/mdn-http-observatory/src`;
const { retrieve } = await import(`${tool}/retriever/retriever.js`);
const { ALL_TESTS } = await import(`${tool}/constants.js`);

const { hostname, port, pathname } = new URL(process.argv[2]);
const found = await retrieve(hostname, { httpPort: port, path: pathname });
for (const test of ALL_TESTS.filter(({ name }) => !/redirection|strictTransport/.test(name))) {
  const { pass, result } = test(found);
  console.log(`${pass ? "pass" : "FAIL"}: ${test.name}: ${result}`);
}
