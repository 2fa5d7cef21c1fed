// An invented table of controls, as the core would give it, for looking at the page and
// for its tests. The real one is the core's.
import type { Card, Choice, Control, Term } from '../messages';

export const cards: Card[] = [
  { id: 'sheet', title: 'The sheet', help: 'What it is, and how thick it really is: measure it, the label is only a name.' },
  { id: 'machine', title: 'The machine', help: 'What cuts, how wide its score is and how deep each pass goes.' },
  { id: 'curve', title: 'The curve', help: 'The shape you want, seen from the side.' },
  { id: 'panel', title: 'The panel', help: 'The flat piece that bends, and where its scores lie.' },
  { id: 'rib', title: 'The rib', help: 'The shaped part that holds the curve.' },
  { id: 'cut', title: 'The cut', help: 'How the parts lie on the sheet and what your machine calls each step.' },
];

type Rest = Partial<Control>;
const row = (kind: string) => (path: string, label: string, help: string, rest: Rest = {}): Control =>
  ({ path, card: path.split('.')[0]!, label, help, kind, more: false, ...rest });
const length = row('length'), number = row('number'), count = row('count'), choice = row('choice'), more = { more: true };
const of = (...pairs: [string, string][]): Choice[] => pairs.map(([value, label]) => ({ value, label }));
const is = (path: string, ...values: string[]): Term[] => [{ path, values }];
const faces = of(['hollow', 'hollow side'], ['round', 'round side']);

export const controls: Control[] = [
  choice('sheet.stock', 'Stock', 'The kind of sheet in your hand.', {
    choices: of(['mdf3', 'MDF 3 mm'], ['mdf6', 'MDF 6 mm'], ['birch4', 'Birch plywood 4 mm'], ['acrylic3', 'Cast acrylic 3 mm'], ['own', 'Another sheet']) }),
  row('lengths')('sheet.readings', 'Measured thickness', 'Five readings with a calliper, at the corners and in the middle.'),
  choice('sheet.grain', 'Grain of the face', 'Scores along the grain split the sheet.', { choices: of(['none', 'none'], ['across', 'across'], ['along', 'along']) }),
  number('sheet.e', 'Bending stiffness', 'In MPa, across the scores. Empty takes the handbook figure.', more),
  number('sheet.strainLimit', 'Stretch at which it cracks', 'In percent, from a bend strip of this very sheet.', more),
  row('check')('sheet.strainTested', 'That figure comes from a bend strip', 'A tested figure can stop the job, a handbook figure only warns.', more),
  choice('machine.tool', 'Tool', 'What cuts the scores.', { choices: of(['laser', 'laser'], ['router', 'router'], ['saw', 'saw'], ['knife', 'knife']) }),
  length('machine.scoreWidth', 'Width of a score', 'At its mouth. It is not the width of a through cut.'),
  row('lengths')('machine.depths', 'Total depth after each pass', 'Cumulative, from a test strip of this sheet.'),
  row('check')('machine.tested', 'Measured on test strips', 'Until then every answer rests on guesses.'),
  length('machine.kerf', 'Width of a through cut', 'What the tool takes away.', more),
  length('machine.bedWidth', 'Bed, left to right', 'What your machine can reach.', more),
  length('machine.bedHeight', 'Bed, front to back', 'What your machine can reach.', more),
  choice('curve.kind', 'Given by', 'Two figures make an arc; several pieces make a chain.', {
    choices: of(['radius-angle', 'radius and angle'], ['span-rise', 'span and rise'], ['length-radius', 'length and radius'], ['chain', 'a chain of pieces']) }),
  length('curve.radius', 'Radius', 'Of the line chosen below.', { when: is('curve.kind', 'radius-angle', 'length-radius') }),
  row('angle')('curve.angle', 'Angle', 'How far the panel turns, in degrees.', { when: is('curve.kind', 'radius-angle') }),
  length('curve.span', 'Span', 'From end to end, straight across.', { when: is('curve.kind', 'span-rise') }),
  length('curve.rise', 'Rise', 'How high the middle stands over the span.', { when: is('curve.kind', 'span-rise') }),
  row('rows')('curve.pieces', 'Pieces, foot first', 'Each goes on where the last one ended.', { when: is('curve.kind', 'chain'), row: 'piece', columns: [length('length', 'Length', '')] }),
  choice('curve.line', 'It is the line of', 'Which line of the bent panel you gave.', { choices: of(['contact', 'rib edge'], ['outer', 'outer face'], ['neutral', 'neutral line']) }),
  length('curve.foot', 'Straight before', 'The plain end at the foot.', more),
  length('curve.tip', 'Straight after', 'The plain end at the tip.', more),
  choice('panel.shape', 'Shape', 'Seen flat.', { choices: of(['rectangle', 'rectangle'], ['taper', 'tapered strip']) }),
  length('panel.width', 'Width', 'Along the scores.', { when: is('panel.shape', 'rectangle') }),
  length('panel.footWidth', 'Width at the foot', 'Along the scores.', { when: is('panel.shape', 'taper') }),
  length('panel.tipWidth', 'Width at the tip', 'Along the scores.', { when: is('panel.shape', 'taper') }),
  row('check')('panel.tipRound', 'Round the tip', 'A half circle instead of corners.', { when: is('panel.shape', 'taper') }),
  choice('panel.scoredFace', 'Scored face', 'Scores on the hollow side close, on the round side open.', { choices: faces }),
  choice('panel.showFace', 'Face that shows', 'What is cut face down is drawn mirrored.', { choices: faces }),
  choice('panel.spacing', 'Spacing', 'How the scores share the curve.', {
    choices: of(['follow', 'follows the curve'], ['even', 'even'], ['count', 'a number I choose'], ['pitch', 'a distance I choose']) }),
  count('panel.count', 'Number of scores', 'Over the whole curve.', { when: is('panel.spacing', 'count') }),
  length('panel.standOff', 'Height of the flats', 'How far the flats may stand from the true curve.', more),
  number('panel.strainSafe', 'Safety on cracking', '1.5 is a start; your test strips tell more.', more),
  choice('rib.side', 'Rib on the', 'Where the rib sits.', { choices: faces }),
  length('rib.thickness', 'Thickness', 'Of the rib.'),
  length('rib.footDepth', 'Depth at the foot', 'The rib tapers from here.'),
  length('rib.tipDepth', 'Depth at the tip', 'To here.'),
  length('cut.gap', 'Between parts', 'Sound sheet left between two parts.'),
  length('cut.margin', 'Free edge', 'Kept free along the edge of the bed.'),
  row('text')('cut.operations.score.name', 'Name of the scores', 'As your machine wants to see it.', more),
  row('colour')('cut.operations.score.colour', 'Colour of the scores', 'As your machine wants to see it.', more),
];
