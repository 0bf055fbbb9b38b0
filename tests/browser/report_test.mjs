// SPDX-License-Identifier: GPL-3.0-or-later
// Loads HTML reports and SVG charts in a browser as a reader would. Usage: node report_test.mjs FOLDER, which
// holds *.html and *.svg and gets the screenshots. Each check is one test; prints "N passed, N failed".
import { createRequire } from 'node:module';
import { readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

const folder = resolve(process.argv[2]);
const bring = createRequire(join(folder, 'package.json'));
const { chromium } = bring('playwright-core');
const axe = bring.resolve('axe-core/axe.min.js');
let passed = 0, failed = 0;

function check(what, good, seen) {
  if (good) passed++;
  else {
    failed++;
    console.log(`FAILED ${what}${seen === undefined ? '' : `: ${JSON.stringify(seen)}`}`);
  }
}

const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM || '/usr/bin/chromium',
  args: ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
    '--disable-component-update', '--disable-sync'],
});

// Waits until so many cases are shown, which follow the address a moment later; the check that comes next says if not.
async function shownCases(page, count) {
  await page.waitForFunction((wanted) => [...document.querySelectorAll('section.case')].filter((s) => !s.hidden).length === wanted,
    count, { timeout: 5000 }).catch(() => {});
}

async function open(file, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1200, height: 900 }, ...options });
  const page = await context.newPage();
  const troubles = [], requests = [];
  page.on('console', (m) => { if (m.type() === 'error' || m.type() === 'warning') troubles.push(m.text()); });
  page.on('pageerror', (e) => troubles.push(String(e)));
  page.on('request', (r) => requests.push(r.url()));
  await page.goto(pathToFileURL(join(folder, file)).href);
  return { context, page, troubles, requests };
}

// Contrast of two CSS colours by the formula of WCAG 2.
const contrast = `(() => {
  const parse = (c) => c.match(/[\\d.]+/g).slice(0, 3).map(Number);
  const light = (c) => parse(c).map((v) => v / 255).map((v) => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4)
    .reduce((s, v, i) => s + v * [0.2126, 0.7152, 0.0722][i], 0);
  return (a, b) => { const x = light(a), y = light(b); return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05); };
})()`;

// The least contrast of any visible text of the page against the ground it stands on.
const worstText = `(() => {
  const ratio = ${contrast};
  const ground = (e) => { for (; e; e = e.parentElement) { const c = getComputedStyle(e).backgroundColor;
    if (c !== 'rgba(0, 0, 0, 0)') return c; } return 'rgb(255, 255, 255)'; };
  let worst = 99, who = '';
  for (const e of document.querySelectorAll('body *')) {
    if (e.tagName === 'SCRIPT' || e.tagName === 'STYLE' || e.closest('title,desc') || !e.getClientRects().length) continue;
    if (![...e.childNodes].some((n) => n.nodeType === 3 && n.nodeValue.trim())) continue;
    const style = getComputedStyle(e), svg = e.closest('svg');
    const against = svg ? ['--paper', '--card'].map((n) => getComputedStyle(svg).getPropertyValue(n).trim()).concat(
      svg.querySelector('[class*=-wash]') ? ['rust', 'ochre', 'moss', 'steel'].map((n) => getComputedStyle(svg).getPropertyValue('--' + n + '-wash').trim()) : [])
      .map((h) => 'rgb(' + [1, 3, 5].map((i) => parseInt(h.slice(i, i + 2), 16)).join() + ')') : [ground(e)];
    for (const g of against) {
      const r = ratio(svg ? style.fill : style.color, g);
      if (r < worst) { worst = r; who = e.tagName + ' ' + e.textContent.slice(0, 40) + ' on ' + g; }
    }
  }
  return { worst, who };
})()`;

// The uppermost value of every chart that is shown and has values.
async function checkHover(file, page) {
  const charts = await page.$$eval('svg.chart', (all) => all.filter((s) => s.getClientRects().length && s.querySelector('.tip')).map((s) => s.id));
  check(`${file}: charts have values to hover over`, charts.length >= 1, charts);
  for (const id of charts) {
    const target = page.locator(`[id="${id}"] .tip`).last(); // nothing lies over it
    const told = await target.getAttribute('data-tip');
    await target.scrollIntoViewIfNeeded();
    await page.mouse.move(1, 1);
    await target.locator('circle, path:not([class^="s-"]), text').first().hover(); // a straight line has no area
    const shown = await page.$eval('#tip', (t) => ({ hidden: t.hidden, text: t.textContent }));
    check(`${file}: hovering over ${id} shows the value`, !shown.hidden && shown.text === told, shown);
  }
}

