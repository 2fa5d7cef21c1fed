// Answers that are there before the core is: the form and the first example's plan, worked
// out when the page was built, and the last plan of the design worked on, kept with it in
// the browser under the id of the build that made it.
import type { Answer } from './core';
import { fromBase64, toBase64 } from './bytes';
import { unpackedText } from './load';
import type { Controls, PlanView, Reply } from './messages';
import type { Doc } from './path';
import type { Picture } from './asking';

/** What comes with the page. */
export interface First {
  /** The id of the build: another build may answer otherwise. */
  build: string;
  controls: Controls;
  /** The plan of the first example. */
  answer: Answer;
}

/** What comes with the page, out of the element that holds it. */
export async function firstOf(holder: HTMLElement | null): Promise<First> {
  const { form, plan, streams } = JSON.parse(await unpackedText(holder)) as { form: Reply; plan: Reply; streams: number[][] };
  return { build: holder?.dataset.build ?? '', controls: form.controls!, answer: { reply: plan, streams: streams.map((s) => Float32Array.from(s)) } };
}

interface Written { build: string; doc: string; plan: PlanView; streams: string[] }

/** The longest answer that is kept, in letters; a browser's store has a few million for all designs. */
const longest = 400_000;

/** A picture as the text to keep it as; none when it is too long. What is in space is left out. */
export function writtenAnswer(build: string, { plan, streams, doc }: Picture): string | undefined {
  const { space: _, ...flat } = plan;
  const drawings = plan.drawings.filter((d) => d.id !== 'isometric');
  const kept = drawings.map((d) => streams[plan.drawings.indexOf(d)]!);
  const text = JSON.stringify({
    build, doc: JSON.stringify(doc), plan: { ...flat, drawings },
    streams: kept.map((s) => toBase64(new Uint8Array(s.buffer, s.byteOffset, s.byteLength))),
  } satisfies Written);
  return text.length > longest ? undefined : text;
}

/** The answer that a text holds, when it is this build's answer to this very design. */
export function readAnswer(text: string | undefined, build: string, doc: Doc): Answer | undefined {
  if (text === undefined) return undefined;
  try {
    const written = JSON.parse(text) as Written;
    if (written.build !== build || written.doc !== JSON.stringify(doc)) return undefined;
    return { reply: { id: 0, plan: written.plan }, streams: written.streams.map((s) => new Float32Array(fromBase64(s).buffer)) };
  } catch {
    return undefined; // what was cut short is worked out again
  }
}
