// Starts the page: one core, one state, the shell; and what the browser has to say to them.
import { openLink } from './brought';
import { startCore } from './load';
import { stayOffline } from './offline';
import { State } from './state';
import { keyOf, shelfStore } from './store';
import { Page } from './views/page';

const state = new State(startCore(), shelfStore(() => localStorage));
const page = new Page();
page.state = state;
document.body.append(page);

addEventListener('pagehide', () => state.kept.keep());
document.addEventListener('visibilitychange', () => state.kept.keep());
addEventListener('beforeunload', (e) => {
  state.kept.keep();
  if (state.kept.unkept) e.preventDefault();
});
addEventListener('storage', (e) => {
  if (state.kept.id !== undefined && e.key === keyOf(state.kept.id)) state.kept.overtaken(state.kept.id);
});
// An answered link is no longer the address: a reload shows what was worked on since.
let guest = state.kept.guest;
state.watch(() => {
  if (guest && !state.kept.guest) history.replaceState(null, '', location.href.replace(/#.*/s, ''));
  guest = state.kept.guest;
}, 'all');
addEventListener('hashchange', () => void openLink(state, location.hash));

void state.start().then(() => openLink(state, location.hash)).then(stayOffline);
