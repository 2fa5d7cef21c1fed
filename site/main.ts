// Starts the page: one core, one state, the shell; and what the browser has to say to them.
import { core, first } from './begin';
import { openLink } from './brought';
import { letCompile } from './load';
import { stayOffline } from './offline';
import { State } from './state';
import { keyOf, shelfStore } from './store';
import { firstPaint } from './views/live';
import { Page } from './views/page';

const state = new State(core, shelfStore(() => localStorage));

function leave(): void {
  state.kept.keep();
  state.kept.keepAnswer();
}
addEventListener('pagehide', leave);
document.addEventListener('visibilitychange', () => document.visibilityState === 'hidden' && leave());
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

// Words that change their face once they are set move all that stands below them. The faces are
// fetched before the scripts, or stand in the page; one that is late is not waited for.
const faces = (): Promise<unknown> => Promise.race([
  Promise.allSettled([400, 500, 700].map((weight) => document.fonts.load(`${weight} 1em "Alegreya Sans"`))),
  new Promise((done) => setTimeout(done, 300)),
]);

async function open(): Promise<void> {
  const set = faces();
  const there = await first.catch(() => undefined); // without it the core is asked for all of it
  await set;
  const planned = state.start(there); // shows what is known, and asks the core
  const page = new Page();
  page.state = state;
  document.body.append(page);
  void firstPaint().then(letCompile);
  await planned;
  await openLink(state, location.hash);
  stayOffline();
}

void open();
