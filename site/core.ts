// The page's end of the line to the core: ids, promises, and what to do when the worker
// is slow, hangs or dies. It knows workers only as lines to post to, so that tests can
// put anything at the far end.
import { maxDesign, maxRequest, type Reply, type Request } from './messages';

/** What the page says to the worker. */
export type ToWorker =
  | { kind: 'start'; wasm: WebAssembly.Module }
  /** The address of the gzipped core, which is fetched at once and compiled when the page has drawn. */
  | { kind: 'start'; core: string }
  | { kind: 'compile' }
  /** The gzipped core itself, in letters (see bytes.ts). */
  | { kind: 'start'; letters: string }
  | { kind: 'ask'; id: number; text: string };

/** What the worker says to the page. */
export type FromWorker =
  | { kind: 'ready'; wasm?: WebAssembly.Module }
  | { kind: 'answer'; id: number; text: string; arrays: Float32Array[] }
  | { kind: 'dead'; reason: string };

/** A worker that was started. */
export interface Line {
  /** Asks it; nothing is asked before it said that it is ready. */
  ask(id: number, text: string): void;
  /** Ends it at once, whatever it is doing. */
  end(): void;
}

/** Starts a worker, which tells what it has to say to hear. */
export type Start = (hear: (message: FromWorker) => void) => Line;

/** What the page asks; the id is ours to give. */
export type Question = Omit<Request, 'id'>;

/** An answered question: the reply, and one array of numbers for each of its drawings. */
export interface Answer {
  reply: Reply;
  streams: Float32Array[];
  /** A later plan was asked for before this one was begun: it was never worked out. */
  superseded?: true;
}

/** How long things may take, ms. */
export interface Patience {
  /** A worker until it is ready, with loading. */
  start: number;
  /** One answer. The slowest sound design takes well under a second on a phone. */
  answer: number;
  /** A file: everything zipped, of a job that fills many sheets, takes its time. */
  file: number;
}

/** How long things usually take. */
export const usual: Patience = { start: 60_000, answer: 10_000, file: 120_000 };

/** How often a question is asked before it is given up: a worker can die of what went before. */
const tries = 2;

interface Job {
  id: number;
  plan: boolean;
  text: string;
  asked: number;
  patience: number;
  /** When it is asked at the earliest, as performance.now has it. */
  notBefore: number;
  settle: (answer: Answer) => void;
}

/**
 * Asks the core, one question at a time. Of plans only the newest waits: it takes the
 * place of an older one that was not begun, whose promise resolves as superseded. When
 * the worker dies or hangs it is replaced, and the newest question is asked again.
 *
 * A promise from ask never rejects: what can't be answered has reply.error set.
 */
export class WorkerCore {
  private line: Line | undefined;
  private ready = false;
  private flight: Job | undefined;
  private plan: Job | undefined;
  private readonly others: Job[] = [];
  private timer: ReturnType<typeof setTimeout> | undefined;
  private resting: ReturnType<typeof setTimeout> | undefined;
  private lastID = 0;

  /** Starts a worker at once, so that it is warm when the first question comes. */
  constructor(private readonly start: Start, private readonly patience: Patience = usual) {
    this.launch();
  }

  /**
   * Asks the core. Questions other than plans are answered in their order, before a plan that
   * waits. A plan may be asked after a rest, ms, in which no other is: a hand that goes on
   * needs not wait for it.
   */
  ask(question: Question, rest = 0): Promise<Answer> {
    return new Promise((settle) => {
      const id = ++this.lastID;
      const text = JSON.stringify({ ...question, id });
      if (text.length > (question.intake ? maxRequest : maxDesign)) return settle(refusal(id, tooLong(text.length)));
      const patience = question.kind === 'file' || question.kind === 'job' ? this.patience.file : this.patience.answer;
      const job: Job = { id, plan: question.kind === 'plan', text, asked: 0, patience, notBefore: rest && performance.now() + rest, settle };
      if (job.plan) {
        this.plan?.settle(superseded(this.plan.id));
        this.plan = job;
      } else {
        this.others.push(job);
      }
      this.next();
    });
  }

  /** Whether everything that was asked is answered. */
  get idle(): boolean { return !this.flight && !this.plan && this.others.length === 0; }

  /** Ends the worker; what was asked is never answered. */
  end(): void {
    clearTimeout(this.timer);
    clearTimeout(this.resting);
    this.line?.end();
    this.line = this.flight = this.plan = undefined;
    this.others.length = 0;
    this.ready = false;
  }

  private next(): void {
    if (this.flight) return;
    this.flight = this.others.shift() ?? this.take();
    if (!this.flight) return;
    if (this.ready) this.send(this.flight);
    else if (!this.line) this.launch();
  }

  private take(): Job | undefined {
    clearTimeout(this.resting);
    const job = this.plan, rest = job?.notBefore ? job.notBefore - performance.now() : 0;
    if (rest > 0) {
      this.resting = setTimeout(() => this.next(), rest);
      return undefined;
    }
    this.plan = undefined;
    return job;
  }

  private send(job: Job): void {
    job.asked++;
    this.wait(job.patience, 'it took too long');
    this.line?.ask(job.id, job.text);
  }

  private launch(): void {
    this.ready = false;
    this.wait(this.patience.start, 'it did not start');
    const line: Line = this.start((message) => {
      if (line === this.line) this.hear(message); // an ended worker may still have had something to say
    });
    this.line = line;
  }

  private wait(ms: number, reason: string): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.lose(reason), ms);
  }

  private hear(message: FromWorker): void {
    if (message.kind === 'dead') return this.lose(message.reason);
    if (message.kind === 'ready') {
      clearTimeout(this.timer);
      this.ready = true;
      if (this.flight) this.send(this.flight);
      return;
    }
    if (message.id !== this.flight?.id) return;
    clearTimeout(this.timer);
    this.land(() => ({ reply: JSON.parse(message.text) as Reply, streams: message.arrays }));
  }

  // The worker begins the next question before anything is made of the answer.
  private land(answer: () => Answer): void {
    const job = this.flight;
    this.flight = undefined;
    this.next();
    job?.settle(answer());
  }

  // The worker is gone or must go. A plan that has a newer one waiting gives way to it;
  // any other question is asked again of a new worker, and given up when that fails too.
  private lose(reason: string): void {
    clearTimeout(this.timer);
    const wasReady = this.ready;
    this.line?.end();
    this.line = undefined;
    this.ready = false;
    const job = this.flight;
    if (!job) return; // the next question starts a new one
    if (!wasReady) job.asked++;
    if (job.plan && this.plan) this.land(() => superseded(job.id));
    else if (job.asked < tries) this.launch();
    else this.land(() => refusal(job.id, wasReady ? gaveUp(reason) : notStarted(reason)));
  }
}

const superseded = (id: number): Answer => ({ reply: { id }, streams: [], superseded: true });

const refusal = (id: number, error: string): Answer => ({ reply: { id, error }, streams: [] });

const tooLong = (length: number): string =>
  `This is ${Math.ceil(length / 1e6)} MB long; a design has at most ${Math.floor(maxDesign / 1e6)} MB. Is it the right file?`;

const gaveUp = (reason: string): string =>
  `This could not be worked out (${reason}). What you typed is kept; undo the last change and go on from there.`;

const notStarted = (reason: string): string =>
  `The reckoning does not start (${reason}). What you typed is kept; save the design, then reload the page.`;
