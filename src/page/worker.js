// SPDX-License-Identifier: GPL-3.0-or-later
// Runs the program, one command line at a time. From the page: {start: bytes of the module, catalogs}, then runs
// {id, text, set, controls, line, files, fragment}; back: {ready}, then for each run {id, text, controls, run} or
// {id, failure}. A text is a string, a file {name, text}; `set` holds pairs of a path and its new value.
'use strict';
let c, catalogs;
const encoder = new TextEncoder(), decoder = new TextDecoder();
const BAD_FILE = 8, REQUEST = 20, FILE = 12, ANSWER = 16;

const bytes = () => new Uint8Array(c.memory.buffer);
const words = () => new DataView(c.memory.buffer);

// Files without a name, which the program writes and reads while it works (sweeps).
const made = new Map();
let nextFile = 100;
function createFile() {
  made.set(nextFile, { bytes: new Uint8Array(0), at: 0 });
  return nextFile++;
}

function pieces(list, count) {
  const view = words();
  return Array.from({ length: count }, (_, i) => [view.getUint32(list + 8 * i, true), view.getUint32(list + 8 * i + 4, true)]);
}

function write(file, list, count, result) {
  const held = made.get(file);
  let total = 0;
  for (const [at, length] of pieces(list, count)) {
    if (held) {
      const end = held.at + length;
      if (end > held.bytes.length) {
        const larger = new Uint8Array(end);
        larger.set(held.bytes);
        held.bytes = larger;
      }
      held.bytes.set(bytes().subarray(at, at + length), held.at);
      held.at = end;
    }
    total += length;
  }
  words().setUint32(result, total, true);
  return held || file === 1 || file === 2 ? 0 : BAD_FILE;
}

function read(file, list, count, result) {
  const held = made.get(file);
  if (!held) return BAD_FILE;
  let total = 0;
  for (const [at, length] of pieces(list, count)) {
    const part = held.bytes.subarray(held.at, held.at + length);
    bytes().set(part, at);
    held.at += part.length;
    total += part.length;
  }
  words().setUint32(result, total, true);
  return 0;
}

const system = {
  environ_sizes_get(count, size) { words().setUint32(count, 0, true); words().setUint32(size, 0, true); return 0; },
  environ_get: () => 0,
  clock_time_get(clock, precision, result) { words().setBigUint64(result, BigInt(Math.round(performance.now() * 1e6)), true); return 0; },
  fd_write: write,
  fd_read: read,
  fd_close: (file) => (made.delete(file) ? 0 : BAD_FILE),
  fd_seek(file, offset, from, result) {
    const held = made.get(file);
    if (!held) return BAD_FILE;
    held.at = Number(offset) + (from === 1 ? held.at : from === 2 ? held.bytes.length : 0);
    words().setBigUint64(result, BigInt(held.at), true);
    return 0;
  },
  fd_filestat_get(file, result) {
    const held = made.get(file);
    if (!held) return BAD_FILE;
    bytes().fill(0, result, result + 64);
    words().setUint8(result + 16, 4); // a regular file
    words().setBigUint64(result + 32, BigInt(held.bytes.length), true);
    return 0;
  },
  // poll: whatever is asked for is ready
  poll_oneoff(asked, told, count, result) {
    for (let i = 0; i < count; i++) {
      bytes().fill(0, told + 32 * i, told + 32 * i + 32);
      words().setBigUint64(told + 32 * i, words().getBigUint64(asked + 48 * i, true), true);
      words().setUint8(told + 32 * i + 10, words().getUint8(asked + 48 * i + 8));
    }
    words().setUint32(result, count, true);
    return 0;
  },
};
const imports = {
  wasi_snapshot_preview1: new Proxy(system, { get: (all, name) => all[name] || (() => BAD_FILE) }),
  page: { create_file: createFile },
};

function put(text) {
  const coded = encoder.encode(text), at = c.malloc(coded.length + 1);
  bytes().set(coded, at);
  bytes()[at + coded.length] = 0;
  return { at, length: coded.length };
}

function take(at, length) {
  if (!at) return '';
  const end = length === undefined ? bytes().indexOf(0, at) : at + length;
  return decoder.decode(bytes().slice(at, end));
}

// Keeps what was put until `end`, then frees it.
function holder() {
  const held = [];
  const keep = (at) => { held.push(at); return at; };
  return {
    text(text) { const p = put(text); keep(p.at); return p; },
    room: (size) => { const at = keep(c.malloc(size)); bytes().fill(0, at, at + size); return at; },
    files(files) {
      const at = this.room(FILE * files.length + 1);
      files.forEach((file, i) => {
        const name = this.text(file.name), text = this.text(file.text), view = words();
        view.setUint32(at + FILE * i, name.at, true);
        view.setUint32(at + FILE * i + 4, text.at, true);
        view.setUint32(at + FILE * i + 8, text.length, true);
      });
      return at;
    },
    end() { held.forEach((at) => c.free(at)); },
  };
}

function run(line, files, fragment) {
  const held = holder(), list = held.room(4 * line.length + 1), request = held.room(REQUEST), answer = held.room(ANSWER);
  line.forEach((word, i) => { const at = held.text(word).at; words().setUint32(list + 4 * i, at, true); });
  const all = held.files(files.concat(catalogs));
  [list, line.length, all, files.length + catalogs.length, fragment ? 1 : 0].forEach((v, i) => words().setUint32(request + 4 * i, v, true));
  const began = performance.now();
  const exit = c.spt_run(request, answer);
  const spent = performance.now() - began, view = words();
  const done = {
    exit, spent,
    body: take(view.getUint32(answer + 4, true), view.getUint32(answer + 8, true)),
    messages: take(view.getUint32(answer + 12, true)),
  };
  c.spt_run_answer_free(answer);
  held.end();
  return done;
}

function edit(text, path, value) {
  const held = holder(), source = held.text(text);
  const at = c.spt_run_edit(source.at, source.length, held.text(path).at, held.text(value).at);
  const changed = at ? take(at) : null;
  if (at) c.free(at);
  held.end();
  return changed;
}

function controls(text) {
  const held = holder(), files = [{ name: 'scenario', text }].concat(catalogs);
  const at = c.spt_run_controls(held.files(files), files.length);
  const json = at ? take(at) : '[]';
  if (at) c.free(at);
  held.end();
  return JSON.parse(json);
}

// One run of the program, after the values of the text that were turned.
function work(job) {
  // a value that cannot be set leaves the text as it was
  const text = (job.set || []).reduce((all, [path, value]) => edit(all, path, value) ?? all, job.text);
  const files = [{ name: '-', text }].concat(job.files || []);
  return { id: job.id, text, controls: job.controls ? controls(text) : null, run: run(job.line, files, job.fragment) };
}

onmessage = async (event) => {
  const told = event.data;
  if (told.start) {
    catalogs = told.catalogs;
    try {
      c = (await WebAssembly.instantiate(told.start, imports)).instance.exports;
      c._initialize();
      postMessage({ ready: true });
    } catch (failure) {
      postMessage({ failed: String(failure) });
    }
  } else {
    try {
      postMessage(work(told));
    } catch (failure) {
      postMessage({ id: told.id, failure: String(failure) });
    }
  }
};
