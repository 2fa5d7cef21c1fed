// What is asked of the core: plans of the document as it changes, and what the drawings
// and the form show of the answers.
import type { Answer, Question } from './core';
import type { Controls, Drag, Field, PlanView, Reply } from './messages';
import type { Doc } from './path';

/** The core, or what stands in for it. Its promises don't reject. */
export interface Core { ask(question: Question, rest?: number): Promise<Answer> }

/** The last plan that could be drawn, with the document it shows. */
export interface Picture { plan: PlanView; streams: Float32Array[]; doc: Doc }

/** What is wanted of a plan besides the usual: the panel in space, bent so far. */
export type Sight = Pick<Question, 'show' | 'folded'>;

/** What asking needs of the page's state. */
export interface Asker {
  readonly doc: Doc;
  say(notice: string): void;
  tell(): void;
}

/** How long a hand rests before what takes long is asked for, ms: less than one sees as waiting,
 * more than lies between the repeats of a key. */
const rest = 100;

/** A plan before the core has said anything. */
const emptyPlan: PlanView = {
  drawn: false,
  verdict: { severity: '', word: '', sentence: '', gauges: [] },
  cards: {}, fields: {}, findings: [], numbers: [], options: { heads: [], rows: [] }, scores: [], drawings: [], files: [], cautions: [],
};

/** Questions to the core and their answers. */
export class Asking {
  /** The table of the form, once the core has said it. */
  controls: Controls | undefined;
  /** What the core says of the present document, as of its last answer. */
  plan: PlanView = emptyPlan;
  picture: Picture | undefined;
  /** The document that plan is of. */
  planned: Doc | undefined;
  /** Whether the drawings show an earlier document than the last one asked about. */
  stale = false;
  /** Whether the core itself has answered: what stood there before came with the page, or was kept. */
  live = false;

  private sight: Sight = {};
  /** Whether bodies in space have come since they were wanted. */
  private bodies = false;
  /** Whether a plan was ever asked for: before, nothing wants another. */
  private began = false;
  /** Whether a whole answer has come: the first is asked for without a rest. */
  private whole = false;
  /** Whether the drawings still show a design that was put away. */
  private another = false;

  constructor(private readonly core: Core, private readonly state: Asker) {}

  /** Asks the core; an error in its reply is for the caller to tell. */
  ask(question: Question): Promise<Answer> { return this.core.ask(question); }

  /** Asks the core; when it can't answer, says so and gives undefined. */
  async try(question: Question, rest = 0): Promise<Answer | undefined> {
    const answer = await this.core.ask(question, rest);
    if (!answer.reply.error) return answer;
    this.state.say(answer.reply.error);
    return undefined;
  }

  /** Shows an answer that was there before the core. Nothing can be taken hold of until that is. */
  begin({ reply, streams }: Answer, doc: Doc): void {
    const { plan } = reply;
    if (!plan) return;
    const drawings = plan.drawings.map(({ handles: _, ...seen }) => seen);
    this.accept({ reply: { ...reply, plan: { ...plan, drawings } }, streams }, doc);
  }

  /** Asks for the table of the form. */
  async form(): Promise<Controls | undefined> {
    return this.controls = (await this.try({ kind: 'fields' }))?.reply.controls ?? this.controls;
  }

  /** What the core says of a field. */
  field(path: string): Field { return this.plan.fields[path] ?? {}; }

  /** Whether the core has said anything of a design yet. */
  get answered(): boolean { return this.plan !== emptyPlan; }

  /** Wants more or less of each plan from now on, and a new one now. */
  look(sight: Sight): void {
    if (sight.show === this.sight.show && sight.folded === this.sight.folded) return;
    this.sight = sight;
    this.bodies = false;
    if (this.began) void this.replan();
  }

  /** The next plan is of another design: none of the present drawings stands in for it. */
  putAway(): void { this.another = true; }

  /**
   * Asks for a plan of the present document. The core answers plans in the order they were
   * asked and skips those that a newer one overtook, so that the latest answer always belongs
   * to the latest document it had time for. What nobody waits for is fetched once the drawings
   * are there.
   */
  async replan(): Promise<void> {
    const { doc } = this.state;
    this.began = true;
    const drawn = await this.plans(doc, { brief: true });
    if (drawn?.partial && this.state.doc === doc) await this.plans(doc, {}, this.whole ? rest : 0);
  }

  // Bodies in space are many numbers: a draft goes without them once there are some to see.
  private get quick(): Sight { return this.bodies && !this.another ? {} : this.sight; }

  private async plans(doc: Doc, how: { brief?: boolean }, rest = 0): Promise<PlanView | undefined> {
    const answer = await this.try({ kind: 'plan', design: doc, ...(how.brief ? this.quick : this.sight), ...how }, rest);
    if (answer?.superseded) return undefined;
    if (answer) {
      this.live = true;
      this.whole ||= answer.reply.plan?.partial !== true;
      this.accept(answer, doc);
    }
    this.stale = this.picture !== undefined && this.picture.doc !== doc;
    this.state.tell();
    return answer?.reply.plan;
  }

  /** Asks for the plan of a document with a handle moved; follow shows it. */
  drag(base: Doc, drag: Drag): Promise<Answer | undefined> {
    return this.try({ kind: 'plan', design: base, drag, ...this.quick });
  }

  /** Shows what a pull came to, as that of doc, which is the present document. */
  follow(answer: Answer, doc: Doc): void {
    this.accept(answer, doc);
    this.stale = this.picture?.doc !== doc;
  }

  private accept({ reply: { plan }, streams }: { reply: Reply; streams: Float32Array[] }, doc: Doc): void {
    if (!plan) return;
    const whole = plan.partial && this.picture && !this.another ? withRest({ plan, streams, doc }, this.picture) : { plan, streams, doc };
    this.plan = whole.plan;
    this.bodies ||= plan.space !== undefined;
    this.planned = doc;
    if (this.another) this.picture = undefined;
    this.another = false;
    if (plan.drawn) this.picture = whole;
  }
}

/** A partial picture with what it leaves out as the one before has it: drawings of other ids, and files. */
export function withRest(part: Picture, before: Picture): Picture {
  const { drawings, space } = part.plan;
  const has = new Set(drawings.map((d) => d.id));
  const rest = before.plan.drawings.map((view, at) => ({ view, stream: before.streams[at]! })).filter(({ view }) => isStrip(view.id) && !has.has(view.id));
  const at = drawings.findIndex((d) => d.id === 'isometric'); // it stands last, and so do the arrays of space
  const end = at < 0 ? drawings.length : at;
  return {
    doc: part.doc,
    streams: part.streams.toSpliced(end, 0, ...rest.map(({ stream }) => stream)),
    plan: {
      ...part.plan, files: part.plan.withheld ? [] : before.plan.files, drawings: drawings.toSpliced(end, 0, ...rest.map(({ view }) => view)),
      ...(space ? { space: { ...space, first: space.first + rest.length } } : {}),
    },
  };
}

const isStrip = (id: string): boolean => id === 'readings' || id.startsWith('strips');
