import assert from 'node:assert/strict';
import { test } from 'node:test';
import { bytesOf, readDesign, switchUnits } from './designs';
import { State } from './state';
import { shelfStore } from './store';
import { Fixture, hood } from './testing/fixture';
import { MemoryShelf } from './testing/shelf';

async function started(): Promise<State> {
  const state = new State(new Fixture(), shelfStore(() => new MemoryShelf()));
  await state.start();
  return state;
}

test('a file is opened and can be undone', async () => {
  const state = await started();
  await readDesign(state, new File(['{"name":"other"}'], 'other.json'));
  assert.deepEqual(state.doc, { name: 'other' });
  assert.match(state.notice, /other\.json/);
  state.undo();
  assert.equal(state.doc, hood);
});

test('a broken or huge file leaves the design alone and says why', async () => {
  const state = await started();
  await readDesign(state, new File(['{"name":'], 'cut.json'));
  assert.equal(state.doc, hood);
  assert.match(state.notice, /cut short/);
  await readDesign(state, new File([new Uint8Array(50e6)], 'film.mov'));
  assert.equal(state.doc, hood);
  assert.match(state.notice, /50 MB/);
});

test('files come as bytes, whatever they are', () => {
  assert.deepEqual([...bytesOf({ name: 'a.pdf', type: 'application/pdf', base64: 'AP+A' })], [0, 255, 128]);
  assert.equal(bytesOf({ name: 'empty.txt', type: 'text/plain', base64: '' }).length, 0);
});

test('units go through the core', async () => {
  const state = await started();
  state.toggle('curve');
  assert.equal(state.doc.units, 'mm');
  await switchUnits(state, 'in');
  assert.equal(state.doc.units, 'in');
  assert.deepEqual([...state.open], ['curve'], 'it is still the same design');
  state.undo();
  assert.equal(state.doc, hood);
});

test('settings of a machine go into the design that is open', async () => {
  class Shop extends Fixture {
    override async ask(q: Parameters<Fixture['ask']>[0]): ReturnType<Fixture['ask']> {
      if (q.kind !== 'machine') return super.ask(q);
      return { reply: { id: 1, design: { ...(q.design as object), machine: JSON.parse(q.text!).machine as object } }, streams: [] };
    }
  }
  const state = new State(new Shop(), shelfStore(() => new MemoryShelf()));
  await state.start();
  state.toggle('curve');
  await readDesign(state, new File(['{\n  "format": "springrib machine", "machine": {"tool": "saw"}}'], 'saw.json'));
  assert.deepEqual(state.doc.machine, { tool: 'saw' });
  assert.deepEqual(state.doc.curve, hood.curve);
  assert.deepEqual([...state.open], ['curve'], 'it is still the same design');
  assert.match(state.notice, /saw\.json/);
  state.undo();
  assert.equal(state.doc, hood);
});

test('a sheet with its readings goes into the design that is open', async () => {
  class Shop extends Fixture {
    override async ask(q: Parameters<Fixture['ask']>[0]): ReturnType<Fixture['ask']> {
      if (q.kind !== 'stock') return super.ask(q);
      return { reply: { id: 1, design: { ...(q.design as object), sheet: JSON.parse(q.text!).sheet as object } }, streams: [] };
    }
  }
  const state = new State(new Shop(), shelfStore(() => new MemoryShelf()));
  await state.start();
  state.toggle('curve');
  await readDesign(state, new File(['{\n  "format": "springrib stock", "sheet": {"stock": "birch-4"}}'], 'birch.json'));
  assert.deepEqual(state.doc.sheet, { stock: 'birch-4' });
  assert.deepEqual(state.doc.curve, hood.curve);
  assert.deepEqual([...state.open], ['curve'], 'it is still the same design');
  assert.match(state.notice, /birch\.json/);
  state.undo();
  assert.equal(state.doc, hood);
});
