import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Gauge } from '../messages';
import { along, gravity, whole } from './gauge';

const at = (value: number): Gauge => ({ id: 'cracking', label: '', value, low: 0, high: 0, allowed: 0.67, text: '' });

test('a gauge grows grave at the allowed value and at the limit', () => {
  assert.deepEqual([0.5, 0.67, 0.68, 1, 1.01].map((v) => gravity(at(v))), ['sound', 'sound', 'warn', 'warn', 'stop']);
});

test('places along the beam grow with the value and stay on it', () => {
  const places = [-1, 0, 0.3, 0.67, 1, 1.29, 1.3, 9].map(along);
  assert.deepEqual(places, places.slice().sort((a, b) => a - b));
  assert.equal(places[0], places[1]);
  assert.equal(places.at(-1), places.at(-2));
  assert.ok(places[0]! >= 0 && places.at(-1)! <= 156);
});

test('ranges, fractions and figures with their unit stay on one line', () => {
  assert.equal(whole('0.36 of the limit, 0.25-0.59'), '0.36 of the limit, 0.25\u2060-\u20600.59');
  assert.equal(whole('1 9/16 in of 2 in'), '1\u00a09/16\u00a0in of 2\u00a0in');
  assert.equal(whole('25 % of 3 parts'), '25\u00a0% of 3 parts');
  assert.equal(whole('well-kept, 3 pieces'), 'well-kept, 3 pieces');
});
