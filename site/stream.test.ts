import assert from 'node:assert/strict';
import { test } from 'node:test';
import { distance, pathData, points } from './stream';

const stream = new Float32Array([0, 1, 2, 1, 3, 4, 2, 1, 1, 2, 2, 10.12345, 0, 3, 0, 9, 9]);

test('commands become path data', () => {
  assert.equal(pathData(stream, { from: 0, to: 14 }), 'M1 2L3 4C1 1 2 2 10.123 0Z');
  assert.equal(pathData(stream, { from: 14, to: 17 }), 'M9 9');
  assert.equal(pathData(stream, { from: 3, to: 3 }), '');
});

test('small and large figures stay plain decimals', () => {
  const data = pathData([0, 1e-9, -1e-9, 1, 123456.7891, -0.0004], { from: 0, to: 6 });
  assert.match(data, /^M-?0 -?0L123456\.789 -?0$/);
  assert.doesNotMatch(data, /e/);
});

test('a broken stream is not drawn half', () => {
  assert.throws(() => pathData([7, 1, 1], { from: 0, to: 3 }), RangeError);
  assert.throws(() => points([Number.NaN], { from: 0, to: 1 }), RangeError);
});

test('points are the ends of strokes', () => {
  assert.deepEqual(points(stream, { from: 0, to: 6 }), [{ x: 1, y: 2 }, { x: 3, y: 4 }]);
  assert.equal(points(stream, { from: 0, to: 14 }).length, 3);
});

test('distance to a stroke: beside it, past its end, and to a lone point', () => {
  const along = [{ x: 0, y: 0 }, { x: 10, y: 0 }];
  assert.equal(distance({ x: 5, y: 3 }, along), 3);
  assert.equal(distance({ x: 13, y: 4 }, along), 5);
  assert.equal(distance({ x: 3, y: 4 }, [{ x: 0, y: 0 }]), 5);
  assert.equal(distance({ x: 0, y: 0 }, []), Infinity);
});
