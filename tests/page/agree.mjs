// SPDX-License-Identifier: GPL-3.0-or-later
// The program of this machine, and how its answers are held beside those of the page.
import { spawnSync } from 'node:child_process';

// The program, asked as the page asks its own.
export function native(program, words, text) {
  const began = process.hrtime.bigint();
  const run = spawnSync(program, [...words, '--catalog', 'catalogs'], { input: text, maxBuffer: 1e9 });
  return { exit: run.status, body: run.stdout.toString(), messages: run.stderr.toString(), spent: Number(process.hrtime.bigint() - began) / 1e6 };
}

// A text has no file of its own; the program reads its standard input.
export const plain = (text) => text.replaceAll('the text:', 'standard input:');

// Where the two may differ by more than 1e-9. residual_n is what rounding leaves of forces of some kN. The best setting of
// a hub and the cheapest age lie on a flat top: the life and the cost there are known to 1e-9, their place only to the root
// of that, and so are the preload and the lives of single rows at the setting and the parts of the cost at the age.
function loose(path, key, one, other) {
  const gap = Math.abs(one - other), share = gap / Math.abs(one);
  if (key === 'residual_n') return gap < 1e-6;
  if (/^\.money\.cases\./.test(path)) return /^(replace_h|failures|planned_changes)$/.test(key) && share < 1e-6;
  if (!/^\.(reference_)?best[._]/.test(path)) return false;
  return /_mm$/.test(key) ? gap < 1e-6 : /preload|^inboard|^outboard/.test(key) && share < 1e-5;
}

// Adds to `found` the numbers and words of two answers in JSON that differ; counts the numbers.
export function differences(one, other, found, path = '', key = '') {
  if (typeof one === 'number' && typeof other === 'number') {
    const gap = one === other ? 0 : Math.abs(one - other) / Math.max(Math.abs(one), Math.abs(other));
    if (gap > 1e-9 && !loose(path, key, one, other)) found.list.push(`${path} ${one} ${other}`);
    if (gap <= 1e-9) found.worst = Math.max(found.worst, gap);
    found.numbers++;
  } else if (one && other && typeof one === 'object' && typeof other === 'object') {
    if (Object.keys(one).join() !== Object.keys(other).join()) found.list.push(`${path} keys`);
    Object.keys(one).forEach((k) => differences(one[k], other[k], found, `${path}.${k}`, Array.isArray(one) ? key : k));
  } else if (one !== other) found.list.push(`${path} ${one} ${other}`);
  return found;
}
export const nothing = () => ({ list: [], worst: 0, numbers: 0 });
