// Conditions of controls, as the core gives them.
import type { Term } from './messages';

/** All of its terms must hold; none always does. */
export type Condition = readonly Term[] | undefined;

/** Whether a condition holds for what lookup says counts at a path. */
export function holds(condition: Condition, lookup: (path: string) => string): boolean {
  const one = (t: Term): boolean => t.values.includes(lookup(t.path)) || (t.or ?? []).some(one);
  return (condition ?? []).every(one);
}
