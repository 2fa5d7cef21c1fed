// One core for all designs of a page. Each design has a lane of its own, in which only
// the newest plan waits; lanes take turns.
import { WorkerCore, type Answer, type Question } from '../core';
import { coreFrom, fetchCore } from '../load';
import type { Core } from '../asking';
import core from 'springrib:core';
import workerSource from 'springrib:worker';

interface Waiting { question: Question; settle: (answer: Answer) => void }

/** Takes questions of several askers to one core, one at a time. */
export class Lanes {
  private readonly waiting: Map<object, Waiting[]> = new Map();
  private busy = false;

  constructor(private readonly core: Core) {}

  /** A core of its own for one asker. */
  lane(): Core {
    const key = {};
    return {
      ask: (question) => new Promise((settle) => {
        const queue = this.waiting.get(key) ?? [];
        const at = question.kind === 'plan' ? queue.findIndex((w) => w.question.kind === 'plan') : -1;
        if (at >= 0) queue.splice(at, 1)[0]!.settle({ reply: { id: 0 }, streams: [], superseded: true });
        queue.push({ question, settle });
        this.waiting.set(key, queue);
        void this.next();
      }),
    };
  }

  private async next(): Promise<void> {
    if (this.busy) return;
    const [key, queue] = this.waiting.entries().next().value ?? [];
    if (!key || !queue) return;
    this.busy = true;
    const { question, settle } = queue.shift()!;
    this.waiting.delete(key);
    if (queue.length > 0) this.waiting.set(key, queue); // to the end of the round
    settle(await this.core.ask(question));
    this.busy = false;
    void this.next();
  }
}

let lanes: Lanes | undefined;

/** A lane to the page's one core, which is started with the first. base is the script's address. */
export function coreOf(base: string): Core {
  lanes ??= new Lanes(new WorkerCore(coreFrom(workerURL(), async () => WebAssembly.compile(await checked(await fetchCore(new URL(core.file, base).href))))));
  return lanes.lane();
}

const workerURL = (): string => URL.createObjectURL(new Blob([workerSource], { type: 'text/javascript' }));

// The page vouches for the script by its integrity, and the script for its core. Browsers
// offer the sum on secure pages alone.
async function checked(wasm: ArrayBuffer): Promise<ArrayBuffer> {
  const sum = await globalThis.crypto?.subtle?.digest('SHA-256', wasm);
  if (sum && hex(sum) !== core.sha256) throw new Error('the core is not the one that belongs to this script');
  return wasm;
}

const hex = (bytes: ArrayBuffer): string => Array.from(new Uint8Array(bytes), (b) => b.toString(16).padStart(2, '0')).join('');
