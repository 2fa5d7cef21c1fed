// The page on the stand-in core, for looking at it without the real one.
import { State } from '../state';
import { shelfStore } from '../store';
import { Page } from '../views/page';
import { Fixture, table } from './fixture';
import type { Doc } from '../path';

const state = new State(new Fixture(), shelfStore(() => localStorage));
const page = new Page();
page.state = state;
document.body.append(page);
const wanted = new URLSearchParams(location.hash.slice(1));
await state.start();
const example = table.examples.find((e) => e.id === wanted.get('example'));
if (example) state.replace(example.design as Doc, example.title);
for (const card of wanted.get('open')?.split(',') ?? []) state.toggle(card);
for (const [path, value] of wanted) if (path.includes('.')) state.set(path, value);
Object.assign(window, { state });
