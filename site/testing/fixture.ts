// A stand-in for the core, with an invented job: the hood of a bench lamp. It reckons
// only as much as is needed to look at the page and to test how the page behaves; no
// figure of it is sound.
import type { Answer, Question } from '../core';
import type { Controls, Field, Finding, PlanView } from '../messages';
import type { Core } from '../asking';
import { text, type Doc } from '../path';
import { cards, controls } from './controls';
import { drawings, type Arc } from './shapes';

export const hood: Doc = {
  format: 'springrib design', version: 1, name: 'Hood of a bench lamp', revision: 'a', units: 'mm',
  sheet: { stock: 'mdf3', readings: ['2.94', '2.97', '2.95', '2.98', '2.96'], e: '', strainLimit: '', strainTested: false, grain: 'none' },
  machine: { tool: 'laser', scoreWidth: '0.22', depths: ['1.3', '2.2'], tested: true, kerf: '0.18', bedWidth: '600', bedHeight: '400' },
  curve: { kind: 'radius-angle', radius: '110', angle: '78', span: '', rise: '', line: 'contact', foot: '24', tip: '18' },
  panel: { shape: 'rectangle', width: '120', footWidth: '', tipWidth: '', tipRound: false, scoredFace: 'hollow', showFace: 'round', spacing: 'follow', count: '', standOff: '0.15' },
  rib: { side: 'hollow', thickness: '6', footDepth: '34', tipDepth: '14' },
  cut: { gap: '4', margin: '6' },
};

const empty: Doc = { ...hood, name: '', sheet: { readings: [] }, curve: { kind: '' }, panel: {}, rib: {}, cut: {} };

export const table: Controls = {
  cards, controls, empty,
  examples: [
    { id: 'hood', title: 'Hood of a bench lamp', about: 'Invented for this page: an arc of MDF on one rib.', design: hood },
    { id: 'bow', title: 'Bow of a tool tote', about: 'Invented too: a tighter arc that needs a look.', design: { ...hood, name: 'Bow of a tool tote', curve: { ...(hood.curve as Doc), radius: '52', angle: '120' } } },
  ],
};

/** A core that answers at once. */
export class Fixture implements Core {
  asked: Question[] = [];

  async ask(request: Question): Promise<Answer> {
    this.asked.push(request);
    const reply = { id: this.asked.length };
    if (request.kind === 'fields') return { reply: { ...reply, controls: table }, streams: [] };
    if (request.kind === 'plan') return planned(request.design as Doc, reply.id);
    if (request.kind === 'convert') return { reply: { ...reply, design: { ...(request.design as Doc), units: request.text! } }, streams: [] };
    if (request.kind === 'open') return opened(request.text ?? '', reply.id);
    const name = request.file ?? 'hood.json';
    return { reply: { ...reply, file: { name, type: 'text/plain', base64: btoa(JSON.stringify(request.design)) } }, streams: [] };
  }
}

function opened(text: string, id: number): Answer {
  try {
    return { reply: { id, design: JSON.parse(text) as Doc }, streams: [] };
  } catch {
    return { reply: { id, error: 'This file is cut short or is no design. Your design stays as it is.' }, streams: [] };
  }
}

function planned(doc: Doc, id: number): Answer {
  const radius = Number(text(doc, 'curve.radius') || '110'), angle = Number(text(doc, 'curve.angle') || '90');
  const width = Number(text(doc, 'panel.width') || '120');
  const good = radius > 5 && angle > 1 && angle < 300 && width > 5;
  if (!good) return { reply: { id, plan: unread(doc, radius > 5 ? 'curve.angle' : 'curve.radius') }, streams: [] };
  const tight = 110 / radius;
  const arc: Arc = { radius, angle: angle * Math.PI / 180, width, t: 2.96, foot: 24, tip: 18, n: Math.ceil(angle / 1.6) };
  const { views, streams } = drawings(arc);
  const strain = 0.66 * tight, pinch = 0.41 * tight;
  return { reply: { id, plan: { ...words(doc, arc, strain, pinch), drawn: true, drawings: views } }, streams };
}

function unread(doc: Doc, path: string): PlanView {
  const typed = text(doc, path);
  const problem = `${typed || 'Nothing'} of what? Write ${path === 'curve.angle' ? '78 or 78 deg' : '110 mm or 4 3/8 in'}.`;
  return {
    ...words(doc, { radius: 1, angle: 1, width: 1, t: 3, foot: 0, tip: 0, n: 1 }, 0, 0),
    drawn: false, scores: [], files: [], numbers: [], options: { heads: [], rows: [] },
    verdict: { severity: 'stop', word: 'Can’t tell yet', sentence: 'One figure of the curve can’t be read.', gauges: [] },
    fields: { ...fields, [path]: { problem } },
    findings: [{ id: 'field-unread', severity: 'stop', place: { field: path }, text: problem }],
  };
}

const fields: Record<string, Field> = {
  'sheet.e': { default: '3600 MPa, handbook, 2500 to 4500 MPa' }, 'sheet.strainLimit': { default: '0.62' },
  'curve.kind': { default: 'radius and angle' }, 'panel.shape': { default: 'rectangle' }, 'panel.spacing': { default: 'follows the curve' },
  'panel.standOff': { means: '0.15 mm, hardly felt with a finger' }, 'panel.strainSafe': { default: '1.5' },
  'cut.operations.score.name': { default: '1 score' }, 'cut.operations.score.colour': { default: '#e69f00' },
};

