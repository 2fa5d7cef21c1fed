import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readable } from './readable';

const at = (x: number, y: number, text: string, anchor = 'start', turn = 0) => ({ x, y, text, anchor, turn });

test('words that have room stay as they are', () => {
  const all = [at(0, 0, 'cut at 1: lower left'), at(200, 0, 'cut at 2: lower right'), at(100, 40, '259 mm', 'middle'), at(-20, 30, '140 mm', 'middle', -90)];
  assert.deepEqual(readable(all, 1), all);
});

test('words that would meet are shortened, then left out; the first is whole', () => {
  const all = [at(0, 0, 'cut at 3: upper left, 9 g'), at(300, 0, 'cut at 4: upper right, 9 g', 'end'), at(0, 5, 'cut at 5: the centre')];
  assert.deepEqual(readable(all, 1).map((l) => l.text), ['cut at 3: upper left, 9 g', 'cut at 4']);
  assert.deepEqual(readable(all, 4).map((l) => l.text), all.map((l) => l.text), 'a larger drawing has room for all');
});

test('an upright figure stands beside a level one', () => {
  assert.equal(readable([at(0, 0, '140 mm', 'middle', -90), at(12, 0, '140 mm')], 1).length, 2);
  assert.equal(readable([at(0, 0, '140 mm', 'middle', 0), at(12, 0, '140 mm')], 1).length, 1);
});
