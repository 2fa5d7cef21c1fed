import assert from 'node:assert/strict';
import { test } from 'node:test';
import { WorkerCore, type Answer, type FromWorker, type Line } from './core';
import { maxDesign } from './messages';

/** A worker that does what the test says. */
class Fake implements Line {
  asked: { id: number; text: string }[] = [];
  ended = false;
  constructor(readonly hear: (m: FromWorker) => void) {}
  ask(id: number, text: string): void { this.asked.push({ id, text }); }
  end(): void { this.ended = true; }
  ready(): void { this.hear({ kind: 'ready' }); }
  die(reason = 'out of memory'): void { this.hear({ kind: 'dead', reason }); }
  /** Answers the question asked last with what it was asked. */
  answer(): void {
    const { id, text } = this.asked.at(-1)!;
    this.hear({ kind: 'answer', id, text: JSON.stringify({ id, design: JSON.parse(text) }), arrays: [new Float32Array([id])] });
  }
  get last(): { id: number; kind: string; design?: unknown; file?: string } { return JSON.parse(this.asked.at(-1)!.text); }
}

const limits = { start: 1000, answer: 100, file: 300 };

function setUp(): { core: WorkerCore; workers: Fake[]; now: () => Fake } {
  const workers: Fake[] = [];
  const core = new WorkerCore((hear) => {
    workers.push(new Fake(hear));
    return workers.at(-1)!;
  }, limits);
  return { core, workers, now: () => workers.at(-1)! };
}

const plan = (n: number) => ({ kind: 'plan', design: { n } });

/** What a promise has come to, without waiting for it. */
async function state(p: Promise<Answer>): Promise<'waits' | 'superseded' | 'refused' | 'answered'> {
  const a = await Promise.race([p, new Promise<undefined>((r) => setImmediate(() => r(undefined)))]);
  if (!a) return 'waits';
  return a.superseded ? 'superseded' : a.reply.error ? 'refused' : 'answered';
}

test('a worker is started before anything is asked', () => {
  const { workers } = setUp();
  assert.equal(workers.length, 1);
});

test('the worker has the next question before anything is made of an answer', async () => {
  const { core, now } = setUp();
  now().ready();
  const first = core.ask(plan(1)), second = core.ask(plan(2));
  let seen: number | undefined;
  const { parse } = JSON;
  const { id, text } = now().asked[0]!;
  JSON.parse = (t: string) => {
    seen ??= now().asked.length;
    return parse(t) as unknown;
  };
  try {
    now().hear({ kind: 'answer', id, text, arrays: [] });
  } finally {
    JSON.parse = parse;
  }
  assert.equal(seen, 2);
  assert.equal((await first).reply.id, id);
  assert.equal(await state(second), 'waits', 'one at a time');
});

test('a question waits for the worker to be ready, then is asked once', async () => {
  const { core, now } = setUp();
  const p = core.ask({ kind: 'fields' });
  assert.equal(now().asked.length, 0);
  assert.ok(!core.idle);
  now().ready();
  assert.equal(now().asked.length, 1);
  now().answer();
  assert.ok(core.idle);
  const answer = await p;
  assert.equal(answer.reply.id, now().last.id);
  assert.equal(answer.streams[0]![0], now().last.id);
});

test('one question is in flight; of the plans that wait only the newest is asked', async () => {
  const { core, now } = setUp();
  now().ready();
  const [a, b, c, d] = [1, 2, 3, 4].map((n) => core.ask(plan(n)));
  assert.equal(now().asked.length, 1);
  assert.deepEqual(await Promise.all([a!, b!, c!, d!].map(state)), ['waits', 'superseded', 'superseded', 'waits']);
  now().answer();
  assert.equal(await state(a!), 'answered', 'what was begun is shown');
  assert.deepEqual(now().last.design, { n: 4 });
  now().answer();
  assert.deepEqual((await d!).reply.design, now().last);
  assert.equal(now().asked.length, 2);
});

test('a plan with a rest is asked after it, and never where another comes first', async () => {
  const { core, now } = setUp();
  now().ready();
  const waited = core.ask(plan(1), 20);
  assert.equal(now().asked.length, 0);
  assert.ok(!core.idle, 'it is still to come');
  const next = core.ask(plan(2));
  assert.deepEqual(now().last.design, { n: 2 });
  assert.equal(await state(waited), 'superseded');
  now().answer();
  await next;
  const later = core.ask(plan(3), 20), file = core.ask({ kind: 'file', file: 'a' });
  assert.equal(now().last.file, 'a', 'other questions do not rest');
  now().answer();
  await file;
  assert.equal(await state(later), 'waits');
  while (now().asked.length < 3) await new Promise((r) => setTimeout(r, 5));
  now().answer();
  assert.equal(await state(later), 'answered');
  assert.ok(core.idle);
});

