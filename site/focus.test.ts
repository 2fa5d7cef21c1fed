import assert from 'node:assert/strict';
import { test } from 'node:test';
import { focusOf, refsOf, sameFocus } from './focus';
import type { ScoreView } from './messages';

const scores = [10, 13, 16].map((u, i): ScoreView => ({ n: i + 1, u, at: '', fold: '', limit: '', near: false }));

test('a finding’s place becomes what is lit', () => {
  assert.deepEqual(focusOf({}, scores), {});
  assert.deepEqual(focusOf({ part: 'rib1', field: 'rib.side' }, scores), { part: 'rib1', field: 'rib.side' });
  assert.deepEqual(focusOf({ part: 'panel', score: 2 }, scores), { score: 2 });
  assert.deepEqual(focusOf({ part: 'panel', at: 14 }, scores), { score: 2 });
  assert.deepEqual(focusOf({ at: 0 }, scores), { score: 1 });
  assert.deepEqual(focusOf({ at: 14 }, []), {});
});

test('references of a lit place', () => {
  assert.deepEqual([...refsOf({ score: 3, part: 'panel', field: 'x' })], ['score 3', 'panel']);
  assert.equal(refsOf({ field: 'x' }).size, 0);
  assert.equal(sameFocus({ score: 1 }, { score: 1 }), true);
  assert.equal(sameFocus({ score: 1 }, { score: 1, part: 'panel' }), false);
});
