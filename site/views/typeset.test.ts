import assert from 'node:assert/strict';
import { test } from 'node:test';
import { parts, split, whole } from './typeset';

test('ranges, fractions and figures with their unit stay on one line', () => {
  assert.equal(whole('0.36 of the limit, 0.25-0.59'), '0.36 of the limit, 0.25\u2060-\u20600.59');
  assert.equal(whole('1 9/16 in of 2 in'), '1\u00a09/16\u00a0in of 2\u00a0in');
  assert.equal(whole('25 % of 3 parts'), '25\u00a0% of 3 parts');
  assert.equal(whole('well-kept, 3 pieces'), 'well-kept, 3 pieces');
});

test('fractions are told from whole numbers, dates and paths', () => {
  assert.deepEqual(parts('1 9/16 in'), ['1\u00a0', '9/16', '\u00a0in']);
  assert.deepEqual(parts('3 by 15 3/4 in, 1/64 off'), ['3 by 15\u00a0', '3/4', '\u00a0in, ', '1/64', ' off']);
  assert.deepEqual(parts('30/11/2026 and 4 mm'), ['30/11/2026 and 4\u00a0mm']);
});

test('a sentence is led by its first clause, and nothing of it is lost', () => {
  assert.deepEqual(split('About 1 panel in 180 would fail. It reaches 0.44 of cracking.'), ['About 1 panel in 180 would fail.', 'It reaches 0.44 of cracking.']);
  assert.deepEqual(split('Score 32 opens as it bends: the bottom is in tension.'), ['Score 32 opens as it bends:', 'the bottom is in tension.']);
  assert.deepEqual(split('Thickness: 3 in is too large here. Write 1 in.'), ['Thickness: 3 in is too large here.', 'Write 1 in.']);
  assert.deepEqual(split('They pinch shut at 226 mm; you want 110 mm.'), ['They pinch shut at 226 mm; you want 110 mm.', '']);
  assert.deepEqual(split('At 0.5 mm it holds.'), ['At 0.5 mm it holds.', '']);
});
