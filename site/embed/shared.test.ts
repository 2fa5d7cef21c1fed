import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Answer, Question } from '../core';
import { Lanes } from './shared';

/** A core that answers when it is told to. */
class Slow {
  asked: { question: Question; settle: (a: Answer) => void }[] = [];
  ask(question: Question): Promise<Answer> { return new Promise((settle) => this.asked.push({ question, settle })); }
  get names(): unknown[] { return this.asked.map((a) => a.question.text); }

  async answer(): Promise<void> {
    this.asked.at(-1)!.settle({ reply: { id: this.asked.length }, streams: [] });
    await new Promise((done) => setTimeout(done));
  }
}

const plan = (text: string): Question => ({ kind: 'plan', text });

test('designs take turns, one question at a time', async () => {
  const slow = new Slow(), lanes = new Lanes(slow), a = lanes.lane(), b = lanes.lane();
  void a.ask({ kind: 'open', text: 'a1' });
  void a.ask({ kind: 'save', text: 'a2' });
  void a.ask({ kind: 'save', text: 'a3' });
  void b.ask({ kind: 'open', text: 'b1' });
  assert.deepEqual(slow.names, ['a1']);
  for (let i = 0; i < 4; i++) await slow.answer();
  assert.deepEqual(slow.names, ['a1', 'a2', 'b1', 'a3']);
});

test('a newer plan overtakes the one of its own design that waits, and no other', async () => {
  const slow = new Slow(), lanes = new Lanes(slow), a = lanes.lane(), b = lanes.lane();
  void a.ask(plan('a1'));
  const old = a.ask(plan('a2'));
  void b.ask(plan('b1'));
  void a.ask(plan('a3'));
  assert.equal((await old).superseded, true);
  for (let i = 0; i < 3; i++) await slow.answer();
  assert.deepEqual(slow.names.slice().sort(), ['a1', 'a3', 'b1']);
});
