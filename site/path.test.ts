import assert from 'node:assert/strict';
import { test } from 'node:test';
import { get, likeBefore, set, text, type Doc } from './path';

const doc: Doc = { name: 'x', curve: { radius: '110', pieces: [{ turn: 'over', length: '30' }] }, sheet: { readings: ['2.9', '3'] } };

test('get walks members and items and ends early without a fuss', () => {
  for (const [path, wanted] of [
    ['', doc], ['name', 'x'], ['curve.pieces.0.length', '30'], ['sheet.readings.1', '3'],
    ['sheet.readings.7', undefined], ['name.x', undefined], ['curve.pieces.length', undefined], ['curve.toString', undefined],
  ] as const) assert.deepEqual(get(doc, path), wanted, path);
});

test('text gives what is typed and nothing for lists', () => {
  assert.equal(text(doc, 'curve.radius'), '110');
  assert.equal(text(doc, 'sheet.readings'), '');
  assert.equal(text({ n: 3, yes: true }, 'n'), '3');
  assert.equal(text(doc, 'rib.side'), '');
});

test('set copies the way down and shares the rest', () => {
  const next = set(doc, 'curve.pieces.0.length', '31');
  assert.equal(get(next, 'curve.pieces.0.length'), '31');
  assert.equal(get(doc, 'curve.pieces.0.length'), '30');
  assert.equal(next.sheet, doc.sheet);
  assert.notEqual(next.curve, doc.curve);
});

test('set makes what is missing on the way', () => {
  assert.deepEqual(set({}, 'cut.operations.score.name', '1'), { cut: { operations: { score: { name: '1' } } } });
  assert.deepEqual(set({}, 'sheet.readings.1', '3'), { sheet: { readings: ['', '3'] } });
  assert.deepEqual(set({ sheet: { readings: null } }, 'sheet.readings.0', '3'), { sheet: { readings: ['3'] } });
  assert.deepEqual(set({ curve: { pieces: [] } }, 'curve.pieces.0.turn', 'over'), { curve: { pieces: [{ turn: 'over' }] } });
});

test('undefined takes away', () => {
  assert.deepEqual(set({ a: '1', b: '2' }, 'a', undefined), { b: '2' });
  assert.deepEqual(set({ a: ['1', '2', '3'] }, 'a.1', undefined), { a: ['1', '3'] });
});

test('a path can not reach past the document', () => {
  for (const path of ['__proto__.x', 'a.constructor.prototype.x', 'a..b', '.']) {
    assert.throws(() => set({}, path, '1'), RangeError, path);
    assert.throws(() => get({}, path), RangeError, path);
  }
  assert.equal(Object.hasOwn(Object.prototype, 'x'), false);
});

test('a remedy speaks in text, whatever stands at its path', () => {
  assert.equal(likeBefore('110', '112'), '112');
  assert.equal(likeBefore(undefined, '112'), '112');
  assert.equal(likeBefore(false, 'true'), true);
  assert.deepEqual(likeBefore(['1', '2'], '1.1; 2,2 mm'), ['1.1', '2,2 mm']);
});
