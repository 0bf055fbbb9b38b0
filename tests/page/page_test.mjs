// SPDX-License-Identifier: GPL-3.0-or-later
// Loads the live page in a browser as a reader would; numbers_test.mjs compares its numbers.
// Usage: node page_test.mjs PAGE PROGRAM FOLDER MODULES [whole]; the folder gets the screenshots, MODULES has node_modules.
// Each check is one test; prints "N passed, N failed".
import { createRequire } from 'node:module';
import { readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { differences, native, nothing, plain } from './agree.mjs';

const [pagePath, program, folder, modules] = process.argv.slice(2, 6).map((path) => resolve(path));
const whole = process.argv[6] === 'whole';
const load = createRequire(join(modules, 'package.json'));
const { chromium } = load('playwright-core');
const axe = readFileSync(load.resolve('axe-core/axe.min.js'), 'utf8');
const address = pathToFileURL(pagePath).href;
const read = (name) => readFileSync(`scenarios/${name}`, 'utf8');
let passed = 0, failed = 0;

function check(what, good, seen) {
  if (good) passed++;
  else {
    failed++;
    console.log(`FAILED ${what}${seen === undefined ? '' : `: ${JSON.stringify(seen)}`}`);
  }
}

const ask = (words, text) => native(program, words, text); // of this machine

const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM || '/usr/bin/chromium',
  args: ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
    '--disable-component-update', '--disable-sync'],
});

async function open(options = {}, hash = '') {
  const context = await browser.newContext({ viewport: { width: 1440, height: 1000 }, ...options });
  const page = await context.newPage();
  const troubles = [], requests = [];
  page.on('console', (m) => { if (m.type() === 'error' || m.type() === 'warning') troubles.push(m.text()); });
  page.on('pageerror', (e) => troubles.push(String(e)));
  context.on('request', (r) => { if (!/^(blob|data):/.test(r.url())) requests.push(r.url()); });
  await page.goto(address + hash);
  await settled(page);
  return { context, page, troubles, requests };
}

// Waits until nothing is being worked out.
async function settled(page, wanted = /done|bad/) {
  await page.waitForTimeout(250); // typing is waited for first
  await page.waitForFunction((words) => new RegExp(words).test(document.documentElement.dataset.state), wanted.source, { timeout: 60000 });
}

// As if it had been pasted: the browser is slow to type long texts.
async function putText(page, text) {
  await page.locator('#text').evaluate((e, t) => { e.value = t; e.dispatchEvent(new Event('input')); }, text);
  await settled(page);
}

const press = (page, name) => page.locator('#commands').getByRole('button', { name, exact: true }).click().then(() => settled(page));
const answerText = (page) => page.evaluate(() => document.getElementById('answer').shadowRoot.textContent);

async function kept(page, selector) {
  const [download] = await Promise.all([page.waitForEvent('download'), page.locator(selector).first().click()]);
  return { name: download.suggestedFilename(), text: readFileSync(await download.path(), 'utf8') };
}

// ---- the page ------------------------------------------------------------------------------------
async function barriers(page, what) {
  await page.evaluate(axe);
  const found = await page.evaluate(() => window.axe.run(document, { resultTypes: ['violations'] }));
  check(`${what}: no barrier`, !found.violations.length, found.violations.map((v) => [v.id, v.nodes.slice(0, 3).map((n) => n.target.join(' ') + ' ' + n.failureSummary.slice(0, 160))]));
}

