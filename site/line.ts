// A worker as a line to post to.
import type { FromWorker, Line, ToWorker } from './core';

/** Starts a worker from its source: a Blob, so that it starts in a page opened from disk too. */
export function workerAt(source: string): { worker: Worker; url: string } {
  const url = URL.createObjectURL(new Blob([source], { type: 'text/javascript' }));
  return { worker: new Worker(url), url };
}

/** The line to a worker that is told what its core is once that is there. */
export function lineTo(worker: Worker, core: Promise<ToWorker>, hear: (message: FromWorker) => void): Line {
  const post = (message: ToWorker): void => worker.postMessage(message);
  const dead = (reason: string): void => hear({ kind: 'dead', reason });
  worker.onmessage = ({ data }: MessageEvent<FromWorker>) => hear(data);
  worker.onerror = (event) => {
    event.preventDefault();
    dead(event.message || 'the worker broke');
  };
  core.then(post).catch((e: unknown) => dead(e instanceof Error ? e.message : String(e)));
  return {
    ask: (id, text) => post({ kind: 'ask', id, text }),
    end: () => worker.terminate(),
  };
}
