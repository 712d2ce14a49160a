// Reads lines of JSON from standard input, {"value": 1, "from": "mg/h", "to":
// "ug/min"} in UCUM codes, and answers each with {"value": ...} or {"error":
// ...}.
const utils = require('@lhncbc/ucum-lhc').UcumLhcUtils.getInstance();
const lines = require('fs').readFileSync(0, 'utf8').split('\n').filter(Boolean);
console.log = () => {}; // the library talks
for (const line of lines) {
  const { value, from, to } = JSON.parse(line);
  const got = utils.convertUnitTo(from, value, to);
  const answer = got.status === 'succeeded' ? { value: got.toVal } : { error: (got.msg || []).join('; ') };
  process.stdout.write(JSON.stringify(answer) + '\n');
}
