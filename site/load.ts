// Finds the core that was built with the page and starts it in a worker. The page's
// element with the id "core" is either a link to a gzipped file beside the page or a
// block of letters in the page itself; everything else is the same for both.
import { compiled, fetched, fromLetters, inflated } from './bytes';
import { usual, WorkerCore, type FromWorker, type Start, type ToWorker } from './core';
import { lineTo } from './line';

/** What early.ts leaves: a worker under way, what it has said so far, and whether it was told what its core is. */
export interface Early { worker: Worker; url: string; said: FromWorker[]; told: boolean }

let built: Start | undefined;

/** Lets the first core be compiled. To compile takes all of a small machine, so the page draws before. */
export let letCompile: () => void;
const mayCompile = new Promise<void>((done) => (letCompile = done));

/** How to start a worker with the core in it. The first is the early one; what it compiled serves all. */
function builtCore(): Start {
  return built ??= withEarly((globalThis as { springribEarly?: Early }).springribEarly, coreOf);
}

/** Starts the core that was built with the page. */
export const startCore = (): WorkerCore => new WorkerCore(builtCore());

/** Starts a core of its own for packing, whose answers take their time. */
export const startPackCore = (): WorkerCore => new WorkerCore(builtCore(), { ...usual, answer: 180_000 });

function withEarly(early: Early | undefined, load: () => Promise<WebAssembly.Module>): Start {
  if (!early) throw new Error('the page has lost its first script');
  let module: WebAssembly.Module | undefined;
  let begun = false;
  const later = coreFrom(early.url, async () => module ?? load());
  return (hear) => {
    if (begun) return later(hear);
    begun = true;
    const heard = (message: FromWorker): void => {
      if (message.kind === 'ready') module = message.wasm;
      hear(message);
    };
    const line = lineTo(early.worker, firstCore(early.told), heard);
    queueMicrotask(() => early.said.forEach(heard)); // the line is in its place by then
    return line;
  };
}

async function firstCore(told: boolean): Promise<ToWorker> {
  await mayCompile;
  if (told) return { kind: 'compile' };
  await whole();
  return { kind: 'start', letters: blockOf(document.getElementById('core')) };
}

/** How to start a worker at url with a core that is got by load. What was compiled once is shared by all workers. */
export function coreFrom(url: string, load: () => Promise<WebAssembly.Module>): Start {
  let core: Promise<WebAssembly.Module> | undefined;
  return (hear) => {
    core ??= load();
    core.catch(() => (core = undefined)); // the next worker tries again
    return lineTo(new Worker(url), core.then((wasm) => ({ kind: 'start', wasm })), hear);
  };
}

/**
 * A part of the page that comes when it is first shown: what main.ts in the folder of
 * that name exports. The element with its name holds the script, gzipped and in letters, or
 * the script's address.
 */
export async function loadPart<T>(name: 'scene' | 'things' | 'print'): Promise<T> {
  const global = `springrib${name[0]!.toUpperCase()}${name.slice(1)}`;
  const page = globalThis as unknown as Record<string, T | undefined>;
  if (!page[global]) await whole().then(() => runScript(document.getElementById(name)));
  const part = page[global];
  if (!part) throw new Error(`the page has lost its ${name}`);
  return part;
}

/** Once the page is there to its end: what is needed last comes last. */
async function whole(): Promise<void> {
  if (document.readyState === 'loading') await new Promise((done) => document.addEventListener('DOMContentLoaded', done, { once: true }));
}

async function runScript(holder: HTMLElement | null): Promise<void> {
  const script = document.createElement('script');
  const address = holder?.getAttribute('src');
  if (!address) {
    // The content policy names the sum of what was packed: anything else is not run.
    script.textContent = await unpackedText(holder);
    document.head.append(script); // it has run by now
    return;
  }
  await new Promise<void>((done, fail) => {
    script.onload = () => done();
    script.onerror = () => fail(new Error('the server does not answer'));
    script.src = address;
    document.head.append(script);
  });
}

/** The text that an element of the page holds, gzipped and in letters. */
export async function unpackedText(holder: Element | null): Promise<string> {
  return (await inflated(new Response(fromLetters(blockOf(holder))))).text();
}

function blockOf(element: Element | null): string {
  if (!element?.textContent) throw new Error('the page has lost its core');
  return element.textContent.trim();
}

// The wasm that the page's element stands for, for a worker after the first.
async function coreOf(): Promise<WebAssembly.Module> {
  await whole();
  const element = document.getElementById('core');
  return compiled(element instanceof HTMLLinkElement ? await fetched(element.href) : new Response(fromLetters(blockOf(element))));
}

/** The bytes of the wasm at an address, which may be another server's. */
export async function fetchCore(url: string): Promise<ArrayBuffer> { return (await inflated(await fetched(url))).arrayBuffer(); }
