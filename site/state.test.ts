import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Answer, Question } from './core';
import { text, type Doc } from './path';
import type { Core } from './asking';
import { State } from './state';
import { shelfStore } from './store';
import { Fixture, hood, table } from './testing/fixture';
import { MemoryShelf } from './testing/shelf';

async function started(core: Core = new Fixture(), shelf = new MemoryShelf()): Promise<State> {
  const state = new State(core, shelfStore(() => shelf));
  await state.start();
  return state;
}

const drawnOf = (state: State): Doc | undefined => state.asked.picture?.doc;

const turn = (): Promise<void> => new Promise((done) => setTimeout(done));

test('a newcomer meets the first example, drawn', async () => {
  const state = await started();
  assert.equal(state.doc, table.examples[0]!.design);
  assert.equal(state.asked.picture?.doc, state.doc);
  assert.match(state.intro, /worked example/);
  state.set('curve.radius', '120');
  assert.equal(state.intro, '');
});

test('kept work comes back with its history', async () => {
  const store = new MemoryShelf();
  const first = await started(new Fixture(), store);
  first.set('curve.radius', '120', true);
  first.kept.keep();
  const second = await started(new Fixture(), store);
  assert.equal(text(second.doc, 'curve.radius'), '120');
  assert.equal(second.intro, '');
  second.undo();
  assert.equal(text(second.doc, 'curve.radius'), '110');
});

