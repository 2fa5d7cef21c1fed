import assert from 'node:assert/strict';
import { test } from 'node:test';
import { arranged, commonScale, type Boxed } from './scale';

const boxed = (w: number, h: number): Boxed => ({ box: [-5, 7, w, h] });
const space = { width: 1000, height: 600 };

test('drawings share the scale that lets all fit', () => {
  assert.equal(commonScale([boxed(190, 20)], space, 25, 'stacked'), 5);
  assert.equal(commonScale([boxed(100, 50), boxed(190, 50)], space, 25, 'stacked'), 5);
  assert.equal(commonScale([boxed(100, 125), boxed(190, 125)], space, 25, 'stacked'), 2);
  assert.equal(commonScale([boxed(100, 125), boxed(190, 125)], space, 25, 'single'), 4.4);
  assert.equal(commonScale([boxed(100, 110), boxed(200, 110)], space, 25, 'beside'), 3);
});

test('a shallow bend stays over its panel, a deep one goes beside it', () => {
  assert.equal(arranged([boxed(300, 40), boxed(310, 60)], space, 22), 'stacked');
  assert.equal(arranged([boxed(120, 120), boxed(190, 120)], space, 22), 'beside');
  assert.equal(arranged([], space, 22), 'stacked');
});

test('nothing is drawn at no scale at all', () => {
  assert.equal(commonScale([], space, 22, 'stacked'), 1);
  assert.ok(commonScale([boxed(0, 0)], space, 22, 'stacked') > 0);
  assert.ok(commonScale([boxed(100, 100)], { width: 0, height: 0 }, 22, 'stacked') > 0);
});
