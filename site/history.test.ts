import assert from 'node:assert/strict';
import { test } from 'node:test';
import { change, History, kept } from './history';
import { set, type Doc, type Json } from './path';

// Does what the state does: records a change and makes it.
function edit(history: History, doc: Doc, path: string, value: Json | undefined, key?: string): Doc {
  history.record({ label: path, changes: [change(doc, path, value)] }, key);
  return set(doc, path, value);
}

test('undo and redo walk back and forth over everything', () => {
  const history = new History();
  const docs: Doc[] = [{ a: '0' }];
  const edits: [string, Json | undefined][] = [['a', '1'], ['b.c', 'new'], ['list', ['1', '2']], ['list.1', undefined], ['a', undefined], ['', { whole: 'other' }]];
  for (const [path, value] of edits) docs.push(edit(history, docs.at(-1)!, path, value));
  let doc = docs.at(-1)!;
  for (let i = docs.length - 2; i >= 0; i--) assert.deepEqual(doc = history.undo(doc), docs[i]!, `back to ${i}`);
  assert.equal(history.undo(doc), doc);
  for (let i = 1; i < docs.length; i++) assert.deepEqual(doc = history.redo(doc), docs[i]!, `on to ${i}`);
  assert.equal(history.redo(doc), doc);
});

test('typing in one field is one step until it rests', () => {
  const history = new History();
  let doc: Doc = { r: '' };
  for (const typed of ['1', '11', '110']) doc = edit(history, doc, 'r', typed, 'r');
  assert.equal(history.past.length, 1);
  history.seal();
  doc = edit(history, doc, 'r', '1105', 'r');
  assert.equal(history.past.length, 2);
  doc = history.undo(doc);
  assert.equal(doc.r, '110');
  assert.equal(history.undo(doc).r, '');
});

test('typing in another field, or after an undo, is another step', () => {
  const history = new History();
  let doc: Doc = {};
  doc = edit(history, doc, 'a', '1', 'a');
  doc = edit(history, doc, 'b', '1', 'b');
  doc = history.undo(doc);
  doc = edit(history, doc, 'a', '12', 'a');
  assert.deepEqual([history.past.length, history.future.length], [2, 0]);
  assert.deepEqual(history.undo(doc), { a: '1' });
});

test('a step of several changes is undone in reverse', () => {
  const history = new History();
  const before: Doc = { list: ['1', '2', '3'] };
  const first = change(before, 'list.2', undefined);
  const between = set(before, 'list.2', undefined);
  const second = change(between, 'list', ['9']);
  history.record({ label: 'both', changes: [first, second] });
  assert.deepEqual(history.undo({ list: ['9'] }).list, ['1', '2', '3']);
});

test('several members of what is not there yet come together and go together', () => {
  const history = new History();
  const before: Doc = { list: ['a'] };
  const changes = [change(before, 'base.kind', 'ring'), change(before, 'base.copies', '6'), change(before, 'list.1.x', '1'), change(before, 'list.1.y', '2')];
  history.record({ label: 'both', changes });
  const after = changes.reduce((d, c) => set(d, c.path, c.after), before);
  assert.deepEqual(after, { list: ['a', { x: '1', y: '2' }], base: { kind: 'ring', copies: '6' } });
  assert.deepEqual(history.undo(after), before);
  assert.deepEqual(history.redo(before), after);
});

test('a long history forgets its beginning', () => {
  const history = new History();
  let doc: Doc = {};
  for (let i = 0; i < kept + 50; i++) doc = edit(history, doc, 'a', String(i));
  assert.equal(history.past.length, kept);
});