test('what can not be drawn leaves the last drawings and all that was typed', async () => {
  const state = await started();
  const before = state.asked.picture;
  state.set('curve.radius', '1/');
  await turn();
  assert.equal(state.asked.picture, before);
  assert.equal(state.asked.stale, true);
  assert.equal(text(state.doc, 'curve.radius'), '1/');
  assert.match(state.asked.field('curve.radius').problem ?? '', /1\//);
  assert.deepEqual(state.changedSince(before!.doc), ['Radius']);
  state.set('curve.radius', '120');
  await turn();
  assert.equal(state.asked.stale, false);
  assert.equal(state.asked.picture?.doc, state.doc);
});

test('an overtaken answer is passed over, a refused one says why', async () => {
  const answers: ((a: Answer) => void)[] = [];
  const fixture = new Fixture();
  const state = await started(fixture);
  const shown = state.asked.picture;
  Object.assign(state.asked, { core: { ask: (_: Question) => new Promise<Answer>((done) => answers.push(done)) } });
  state.set('curve.radius', '111');
  state.set('curve.radius', '112');
  answers[0]!({ reply: { id: 1 }, streams: [], superseded: true });
  await turn();
  assert.equal(state.asked.picture, shown);
  assert.equal(state.asked.stale, false);
  answers[1]!({ reply: { id: 2, error: 'This could not be worked out.' }, streams: [] });
  await turn();
  assert.equal(state.notice, 'This could not be worked out.');
  assert.equal(state.asked.picture, shown);
  assert.equal(state.asked.stale, true);
});

test('what nobody waits for is fetched once the drawings are there', async () => {
  const asked: Question[] = [];
  const answers: ((a: Answer) => void)[] = [];
  const state = await started();
  const { plan } = state.asked;
  Object.assign(state.asked, { core: { ask: (q: Question) => new Promise<Answer>((done) => { asked.push(q); answers.push(done); }) } });
  state.set('curve.radius', '111');
  const reply = (id: number, partial: boolean): Answer => ({ reply: { id, plan: { ...plan, drawn: true, partial, drawings: [], files: partial ? [] : plan.files } }, streams: [] });
  answers[0]!(reply(1, true));
  await turn();
  assert.deepEqual(asked.map((q) => q.brief ?? false), [true, false]);
  assert.equal(state.asked.picture?.doc, state.doc);
  assert.deepEqual(state.asked.plan.files, plan.files, 'till then those of the plan before');
  state.set('curve.radius', '112'); // typed on: the rest of what was typed before is of no use
  answers[2]!(reply(3, true));
  await turn();
  assert.deepEqual(asked.map((q) => q.brief ?? false), [true, false, true, false]);
});

test('an empty choice counts as what the core says it means', async () => {
  const state = await started();
  state.set('curve.kind', '');
  await turn();
  assert.equal(state.effective('curve.kind'), 'radius-angle');
  assert.equal(state.shown([{ path: 'curve.kind', values: ['radius-angle'] }]), true);
  assert.equal(state.reachable('curve.radius'), true);
  assert.equal(state.reachable('curve.span'), false);
  assert.equal(state.reachable('nowhere'), false);
});

test('a remedy is one step of undo', async () => {
  const state = await started();
  state.apply({ 'curve.radius': '130', 'panel.tipRound': 'true', 'sheet.readings': '3; 3.1' }, 'Use radius 130');
  assert.deepEqual([text(state.doc, 'curve.radius'), (state.doc.panel as Doc).tipRound, (state.doc.sheet as Doc).readings], ['130', true, ['3', '3.1']]);
  state.undo();
  assert.deepEqual(state.doc, hood);
  state.redo();
  assert.equal(text(state.doc, 'curve.radius'), '130');
});

test('another design closes the cards and can be undone', async () => {
  const state = await started();
  state.toggle('sheet');
  state.replace(table.examples[1]!.design as Doc, 'Bow');
  assert.equal(state.open.size, 0);
  state.undo();
  assert.equal(state.doc, hood);
});

test('the drawings of a design that was put away do not stand in for another', async () => {
  const state = await started();
  state.replace({ ...hood, curve: { radius: '1/' } }, 'Open');
  assert.notEqual(drawnOf(state), undefined, 'until the core has answered');
  await turn();
  assert.equal(drawnOf(state), undefined);
  assert.equal(state.asked.stale, false);
  state.undo();
  await turn();
  assert.equal(drawnOf(state), hood);
});

test('going to a field opens its card, also for an item of a list', async () => {
  const state = await started();
  state.goTo('sheet.readings.3');
  assert.deepEqual([...state.open], ['sheet']);
  assert.equal(state.wanted, 'sheet.readings.3');
});

test('lighting a score disturbs the drawings alone', async () => {
  const state = await started();
  const heard: string[] = [];
  state.watch(() => heard.push('all'), 'all');
  const unwatch = state.watch(() => heard.push('light'), 'light');
  state.light({ score: 3 });
  state.light({ score: 3 });
  assert.deepEqual(heard, ['light']);
  state.say('x');
  assert.deepEqual(heard.slice(1).sort(), ['all', 'light']);
  unwatch();
  state.light({});
  assert.equal(heard.length, 3);
});

test('a browser that keeps nothing is told of, and what is full offers the file', async () => {
  const shelf = new MemoryShelf();
  const state = await started(new Fixture(), shelf);
  shelf.room = 0;
  state.set('curve.radius', '120');
  state.kept.keep();
  assert.match(state.notice, /no room left/);
  assert.equal(state.offer, 'file');
  assert.equal(state.kept.unkept, true);
  state.say('');
  state.kept.keep();
  assert.equal(state.notice, '', 'once is enough');
  shelf.room = Infinity;
  state.kept.keep();
  assert.equal(state.kept.unkept, false);
  assert.equal(state.kept.designs().length, 1);
  const homeless = new State(new Fixture(), shelfStore(() => { throw new Error('denied'); }));
  await homeless.start();
  homeless.set('curve.radius', '120');
  homeless.kept.keep();
  assert.match(homeless.notice, /keeps nothing between visits/);
});

const names = (state: State): string[] => state.kept.designs().map((d) => d.name).sort();

test('a new design leaves the former one among those kept', async () => {
  const state = await started();
  state.set('name', 'first');
  state.replace({ name: 'second' }, 'New');
  state.kept.keep();
  assert.deepEqual(names(state), ['first', 'second']);
  const second = state.kept.id;
  state.kept.open(state.kept.designs().find((d) => d.name === 'first')!.id);
  assert.equal(state.doc.name, 'first');
  state.set('name', 'first, changed');
  state.kept.open(second!);
  assert.equal(state.doc.name, 'second');
  assert.deepEqual(names(state), ['first, changed', 'second']);
});

test('undo across designs never writes over what was made of the former one since', async () => {
  const state = await started();
  state.set('name', 'first');
  state.replace({ name: 'second' }, 'New');
  state.set('name', 'second, changed');
  state.undo();
  state.undo();
  assert.equal(state.doc.name, 'first');
  state.redo();
  assert.equal(state.doc.name, 'second');
  state.kept.keep();
  const first = state.kept.designs().find((d) => d.name === 'first')!.id, second = state.kept.id!;
  state.kept.open(first);
  state.set('name', 'first, later');
  state.kept.open(second);
  state.undo();
  state.kept.keep();
  assert.equal(state.doc.name, 'first');
  assert.deepEqual(names(state), ['first', 'first, later', 'second']);
});

test('an example that was only looked at is not kept', async () => {
  const state = await started();
  state.replace(table.examples[1]!.design as Doc, 'Bow');
  state.kept.keep();
  state.replace(table.empty as Doc, 'New');
  state.kept.keep();
  state.replace({ name: 'own' }, 'Open');
  state.kept.keep();
  assert.deepEqual(names(state), ['own']);
});

test('renaming and deleting, and what was deleted comes back', async () => {
  const state = await started();
  state.set('name', 'first');
  state.replace({ name: 'second' }, 'New');
  state.kept.keep();
  const first = state.kept.designs().find((d) => d.name === 'first')!.id;
  state.kept.rename(first, 'oldest');
  state.kept.rename(state.kept.id!, 'newest');
  assert.deepEqual(names(state), ['newest', 'oldest']);
  assert.equal(state.doc.name, 'newest');
  state.kept.remove(state.kept.id!);
  assert.equal(state.doc.name, 'oldest', 'the next one is shown');
  assert.equal(state.offer, 'restore');
  state.kept.restore();
  assert.equal(state.doc.name, 'newest');
  state.undo();
  assert.equal(state.doc.name, 'second', 'with its history');
  state.kept.remove(state.kept.id!);
  state.kept.remove(state.kept.id!);
  assert.deepEqual(names(state), []);
  assert.equal(state.doc, table.empty);
  state.kept.restore();
  assert.deepEqual(names(state), ['oldest']);
});

test('two windows on one design', async () => {
  const shelf = new MemoryShelf();
  const a = await started(new Fixture(), shelf);
  a.set('name', 'ours');
  a.kept.keep();
  const b = await started(new Fixture(), shelf);
  b.set('name', 'ours, by b');
  b.kept.keep();
  a.kept.overtaken(a.kept.id!);
  assert.equal(a.doc.name, 'ours, by b', 'the other follows');
  a.set('name', 'by a');
  b.set('name', 'by b');
  a.kept.keep();
  b.kept.overtaken(b.kept.id!);
  b.kept.keep();
  assert.deepEqual(names(a), ['by a', 'by b'], 'two at the same time become two');
});