function words(doc: Doc, arc: Arc, strain: number, pinch: number): PlanView {
  const grave = strain > 1 ? 'stop' : strain > 0.75 ? 'warn' : 'sound';
  const reach = `It reaches ${strain.toFixed(2)} of cracking and ${pinch.toFixed(2)} of pinching.`;
  return {
    drawn: true,
    verdict: {
      severity: grave,
      word: { sound: 'Sound', warn: 'Look again', stop: 'Do not cut' }[grave],
      sentence: `${arc.n} scores, two passes. ${reach}${grave === 'stop' ? ' Widen the radius or leave a thinner skin.' : ''}`,
      gauges: [
        { id: 'cracking', label: 'Cracking', value: strain, low: strain * 0.86, high: strain * 1.18, allowed: 0.67, text: `${strain.toFixed(2)} of the limit` },
        { id: 'pinching', label: 'Pinching', value: pinch, low: pinch * 0.8, high: pinch * 1.2, allowed: 0.91, text: `${pinch.toFixed(2)} of the limit` },
        { id: 'flats', label: 'Flats', value: 0.93, low: 0.9, high: 0.96, allowed: 1, text: '0.14 mm of 0.15 mm' },
      ],
    },
    cards: {
      sheet: 'MDF, 2.96 mm measured, five readings within 0.04 mm.',
      machine: 'Laser, 0.22 mm scores, 2.2 mm deep after two passes, from test strips.',
      curve: `Arc, radius ${text(doc, 'curve.radius')} mm through ${text(doc, 'curve.angle')}°, given as the rib edge.`,
      panel: `Rectangle 191.8 × ${text(doc, 'panel.width')} mm, scored on the hollow side, the round side shows.`,
      rib: 'One rib of 6 mm on the hollow side, 34 mm deep at the foot, 14 mm at the tip.',
      cut: 'Both parts on one sheet of 600 × 400 mm.',
    },
    fields,
    findings: findings(strain),
    options: { heads: ['Passes', 'Scores'], rows: [
      { cells: ['2', '54'], sound: true, chosen: true, set: { 'panel.passes': '2' } },
      { cells: ['1', '80'], sound: false, chosen: false, out: 'cracks', set: { 'panel.passes': '1' } }] },
    numbers: [
      { id: 'count', label: 'Scores', text: String(arc.n) }, { id: 'pitch', label: 'Spacing, centre to centre', text: '3.05 mm' },
      { id: 'skin', label: 'Skin left', text: '0.76 mm', help: '0.72–0.80 mm over your five readings' },
      { id: 'flat', label: 'Panel, flat', text: '191.8 × 120.0 mm' },
      { id: 'pull', label: 'Pull at the free end', text: '410 g', help: 'What your hand or a clamp must hold while the glue sets' },
      { id: 'time', label: 'Scoring', text: '3 min 40 s' },
    ],
    scores: Array.from({ length: arc.n }, (_, i) => ({
      n: i + 1, u: 24 + 3.05 * (i + 0.5), at: `${(24 + 3.05 * (i + 0.5)).toFixed(2)} mm from the foot`, fold: 'folds 1.59°',
      limit: `cracking, ${strain.toFixed(2)} of it`, near: strain > 0.75 && i % 9 === 4,
    })),
    drawings: [],
    files: [
      { name: 'hood-of-a-bench-lamp-a.svg', label: 'Save the cut file', about: 'SVG in true size: scores first, outline last.' },
      { name: 'hood-of-a-bench-lamp-a-bench.pdf', label: 'Save the bench sheet', about: 'Order of work, figures and cautions on one page.' },
      { name: 'hood-of-a-bench-lamp-a-strip.svg', label: 'Save the test strip', about: 'Cut this first: it tells the depth of each pass.' },
    ],
    cautions: [
      'Stay with the machine while it burns, keep the lid shut and an extinguisher at hand.',
      'MDF dust and smoke hold formaldehyde: extract outdoors, wear a mask when sanding.',
      'Thin glue bonds skin in seconds and can smoke on cotton. Wear nitrile gloves, air the room.',
    ],
  };
}

function findings(strain: number): Finding[] {
  const list: Finding[] = [];
  if (strain > 0.75) {
    list.push({
      id: 'strain-over', severity: strain > 1 ? 'stop' : 'warn', place: { part: 'panel', score: 14, field: 'curve.radius' },
      text: `The skin at score 14 reaches ${strain.toFixed(2)} of cracking. The figure is from a handbook.`,
      remedies: [{ text: 'Use radius 112 mm', set: { 'curve.radius': '112' } }, { text: 'Cut a bend strip of this sheet first.' }],
    }, {
      id: 'end-gaps', severity: 'warn', place: { part: 'rib1' }, text: 'The last 18 mm run straight and leave a gap of 1.4 mm at the tip.',
      remedies: [{ text: 'Straight tip 9 mm', set: { 'curve.tip': '9' } }],
    });
  }
  list.push({ id: 'overrun', severity: 'note', place: { part: 'panel' }, text: 'Scores run 4.8 mm past both edges, so that the head is at full speed over the panel.' });
  return list;
}