// Charts whose numbers stand nowhere else have them as tables in a fold, which opens by the keyboard.
async function checkFolds(file, page) {
  const folds = page.locator('.case:not([hidden]) figure details');
  const charts = await page.$$eval('svg[id^="survival-"], svg[id^="zones-"]', (all) => all.filter((s) => s.getClientRects().length)
    .map((s) => ({ id: s.id, tables: s.closest('figure').querySelectorAll('details table').length })));
  for (const c of charts) check(`${file}: ${c.id} has its numbers as tables`, c.tables >= 2, c);
  for (let i = 0; i < await folds.count(); i++) {
    const table = folds.nth(i).locator('table').first();
    check(`${file}: fold ${i} is closed at first`, !await table.isVisible());
    await folds.nth(i).locator('summary').focus();
    await page.keyboard.press('Enter');
    check(`${file}: fold ${i} opens`, await table.isVisible());
    await page.keyboard.press('Enter');
  }
}

// With the second case shown, its charts are there and those of the first are not.
async function checkSwitch(file, page, links) {
  const shown = await page.$$eval('section.case svg.chart', (all) => all.filter((s) => s.getClientRects().length).map((s) => s.id));
  check(`${file}: every chart shown is of the second case`, shown.length > 0 && shown.every((id) => /-1-\d+$/.test(id)), shown);
  const names = await page.$$eval('section.case:not([hidden]) h2', (all) => all.map((h) => h.textContent));
  const name = await links.nth(1).textContent();
  check(`${file}: the heading names it`, names.length === 1 && names[0] === name, names);
}

// On paper: the case that is shown, closed folds closed, no working of a variant, and every border inside the page.
async function checkPrint(file, page, cases) {
  await page.emulateMedia({ media: 'print' });
  await page.setViewportSize({ width: 688, height: 1000 }); // A4 within margins of 14 mm
  if (cases) check(`${file}: paper has the case that is shown`, await page.locator('section.case:visible').count() === 1);
  const open = await page.$$eval('details:not([open]) table', (all) => all.filter((t) => t.checkVisibility({ contentVisibilityAuto: true })).length);
  check(`${file}: closed folds stay closed on paper`, open === 0, open);
  const width = await page.evaluate('document.documentElement.clientWidth');
  const cut = await page.$$eval('figure, p.met, p.missed, p.doubtful, table', (all, w) => all.filter((e) => e.getClientRects().length && e.getBoundingClientRect().right > w - 1)
    .map((e) => e.className || e.tagName), width);
  check(`${file}: no border is cut on paper`, cut.length === 0, cut);
  for (const format of ['A4', 'Letter']) {
    const pdf = await page.pdf({ path: join(folder, `${file}.${format}.pdf`), format, preferCSSPageSize: false, printBackground: false });
    const pages = (pdf.toString('latin1').match(/\/Type\s*\/Page[^s]/g) || []).length;
    if (cases > 1) check(`${file}: ${format} takes 20 pages at most with every part open`, pages >= 1 && pages <= 20, pages);
  }
  if (cases > 1) {
    await page.evaluate(() => { document.querySelector('nav.cases a[href="#cases"]').click(); });
    check(`${file}: paper has all cases where all are shown`, await page.locator('section.case:visible').count() === cases);
    const workings = await page.locator('.case .working summary:visible').count();
    check(`${file}: paper has the working of the first alone`, workings === 1, workings);
  }
  await page.emulateMedia({ media: null });
}

const openParts = (page) => page.$$eval('details.part', (all) => all.forEach((d) => { d.open = true; }));

