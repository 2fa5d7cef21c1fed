import assert from 'node:assert/strict';
import { test } from 'node:test';
import { bentSoFar, bodiesOf } from './bend';
import { spaceArrays, type PlanView } from './messages';

test('a share of the scores is said in words', () => {
  assert.equal(bentSoFar(0, 80), 'flat');
  assert.equal(bentSoFar(1, 80), 'glued');
  assert.equal(bentSoFar(0.456, 80), '36 of 80 scores');
  assert.equal(bentSoFar(0.999, 80), '79 of 80 scores');
  assert.equal(bentSoFar(0.5, 0), '0 of 0 scores');
});

test('the bodies take the arrays after those of the drawings', () => {
  const streams = Array.from({ length: spaceArrays + 3 }, (_, i) => new Float32Array([i]));
  const plan = { space: { first: 3 } } as unknown as PlanView;
  const bodies = bodiesOf({ plan, streams });
  assert.equal(bodies?.arrays.length, spaceArrays);
  assert.equal(bodies?.arrays[0]![0], 3);
  assert.equal(bodiesOf({ plan: {} as PlanView, streams }), undefined);
});
