// Designs and files coming in and going out.
import type { Question } from './core';
import { loadPart } from './load';
import type { FileBody } from './messages';
import type { Doc } from './path';
import type { PrintPart } from './print/api';
import type { State } from './state';

/** A design is a few kilobytes; far above that a file is something else. */
const largest = 8e6;

/** Opens a design file chosen by the person. */
export async function readDesign(state: State, file: File): Promise<void> {
  if (file.size > largest) {
    state.say(`${file.name} has ${Math.round(file.size / 1e6)} MB. A design has a few kilobytes: is this the right file? Your design stays as it is.`);
    return;
  }
  const content = await file.text();
  if (isMachine(content)) return readMachine(state, file.name, content);
  if (isStock(content)) return readStock(state, file.name, content);
  const answer = await state.asked.try({ kind: 'open', text: content });
  if (!answer?.reply.design) return;
  state.replace(answer.reply.design as Doc, `Open ${file.name}`);
  const said = (answer.reply.findings ?? []).map((f) => f.text);
  state.say([`Opened ${file.name}.`, ...said].join(' '));
}

// Settings of a machine say what they are in their first member.
function isMachine(content: string): boolean { return /^\s*\{\s*"format"\s*:\s*"springrib machine"/.test(content); }

function isStock(content: string): boolean { return /^\s*\{\s*"format"\s*:\s*"springrib stock"/.test(content); }

// A sheet goes into the present design with its readings; the rest of it stays.
async function readStock(state: State, name: string, content: string): Promise<void> {
  const doc = state.doc;
  const answer = await state.asked.try({ kind: 'stock', design: doc, text: content });
  if (!answer?.reply.design || state.doc !== doc) return;
  state.become(answer.reply.design as Doc, `Sheet of ${name}`);
  const said = (answer.reply.findings ?? []).map((f) => f.text);
  state.say([`The sheet is now that of ${name}, and its readings are with the others. Undo brings the former one back.`, ...said].join(' '));
}

// The settings go into the present design; the rest of it stays.
async function readMachine(state: State, name: string, content: string): Promise<void> {
  const doc = state.doc;
  const answer = await state.asked.try({ kind: 'machine', design: doc, text: content });
  if (!answer?.reply.design || state.doc !== doc) return;
  state.become(answer.reply.design as Doc, `Machine of ${name}`);
  const said = (answer.reply.findings ?? []).map((f) => f.text);
  state.say([`The machine and its operations are now those of ${name}. Undo brings the former ones back.`, ...said].join(' '));
}

/** Asks the core for a file and hands it to the person. */
export async function saveFile(state: State, question: Question): Promise<void> {
  const answer = await state.asked.try(/\.(pdf|zip)$/.test(question.file ?? '') ? { ...question, faces: await printed() } : question);
  const file = answer?.reply.file;
  if (file) handOver(file.name, new Blob([bytesOf(file)], { type: file.type }));
}

/** Designs that are cut together: how many of each. */
export interface Share { quantity: number; design: Doc }

/** Hands over everything of several designs that are cut together, as one file. What there is to say of them comes back; undefined when nothing was made. */
export async function saveJob(state: State, name: string, members: Share[]): Promise<string[] | undefined> {
  const text = JSON.stringify({ format: 'springrib job', version: 1, name, members });
  const answer = await state.asked.try({ kind: 'job', text, faces: await printed() });
  const file = answer?.reply.file;
  if (!file) return undefined;
  handOver(file.name, new Blob([bytesOf(file)], { type: file.type }));
  return (answer.reply.findings ?? []).map((f) => f.text);
}

// The typeface of PDFs. Where it can't be had they are set in the standard faces: somebody at the bench waits for a file.
const printed = (): Promise<unknown> => loadPart<PrintPart>('print').then((part) => part.faces, () => undefined);

/** Has every length of the design written in the other unit; when that fails nothing changes but the sentence that says so. */
export async function switchUnits(state: State, units: string): Promise<void> {
  const doc = state.doc;
  const answer = await state.asked.try({ kind: 'convert', design: doc, text: units });
  const converted = answer?.reply.design as Doc | undefined;
  if (state.doc !== doc) return; // typed on meanwhile: what was typed counts
  if (converted) state.become(converted, `Units ${units}`);
}

/** The bytes of a file as the core gives it. */
export function bytesOf(file: FileBody): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(file.base64), (c) => c.charCodeAt(0));
}

/** Hands a finished file to the person, to be saved where they like. */
export function handOver(name: string, content: Blob): void {
  const url = URL.createObjectURL(content);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  // Browsers start to read the address after the click; a minute is ample.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
