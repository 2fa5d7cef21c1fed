// A file drawn elsewhere on its way into a design: its bytes, what the core says it
// holds, and what was chosen of it. The core keeps nothing between questions, so each
// one brings the file along.
import type { Answer, Question } from './core';
import { maxDrawing, type Intake, type IntakeView } from './messages';
import type { Doc } from './path';

/** What a file is asked of: size first, then content. */
export interface FileLike { name: string; size: number; arrayBuffer(): Promise<ArrayBuffer> }

/** Answers questions; its promises don't reject. */
export type Ask = (question: Question) => Promise<Answer>;

/** Why a file is not even loaded, or nothing. */
export function tooLarge(file: { name: string; size: number }): string {
  return file.size <= maxDrawing ? ''
    : `${file.name} has ${Math.ceil(file.size / 1e6)} MB; at most ${Math.floor(maxDrawing / 1e6)} MB are read. Leave out pictures and whatever is not cut. Your design stays as it is.`;
}

/** The bytes as base64, which goes through JSON unharmed whatever the file's encoding. */
export function base64(bytes: Uint8Array): string {
  const step = 0x6000; // as many arguments as every engine takes
  let binary = '';
  for (let i = 0; i < bytes.length; i += step) binary += String.fromCharCode(...bytes.subarray(i, i + step));
  return btoa(binary);
}

/** What a person may choose; the rest of Intake is the file. */
export type Choice = Partial<Pick<Intake, 'perInch' | 'gap' | 'edge' | 'leave' | 'roles' | 'lay'>>;

/** One file, opened for one card. */
export class Bringing {
  /** What the core last said of it. */
  view: IntakeView | undefined;
  stream: Float32Array = new Float32Array();
  /** Why the file can't be read or the choice not taken. */
  refusal = '';
  /** What is asked about the file now. */
  intake: Intake;

  private asking: Promise<void> | undefined;
  private stale = false;

  constructor(private readonly ask: Ask, private readonly doc: () => Doc, intake: Pick<Intake, 'name' | 'base64' | 'card'>, private readonly tell: () => void) {
    this.intake = { ...intake, perInch: 0, gap: '', edge: '', leave: [], roles: {}, lay: {} };
  }

  /** Whether an answer is on its way. */
  get busy(): boolean { return this.asking !== undefined; }

  /** Asks with another choice. Of several made while an answer is on its way, only the last is asked. */
  choose(choice: Choice): Promise<void> {
    this.intake = { ...this.intake, ...choice };
    this.stale = true;
    this.asking ??= this.catchUp();
    return this.asking;
  }

  /** The design with what was chosen, or nothing, with the reason in refusal. */
  async take(): Promise<Doc | undefined> {
    await this.asking;
    const { reply } = await this.ask({ kind: 'take', design: this.doc(), intake: this.intake });
    this.refusal = reply.error ?? '';
    this.tell();
    return reply.error ? undefined : reply.design as Doc;
  }

  private async catchUp(): Promise<void> {
    while (this.stale) {
      this.stale = false;
      const { reply, streams } = await this.ask({ kind: 'intake', design: this.doc(), intake: this.intake });
      this.refusal = reply.error ?? '';
      if (reply.intake) {
        this.view = reply.intake;
        this.stream = streams[0] ?? new Float32Array();
      }
      if (!this.stale) this.asking = undefined;
      this.tell();
    }
  }
}

/** The roles that were chosen for a row of paths: what its single paths were goes. */
export function roleOfRow(roles: Record<string, string>, row: string, paths: readonly string[], role: string): Record<string, string> {
  const out = { ...roles, [row]: role };
  for (const p of paths) delete out[p];
  return out;
}
