import assert from 'node:assert/strict';
import { test } from 'node:test';
import { fromLetters } from './bytes';

test('letters stand for bytes, five for four', () => {
  // The format's usual example, and a tail of each length of it.
  for (const [text, bytes] of Object.entries({ '87cURD]i,"Ebo80': 'Hello World!', '87cURD]i,"Ebo7': 'Hello World', '87cURD]i,"Ea': 'Hello Wor', '87cURD]j': 'Hello ', '': '' })) {
    assert.equal(Buffer.from(fromLetters(text)).toString(), bytes);
  }
  assert.deepEqual([...fromLetters('s8W-!!!!!!')], [255, 255, 255, 255, 0, 0, 0, 0]);
  assert.deepEqual([...fromLetters('v!!!!')].slice(0, 1), [Math.floor((27 * 85 ** 4) / 2 ** 24)], 'v is the letter that begins a tag');
});
