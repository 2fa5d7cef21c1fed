// Small drawings under the sentence of a field, where words are weak: the thing that is
// meant is in the colour of what can be pressed. Of several, each is one of the choices, in
// their order. They are pictures of the words alone, in no scale.
import { html, nothing, svg, type SVGTemplateResult } from 'lit';
import { guard } from 'lit/directives/guard.js';

/** One drawing of 72 by 44: shapes by their ink, in the order they are drawn. */
type Sketch = [ink: 'board' | 'timber' | 'cut' | 'thin' | 'meant', path: string][];

const bent = 'M7.7 21.8A46 46 0 0 1 64.3 21.8L58.2 29.6A36 36 0 0 0 13.8 29.6z';
const ribInside = 'M13.8 29.6A36 36 0 0 1 58.2 29.6L50.8 39.1A24 24 0 0 0 21.2 39.1z';
const ribOutside = 'M1.5 13.9A56 56 0 0 1 70.5 13.9L64.3 21.8A46 46 0 0 0 7.7 21.8z';
const hollowScores = 'M18 26.8L14.5 20.8M23.7 24.2L21.3 17.6M29.7 22.5L28.5 15.7M36 22L36 15M42.3 22.5L43.5 15.7M48.3 24.2L50.7 17.6M54 26.8L57.5 20.8';
const roundScores = 'M13 18.2L16.5 24.2M20.3 14.8L22.7 21.4M28 12.7L29.2 19.6M36 12L36 19M44 12.7L42.8 19.6M51.7 14.8L49.3 21.4M59 18.2L55.5 24.2';

const scoredHollow: Sketch = [['board', bent], ['meant', hollowScores]];
const scoredRound: Sketch = [['board', bent], ['meant', roundScores]];
const wrapped: Sketch = [['timber', ribInside], ['board', bent]];

/** A sheet seen on its edge with one score from above. */
const edgeOn = 'M4 12H30V28H42V12H68V36H4z';
/** A sheet seen on its edge with two. */
const edgeTwice = 'M4 12H20V28H28V12H44V28H52V12H68V36H4z';

const sketches: Record<string, Sketch[]> = {
  'machine.reference': [
    [['board', edgeOn], ['meant', 'M36 12V28M33 12H39M33 28H39']],
    [['board', edgeOn], ['meant', 'M36 28V36M33 28H39M33 36H39'], ['thin', 'M0 36H72']],
  ],
  'machine.scoreWidth': [[['board', 'M4 12H30L33 28H39L42 12H68V36H4z'], ['meant', 'M30 7H42M30 4V10M42 4V10']]],
  'curve.span': [[['thin', 'M8 30V40M64 30V40'], ['board', bent], ['meant', 'M8 38H64M8 35V41M64 35V41']]],
  'curve.rise': [[['board', bent], ['thin', 'M8 38H64'], ['meant', 'M36 22V38M33 22H39M33 38H39']]],
  'curve.line': [
    [...wrapped, ['meant', 'M13.8 29.6A36 36 0 0 1 58.2 29.6']],
    [...wrapped, ['meant', 'M7.7 21.8A46 46 0 0 1 64.3 21.8']],
    [...wrapped, ['meant', 'M10.1 24.9A42 42 0 0 1 61.9 24.9']],
  ],
  'curve.foot': [[['board', 'M2.6 29.9L12.8 21.8A38 38 0 0 1 62 24.5L58 29A32 32 0 0 0 16.6 26.7L6.4 34.8z'], ['meant', 'M2.6 29.9L12.8 21.8']]],
  'curve.tip': [[['board', 'M69.4 29.9L59.2 21.8A38 38 0 0 0 10 24.5L14 29A32 32 0 0 1 55.4 26.7L65.6 34.8z'], ['meant', 'M69.4 29.9L59.2 21.8']]],
  'curve.lap': [[['board', 'M2 22H46V27H2z'], ['board', 'M26 16H70V21H26z'], ['meant', 'M26 10H46M26 7V13M46 7V13']]],
  'panel.scoredFace': [scoredHollow, scoredRound],
  'panel.showFace': [
    [['board', bent], ['cut', hollowScores], ['meant', 'M36 1V8M33 5L36 8L39 5']],
    [['board', bent], ['cut', hollowScores], ['meant', 'M36 36V26M33 29L36 26L39 29']],
  ],
  'panel.standOff': [[['board', 'M6 34L15.6 16H56.4L66 34'], ['thin', 'M6 34A34 34 0 0 1 66 34'], ['meant', 'M15.6 16L18.5 20.9M56.4 16L53.5 20.9']]],
  'panel.minLand': [[['board', edgeTwice], ['meant', 'M28 7H44M28 4V10M44 4V10']]],
  'panel.overrun': [[['board', 'M6 12H66V34H6z'], ['cut', 'M22 12V34M36 12V34M50 12V34'], ['meant', 'M22 5V12M36 5V12M50 5V12M22 34V41M36 34V41M50 34V41']]],
  'rib.side': [
    [['board', bent], ['timber', ribInside], ['meant', ribInside]],
    [['board', bent], ['timber', ribOutside], ['meant', ribOutside]],
  ],
  'rib.footDepth': [[...wrapped, ['meant', 'M13.8 29.6L21.2 39.1']]],
  'rib.tipDepth': [[...wrapped, ['meant', 'M58.2 29.6L50.8 39.1']]],
  'rib.endGap': [[['timber', 'M6.4 22.8A46 46 0 0 1 65.6 22.8L58 31.8A34 34 0 0 0 14 31.8z'], ['board', 'M6.4 22.8A46 46 0 0 1 40 12.2L66 14.5L66.4 10L40.4 7.7A50.5 50.5 0 0 0 3.5 19.3z'], ['meant', 'M66 14.5L65.6 22.8']]],
  'rib.markStart': [[['board', 'M16 8H70V38H16z'], ['cut', 'M16 23H70'], ['meant', 'M4 23H16']]],
  'rib.caul': [[...wrapped, ['meant', ribOutside]]],
};

/** The paths of the fields that have one, for the tests. */
export const sketched = Object.keys(sketches);

/** How many drawings the field at path has. */
export const drawingsOf = (path: string): number => sketches[path]?.length ?? 0;

/** The drawings of the field at path; none where its words do. Of several the one that is chosen stands out. */
export function sketch(path: string, chosen: number): unknown {
  const tiles = sketches[path];
  if (!tiles) return nothing;
  return guard([path, chosen], () => html`<span class="sketches" aria-hidden="true">${tiles.map((tile, i) => html`
    <svg class=${tiles.length > 1 && i !== chosen ? 'other' : ''} viewBox="0 0 72 44">${tile.map(drawn)}</svg>`)}</span>`);
}

const drawn = ([ink, d]: Sketch[number]): SVGTemplateResult => svg`<path class="sketch ${ink}" d=${d} />`;
