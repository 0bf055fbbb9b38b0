// SPDX-License-Identifier: GPL-3.0-or-later
// Compares the answers of the page's module with those of the program of this machine, on every shipped scenario. Module,
// worker and files are taken from the page and run in this process, which needs no browser.
// Usage: node numbers_test.mjs PAGE PROGRAM [whole]. Each check is one test; prints "N passed, N failed".
import { readdirSync, readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import vm from 'node:vm';
import { differences, native, nothing, plain } from './agree.mjs';

const [pagePath, program, extent] = process.argv.slice(2);
const page = readFileSync(pagePath, 'utf8');
const held = (id) => new RegExp(`<script type="[^"]*" id="${id}">([^]*?)</script>`).exec(page)[1];
const read = (name) => readFileSync(`scenarios/${name}`, 'utf8');
const began = Date.now();
let passed = 0, failed = 0;

function check(what, good, seen) {
  if (good) passed++;
  else {
    failed++;
    console.log(`FAILED ${what}: ${JSON.stringify(seen).slice(0, 600)}`);
  }
}

// The worker of the page, with messages for a page that is this process.
let heard;
const worker = vm.createContext({ TextEncoder, TextDecoder, performance, onmessage: null, postMessage: (told) => heard(told) });
vm.runInContext(held('worker'), worker);
const files = JSON.parse(held('files'));
const tell = (told) => new Promise((done) => { heard = done; worker.onmessage({ data: told }); });
await tell({ start: gunzipSync(Buffer.from(held('module'), 'base64')), catalogs: files.filter((f) => f.name.startsWith('catalogs/')) });
const ask = async (text, line) => {
  const told = await tell({ id: 1, text, files, line: [...line, '--catalog', 'catalogs'] });
  return told.run || { exit: told.failure };
};

const parse = (command, body) => (command === 'sweep' ? body.trim().split('\n').filter(Boolean).map(JSON.parse) : JSON.parse(body || 'null'));
const all = nothing();
async function same(name, line) {
  const text = read(name), command = line[0], here = await ask(text, line), there = native(program, line, text);
  check(`${name} ${command}: same exit status`, here.exit === there.exit, [here.exit, there.exit]);
  check(`${name} ${command}: same messages`, plain(here.messages || '') === there.messages, [here.messages, there.messages]);
  const found = differences(parse(command, plain(here.body || '')), parse(command, there.body), nothing());
  check(`${name} ${command}: same numbers`, !found.list.length, found.list.slice(0, 3));
  all.worst = Math.max(all.worst, found.worst);
  all.numbers += found.numbers;
}

// One bearing, one hub, one setting: ratios within this run, so that a busy machine slows both. The program has several
// threads and wider vectors for a setting; its start is in its time.
async function speed(command, name, most) {
  const middle = (list) => list.sort((a, b) => a - b)[list.length >> 1];
  const words = [command, '-', '--format', 'json'], here = [], there = [];
  for (let i = 0; i < 7; i++) {
    here.push((await ask(read(name), words)).spent);
    there.push(native(program, words, read(name)).spent);
  }
  console.log(`${command} of ${name}: ${middle(here).toFixed(1)} ms in the page, ${middle(there).toFixed(1)} ms by the program`);
  check(`${command} of ${name} takes at most ${most} times the time of the program`, middle(here) <= most * middle(there), [here, there]);
}

// What most of the time goes into, and what other scenarios ask of the same code: left out unless the whole is wanted.
const leftOut = (name, command) =>
  extent !== 'whole' && name === 'beet_trailer_fleet.yaml' && ['compare', 'reach', 'timeline', 'spread', 'damage', 'choose'].includes(command);
const shipped = readdirSync('scenarios').filter((name) => name.endsWith('.yaml')).sort();
const lines = ['life', 'compare', 'reach', 'choose', 'timeline', 'setting', 'schedule', 'spread', 'check'].map((c) => [c, '-', '--format', 'json']);
lines.push(['damage', 'denting', '-', '--format', 'json'], ['sweep', '-', '--format', 'jsonl']);
let left = 0;
for (const name of shipped) {
  for (const line of lines) {
    if (leftOut(name, line[0])) left++;
    else await same(name, line);
  }
}
for (const [command, name] of [['fit', 'trailer_returns.csv'], ['fit', 'inspected_returns.csv'], ['duty', 'log_infeed_history.csv']]) {
  await same(name, [command, '-', '--format', 'json']);
}
check('many numbers are compared', all.numbers > 20000, all.numbers);
await speed('life', 'stock_trailer_hub.yaml', 3);
await speed('life', 'trailer_hub_setting.yaml', 6);
await speed('setting', 'trailer_hub_setting.yaml', 10);
console.log(`${all.numbers} numbers of ${shipped.length} scenarios agree, the farthest within ${all.worst.toExponential(1)}`);
if (left) console.log(`left out: ${left} slow command lines of a fleet (make page-test-whole has them)`);
console.log(`numbers: ${passed} passed, ${failed} failed, ${((Date.now() - began) / 1000).toFixed(1)} s`);
process.exit(failed ? 1 : 0);