// The front alone is printed while nothing below it is open, and takes one sheet.
async function checkFront(file) {
  const { context, page } = await open(file);
  check(`${file}: the front stands first`, await page.$eval('main', (m) => m.firstElementChild.id === 'front'));
  check(`${file}: the folds are closed at first`, await page.locator('details[open]').count() === 0);
  const pdf = await page.pdf({ path: join(folder, `${file}.front.pdf`), format: 'A4', preferCSSPageSize: true });
  const pages = (pdf.toString('latin1').match(/\/Type\s*\/Page[^s]/g) || []).length;
  check(`${file}: the front prints on one A4 sheet`, pages === 1, pages);
  const links = await page.$$eval('nav.contents a, nav.cases a', (all) => all.map((a) => a.getAttribute('href')));
  for (const link of links) {
    await page.evaluate((hash) => { location.hash = hash; }, link);
    const shown = await page.waitForFunction((hash) => { const e = document.getElementById(hash.slice(1));
      return e && !e.hidden && (e.tagName !== 'DETAILS' || e.open) && e.getClientRects().length; }, link, { timeout: 2000 }).catch(() => null);
    check(`${file}: the address ${link} shows its section`, shown);
  }
  await context.close();
}

// What keeps people out, by the rules of axe-core, with everything open, in light and dark and on a phone.
async function checkAccess(file) {
  for (const [width, colorScheme] of [[390, 'light'], [1440, 'light'], [1440, 'dark']]) {
    const { context, page } = await open(file, { viewport: { width, height: 900 }, colorScheme, bypassCSP: true });
    await page.$$eval('details', (all) => all.forEach((d) => { d.open = true; }));
    const broad = await page.evaluate('document.documentElement.scrollWidth');
    check(`${file}: no sideways scrolling at ${width} px with all folds open`, broad <= width, broad);
    await page.addScriptTag({ path: axe });
    const found = await page.evaluate('axe.run().then((r) => r.violations.map((v) => v.id + " " + v.nodes[0].html))');
    check(`${file}: axe finds nothing at ${width} px in ${colorScheme}`, found.length === 0, found);
    await context.close();
  }
}

async function checkReport(file) {
  const { context, page, troubles, requests } = await open(file);
  await openParts(page);
  check(`${file}: no trouble on the console`, troubles.length === 0, troubles);
  check(`${file}: nothing else is requested`, requests.length === 1, requests);
  const charts = await page.$$eval('svg.chart', (all) => all.filter((s) => s.getClientRects().length).map((s) => {
    const box = s.getBoundingClientRect();
    const named = s.getAttribute('aria-labelledby').split(' ').map((id) => document.getElementById(id));
    // text must stay on the paper of its chart
    const outside = [...s.querySelectorAll('text')].filter((t) => {
      const b = t.getBoundingClientRect();
      return b.left < box.left - 1 || b.right > box.right + 1 || b.bottom > box.bottom + 1 || b.top < box.top - 1;
    }).map((t) => t.textContent);
    return { id: s.id, width: box.width, height: box.height, named: named.every((n) => n && n.textContent.length > 10), outside };
  }));
  check(`${file}: it has charts`, charts.length >= 1, charts.length);
  for (const c of charts) {
    check(`${file}: chart ${c.id} has a size`, c.width > 200 && c.height > 60, c);
    check(`${file}: chart ${c.id} has title and description`, c.named);
    check(`${file}: chart ${c.id} keeps its text on the paper`, c.outside.length === 0, c.outside);
  }
  const ids = await page.$$eval('[id]', (all) => all.map((e) => e.id));
  check(`${file}: every id once`, new Set(ids).size === ids.length);
  const levels = await page.$$eval('h1,h2,h3,h4,h5,h6', (all) => all.map((h) => Number(h.tagName[1])));
  check(`${file}: headings skip no level`, levels[0] === 1 && levels.every((l, i) => i === 0 || l <= levels[i - 1] + 1), levels);
  const bare = await page.$$eval('table', (all) => all.filter((t) => !t.caption || [...t.querySelectorAll('th')].some((h) => !h.scope)).length);
  check(`${file}: every table has a caption and its heads a scope`, bare === 0, bare);

  await checkHover(file, page);
  await checkFolds(file, page);

  const links = page.locator('nav.cases a');
  const cases = await page.locator('section.case').count();
  if (cases > 1) {
    check(`${file}: a link for each case and for all`, await links.count() === cases + 1);
    check(`${file}: one case at first`, await page.locator('section.case:visible').count() === 1);
    await links.nth(1).click();
    await shownCases(page, 1);
    const shown = await page.$$eval('section.case', (all) => all.map((s) => s.hidden ? 0 : 1));
    check(`${file}: the second link shows the second case alone`, shown.join() === shown.map((s, i) => i === 1 ? 1 : 0).join(), shown);
    check(`${file}: the case has an address`, page.url().endsWith(await links.nth(1).getAttribute('href')));
    check(`${file}: the link says so`, await links.nth(1).getAttribute('aria-current') === 'true');
    await checkSwitch(file, page, links);
    await links.last().click();
    await shownCases(page, cases);
    check(`${file}: the last link shows all`, await page.locator('section.case:visible').count() === cases);
    await links.first().click();
  }
  await page.screenshot({ path: join(folder, `${file}.light.png`), fullPage: true });
  const light = await page.evaluate(worstText);
  check(`${file}: contrast in light is 4.5 or more`, light.worst >= 4.5, light);
  await page.emulateMedia({ colorScheme: 'dark' });
  const dark = await page.evaluate(worstText);
  check(`${file}: contrast in dark is 4.5 or more`, dark.worst >= 4.5, dark);
  await page.screenshot({ path: join(folder, `${file}.dark.png`), fullPage: true });
  await page.emulateMedia({ colorScheme: 'light' });
  await checkPrint(file, page, cases);
  check(`${file}: still no trouble`, troubles.length === 0, troubles);
  check(`${file}: still nothing else requested`, requests.length === 1, requests);
  await context.close();
}

