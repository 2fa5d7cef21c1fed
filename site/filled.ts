// The core writes an empty list as null; views want lists. Filling happens here once.
import type { Controls, Drawing, PlanView } from './messages';

/** A plan before the core has said anything. */
export const emptyPlan: PlanView = {
  drawn: false,
  verdict: { severity: '', word: '', sentence: '', gauges: [] },
  cards: {}, fields: {}, findings: [], numbers: [], scores: [], drawings: [], files: [], cautions: [],
};

/** The plan with each missing list or map made an empty one. */
export function filled(plan: PlanView): PlanView {
  const full = { ...emptyPlan, ...present(plan) };
  return {
    ...full,
    verdict: { ...full.verdict, gauges: full.verdict.gauges ?? [] },
    findings: full.findings.map((f) => ({ ...f, place: f.place ?? {}, remedies: f.remedies ?? [] })),
    drawings: full.drawings.map(filledDrawing),
  };
}

function filledDrawing(d: Drawing): Drawing {
  return { ...d, items: d.items ?? [], labels: d.labels ?? [] };
}

/** The table of controls, likewise. */
export function filledControls(c: Controls): Controls {
  return { ...c, cards: c.cards ?? [], controls: c.controls ?? [], examples: c.examples ?? [] };
}

function present(plan: PlanView): Partial<PlanView> {
  return Object.fromEntries(Object.entries(plan).filter(([, v]) => v !== null && v !== undefined)) as Partial<PlanView>;
}