async function looks() {
  // colours and widths have little to do with each other, so each of both is seen once unless the whole is wanted; the report
  // has nine tenths of all that is drawn
  for (const width of [390, 1440]) {
    for (const colorScheme of whole ? ['light', 'dark'] : width < 800 ? ['light'] : ['dark']) {
      const what = `${width} px, ${colorScheme}`;
      const { context, page, troubles, requests } = await open({ viewport: { width, height: width > 800 ? 1000 : 844 }, colorScheme });
      check(`${what}: it answers`, /Worked out in/.test(await page.locator('#state').textContent()));
      check(`${what}: the verdict is seen at once`, await page.evaluate(() => {
        const box = document.getElementById('now-verdict').getBoundingClientRect();
        return box.height > 40 && box.bottom <= innerHeight;
      }));
      check(`${what}: the verdict is said once`, await page.evaluate(() => !document.getElementById('answer').shadowRoot.querySelector('p.doubtful').checkVisibility()));
      check(`${what}: what is pinned comes when it differs`, !(await page.locator('.then').isVisible()) && await page.locator('#first-step').isVisible());
      check(`${what}: it says that it is an estimate`, await page.getByText('An estimate for planning, not a safety approval').first().isVisible());
      for (const question of ['life', 'report', 'schedule', 'damage']) {
        await press(page, question);
        check(`${what}, ${question}: nothing wider than the page`, await page.evaluate(() => document.documentElement.scrollWidth) <= width);
        if (whole || question !== 'report' || width > 800) await barriers(page, `${what}, ${question}`);
        await page.screenshot({ path: join(folder, `${question}_${width}_${colorScheme}.png`), fullPage: question !== 'report' });
      }
      check(`${what}: no error in the console`, !troubles.length, troubles);
      check(`${what}: no request but the page itself`, requests.length === 1 && requests[0] === address, requests);
      await context.close();
    }
  }
}

async function everyQuestion() {
  const { context, page, troubles } = await open();
  const names = await page.locator('#commands button').allTextContents();
  check('many questions', names.length >= 13, names);
  for (const name of names) {
    await press(page, name);
    const text = await answerText(page), bad = await page.evaluate(() => document.documentElement.dataset.state === 'bad');
    // a machine with much else to do lets the limit of 5 s pass; the program is then slow on it too
    const stopped = /No answer in/.test(await page.locator('#state').textContent());
    if (stopped && ask([name, '-'], read('trailer_hub_setting.yaml')).spent > 1500) continue;
    check(`${name} answers, or says why not`, text.length > 40 && (!bad || /lacks|needs/.test(text)), text.slice(0, 200));
    if (!bad && !['schema', 'sweep', 'report'].includes(name)) {
      const line = { damage: ['damage'], catalog: ['catalog'], help: ['help'] }[name] || [name, '-'];
      const { text: file } = await kept(page, '[data-keep=text]');
      // HTML is for everybody and text for a line: the same answer, so the text that is kept is that of the program
      const said = ask([...line, '--format', 'text'], read('trailer_hub_setting.yaml')).body;
      if (name !== 'help') check(`${name}: the text that is kept is that of the program`, plain(file).replace(/\d/g, '') === said.replace(/\d/g, ''), [file.slice(0, 200), said.slice(0, 200)]);
    }
  }
  for (const name of ['trailer_returns.csv', 'log_infeed_history.csv', 'damaged/tight_hub.yaml', 'damaged/converter_motor.yaml']) {
    await page.locator('#shipped').selectOption(`scenarios/${name}`);
    await settled(page);
    check(`${name} is answered`, await page.evaluate(() => document.documentElement.dataset.state === 'done'), await page.locator('#state').textContent());
  }
  check('no error in the console', !troubles.length, troubles);
  await context.close();
}

async function turning() {
  const { context, page } = await open();
  const water = page.locator('[data-path="condition.water"]');
  const before = await page.locator('#text').inputValue();
  await water.focus();
  for (let i = 0; i < 40; i++) await page.keyboard.press('ArrowRight');
  await settled(page);
  const after = await page.locator('#text').inputValue(), shown = await page.locator('.control', { has: water }).locator('output').textContent();
  const lines = before.split('\n'), changed = after.split('\n').map((l, i) => [lines[i], l]).filter(([a, b]) => a !== b);
  check('a turn changes one line of the text', changed.length === 1 && before.split('\n').length === after.split('\n').length, changed);
  check('the value stands in the text', changed.length === 1 && changed[0][1].includes(`water: ${shown}`), [changed, shown]);
  check('the comment stays', changed.length === 1 && changed[0][0].split('#')[1] === changed[0][1].split('#')[1], changed);
  const words = ['life', '-', '--format', 'json'], found = nothing();
  const { text: json } = await kept(page, '[data-keep=json]'), there = ask(words, after).body;
  differences(JSON.parse(json), JSON.parse(there), found);
  check('the numbers are those of the program for that value', !found.list.length && json !== ask(words, before).body, found.list.slice(0, 3));
  const life = Number(JSON.parse(there).system.modified_rating_life_h.toPrecision(3));
  const cell = Number((await page.locator('#numbers tbody td').first().textContent()).replace(/\s/g, ''));
  check('the table shows the life of the program', cell === life, [cell, life]);
  check('what is pinned stands beside it', await page.locator('.then').isVisible() && !(await page.locator('#first-step').isVisible()));
  check('the life is said below the values too', Number(/life ([\d\u00a0]+) h/.exec(await page.locator('#result').textContent())[1].replace(/\s/g, '')) === life);
  const ratio = await page.locator('#numbers tbody tr.differs').count();
  check('what differs from the pinned state is marked', ratio > 0, ratio);
  // choices
  await page.locator('[data-path="condition.cleanliness"]').selectOption('severe');
  await settled(page);
  check('a choice stands in the text', /cleanliness: severe/.test(await page.locator('#text').inputValue()));
  // the address holds it all
  const hash = await page.evaluate(() => location.hash);
  const again = await open({}, hash);
  check('the address brings the text back', (await again.page.locator('#text').inputValue()) === (await page.locator('#text').inputValue()));
  const cells = (p) => p.locator('#numbers').textContent();
  check('the address brings the pinned state back', (await cells(again.page)) === (await cells(page)), [await cells(again.page), await cells(page)]);
  await again.context.close();
  await page.locator('#unpin').click();
  await settled(page);
  check('back to the pinned text', (await page.locator('#text').inputValue()) === before);
  await context.close();
}

