// Finds the core that was built with the page and starts it in a worker. The page's
// element with the id "core" is either a link to a gzipped file beside the page or a
// block of base64 in the page itself; everything else is the same for both.
import workerSource from 'springrib:worker';
import { usual, WorkerCore, type FromWorker, type Line, type Start, type ToWorker } from './core';

let built: Start | undefined;

/** How to start a worker with the core in it. Loading begins with the first and serves all. */
function builtCore(): Start {
  return built ??= coreFrom(() => coreOf(document.getElementById('core')));
}

/** Starts the core that was built with the page. */
export const startCore = (): WorkerCore => new WorkerCore(builtCore());

/** Starts a core of its own for packing, whose answers take their time. */
export const startPackCore = (): WorkerCore => new WorkerCore(builtCore(), { ...usual, answer: 180_000 });

/** How to start a worker with a core that is got by load. What was compiled once is shared by all workers. */
export function coreFrom(load: () => Promise<WebAssembly.Module>): Start {
  const url = URL.createObjectURL(new Blob([workerSource], { type: 'text/javascript' }));
  let core: Promise<WebAssembly.Module> | undefined;
  return (hear) => {
    core ??= load();
    core.catch(() => (core = undefined)); // the next worker tries again
    return startWorker(url, core, hear);
  };
}

/**
 * A part of the page that comes when it is first shown: what main.ts in the folder of
 * that name exports. The element with its name holds the script, gzipped in base64, or
 * the script's address.
 */
export async function loadPart<T>(name: 'scene'): Promise<T> {
  const global = `springrib${name[0]!.toUpperCase()}${name.slice(1)}`;
  const page = globalThis as unknown as Record<string, T | undefined>;
  if (!page[global]) await runScript(document.getElementById(name));
  const part = page[global];
  if (!part) throw new Error(`the page has lost its ${name}`);
  return part;
}

async function runScript(holder: HTMLElement | null): Promise<void> {
  const script = document.createElement('script');
  const address = holder?.getAttribute('src');
  if (!address) {
    // The content policy names the sum of what was packed: anything else is not run.
    script.textContent = await inflated(fromBase64(holder?.textContent?.trim() ?? '')).text();
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

function startWorker(url: string, core: Promise<WebAssembly.Module>, hear: (message: FromWorker) => void): Line {
  const worker = new Worker(url);
  const post = (message: ToWorker): void => worker.postMessage(message);
  const dead = (reason: string): void => hear({ kind: 'dead', reason });
  worker.onmessage = ({ data }: MessageEvent<FromWorker>) => hear(data);
  worker.onerror = (event) => {
    event.preventDefault();
    dead(event.message || 'the worker broke');
  };
  core.then((wasm) => post({ kind: 'start', wasm })).catch((e: unknown) => dead(e instanceof Error ? e.message : String(e)));
  return {
    ask: (id, text) => post({ kind: 'ask', id, text }),
    end: () => worker.terminate(),
  };
}

// The wasm that the page's element stands for. It is compiled while it is unpacked.
async function coreOf(element: HTMLElement | null): Promise<WebAssembly.Module> {
  const { body } = inflated(await coreBytes(element));
  return WebAssembly.compileStreaming(new Response(body, { headers: { 'Content-Type': 'application/wasm' } }));
}

async function coreBytes(element: HTMLElement | null): Promise<ArrayBuffer> {
  if (element instanceof HTMLLinkElement) return fetched(element.href);
  if (!element?.textContent) throw new Error('the page has lost its core');
  return fromBase64(element.textContent.trim());
}

/** The bytes of the wasm at an address, which may be another server's. */
export async function fetchCore(url: string): Promise<ArrayBuffer> { return inflated(await fetched(url)).arrayBuffer(); }

async function fetched(url: string): Promise<ArrayBuffer> {
  const response = await fetch(url, { credentials: 'same-origin' });
  if (!response.ok) throw new Error(`the server answers ${response.status} for the core`);
  return response.arrayBuffer();
}

// Some servers unpack a gzipped file on the way, so the bytes say what they are.
function inflated(bytes: ArrayBuffer): Response {
  const [a, b] = new Uint8Array(bytes, 0, Math.min(2, bytes.byteLength));
  if (a !== 0x1f || b !== 0x8b) return new Response(bytes);
  return new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip')));
}

function fromBase64(text: string): ArrayBuffer {
  const { fromBase64 } = Uint8Array as unknown as { fromBase64?: (text: string) => Uint8Array<ArrayBuffer> };
  if (fromBase64) return fromBase64.call(Uint8Array, text).buffer; // newer browsers, ten times as fast
  const packed = atob(text);
  const bytes = new Uint8Array(packed.length);
  for (let i = 0; i < packed.length; i++) bytes[i] = packed.charCodeAt(i);
  return bytes.buffer;
}
