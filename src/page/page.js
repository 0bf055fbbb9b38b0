// SPDX-License-Identifier: GPL-3.0-or-later
// The page moves text between its parts and the program, which works in worker.js: what is shown of an answer is written
// by the program, and so are the values that can be turned and the text after a turn.
'use strict';
(() => {
  const at = (id) => document.getElementById(id);
  const LIMIT_MS = 5000, LONGEST_ADDRESS = 8000, STEPS = 400, ROWS_SHOWN = 200;
  const shipped = JSON.parse(at('files').textContent);
  const catalogs = shipped.filter((f) => f.name.startsWith('catalogs/'));
  const examples = shipped.filter((f) => !f.name.startsWith('catalogs/'));

  // what each command does, in a line
  const summaries = new Map(at('summaries').textContent.trim().split('\n').map((l) => l.split('\t')));

  // as a case of damage in the folder below names them
  const besideDamaged = examples.map((f) => ({ name: f.name.replace('scenarios/', '../'), text: f.text }));

  // What can be asked. `of`: what the text has to be, if not a scenario; `bare`: needs no text; `words`: the reader's own
  // words come first; `rows`, `plain`, `page`: answers in rows, in text alone, in HTML alone.
  const questions = [
    { name: 'life', explains: true }, { name: 'compare' }, { name: 'reach', explains: true }, { name: 'choose' }, { name: 'timeline', explains: true },
    { name: 'setting', explains: true }, { name: 'schedule', explains: true }, { name: 'spread' }, { name: 'report', page: true },
    { name: 'sweep', rows: true }, { name: 'damage', words: true }, { name: 'check', explains: true },
    { name: 'fit', of: 'field' }, { name: 'duty', of: 'history' }, { name: 'diagnose', of: 'damaged' },
    { name: 'catalog', words: true, bare: true }, { name: 'schema', plain: true, bare: true }, { name: 'help', words: true, bare: true },
  ];
  // Rows of the table beside the pinned state: where the number stands in the answer of `life`.
  const numbers = [
    ['life, condition as stated, h', (s) => s.system.modified_rating_life_h], ['basic rating life, h', (s) => s.system.basic_rating_life_h],
    ['oil film kappa', (s, p) => p.effective_viscosity_ratio], ['dirt e_C', (s, p) => p.contamination_factor],
    ['life factor a_ISO', (s, p) => p.life_modification_factor], ['water factor a_w', (s, p) => p.water_factor],
    ['equivalent load, N', (s, p) => p.equivalent_load_n],
  ];

  const state = { question: 'life', pinned: null, now: null, name: 'scenario.yaml', kind: 'scenario', ends: new Map(), schema: null };
  const editor = at('text');

  // ---- the worker ---------------------------------------------------------------------------------
  // A job is some runs on one text. Of those that wait in a slot only the newest is kept, and it also ends the one of its
  // slot that is being worked on, after the run that is under way.
  const waiting = new Map();
  let worker = null, ready = false, current = null, timer = 0, count = 0, module = null;

  function startWorker() {
    const address = URL.createObjectURL(new Blob([at('worker').textContent], { type: 'text/javascript' }));
    worker = new Worker(address);
    URL.revokeObjectURL(address);
    ready = false;
    worker.onmessage = (event) => heard(event.data);
    worker.onerror = (event) => restart(`The program stopped: ${event.message}.`);
    worker.postMessage({ start: module, catalogs });
  }

  function heard(told) {
    if (told.failed) {
      say(`The program could not be started: ${told.failed}`, true);
    } else if (told.ready) {
      ready = true;
      send();
    } else if (current && told.id === count) {
      clearTimeout(timer);
      timer = 0;
      if (told.failure) restart(`The program stopped: ${told.failure}.`);
      else take(current, told);
    }
  }

  function take(job, told) {
    job.text = told.text;
    job.controls = told.controls || job.controls;
    job.got.push(told.run);
    if (job.got.length === job.runs.length) current = null;
    job.step(job);
    send();
  }

  // Ends the worker, whatever it does, and starts another.
  function restart(words) {
    const job = current;
    clearTimeout(timer);
    timer = 0;
    current = null;
    worker.terminate();
    startWorker();
    if (job) job.stopped(words);
  }

  function send() {
    if (!ready || timer) return;
    if (!current || waiting.has(current.slot)) {
      const slot = waiting.has('now') && current ? 'now' : [...waiting.keys()][0];
      if (!slot) return;
      current = { slot, got: [], ...waiting.get(slot) };
      waiting.delete(slot);
      Object.assign(current, current.make());
    }
    const first = !current.got.length;
    timer = setTimeout(() => restart(`No answer in ${LIMIT_MS / 1000} seconds, so it was stopped. Ask for less: fewer samples, ` +
      'rows or slices; or run it with the program on your own machine.'), LIMIT_MS);
    worker.postMessage({
      id: ++count, text: current.text, set: first ? current.set : [], controls: first && current.turns, files: state.kind === 'damaged' ? besideDamaged : examples,
      ...current.runs[current.got.length],
    });
  }

  function ask(slot, job) {
    waiting.set(slot, job);
    send();
  }

  // The results of some runs on a text beside the one in the editor, or of it.
  const asked = (slot, text, runs) => new Promise((resolve, reject) => {
    ask(slot, {
      make: () => ({ text, runs }),
      step: (job) => { if (job.got.length === runs.length) resolve(job.got); },
      stopped: (words) => reject(new Error(words)),
    });
  });

  async function unpack(text) {
    const packed = Uint8Array.from(atob(text.trim()), (c) => c.charCodeAt(0));
    return through(packed, new DecompressionStream('gzip'));
  }

  async function through(data, stream) {
    return new Response(new Blob([data]).stream().pipeThrough(stream)).arrayBuffer();
  }

  // ---- answers: in a root of their own, so that two of them may have the same ids -----------------
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(at('answer-style').textContent);

  function makeRoot(id) {
    const root = at(id).attachShadow({ mode: 'open' });
    root.adoptedStyleSheets = [sheet];
    root.addEventListener('click', pickCase);
    for (const kind of ['pointermove', 'pointerdown']) root.addEventListener(kind, followTip);
    return root;
  }

  function pickCase(event) {
    const link = event.target.closest('nav.cases a');
    if (!link) return;
    event.preventDefault();
    showCase(link.getRootNode(), link.getAttribute('href'));
  }

  function showCase(root, hash) {
    const cases = [...root.querySelectorAll('section.case')], known = cases.some((c) => `#${c.id}` === hash);
    cases.forEach((c) => { c.hidden = known && `#${c.id}` !== hash; });
    root.querySelectorAll('nav.cases a').forEach((a) => {
      if (a.getAttribute('href') === (known ? hash : '#cases')) a.setAttribute('aria-current', 'true');
      else a.removeAttribute('aria-current');
    });
  }

  function followTip(event) {
    const tip = at('tip'), mark = event.target.closest && event.target.closest('[data-tip]');
    tip.hidden = !mark;
    if (!mark) return;
    tip.textContent = mark.getAttribute('data-tip');
    const x = Math.max(4, Math.min(event.clientX + 14, innerWidth - tip.offsetWidth - 8));
    const below = event.clientY + 14, y = below + tip.offsetHeight + 8 > innerHeight ? event.clientY - tip.offsetHeight - 10 : below;
    tip.style.left = `${x}px`;
    tip.style.top = `${y}px`;
  }

  const roots = { answer: makeRoot('answer'), now: makeRoot('now-verdict'), pinned: makeRoot('pinned-verdict') };

  // The only place where markup enters the page: fragments that the program wrote, in which all text is escaped.
  function showFragment(root, fragment) {
    root.innerHTML = fragment;
    root.querySelectorAll('.tip > title').forEach((t) => t.remove());
    if (root.querySelector('nav.cases')) showCase(root, '#case-0');
    if (root !== roots.answer) return;
    root.querySelectorAll('figure > svg').forEach((svg) => {
      const button = make('button', 'save as SVG');
      button.type = 'button';
      button.className = 'svg';
      button.addEventListener('click', () => keepChart(svg));
      svg.after(button);
    });
  }

  function showText(root, text) {
    root.replaceChildren();
    if (text) root.append(Object.assign(document.createElement('pre'), { textContent: text, className: 'plain', tabIndex: 0 }));
  }

  function make(tag, text) {
    const element = document.createElement(tag);
    if (text !== undefined) element.textContent = text;
    return element;
  }

  // e_C with its subscript.
  function withSubscripts(element, text) {
    element.append(...text.split(/(_[A-Za-z]+)/).filter(Boolean).map((t) => (t.startsWith('_') ? make('sub', t.slice(1)) : t)));
    return element;
  }

  // ---- what is asked ------------------------------------------------------------------------------
  function line(question, format) {
    const words = [question.name];
    const own = question.words ? at('words').value.trim() : '';
    if (own) words.push(...(question.name === 'catalog' ? own.split(/\s+(.*)/s).filter(Boolean) : [own]));
    if (!question.bare && !(question.words && !own)) words.push('-');
    if (question.explains && at('explain').checked && format !== 'csv') words.push('--explain');
    if (question.rows) words.push('--format', format === 'json' ? 'jsonl' : 'csv');
    else if (!question.page && !question.plain) words.push('--format', format);
    else if (question.plain && format === 'json') words.push('--format', 'json');
    return question.bare && question.name !== 'catalog' ? words : [...words, ...inFolder];
  }

  const find = (name) => questions.find((q) => q.name === name);
  function kindOf(text) {
    if (!state.name.endsWith('.csv')) return /^(case|cases|findings):/m.test(text) ? 'damaged' : 'scenario';
    return /^[^#\n]*(load|force)/m.test(text.split('\n').slice(0, 9).join('\n')) ? 'history' : 'field';
  }
  const fits = (question) => question.bare || (question.of || 'scenario') === state.kind;
  const inFolder = ['--catalog', 'catalogs'];
  const lifeRun = (format) => ({ line: ['life', '-', '--quiet', '--format', format, ...inFolder], fragment: format === 'html' });

  // The answer, then what is said of the text, then numbers and verdict to stand beside what is pinned.
  function runsOf(question) {
    const runs = [{ line: line(question, question.rows ? 'json' : 'html'), fragment: !question.rows && !question.plain }];
    if (state.kind !== 'scenario') return runs;
    runs.push({ line: ['check', '-', '--format', 'json', ...inFolder] }, lifeRun('json'));
    if (question.name !== 'life') runs.push(lifeRun('html'));
    return runs;
  }

  // Asks the question of the text as it stands when its turn comes, with the values that were turned since.
  const turned = new Map();
  function renew() {
    const question = find(state.question);
    let text;
    say('Working.');
    ask('now', {
      make: () => {
        text = editor.value;
        return { text, set: [...turned], turns: state.kind === 'scenario', runs: runsOf(question) };
      },
      step: (job) => {
        if (job.got.length === 1) job.set.forEach(([path, value]) => { if (turned.get(path) === value) turned.delete(path); });
        if (editor.value !== text) return; // the text went on: its own answer is under way
        text = job.text;
        show(job, question);
      },
      stopped: (words) => { turned.clear(); say(words, true); showText(roots.answer, ''); showNumbers(null); },
    });
  }

  function turn(path, value) {
    turned.set(path, value);
    renew();
  }

  function say(words, bad) {
    at('state').textContent = words;
    at('state').className = bad ? 'bad' : '';
    document.documentElement.dataset.state = bad ? 'bad' : words === 'Working.' ? 'working' : 'done';
  }

  function show(job, question) {
    const [answer, check, life, verdict = answer] = job.got;
    if (job.got.length === 1) {
      if (job.text !== editor.value) putText(job.text);
      if (job.controls) showControls(job.controls);
      showAnswer(answer, question);
    }
    if (job.got.length === 2) showMessages(JSON.parse(check.body || '{"files":[]}').files);
    if (job.got.length < job.runs.length) return;
    showNumbers(life && life.body ? { text: job.text, numbers: summary(JSON.parse(life.body)), verdict: verdict.body } : null);
    sayDone(answer);
    keepAddress();
  }

  const outcomes = ['', 'A target is missed, or not shown to be met.'];

  function showAnswer(answer, question) {
    if (!answer.body) showText(roots.answer, answer.messages);
    else if (question.rows) showRows(roots.answer, answer.body.trimEnd().split('\n'));
    else if (question.plain) showText(roots.answer, answer.body);
    else showFragment(roots.answer, answer.body);
  }

  function sayDone(answer) {
    const spent = `Worked out in ${answer.spent < 1 ? 'less than 1' : Math.round(answer.spent)} ms.`;
    if (!answer.body) say('There is no answer; the program says why.', true);
    else say(`${spent} ${outcomes[answer.exit] || ''}`.trim());
  }

  // Rows of a sweep, each an object; the files that are kept hold them all.
  function showRows(root, lines) {
    const table = make('table'), head = make('tr'), body = make('tbody'), box = make('div');
    const rows = lines.slice(0, ROWS_SHOWN).map((l) => JSON.parse(l));
    head.append(...Object.keys(rows[0]).map((key) => Object.assign(make('th', key.replaceAll('_', ' ')), { scope: 'col' })));
    body.append(...rows.map((row) => {
      const line = make('tr');
      line.append(...Object.values(row).map((value) => Object.assign(make('td', typeof value === 'number' ? written(value, 4) : String(value ?? '')),
        { className: typeof value === 'number' ? 'n' : '' })));
      return line;
    }));
    table.append(make('thead'), body);
    table.tHead.append(head);
    box.append(table);
    Object.assign(box, { className: 'wide', tabIndex: 0 });
    box.setAttribute('role', 'group');
    box.setAttribute('aria-label', 'Rows of the sweep');
    const said = `${lines.length} rows${lines.length > ROWS_SHOWN ? `, of which the first ${ROWS_SHOWN} stand here; the files below hold them all` : ''}`;
    root.replaceChildren(Object.assign(make('p', said), { className: 'count' }), box);
  }

  // ---- numbers beside the pinned ones -------------------------------------------------------------
  function summary(answer) {
    const life = (b) => (b.modified_rating_life_h === null ? Infinity : b.modified_rating_life_h);
    const bearing = answer.bearings.reduce((a, b) => (life(b) < life(a) ? b : a));
    const phase = bearing.phases.reduce((a, b) => ((b.damage_share || 0) > (a.damage_share || 0) ? b : a));
    return numbers.map(([, take]) => take(answer, phase));
  }

  function written(value, digits = 3) {
    if (value === null || value === undefined) return 'none';
    const rounded = Number(value.toPrecision(digits));
    if (Math.abs(rounded) >= 1e7) return 'over 10 million';
    const [whole, part] = String(rounded).split('.');
    return whole.replace(/\B(?=(\d{3})+$)/g, '\u00a0') + (part ? `.${part}` : '');
  }

  function cutVerdict(root, from) {
    showFragment(root, from ? from.verdict : '');
    [...root.children].slice(1).forEach((e) => e.remove());
    root.querySelectorAll('h2').forEach((h) => h.remove());
    root.querySelectorAll('.wide, figure, ul').forEach((e) => e.remove());
    [...root.querySelectorAll('p')].slice(1).forEach((p) => p.remove());
  }

  function showNumbers(now) {
    state.now = now;
    if (now && !state.pinned) state.pinned = now;
    const rows = numbers.map(([name], i) => {
      const now = state.now && state.now.numbers[i], then = state.pinned && state.pinned.numbers[i];
      const row = make('tr'), head = withSubscripts(make('th'), name);
      head.scope = 'row';
      const ratio = now && then ? now / then : null;
      row.append(head, make('td', state.now ? written(now) : ''), make('td', state.pinned ? written(then) : ''), make('td', ratio === null ? '' : `x ${written(ratio)}`));
      row.querySelectorAll('td').forEach((d) => { d.className = 'n'; });
      if (ratio !== null && Math.abs(ratio - 1) > 5e-4) row.className = 'differs';
      return row;
    });
    at('numbers').tBodies[0].replaceChildren(...rows);
    cutVerdict(roots.now, state.now);
    cutVerdict(roots.pinned, state.pinned);
    const same = Boolean(state.now && state.pinned.text === state.now.text);
    document.body.classList.toggle('same', same);
    at('verdict-head').textContent = same || !state.now ? 'The answer' : 'The answer, beside what is pinned';
    showOnce();
    showResult(same);
    showLack();
    at('unpin').disabled = !state.pinned || state.pinned.text === at('text').value;
    at('pin').disabled = !state.now || (state.pinned && state.pinned.text === state.now.text);
  }

  // The life below the values that are turned, where the answer itself may be out of sight.
  function showResult(same) {
    const life = state.now && state.now.numbers[0], then = state.pinned && state.pinned.numbers[0];
    at('result').hidden = !life;
    at('result').textContent = life ? `life ${written(life)} h${same || !then ? '' : `, x ${written(life / then)} beside the pinned ${written(then)} h`}` : '';
  }

  // A verdict that stands above is not said again by the answer, but on paper.
  function showOnce() {
    const first = (root) => root.querySelector('p.met, p.missed, p.doubtful'), above = first(roots.now), below = first(roots.answer);
    if (below) below.classList.toggle('repeated', Boolean(above) && above.textContent === below.textContent);
  }

  // In place of a verdict, where the text has mistakes.
  function showLack() {
    const lines = [...marked.keys()];
    at('lacking').hidden = Boolean(state.now) || !lines.length;
    at('lacking').firstChild.textContent = lines.length === 1 ? `No answer: line ${lines[0]} of the text is wrong.` : `No answer: ${lines.length} lines of the text are wrong.`;
  }

  // ---- what can be turned -------------------------------------------------------------------------
  // The ends of a slider stay while its value lies between them, so that it does not move under the hand.
  function endsOf(control) {
    const kept = state.ends.get(control.path);
    if (kept && kept.unit === control.unit && control.number >= kept.lowest && control.number <= kept.highest) return kept;
    const ends = { lowest: control.lowest, highest: control.highest, ratios: control.ratios, unit: control.unit };
    state.ends.set(control.path, ends);
    return ends;
  }

  function toPlace(value, ends) {
    const part = ends.ratios ? Math.log(value / ends.lowest) / Math.log(ends.highest / ends.lowest) : (value - ends.lowest) / (ends.highest - ends.lowest);
    return Math.round(STEPS * part);
  }

  // Three digits are as fine as a hand turns; the ends are as they are.
  function toValue(place, ends) {
    if (place <= 0) return ends.lowest;
    if (place >= STEPS) return ends.highest;
    const part = place / STEPS;
    const value = ends.ratios ? ends.lowest * (ends.highest / ends.lowest) ** part : ends.lowest + part * (ends.highest - ends.lowest);
    const step = 10 ** Math.floor(Math.log10((ends.highest - ends.lowest) / STEPS));
    return Number(ends.ratios ? value.toPrecision(3) : (Math.round(value / step) * step).toPrecision(6));
  }

  function makeRange(control) {
    const ends = endsOf(control), input = make('input');
    input.type = 'range';
    input.min = 0;
    input.max = STEPS;
    input.value = toPlace(control.number, ends);
    const value = () => `${toValue(Number(input.value), ends)} ${control.unit}`;
    input.setAttribute('aria-valuetext', control.value === null ? 'not stated' : control.value);
    input.addEventListener('input', () => {
      input.setAttribute('aria-valuetext', value());
      input.closest('.control').querySelector('output').textContent = value();
      turn(control.path, value());
    });
    return input;
  }

  function makeChoice(control) {
    const input = make('select');
    control.words.forEach((word) => input.append(new Option(word, word, false, word === control.value)));
    input.addEventListener('change', () => turn(control.path, input.value));
    return input;
  }

  function makeControl(control) {
    const box = make('div'), label = make('label', control.label), input = control.words ? makeChoice(control) : makeRange(control);
    box.className = 'control';
    input.id = label.htmlFor = `turn-${control.path}`;
    input.dataset.path = control.path;
    box.append(label, input);
    if (!control.words) box.append(make('output', control.value === null ? 'not stated' : control.value));
    return box;
  }

  // The groups are made anew only where other values can be turned than before, so that the focus stays.
  function showControls(groups) {
    const shape = JSON.stringify(groups.map((g) => [g.title, g.controls.map((c) => [c.path, c.unit, c.words])]));
    if (shape === state.shape) {
      groups.forEach((g) => g.controls.forEach(refresh));
      return;
    }
    state.shape = shape;
    at('turn').replaceChildren(...groups.filter((g) => g.controls.length).map((group, i) => {
      if (!group.title) {
        const box = make('div');
        box.append(...group.controls.map(makeControl));
        return box;
      }
      const fold = make('details'), summary = make('summary');
      summary.append(make('bdi', group.title));
      fold.open = i <= 1;
      fold.append(summary, ...group.controls.map(makeControl));
      return fold;
    }));
  }

  function refresh(control) {
    if (turned.has(control.path)) return; // under the hand, and further on by now
    const input = at(`turn-${control.path}`), output = input.closest('.control').querySelector('output');
    if (control.words) input.value = control.value;
    else if (document.activeElement !== input || toValue(Number(input.value), endsOf(control)) !== control.number) input.value = toPlace(control.number, endsOf(control));
    if (output) output.textContent = control.value === null ? 'not stated' : control.value;
    if (output) input.setAttribute('aria-valuetext', output.textContent);
  }

  // ---- the text -----------------------------------------------------------------------------------

  function putText(text) {
    const { scrollTop, selectionStart, selectionEnd } = editor;
    editor.value = text;
    editor.setSelectionRange(selectionStart, selectionEnd);
    editor.scrollTop = scrollTop;
    numberLines();
  }

  let marked = new Map();
  function numberLines() {
    const lines = editor.value.split('\n').length;
    at('gutter').replaceChildren(...Array.from({ length: lines }, (_, i) => {
      const number = make('span', `${marked.has(i + 1) ? '! ' : ''}${i + 1}\n`);
      if (marked.has(i + 1)) number.className = 'bad';
      return number;
    }));
    at('gutter').scrollTop = editor.scrollTop;
  }

  function showMessages(files) {
    const all = files.flatMap((f) => f.messages || []).map((m) => {
      const parts = /^[^:]*:(\d+):(\d+): (.*)$/s.exec(m);
      return parts ? { line: Number(parts[1]), column: Number(parts[2]), text: parts[3] } : { line: 0, column: 0, text: m };
    });
    marked = new Map();
    all.filter((m) => m.line).forEach((m) => marked.set(m.line, [...(marked.get(m.line) || []), m.text]));
    at('messages').replaceChildren(...all.map((m) => {
      const item = make('li'), button = make('button', `line ${m.line}`);
      button.type = 'button';
      button.addEventListener('click', () => goTo(m.line, m.column));
      item.append(button, ` ${m.text}`);
      return item;
    }));
    at('messages').hidden = !all.length;
    if (all.length) at('text-fold').open = true;
    showHere();
    if (all.length) editor.setAttribute('aria-invalid', 'true');
    else editor.removeAttribute('aria-invalid');
    numberLines();
  }

  // What is wrong with the line of the cursor.
  function showHere() {
    const row = editor.value.slice(0, editor.selectionStart).split('\n').length, said = marked.get(row);
    at('here').hidden = !said;
    at('here').textContent = said ? `line ${row}: ${said.join('; ')}` : '';
  }
  for (const kind of ['keyup', 'click']) editor.addEventListener(kind, showHere);

  function goTo(row, column) {
    at('text-fold').open = true;
    const lines = editor.value.split('\n');
    const place = lines.slice(0, row - 1).reduce((sum, l) => sum + l.length + 1, 0) + column - 1;
    editor.focus();
    editor.setSelectionRange(place, place);
    editor.scrollTop = (row - 6) * parseFloat(getComputedStyle(editor).lineHeight);
    showHere();
  }

  let typing = 0;
  function typed() {
    numberLines();
    clearTimeout(typing);
    typing = setTimeout(() => renew(), 150);
  }
  editor.addEventListener('input', () => { typed(); complete(false); });
  editor.addEventListener('scroll', () => { at('gutter').scrollTop = editor.scrollTop; });
  editor.addEventListener('blur', () => { at('completion').hidden = true; });

  // ---- completion from the schema -----------------------------------------------------------------
  const alternatives = (schema) => (schema ? [schema, ...(schema.anyOf || []).flatMap(alternatives), ...(schema.oneOf || []).flatMap(alternatives)] : []);

  function inside(schemas, key) {
    return schemas.flatMap(alternatives).flatMap((s) => (key === '-' ? (s.items ? [s.items] : []) : s.properties && s.properties[key] ? [s.properties[key]] : []));
  }

  // The keys above the cursor that hold it, by their indentation.
  function pathAt(lines, row, indent) {
    const path = [];
    let least = indent;
    for (let i = row - 1; i >= 0 && least > 0; i--) {
      const parts = /^( *)((?:- +)*)([\w]+):\s*(?:[#&].*)?$/.exec(lines[i]) || /^( *)((?:- +)+)([\w]+):/.exec(lines[i]);
      if (!parts) continue;
      const dash = parts[1].length, column = dash + parts[2].length;
      if (column < least && !/:\s*[^#\s]/.test(lines[i])) {
        path.unshift(parts[3]);
        least = column;
      }
      if (parts[2] && dash < least) {
        path.unshift('-');
        least = dash + 1 > least ? least : dash + 1;
      } else if (parts[2] && column === least) {
        path.unshift('-');
        least = dash + 1;
      }
    }
    return path;
  }

  function offers() {
    const before = editor.value.slice(0, editor.selectionStart), lines = before.split('\n'), last = lines.pop();
    const value = /^( *(?:- +)*)([\w]+): +([^#{\[]*)$/.exec(last), key = /^( *)((?:- +)*)([\w]*)$/.exec(last);
    const flow = /^( *(?:- +)*)([\w]+): *\{(?:[^}]*, *)?([\w]*)$/.exec(last);
    if (!state.schema) return null;
    const resolve = (path) => path.reduce(inside, [state.schema]);
    if (flow) {
      const found = inside(resolve(withDash(pathAt(lines, lines.length, flow[1].length), flow[1])), flow[2]);
      return listKeys(found, flow[3], last.slice(last.indexOf('{')));
    }
    if (value) {
      const found = inside(resolve(withDash(pathAt(lines, lines.length, value[1].length), value[1])), value[2]).flatMap(alternatives);
      const words = [...new Set(found.flatMap((s) => s.enum || []).map((w) => (w === true ? 'yes' : w === false ? 'no' : String(w))))];
      return { part: value[3], items: words.filter((w) => w.startsWith(value[3]) && w !== value[3]).map((w) => ({ word: w, put: w, help: '' })) };
    }
    if (!key) return null;
    const path = withDash(pathAt(lines, lines.length, key[1].length + key[2].length), key[2]);
    return listKeys(resolve(path), key[3], neighbours(lines, key[1].length + key[2].length));
  }

  const withDash = (path, lead) => (lead.includes('-') && path[path.length - 1] !== '-' ? [...path, '-'] : path);

  // Text of the section so far, whose keys are not offered again.
  function neighbours(lines, indent) {
    const held = [];
    for (let i = lines.length - 1; i >= 0; i--) {
      const lead = /^ *(?:- +)*/.exec(lines[i])[0];
      if (lines[i].trim() && !lines[i].trim().startsWith('#') && lead.length < indent) break;
      if (lead.length === indent) held.push(lines[i]);
      if (lead.includes('-') && lead.length === indent) break;
    }
    return held.join('\n');
  }

  function listKeys(schemas, part, taken) {
    const keys = new Map();
    schemas.flatMap(alternatives).forEach((s) => Object.entries(s.properties || {}).forEach(([k, v]) => keys.set(k, v.description || '')));
    const used = new Set([...taken.matchAll(/([\w]+):/g)].map((m) => m[1]));
    return { part, items: [...keys].filter(([k]) => k.startsWith(part) && k !== part && !used.has(k)).map(([k, help]) => ({ word: k, put: `${k}: `, help })) };
  }

  let chosen = -1;
  function complete(always) {
    const found = offers(), list = at('completion');
    list.hidden = !found || !found.items.length || (!always && !found.part);
    chosen = -1;
    editor.removeAttribute('aria-activedescendant');
    if (list.hidden) return;
    list.replaceChildren(...found.items.slice(0, 30).map((item, i) => {
      const option = make('li'), word = make('b', item.word);
      option.id = `offer-${i}`;
      option.setAttribute('role', 'option');
      option.setAttribute('aria-selected', 'false');
      option.append(word, ` ${item.help}`);
      option.addEventListener('pointerdown', (e) => { e.preventDefault(); accept(found, item); });
      option.dataset.put = i;
      return option;
    }));
    list.found = found;
    const style = getComputedStyle(editor), high = parseFloat(style.lineHeight);
    const row = editor.value.slice(0, editor.selectionStart).split('\n').length;
    list.style.top = `${Math.min(row * high - editor.scrollTop + 10, editor.clientHeight)}px`;
    choose(0);
  }

  function choose(i) {
    const list = at('completion'), options = [...list.children];
    chosen = (i + options.length) % options.length;
    options.forEach((o, n) => o.setAttribute('aria-selected', String(n === chosen)));
    options[chosen].scrollIntoView({ block: 'nearest' });
    editor.setAttribute('aria-activedescendant', `offer-${chosen}`);
  }

  function accept(found, item) {
    const end = editor.selectionStart;
    editor.setRangeText(item.put, end - found.part.length, end, 'end');
    at('completion').hidden = true;
    editor.removeAttribute('aria-activedescendant');
    typed();
  }

  editor.addEventListener('keydown', (event) => {
    const list = at('completion');
    if (event.key === ' ' && event.ctrlKey) {
      event.preventDefault();
      complete(true);
    } else if (!list.hidden && (event.key === 'ArrowDown' || event.key === 'ArrowUp')) {
      event.preventDefault();
      choose(chosen + (event.key === 'ArrowDown' ? 1 : -1));
    } else if (!list.hidden && event.key === 'Enter') {
      event.preventDefault();
      accept(list.found, list.found.items[chosen]);
    } else if (event.key === 'Escape' || event.key === 'Tab') { // before the focus moves on, so that it passes the list by
      list.hidden = true;
      editor.removeAttribute('aria-activedescendant');
    }
  });

  // ---- lessons: the question first, then a guess, then the answer ---------------------------------
  // The parts of the comment that opens a lesson: its question and why the answer is what it is.
  function partsOf(text) {
    const parts = {};
    let name = '';
    for (const line of text.split('\n')) {
      if (!line.startsWith('#')) break;
      const head = /^# (Question|Work it out|Answer|Why)[^:]*: ?(.*)/.exec(line);
      if (head) parts[name = head[1]] = head[2];
      else if (name) parts[name] += ` ${line.slice(2)}`;
    }
    return parts;
  }

  const isLesson = (file) => /\/lesson_/.test(file.name), isFirst = (file) => /\/lesson_1_/.test(file.name);

  // A lesson as it was shipped hides its answer.
  function askFirst() {
    const file = examples.find((f) => f.name === state.name && f.text === editor.value && isLesson(f));
    at('lesson').hidden = !file;
    document.body.classList.toggle('asking', Boolean(file));
    if (!file) return;
    const parts = partsOf(file.text);
    at('lesson-head').textContent = /^title: (.*)$/m.exec(file.text)[1];
    at('question').textContent = parts.Question;
    at('why').replaceChildren();
    withSubscripts(at('why'), `Why: ${parts.Why}`);
    at('guess-label').textContent = isFirst(file) ? 'Guess the life in hours' : 'Guess the life beside that of lesson 1, as a ratio: x';
    at('guess').value = '';
    at('guessing').hidden = false;
    at('revealed').hidden = true;
    // the answer stands in the comment above
    editor.scrollTop = file.text.slice(0, file.text.search(/^title:/m)).split('\n').length * parseFloat(getComputedStyle(editor).lineHeight) - 19;
  }

  function reveal() {
    if (!state.now || !state.pinned) return;
    const [life, then] = [state.now.numbers[0], state.pinned.numbers[0]];
    const first = isFirst({ name: state.name }), guess = at('guess').value.trim();
    at('guessed').textContent = `${guess ? `Guessed: ${first ? '' : 'x '}${guess}${first ? ' h' : ''}. ` : ''}The program says ${first ? `${written(life)} h` :
      `x ${written(life / then, 2)}: ${written(life)} h beside ${written(then)} h`}.`;
    at('guessing').hidden = true;
    at('revealed').hidden = false;
    document.body.classList.remove('asking');
    at('lesson-head').focus();
  }

  // ---- files and the address ----------------------------------------------------------------------
  function load(name, text, keepsPinned) {
    state.name = name;
    if (!keepsPinned) state.pinned = null;
    state.ends.clear();
    state.shape = '';
    turned.clear();
    state.kind = kindOf(text);
    if (!fits(find(state.question))) state.question = { scenario: 'life', field: 'fit', history: 'duty', damaged: 'diagnose' }[state.kind];
    editor.value = text;
    editor.scrollTop = 0;
    if (state.kind !== 'scenario') at('turn').replaceChildren(make('p', 'This file has nothing to turn.'));
    at('verdict').hidden = state.kind !== 'scenario';
    askFirst();
    showQuestions();
    showMessages([]);
    renew();
  }

  function keepFile(name, text, kind) {
    const link = make('a');
    link.href = URL.createObjectURL(new Blob([text], { type: kind }));
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  }

  const stem = () => state.name.replace(/^.*\//, '').replace(/\.\w+$/, '');
  const kinds = { html: 'text/html', text: 'text/plain', csv: 'text/csv', json: 'application/json' };
  const endings = { html: 'html', text: 'txt', csv: 'csv', json: 'json' };

  async function keepAnswer(format) {
    const question = find(state.question);
    try {
      const [got] = await asked('keep', editor.value, [{ line: line(question, format) }]);
      if (!got.body) say(`This cannot be kept so: ${got.messages}`, true);
      else keepFile(`${stem()}.${question.name}.${question.rows && format === 'json' ? 'jsonl' : endings[format]}`, got.body, kinds[format]);
    } catch (failure) {
      say(failure.message, true);
    }
  }

  async function keepChart(svg) {
    const [, chart, case_] = /^(?:front-)?([a-z]+)-(\d+)-/.exec(svg.id);
    const number = Number(case_); // of the scenario as written 0
    const variant = number ? svg.getRootNode().querySelectorAll('nav.cases a')[number].textContent.replace(/^Variant: /, '') : '';
    const words = ['report', '-', '--chart', chart, ...(variant ? ['--variant', variant] : []), '--catalog', 'catalogs'];
    try {
      const [got] = await asked('keep', editor.value, [{ line: words }]);
      if (got.body) keepFile(`${stem()}.${chart}.svg`, got.body, 'image/svg+xml');
      else say(got.messages, true);
    } catch (failure) {
      say(failure.message, true);
    }
  }

  const toWeb = (data) => btoa(String.fromCharCode(...new Uint8Array(data))).replace(/\+/g, '-').replace(/\//g, '_').replace(/=+$/, '');
  const fromWeb = (text) => Uint8Array.from(atob(text.replace(/-/g, '+').replace(/_/g, '/')), (c) => c.charCodeAt(0));

  let kept = 0;
  async function keepAddress() {
    const mine = ++kept;
    const held = { n: state.name, q: state.question, t: editor.value, p: state.pinned && state.pinned.text !== editor.value ? state.pinned.text : undefined };
    const packed = await through(JSON.stringify(held), new CompressionStream('deflate-raw'));
    if (mine !== kept) return;
    const hash = packed.byteLength * 4 / 3 > LONGEST_ADDRESS ? '' : `#1${toWeb(packed)}`;
    state.hash = hash;
    history.replaceState(null, '', location.href.split('#')[0] + hash);
  }

  // A lesson stands beside the first of them.
  let opened = 0;
  async function openExample(file) {
    const mine = ++opened, first = examples.find(isFirst), beside = isLesson(file) && !isFirst(file);
    at('shipped').value = file.name;
    say('Working.');
    if (beside) await pinText(first.text);
    if (mine === opened) load(file.name, file.text, beside);
  }

  // #lesson_2_debris: a shipped file by its name
  async function fromName() {
    const file = examples.find((f) => `#${f.name.replace(/^.*\//, '').replace(/\.\w+$/, '')}` === location.hash);
    if (file) await openExample(file);
    return Boolean(file);
  }

  async function fromAddress() {
    if (!location.hash.startsWith('#1')) return false;
    try {
      const held = JSON.parse(new TextDecoder().decode(await through(fromWeb(location.hash.slice(2)), new DecompressionStream('deflate-raw'))));
      state.question = find(held.q) ? held.q : 'life';
      if (held.p) await pinText(String(held.p));
      load(String(held.n), String(held.t), true);
      return true;
    } catch (failure) {
      say('The address holds no state that can be read; a shipped scenario is shown.', true);
      return false;
    }
  }

  // Works out a text that is not in the editor, to stand as the pinned one.
  async function pinText(text) {
    const [life, verdict] = await asked('pinned', text, [lifeRun('json'), lifeRun('html')]);
    if (life.body) state.pinned = { text, numbers: summary(JSON.parse(life.body)), verdict: verdict.body };
  }

  // ---- the parts of the page ----------------------------------------------------------------------
  function showQuestions() {
    at('commands').replaceChildren(...questions.filter(fits).map((q) => {
      const button = make('button', q.name);
      button.type = 'button';
      button.title = summaries.get(q.name);
      button.setAttribute('aria-pressed', String(q.name === state.question));
      button.addEventListener('click', () => {
        state.question = q.name;
        [...at('commands').children].forEach((b) => b.setAttribute('aria-pressed', String(b === button)));
        at('more').hidden = !q.words;
        showKeep();
        renew();
      });
      return button;
    }));
    at('more').hidden = !find(state.question).words;
    showKeep();
  }

  // The forms that an answer has.
  function formsOf(question) {
    if (question.page) return ['html'];
    if (question.rows) return ['csv', 'json'];
    if (question.plain) return ['text', 'json'];
    return question.name === 'help' ? ['html', 'text'] : ['html', 'text', 'csv', 'json'];
  }

  function showKeep() {
    const question = find(state.question);
    at('asked').textContent = `${question.name}: ${summaries.get(question.name)}.`;
    at('explain').closest('label').hidden = !question.explains;
    document.querySelectorAll('[data-keep]').forEach((b) => {
      b.disabled = !formsOf(question).includes(b.dataset.keep);
    });
  }

  function showExamples() {
    const groups = [['Lessons', /lesson_/], ['Scenarios', /^scenarios\/(?!lesson_)\w*\.yaml$/], ['Damaged bearings', /damaged\//], ['Lives from the field', /returns\.csv$/], ['Measured loads', /history\.csv$/]];
    groups.forEach(([name, pattern]) => {
      const group = make('optgroup');
      group.label = name;
      examples.filter((f) => pattern.test(f.name)).forEach((f) => {
        const title = /^(?:title|case): (.*)$/m.exec(f.text);
        group.append(new Option(title ? title[1] : f.name.replace(/^.*\//, ''), f.name));
      });
      at('shipped').append(group);
    });
  }

  at('shipped').addEventListener('change', () => {
    openExample(examples.find((f) => f.name === at('shipped').value)).catch((failure) => say(failure.message, true));
  });
  at('open').addEventListener('click', () => at('file').click());
  at('file').addEventListener('change', async () => {
    const file = at('file').files[0];
    if (file) load(file.name, await file.text());
    at('file').value = '';
  });
  at('save-yaml').addEventListener('click', () => keepFile(state.name.replace(/^.*\//, ''), editor.value, state.name.endsWith('.csv') ? 'text/csv' : 'application/yaml'));
  at('copy-address').addEventListener('click', async () => {
    await keepAddress();
    if (!state.hash) say('This is too long for an address: save the text as a file instead.', true);
    else navigator.clipboard.writeText(location.href).then(() => say('The address is copied.'), () => say('The address of this page holds the state; copy it from the browser.'));
  });
  // both buttons go when there is nothing to compare, and the focus with them
  at('pin').addEventListener('click', () => { state.pinned = state.now; showNumbers(state.now); keepAddress(); at('verdict-head').focus(); });
  at('unpin').addEventListener('click', () => { putText(state.pinned.text); at('verdict-head').focus(); renew(); });
  at('first-mistake').addEventListener('click', () => goTo(Math.min(...marked.keys()), 1));
  at('reveal').addEventListener('click', reveal);
  at('guess').addEventListener('keydown', (event) => { if (event.key === 'Enter') reveal(); });
  addEventListener('hashchange', () => fromName());
  at('explain').addEventListener('change', () => renew());
  at('words').addEventListener('input', () => { clearTimeout(typing); typing = setTimeout(() => renew(), 250); });
  at('print').addEventListener('click', () => print());
  document.querySelectorAll('[data-keep]').forEach((b) => b.addEventListener('click', () => keepAnswer(b.dataset.keep)));
  document.addEventListener('scroll', () => { at('tip').hidden = true; }, true);

  async function start() {
    showExamples();
    showQuestions();
    at('text-fold').open = innerWidth > 640; // a long way to scroll past on a phone
    module = await unpack(at('module').textContent);
    startWorker();
    const [schema] = await asked('schema', '', [{ line: ['schema', '--format', 'json'] }]);
    state.schema = JSON.parse(schema.body);
    if (await fromAddress() || await fromName()) return;
    const first = examples.find((f) => f.name.endsWith('/trailer_hub_setting.yaml')) || examples[0];
    await openExample(first);
  }
  start().catch((failure) => say(`The program could not be started: ${failure.message || failure}`, true));
})();
