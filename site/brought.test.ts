import assert from 'node:assert/strict';
import { test } from 'node:test';
import { brings, linkTo, openLink } from './brought';
import { packed } from './link';
import { State } from './state';
import { shelfStore, type Shelf } from './store';
import { Fixture, hood, table } from './testing/fixture';
import { MemoryShelf } from './testing/shelf';

async function started(shelf: Shelf = new MemoryShelf()): Promise<State> {
  const state = new State(new Fixture(), shelfStore(() => shelf));
  await state.start();
  return state;
}

const linked = async (doc: object): Promise<string> => `#${await packed(JSON.stringify(doc))}`;

test('a link is looked at, and left', async () => {
  const shelf = new MemoryShelf(), state = await started(shelf);
  state.set('name', 'mine');
  state.kept.keep();
  const before = new Map(shelf.texts);
  await openLink(state, await linked({ name: 'theirs' }));
  assert.deepEqual(state.doc, { name: 'theirs' });
  state.kept.keep();
  assert.deepEqual(shelf.texts, before, 'nothing was kept of it');
  state.kept.goHome();
  assert.equal(state.doc.name, 'mine');
  state.undo();
  assert.deepEqual(state.doc, hood);
});

test('a link is kept beside what was there', async () => {
  const state = await started();
  state.set('name', 'mine');
  await openLink(state, await linked({ name: 'theirs' }));
  state.kept.takeIn();
  assert.equal(state.kept.guest, undefined);
  assert.deepEqual(state.kept.designs().map((d) => d.name).sort(), ['mine', 'theirs']);
});

test('whoever changes it keeps it', async () => {
  const state = await started();
  await openLink(state, await linked({ name: 'theirs' }));
  state.set('name', 'theirs, mended');
  assert.equal(state.kept.guest, undefined);
  assert.deepEqual(state.kept.designs().map((d) => d.name), ['theirs, mended']);
});

test('without a store the work before is one undo away', async () => {
  const state = await started(new MemoryShelf(0));
  state.set('name', 'mine');
  await openLink(state, await linked({ name: 'theirs' }));
  state.kept.takeIn();
  state.undo();
  assert.equal(state.doc.name, 'mine');
  state.undo();
  assert.deepEqual(state.doc, hood);
});

test('a hostile link is refused in a sentence', async () => {
  const state = await started();
  const before = state.doc;
  for (const hash of ['#design=!', await linked({}).then((l) => l.slice(0, -2)), `#${await packed('{"name":')}`, `#${await packed(' '.repeat(2e6))}`]) {
    state.say('');
    await openLink(state, hash);
    assert.match(state.notice, /Your own design stays as it is\./, hash.slice(0, 40));
    assert.equal(state.doc, before);
    assert.equal(state.kept.guest, undefined);
  }
});

test('the link of a design opens as that design', async () => {
  const state = await started();
  const link = await linkTo(state, 'https://example.org/springrib/index.html#design=old');
  assert.match(link, /^https:\/\/example\.org\/springrib\/index\.html#design=[\w-]+$/);
  const other = await started();
  other.replace({ name: 'x' }, 'x');
  await openLink(other, new URL(link).hash);
  assert.deepEqual(other.doc, hood);
});

test('what is said of a design from elsewhere', () => {
  const controls = { ...table, empty: { sheet: { stock: 'mdf-3' }, panel: {} } };
  const defaults = { 'panel.strainSafe': { default: '1.5' }, 'sheet.e': { default: '3600 MPa, handbook' } };
  assert.deepEqual(brings({ sheet: { stock: 'mdf-3', e: '' }, panel: { strainSafe: '1.50' } }, controls, defaults), []);
  const said = brings({ sheet: { stock: 'birch-4', e: '9000', strainTested: true }, panel: { strainSafe: '1' }, machine: { tested: true } }, controls, defaults).join('\n');
  assert.match(said, /cracking to 1; left to itself it would be 1\.5/);
  assert.match(said, /birch-4/);
  assert.match(said, /9000/);
  assert.match(said, /not on yours[^]*not of yours/);
});
