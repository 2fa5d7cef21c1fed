// Packing in workers of their own, so that the page goes on answering. Each searches a slice at a
// time from a seed of its own; what one finds is shown, and the others go on from it where it is much better.
import type { Answer, Question } from './core';
import { get, type Doc, type Json } from './path';
import type { State } from './state';

/** Steps of work for each worker in all, about half a minute, and until it tells how far it is. */
export const effort = 1e9, slice = 10e6;

/** How many workers pack: a processor each, but no more than memory allows for. */
export const workers = (processors = navigator.hardwareConcurrency): number => Math.max(1, Math.min(3, processors || 1));

/** A core that can be ended in the middle of an answer. */
export interface PackCore {
  ask(question: Question): Promise<Answer>;
  end(): void;
}

/** Lays the parts of a design closer, slice after slice. */
export class Packer {
  /** Share of the effort that is spent, while packing. */
  done: number | undefined;
  /** What packing came to so far. */
  said = '';
  /** The design of which that was said, and which is packed. */
  private about: Doc | undefined;
  private cores: PackCore[] = [];
  private rank = Infinity;

  constructor(private readonly state: State, private readonly start: () => PackCore, private readonly changed: () => void, private readonly count = workers()) {}

  get busy(): boolean { return this.cores.length > 0; }

  /** What there is to say of the present design. */
  get news(): string { return this.busy || this.state.doc === this.about ? this.said : ''; }

  /** Packs the present design, from where its parts lie. A change of it meanwhile ends the packing. */
  async run(): Promise<void> {
    if (this.busy) return;
    const cores = this.cores = Array.from({ length: this.count }, this.start);
    this.rank = Infinity;
    this.tell(0, 'Packing…');
    const shares = cores.map(() => 0);
    await Promise.all(cores.map((core, seed) => this.search(core, seed, (done) => {
      shares[seed] = Math.max(shares[seed]!, done); // a worker in the place of one that died begins anew
      this.tell(shares.reduce((a, b) => a + b) / shares.length, this.said);
    })));
    if (this.cores === cores) this.end(this.said);
  }

  /** Lets one worker search until its effort is spent. */
  private async search(core: PackCore, seed: number, spent: (done: number) => void): Promise<void> {
    const { cores } = this;
    for (let done = 0; done < 1; spent(done)) {
      const answer = await core.ask({ kind: 'pack', design: this.state.doc, effort, slice, seed });
      if (this.cores !== cores) return; // stopped
      if (this.state.doc !== this.about) return this.end('The design was changed, so packing stopped.');
      const { error, packed, design } = answer.reply;
      if (error || !packed) { // the others go on, and what was found stays
        if (this.rank === Infinity) this.said = error ?? 'Nothing was packed.';
        done = 1;
        continue;
      }
      ({ done } = packed);
      if (packed.rank < this.rank) this.keep(packed.rank, packed.text, design as Doc);
    }
    core.end();
  }

  private keep(rank: number, text: string, design: Doc): void {
    this.rank = rank;
    this.said = text;
    this.state.set('cut.places', get(design, 'cut.places') as Json, true);
    this.about = this.state.doc;
  }

  /** Stops; what was found so far stays. */
  stop(): void {
    if (this.busy) this.end(this.rank === Infinity ? 'Stopped before anything was laid.' : `${this.said} Stopped there.`);
  }

  /** Lays the parts in rows again. */
  rows(): void {
    this.stop();
    this.state.set('cut.places', []);
    this.tell(undefined, '');
  }

  private end(said: string): void {
    for (const core of this.cores) core.end();
    this.cores = [];
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
