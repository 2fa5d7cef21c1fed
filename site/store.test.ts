import assert from 'node:assert/strict';
import { test } from 'node:test';
import { keyOf, shelfStore, type Store } from './store';
import { MemoryShelf } from './testing/shelf';

const work = { doc: { name: 'x' }, past: [{ label: 'a', changes: [{ path: 'a', before: '1' }] }], future: [] };

function storeOn(shelf: MemoryShelf): Store {
  let clock = 0;
  return shelfStore(() => shelf, () => ++clock);
}

test('what is kept comes back, the one worked on last first', () => {
  const store = storeOn(new MemoryShelf());
  assert.equal(store.load(), undefined);
  assert.equal(store.save('one', work), 'kept');
  assert.equal(store.save('two', { ...work, doc: { name: ' y ' } }), 'kept');
  assert.deepEqual(store.list(), [{ id: 'two', name: 'y', at: 2 }, { id: 'one', name: 'x', at: 1 }]);
  assert.equal(store.load()!.id, 'two');
  store.touch('one');
  assert.deepEqual(store.load(), { ...work, id: 'one', at: 1 });
  assert.equal(store.read('three'), undefined);
});

test('the latest stands in when the one worked on last is gone', () => {
  const shelf = new MemoryShelf(), store = storeOn(shelf);
  store.save('one', work);
  store.save('two', work);
  shelf.removeItem(keyOf('two'));
  assert.equal(store.load()!.id, 'one');
});

test('what was deleted last can be brought back', () => {
  const store = storeOn(new MemoryShelf());
  assert.equal(store.removed(), undefined);
  assert.equal(store.restore(), undefined);
  store.save('one', work);
  store.save('two', { ...work, doc: { name: 'y' } });
  store.remove('one');
  store.remove('two');
  assert.deepEqual(store.list(), []);
  assert.deepEqual(store.removed(), { id: 'two', name: 'y', at: 2 });
  assert.equal(store.restore(), 'two');
  assert.deepEqual(store.read('two')!.past, work.past);
  assert.equal(store.removed(), undefined);
  store.remove('two', false);
  assert.equal(store.restore(), undefined, 'what was not worth keeping is gone');
});

test('a full shelf keeps the design without its history, or what it had before', () => {
  const tight = new MemoryShelf(60), store = storeOn(tight);
  assert.equal(store.save('one', work), 'kept');
  assert.deepEqual(store.read('one')!.past, []);
  assert.equal(store.save('one', { ...work, doc: { name: 'x'.repeat(80) } }), 'full');
  assert.deepEqual(store.read('one')!.doc, { name: 'x' });
});

test('a shelf that is nearly full keeps the last steps', () => {
  const store = storeOn(new MemoryShelf(1500));
  const past = Array.from({ length: 200 }, (_, i) => ({ label: '', changes: [{ path: 'a', before: String(i) }] }));
  assert.equal(store.save('one', { doc: {}, past, future: [] }), 'kept');
  assert.deepEqual(store.read('one')!.past, past.slice(-10));
});

test('a frame without storage', () => {
  const store = shelfStore(() => { throw new DOMException('denied', 'SecurityError'); });
  assert.equal(store.load(), undefined);
  assert.equal(store.save('one', work), 'nowhere');
  assert.deepEqual(store.list(), []);
  store.remove('one');
  assert.equal(store.restore(), undefined);
});

test('what is no work of ours is left alone', () => {
  for (const text of ['', 'null', '[]', '{', '{"doc":3}', '{"doc":[]}']) {
    const shelf = new MemoryShelf();
    shelf.setItem(keyOf('one'), text);
    shelf.setItem('springrib.last.1', 'one');
    shelf.setItem('springrib.removed.1', text);
    shelf.setItem('of another page', text);
    const store = storeOn(shelf);
    assert.equal(store.load(), undefined, text);
    assert.equal(store.removed(), undefined, text);
    assert.deepEqual(store.list(), [], text);
  }
  const shelf = new MemoryShelf();
  shelf.setItem(keyOf('one'), '{"doc":{"name":"x"},"past":[3],"future":{}}');
  assert.deepEqual(storeOn(shelf).load(), { id: 'one', doc: { name: 'x' }, past: [], future: [], at: 0 });
});
