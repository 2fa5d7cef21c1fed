// Designs that come by a link: looked at first, kept only when the person wants it.
import { holdsDesign, LinkError, packed, unpacked } from './link';
import type { Controls, Field } from './messages';
import { get, text, type Doc } from './path';
import type { State } from './state';

/** Opens the design in the part after "#" of the page's address, if there is one. */
export async function openLink(state: State, hash: string): Promise<void> {
  if (!holdsDesign(hash)) return;
  try {
    const answer = await state.asked.try({ kind: 'open', text: await unpacked(hash) });
    if (!answer?.reply.design) {
      const why = state.notice.split('. ')[0]!.replace(/\.$/, '').replace('This file', 'What it holds');
      state.say(`The link was not opened. ${why}. Your own design stays as it is.`);
      return;
    }
    const doc = answer.reply.design as Doc;
    // What the core would take by itself matters only where the design says something else.
    const speaks = [...safety, ...figures].some((path) => text(doc, path).trim() !== '');
    const meant = speaks ? await state.asked.try({ kind: 'plan', design: emptied(doc) }) : undefined;
    const said = (answer.reply.findings ?? []).map((f) => f.text);
    state.kept.visit(doc, [...brings(doc, state.asked.controls, meant?.reply.plan?.fields ?? {}), ...said]);
  } catch (e) {
    if (!(e instanceof LinkError)) throw e;
    state.say(`${e.message} Your own design stays as it is.`);
  }
}

/** The address of the page with the present design in it. */
export async function linkTo(state: State, page: string): Promise<string> {
  return `${page.replace(/#.*/s, '')}#${await packed(JSON.stringify(state.doc))}`;
}

/** Fields that say how much is left in reserve. */
const safety = ['panel.strainSafe', 'panel.closingSafe', 'panel.minLand', 'rib.endGap'];

/** Fields that stand in for what the handbook or a test strip says. */
const figures = ['sheet.e', 'sheet.ez', 'sheet.gxz', 'sheet.face', 'sheet.mor', 'sheet.strainLimit', 'rib.e', 'rib.mor', 'rib.glueBond'];

/** Claims that something was measured. */
const claims: [path: string, sentence: string][] = [
  ['sheet.strainTested', 'It says that its rupture strain was tested on a strip: on the maker’s sheet, not on yours.'],
  ['machine.tested', 'It says that its depths come from test strips: of the maker’s machine, not of yours.'],
];

/**
 * Sentences about where a design that somebody else made differs from what one starts
 * with in safety and stock. defaults is what the core says of its fields left empty.
 */
export function brings(doc: Doc, controls: Controls | undefined, defaults: Record<string, Field>): string[] {
  const label = (path: string): string => {
    const name = controls?.controls.find((c) => c.path === path)?.label ?? path;
    return name.charAt(0).toLowerCase() + name.slice(1);
  };
  const usual = (path: string): string => text(controls?.empty as Doc | undefined, path) || (defaults[path]?.default ?? '');
  const differs = (path: string): boolean => text(doc, path).trim() !== '' && !same(text(doc, path), usual(path));
  const out: string[] = [];
  for (const path of safety.filter(differs)) {
    out.push(`It sets ${label(path)} to ${text(doc, path)}${usual(path) ? `; left to itself it would be ${usual(path)}` : ''}.`);
  }
  if (differs('sheet.stock')) out.push(`It is for ${choice(controls, 'sheet.stock', text(doc, 'sheet.stock'))}, where a new design starts with ${choice(controls, 'sheet.stock', usual('sheet.stock'))}.`);
  const own = figures.filter(differs);
  if (own.length > 0) out.push(`It brings its own figures for the sheet: ${own.map((p) => `${label(p)} ${text(doc, p)}`).join(', ')}.`);
  return [...out, ...claims.filter(([path]) => get(doc, path) === true).map(([, sentence]) => sentence)];
}

// "1.50" and "1.5 (usual)" say the same figure.
function same(a: string, b: string): boolean {
  const x = Number.parseFloat(a), y = Number.parseFloat(b);
  return a.trim() === b.trim() || (Number(a) === x && x === y);
}

function choice(controls: Controls | undefined, path: string, value: string): string {
  return controls?.controls.find((c) => c.path === path)?.choices?.find((c) => c.value === value)?.label ?? value;
}

// The document with its safety and figures left empty, to learn what that would mean.
function emptied(doc: Doc): Doc {
  const copy = structuredClone(doc);
  for (const path of [...safety, ...figures]) {
    const [room, field] = path.split('.') as [string, string];
    const of = copy[room];
    if (of && typeof of === 'object' && !Array.isArray(of) && field in of) of[field] = '';
  }
  return copy;
}
