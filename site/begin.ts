// What the page does before anything else: it takes up the core's worker, and unpacks what came with it.
import { firstOf } from './first';
import { startCore } from './load';

export const core = startCore();

/** What came with the page. */
export const first = firstOf(document.getElementById('first'));
