// Finds the core that was built with the page and starts it in a worker. The page's
// element with the id "core" is either a link to a gzipped file beside the page or a
// block of base64 in the page itself; everything else is the same for both.
import workerSource from 'springrib:worker';
import type { FromWorker, Line, Start, ToWorker } from './core';

/** How to start a worker with the core in it. Loading begins with the first and serves all. */
export function builtCore(): Start {
  const url = URL.createObjectURL(new Blob([workerSource], { type: 'text/javascript' }));
  let bytes: Promise<ArrayBuffer> | undefined;
  return (hear) => {
    bytes ??= coreBytes(document.getElementById('core'));
    bytes.catch(() => (bytes = undefined)); // the next worker tries again
    return startWorker(url, bytes, hear);
  };
}

function startWorker(url: string, bytes: Promise<ArrayBuffer>, hear: (message: FromWorker) => void): Line {
  const worker = new Worker(url);
  const post = (message: ToWorker): void => worker.postMessage(message);
  const dead = (reason: string): void => hear({ kind: 'dead', reason });
  worker.onmessage = ({ data }: MessageEvent<FromWorker>) => hear(data);
  worker.onerror = (event) => {
    event.preventDefault();
    dead(event.message || 'the worker broke');
  };
  // The bytes are copied, not handed over: the next worker needs them too.
  bytes.then((wasm) => post({ kind: 'start', wasm }), (e: unknown) => dead(e instanceof Error ? e.message : String(e)));
  return {
    ask: (id, text) => post({ kind: 'ask', id, text }),
    end: () => worker.terminate(),
  };
}

/** The bytes of the wasm that element stands for. */
export async function coreBytes(element: HTMLElement | null): Promise<ArrayBuffer> {
  if (element instanceof HTMLLinkElement) {
    const response = await fetch(element.href);
    if (!response.ok) throw new Error(`the server answers ${response.status} for the core`);
    return inflate(await response.arrayBuffer());
  }
  if (!element?.textContent) throw new Error('the page has lost its core');
  return inflate(fromBase64(element.textContent.trim()));
}

// Some servers unpack a gzipped file on the way, so the bytes say what they are.
async function inflate(bytes: ArrayBuffer): Promise<ArrayBuffer> {
  const [a, b] = new Uint8Array(bytes, 0, Math.min(2, bytes.byteLength));
  if (a !== 0x1f || b !== 0x8b) return bytes;
  return new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'))).arrayBuffer();
}

function fromBase64(text: string): ArrayBuffer {
  const packed = atob(text);
  const bytes = new Uint8Array(packed.length);
  for (let i = 0; i < packed.length; i++) bytes[i] = packed.charCodeAt(i);
  return bytes.buffer;
}
