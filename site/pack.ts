// Packing in a worker of its own, so that the page goes on answering: a few rounds, each
// with more effort than the last, each shown as soon as it is there.
import type { Answer, Question } from './core';
import { get, type Doc, type Json } from './path';
import type { State } from './state';

/** Effort of each round, in the core's steps. The first lays all parts, which takes its time in any round; the other gains a little more. */
export const rounds = [2e6, 60e6];

/** A core that can be ended in the middle of an answer. */
export interface PackCore {
  ask(question: Question): Promise<Answer>;
  end(): void;
}

/** Lays the parts of a design closer, round after round. */
export class Packer {
  /** Share of the effort that is spent, while packing. */
  done: number | undefined;
  /** What the last round came to. */
  said = '';
  /** The design of which that was said. */
  private about: Doc | undefined;
  private core: PackCore | undefined;

  constructor(private readonly state: State, private readonly start: () => PackCore, private readonly changed: () => void) {}

  get busy(): boolean { return this.core !== undefined; }

  /** What there is to say of the present design. */
  get news(): string { return this.busy || this.state.doc === this.about ? this.said : ''; }

  /** Packs the present design. A change of it meanwhile ends the packing. */
  async run(): Promise<void> {
    if (this.busy) return;
    const core = this.core = this.start();
    const all = rounds.reduce((a, b) => a + b);
    let spent = 0;
    let { doc } = this.state;
    this.tell(0, 'Packing…');
    for (const effort of rounds) {
      const answer = await core.ask({ kind: 'pack', design: doc, effort });
      if (this.core !== core) return; // stopped
      if (this.state.doc !== doc) return this.end('The design was changed, so packing stopped.');
      const { error, packed, design } = answer.reply;
      if (error || !packed) return this.end(error ?? 'Nothing was packed.');
      this.state.set('cut.places', get(design as Doc, 'cut.places') as Json, true);
      doc = this.state.doc;
      spent += effort;
      this.tell(spent / all, packed.text);
    }
    this.end(this.said);
  }

  /** Stops; what was found so far stays. */
  stop(): void {
    if (this.busy) this.end(this.said === 'Packing…' ? 'Stopped before anything was laid.' : `${this.said} Stopped there.`);
  }

  /** Lays the parts in rows again. */
  rows(): void {
    this.stop();
    this.state.set('cut.places', []);
    this.tell(undefined, '');
  }

  private end(said: string): void {
    this.core?.end();
    this.core = undefined;
    this.state.seal();
    this.tell(undefined, said);
  }

  private tell(done: number | undefined, said: string): void {
    this.done = done;
    this.said = said;
    this.about = this.state.doc;
    this.changed();
  }
}
