// The core's worker: a classic script, so that it starts from a Blob even when the page
// was opened from disk. It is given the core once - compiled, or what to compile it from, which
// it does itself beside the page - and answers texts after.
import 'springrib:wasm_exec';
import { compiled, fetched, fromLetters } from './bytes';
import type { FromWorker, ToWorker } from './core';

/** What Go's own loader puts on the worker's global object. */
declare class Go {
  importObject: WebAssembly.Imports;
  run(instance: WebAssembly.Instance): Promise<void>;
}

interface Scope {
  postMessage(message: FromWorker, transfer: Transferable[]): void;
  onmessage: ((event: MessageEvent<ToWorker>) => void) | null;
  /** Registered by the core once it runs. A text instead of a result says that it is broken. */
  springribAnswer?: (request: string) => { text: string; arrays: Float32Array[] } | string;
}

const scope = globalThis as unknown as Scope;

function say(message: FromWorker, transfer: Transferable[] = []): void {
  scope.postMessage(message, transfer);
}

const dead = (reason: unknown): void =>
  say({ kind: 'dead', reason: reason instanceof Error ? reason.message : String(reason) });

let compile: () => void;
const drawn = new Promise<void>((done) => (compile = done));

async function moduleOf(core: ToWorker & { kind: 'start' }): Promise<WebAssembly.Module> {
  if ('wasm' in core) return core.wasm;
  if ('letters' in core) return compiled(new Response(fromLetters(core.letters)));
  const packed = await fetched(core.core);
  await drawn;
  return compiled(packed);
}

async function start(core: ToWorker & { kind: 'start' }): Promise<void> {
  const wasm = await moduleOf(core);
  const go = new Go();
  const instance = await WebAssembly.instantiate(wasm, go.importObject);
  go.run(instance).then(() => dead('the core ended'), dead); // it runs until the worker is ended
  say({ kind: 'ready', wasm });
}

function answer(id: number, text: string): void {
  const result = scope.springribAnswer?.(text) ?? 'the core is not there';
  if (typeof result === 'string') dead(result);
  else say({ kind: 'answer', id, ...result }, result.arrays.map((a) => a.buffer));
}

scope.onmessage = ({ data }) => {
  if (data.kind === 'start') {
    start(data).catch(dead);
    return;
  }
  if (data.kind === 'compile') return compile();
  try {
    answer(data.id, data.text);
  } catch (e) {
    dead(e); // a core that threw past its own recovery can't be trusted with the next request
  }
};