async function checkNarrow(file) {
  const { context, page } = await open(file, { viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true, deviceScaleFactor: 2 });
  await openParts(page);
  const width = await page.evaluate('document.documentElement.scrollWidth');
  check(`${file}: no sideways scrolling at 390 px`, width <= 390, width);
  const small = await page.evaluate(`Math.min(...[...document.querySelectorAll('svg.chart')].filter((s) => s.getClientRects().length)
    .map((s) => s.getBoundingClientRect().width / s.viewBox.baseVal.width * 13))`);
  check(`${file}: chart text of 13 px or more at 390 px`, small >= 13, small);
  await page.screenshot({ path: join(folder, `${file}.390.png`), fullPage: true });
  await context.close();
}

async function checkWithoutScript(file) {
  const { context, page } = await open(file, { javaScriptEnabled: false });
  const all = await page.locator('section.case').count();
  check(`${file}: without script every case is shown`, await page.locator('section.case:visible').count() === all);
  await context.close();
}

async function checkChart(file) {
  const { context, page, troubles, requests } = await open(file);
  const outside = await page.$eval('svg', (s) => { const w = s.viewBox.baseVal.width, h = s.viewBox.baseVal.height;
    return [...s.querySelectorAll('text')].filter((t) => { const b = t.getBBox(); return b.x < 0 || b.y < 0 || b.x + b.width > w || b.y + b.height > h; })
      .map((t) => t.textContent); });
  check(`${file}: its text stays on the paper`, outside.length === 0, outside);
  check(`${file}: no trouble`, troubles.length === 0 && requests.length === 1, [troubles, requests]);
  const box = await page.$eval('svg', (s) => { const b = s.getBBox(); return [b.width, b.height]; });
  check(`${file}: it has a size`, box[0] > 200 && box[1] > 80, box);
  for (const colorScheme of ['light', 'dark']) {
    await page.emulateMedia({ colorScheme });
    await page.screenshot({ path: join(folder, `${file}.${colorScheme}.png`) });
  }
  await context.close();
}

const files = readdirSync(folder).sort();
async function checkPage(file) {
  await checkFront(file);
  await checkAccess(file);
  await checkReport(file);
  await checkNarrow(file);
  await checkWithoutScript(file);
}

// Several files at a time, each in contexts of its own: a page often waits for its next frame.
const waiting = [...files.filter((f) => f.endsWith('.html')), ...files.filter((f) => f.endsWith('.svg'))];
await Promise.all([0, 1, 2, 3].map(async () => {
  for (let file = waiting.shift(); file; file = waiting.shift())
    await (file.endsWith('.svg') ? checkChart : checkPage)(file);
}));
await browser.close();
if (passed + failed < 50) {
  failed++;
  console.log(`FAILED: only ${passed} checks ran; are the reports in ${folder}?`);
}
console.log(`browser: ${passed} passed, ${failed} failed`);
process.exit(failed ? 1 : 0);