async function theText() {
  const { context, page } = await open();
  const wrong = read('stock_trailer_hub.yaml').replace(/cleanliness: \w+/, 'cleanliness: muddy').replace(/^title: .*$/m, 'titel: a word');
  await putText(page, wrong);
  const said = JSON.parse(ask(['check', '-', '--format', 'json'], wrong).body).files[0].messages;
  const shown = await page.locator('#messages li').allTextContents();
  check('the messages are those of check', said.length >= 2 && shown.length === said.length &&
    said.every((m, i) => { const [, line, , text] = /:(\d+):(\d+): (.*)$/s.exec(m); return shown[i] === `line ${line} ${text}`; }), [shown, said]);
  const marked = await page.locator('#gutter .bad').allTextContents();
  check('their lines are marked', said.every((m) => marked.some((l) => l.trim() === `! ${/:(\d+):/.exec(m)[1]}`)), marked);
  check('it is said that there is no answer', await page.locator('#lacking').isVisible() && /No answer: line 4 of the text is wrong/.test(await page.locator('#lacking').textContent()), await page.locator('#lacking').textContent());
  await page.locator('#first-mistake').click();
  check('the first mistake is gone to, and said there', (await page.locator('#text').evaluate((e) => e.value.slice(0, e.selectionStart).split('\n').length)) === 4 &&
    /^line 4: /.test(await page.locator('#here').textContent()), await page.locator('#here').textContent());
  await barriers(page, 'mistakes');
  await page.screenshot({ path: join(folder, 'mistakes.png') });
  // completion
  const text = 'title: A\ncondition:\n  ';
  await putText(page, text);
  await page.locator('#text').focus();
  await page.keyboard.press('Control+End');
  await page.keyboard.press('Control+Space');
  const offered = await page.locator('#completion b').allTextContents();
  check('keys of the section are offered', offered.includes('cleanliness') && offered.includes('water') && !offered.includes('duty'), offered);
  await barriers(page, 'completion');
  await page.keyboard.type('cl');
  await page.keyboard.press('Enter');
  check('a key is put in', (await page.locator('#text').inputValue()) === `${text}cleanliness: `, await page.locator('#text').inputValue());
  await page.keyboard.type('normal\n  dust: ');
  await page.keyboard.press('Control+Space');
  check('words of the key are offered', (await page.locator('#completion b').allTextContents()).includes('light abrasive'));
  await page.keyboard.press('Escape');
  // files
  const path = join(folder, 'opened.yaml');
  writeFileSync(path, read('mooring_winch.yaml'));
  await page.locator('#file').setInputFiles(path);
  await settled(page);
  const saved = await kept(page, '#save-yaml');
  check('what is opened is what is saved', saved.name === 'opened.yaml' && saved.text === read('mooring_winch.yaml'), saved.name);
  const csv = await kept(page, '[data-keep=csv]'), table = ask(['life', '-', '--format', 'csv'], read('mooring_winch.yaml')).body;
  check('the CSV has the columns and rows of the program', csv.text.split('\n').length === table.split('\n').length && csv.text.split('\n')[0] === table.split('\n')[0]);
  await press(page, 'report');
  const svg = await page.evaluate(() => { const answer = document.getElementById('answer').shadowRoot;
    answer.querySelectorAll('details').forEach((d) => { d.open = true; });
    answer.querySelector('button.svg').id = 'first-svg'; return true; }) && await kept(page, '#first-svg');
  check('a chart is kept as SVG', svg.name.endsWith('.svg') && svg.text.includes('<svg') && svg.text.trimEnd().endsWith('</svg>'), svg.name);
  // too long for an address
  await putText(page, `${read('mooring_winch.yaml')}\n${Array.from({ length: 900 }, (_, i) => `# ${Math.sin(i)} ${Math.cos(i)}`).join('\n')}`);
  await page.locator('#copy-address').click();
  await page.waitForTimeout(300);
  check('a text too long for an address is said to be', /too long for an address/.test(await page.locator('#state').textContent()), await page.locator('#state').textContent());
  await context.close();
}

// A lesson opens by its address, asks first, and then shows the ratio of the program.
async function lessons() {
  const { context, page, troubles } = await open({}, '#lesson_2_debris');
  check('the question is asked', /How much of the clean life is left/.test(await page.locator('#question').textContent()) && await page.locator('#guess').isVisible());
  check('the answer is not seen yet', !(await page.locator('#verdict').isVisible()) && !(await page.locator('#answer').isVisible()) && !(await page.locator('#result').isVisible()));
  check('nor in the text', await page.locator('#text').evaluate((e) => e.scrollTop > 150));
  await barriers(page, 'lesson');
  await page.locator('#guess').fill('0.5');
  await page.keyboard.press('Enter');
  const life = (name) => JSON.parse(ask(['life', '-', '--format', 'json'], read(name)).body).system.modified_rating_life_h;
  const ratio = Number((life('lesson_2_debris.yaml') / life('lesson_1_clean.yaml')).toPrecision(2));
  const said = await page.locator('#guessed').textContent();
  check('the guess stands beside the ratio of the program', said.startsWith(`Guessed: x 0.5. The program says x ${ratio}: `), [said, ratio]);
  check('and the answer is seen', await page.locator('#verdict').isVisible() && await page.locator('#answer').isVisible() && /^Why: /.test(await page.locator('#why').textContent()));
  await page.evaluate(() => { location.hash = '#lesson_5_end_play'; });
  await settled(page);
  check('another address opens another lesson', /best life is left/.test(await page.locator('#question').textContent()) && await page.locator('#guess').isVisible(), await page.locator('#question').textContent());
  check('no error in the console', !troubles.length, troubles);
  await context.close();
}

// Whatever stands in a text stays text.
async function hostile() {
  const { context, page, troubles, requests } = await open();
  const evil = '<img src=x onerror="window.hacked=1"></title></script><script>window.hacked=1</script><b id=evil>';
  const quoted = `'${evil}'`;
  const text = read('trailer_hub_setting.yaml').replace(/^title: .*$/m, `title: ${quoted}`).replace(/^note: .*$/m, `note: ${quoted}`)
    .replace(/- phase: .*$/gm, `- phase: ${quoted}`).replace(/- name: (.*)$/gm, `- name: '$1 ${evil}'`);
  await putText(page, text);
  for (const question of ['life', 'compare', 'report', 'check', 'timeline']) {
    await press(page, question);
    const seen = await page.evaluate(() => {
      const roots = [document, ...['answer', 'now-verdict', 'pinned-verdict'].map((id) => document.getElementById(id).shadowRoot)];
      return [window.hacked, ...roots.map((r) => r.querySelectorAll('#evil, img, iframe, object').length), roots.slice(1).map((r) => r.querySelectorAll('script, [onerror]').length)];
    });
    check(`hostile text in ${question} stays text`, JSON.stringify(seen) === '[null,0,0,0,0,[0,0,0]]', seen);
  }
  check('the hostile title is there to be read', (await page.locator('#turn').textContent()).includes('<img src=x'));
  await putText(page, `title: ${quoted}\n${evil}: 1\n`);
  check('hostile text in messages stays text', (await page.evaluate(() => [window.hacked, document.querySelectorAll('#evil, #messages img').length])).join() === ',0', await page.locator('#messages').innerHTML());
  check('hostile text: no error, no request', !troubles.length && requests.length === 1, [troubles, requests]);
  await context.close();
}

async function endless() {
  const { context, page } = await open();
  const many = Array.from({ length: 400 }, (_, i) => `  - name: variant ${i}\n    condition: {water: ${200 + i} ppm}\n`).join('');
  await putText(page, read('beet_trailer_fleet.yaml').replace(/variants:\n(?: .*\n?)*/, `variants:\n${many}`));
  await page.locator('#commands').getByRole('button', { name: 'compare', exact: true }).click();
  const began = Date.now();
  await page.waitForFunction(() => /No answer in 5 seconds/.test(document.getElementById('state').textContent), null, { timeout: 30000 });
  check('what takes too long is stopped', Date.now() - began < 20000, Date.now() - began);
  await page.locator('#shipped').selectOption('scenarios/stock_trailer_hub.yaml');
  await press(page, 'life');
  check('and the page goes on', /Worked out in/.test(await page.locator('#state').textContent()), await page.locator('#state').textContent());
  await context.close();
}

// What can be turned, pressed, chosen or opened is reached with the Tab key alone.
async function keyboard() {
  const { context, page } = await open();
  const wanted = await page.evaluate(() => {
    const all = [...document.querySelectorAll('button, select, textarea, input, summary')];
    const there = all.filter((e) => !e.disabled && e.type !== 'file' && e.checkVisibility());
    there.forEach((e, i) => { e.dataset.wanted = i; });
    return there.length;
  });
  const seen = new Set();
  let unseen = 0;
  for (let i = 0; i < wanted + 40 && seen.size < wanted; i++) {
    await page.keyboard.press('Tab');
    const [number, outline] = await page.evaluate(() => {
      const e = document.activeElement, style = getComputedStyle(e);
      return [e.dataset.wanted, style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2];
    });
    if (number !== undefined) {
      seen.add(number);
      if (!outline) unseen++;
    }
  }
  check('the Tab key reaches everything', seen.size === wanted && wanted > 30, [seen.size, wanted]);
  check('what has the focus shows it', !unseen, unseen);
  await page.locator('#turn summary').nth(1).focus();
  await page.keyboard.press('Enter');
  check('a group is opened with Enter', await page.locator('#turn details').nth(1).evaluate((d) => d.open));
  await context.close();
}

async function paper() {
  const { context, page } = await open();
  await press(page, 'report');
  await page.emulateMedia({ media: 'print' });
  check('on paper: the answer without controls', !(await page.locator('#text').isVisible()) && !(await page.locator('#commands').isVisible()) && await page.locator('#answer').isVisible());
  check('on paper: the verdict is there', await page.evaluate(() => [...document.getElementById('answer').shadowRoot.querySelectorAll('p.doubtful')].some((p) => p.checkVisibility())));
  check('on paper: it says that it is an estimate', await page.getByText('An estimate for planning, not a safety approval').first().isVisible());
  await page.setViewportSize({ width: 688, height: 1000 }); // A4 without its margins, at 96 dots an inch
  check('on paper: nothing wider than the sheet', await page.evaluate(() => document.documentElement.scrollWidth) <= 688, await page.evaluate(() => document.documentElement.scrollWidth));
  const pdf = (await page.pdf({ path: join(folder, 'page.pdf'), preferCSSPageSize: true })).toString('latin1');
  const box = /MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/.exec(pdf);
  check('on paper: A4', box && Math.abs(box[1] - 595) < 2 && Math.abs(box[2] - 842) < 2, box && box.slice(1));
  await context.close();
}

for (const part of [looks, everyQuestion, turning, theText, lessons, hostile, endless, keyboard, paper]) {
  if (process.env.ONLY && !process.env.ONLY.split(',').includes(part.name)) continue;
  const began = Date.now();
  try {
    await part();
  } catch (failure) {
    check(part.name, false, String(failure).slice(0, 600));
  }
  console.log(`${part.name}: ${((Date.now() - began) / 1000).toFixed(1)} s`);
}
await browser.close();
console.log(`page: ${passed} passed, ${failed} failed`);
process.exit(failed ? 1 : 0);
