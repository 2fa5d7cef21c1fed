// Conditions of controls: "curve.kind=chain|span-rise & panel.tipRound=true".

/** Reads the value that a condition compares, as text. */
export type Lookup = (path: string) => string;

/** Whether a condition holds; an empty one always does. */
export function holds(condition: string | undefined, lookup: Lookup): boolean {
  return (condition ?? '').split('&').every((term) => termHolds(term.trim(), lookup));
}

function termHolds(term: string, lookup: Lookup): boolean {
  if (term === '') return true;
  const at = term.indexOf('=');
  if (at <= 0) throw new SyntaxError(`not a condition: ${term}`);
  const differs = term[at - 1] === '!';
  const path = term.slice(0, differs ? at - 1 : at).trim();
  const wanted = term.slice(at + 1).split('|').map((v) => v.trim());
  return wanted.includes(lookup(path)) !== differs;
}
