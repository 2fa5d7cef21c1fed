import assert from 'node:assert/strict';
import { test } from 'node:test';
import { shelfStore, type Shelf } from './store';

const work = { doc: { name: 'x' }, past: [{ label: 'a', changes: [{ path: 'a', before: '1' }] }], future: [] };

function shelf(room = Infinity): Shelf & { texts: Map<string, string> } {
  const texts = new Map<string, string>();
  return {
    texts,
    getItem: (key) => texts.get(key) ?? null,
    setItem: (key, text) => {
      if (text.length > room) throw new Error('full');
      texts.set(key, text);
    },
  };
}

test('what is kept comes back', () => {
  const store = shelfStore(() => s), s = shelf();
  assert.equal(store.load(), undefined);
  assert.equal(store.save(work), true);
  assert.deepEqual(store.load(), work);
});

test('a full shelf keeps the design without its history, or says that it keeps nothing', () => {
  const tight = shelf(60), store = shelfStore(() => tight);
  assert.equal(store.save(work), true);
  assert.deepEqual(store.load(), { ...work, past: [] });
  assert.equal(shelfStore(() => shelf(5)).save(work), false);
});

test('a frame without storage', () => {
  const store = shelfStore(() => { throw new DOMException('denied', 'SecurityError'); });
  assert.equal(store.load(), undefined);
  assert.equal(store.save(work), false);
});

test('what is no work of ours is left alone', () => {
  for (const text of ['', 'null', '[]', '{', '{"doc":3}', '{"doc":[]}']) {
    const s = shelf();
    shelfStore(() => s).save(work);
    for (const key of s.texts.keys()) s.texts.set(key, text);
    assert.equal(shelfStore(() => s).load(), undefined, text);
  }
  const s = shelf();
  shelfStore(() => s).save(work);
  for (const key of s.texts.keys()) s.texts.set(key, '{"doc":{"name":"x"},"past":[3],"future":{}}');
  assert.deepEqual(shelfStore(() => s).load(), { doc: { name: 'x' }, past: [], future: [] });
});
