// Starts the page: one core, one state, the shell.
import { startCore } from './core';
import { State } from './state';
import { shelfStore } from './store';
import { Page } from './views/page';

const state = new State(startCore(), shelfStore(() => localStorage));
const page = new Page();
page.state = state;
document.body.append(page);
addEventListener('pagehide', () => state.keep());
void state.start();
