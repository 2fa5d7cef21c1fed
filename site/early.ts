// The first script of the page, before its style: it starts the core's worker, which needs
// nothing else of the page. What the worker says before the page's own script is there
// is kept for it.
import source from 'springrib:worker';
import type { Early } from './load';
import { workerAt } from './line';

const { worker, url } = workerAt(source);
const said: Early['said'] = [];
worker.onmessage = ({ data }) => said.push(data);
// In the page that is one file the core comes after this script: load.ts hands it over.
const link = document.getElementById('core') as HTMLLinkElement | null;
if (link) worker.postMessage({ kind: 'start', core: link.href });
(globalThis as { springribEarly?: Early }).springribEarly = { worker, url, said, told: link !== null };