test('other questions keep their order, go before a waiting plan and are never superseded', async () => {
  const { core, now } = setUp();
  now().ready();
  const all = [core.ask(plan(1)), core.ask({ kind: 'file', file: 'a' }), core.ask(plan(2)), core.ask({ kind: 'file', file: 'b' })];
  const order: unknown[] = [];
  for (let i = 0; i < 4; i++) {
    order.push(now().last.file ?? now().last.design);
    now().answer();
  }
  assert.deepEqual(order, [{ n: 1 }, 'a', 'b', { n: 2 }]);
  assert.deepEqual(await Promise.all(all.map(state)), Array(4).fill('answered'));
});

test('a worker that dies is replaced and the question asked again', async () => {
  const { core, workers, now } = setUp();
  now().ready();
  const p = core.ask(plan(1));
  now().die();
  assert.equal(workers.length, 2);
  assert.ok(workers[0]!.ended);
  now().ready();
  now().answer();
  assert.equal(await state(p), 'answered');
});

test('when a worker dies the newest plan is asked, not the one it died of', async () => {
  const { core, now } = setUp();
  now().ready();
  const [a, b] = [core.ask(plan(1)), core.ask(plan(2))];
  now().die();
  assert.equal(await state(a), 'superseded');
  now().ready();
  assert.deepEqual(now().last.design, { n: 2 });
  now().answer();
  assert.equal(await state(b), 'answered');
});

test('a question that kills twice is given up, and the next one is answered', async () => {
  const { core, workers, now } = setUp();
  now().ready();
  const p = core.ask(plan(1));
  now().die();
  now().ready();
  now().die();
  const { reply } = await p;
  assert.match(reply.error!, /could not be worked out \(out of memory\).*What you typed is kept/);
  assert.equal(workers.length, 2, 'no worker is started before it is needed');
  const q = core.ask(plan(2));
  now().ready();
  now().answer();
  assert.equal(await state(q), 'answered');
});

test('a worker that hangs is ended after its time and the newest plan asked of another', async (t) => {
  t.mock.timers.enable({ apis: ['setTimeout'] });
  const { core, workers, now } = setUp();
  now().ready();
  const a = core.ask(plan(1));
  t.mock.timers.tick(limits.answer - 1);
  const b = core.ask(plan(2));
  assert.equal(workers.length, 1);
  t.mock.timers.tick(1);
  assert.equal(workers.length, 2);
  assert.ok(workers[0]!.ended);
  now().ready();
  assert.deepEqual(now().last.design, { n: 2 });
  now().answer();
  assert.deepEqual([await state(a), await state(b)], ['superseded', 'answered']);
  t.mock.timers.tick(10 * limits.start);
  assert.equal(workers.length, 2, 'an answered question leaves no clock running');
});

test('a file has more time than other answers', (t) => {
  t.mock.timers.enable({ apis: ['setTimeout'] });
  const { core, workers, now } = setUp();
  now().ready();
  void core.ask({ kind: 'file', file: 'all' });
  t.mock.timers.tick(limits.file - 1);
  assert.equal(workers.length, 1);
  t.mock.timers.tick(1);
  assert.equal(workers.length, 2);
});

test('what an ended worker still says is not heard', async () => {
  const { core, workers, now } = setUp();
  now().ready();
  const p = core.ask(plan(1));
  now().die();
  workers[0]!.answer();
  workers[0]!.die();
  assert.equal(await state(p), 'waits');
  assert.equal(workers.length, 2);
  now().ready();
  now().answer();
  assert.equal(await state(p), 'answered');
});

test('a core that never starts is said so, and tried again with the next question', async (t) => {
  t.mock.timers.enable({ apis: ['setTimeout'] });
  const { core, workers, now } = setUp();
  const p = core.ask(plan(1));
  now().die('the server answers 404 for the core');
  t.mock.timers.tick(limits.start);
  assert.match((await p).reply.error!, /does not start \(it did not start\)/);
  assert.equal(workers.length, 2);
  const q = core.ask(plan(2));
  assert.equal(workers.length, 3);
  now().ready();
  now().answer();
  assert.equal(await state(q), 'answered');
});

test('a worker that dies idle is replaced by the next question', async () => {
  const { core, workers, now } = setUp();
  now().ready();
  now().die();
  assert.equal(workers.length, 1);
  const p = core.ask({ kind: 'fields' });
  now().ready();
  now().answer();
  assert.equal(await state(p), 'answered');
});

test('what is too long is refused without being sent', async () => {
  const { core, now } = setUp();
  now().ready();
  const { reply } = await core.ask({ kind: 'open', text: 'x'.repeat(maxDesign) });
  assert.match(reply.error!, /9 MB long; a design has at most 8 MB/);
  assert.equal(now().asked.length, 0);
});
