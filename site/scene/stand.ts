// How the thing stands: on its base, on its edge where it wraps around, on ribs under its round side, or as it is drawn.
import { Quaternion, Vector3 } from 'three';
import type { Bodies } from './api';

/** What turns further than this, and is held by two ribs or more, stands on its edge. */
const wraps = (100 * Math.PI) / 180;

const up = new Vector3(0, 1, 0);

/** The turn that makes the thing stand. */
export function standing({ space, arrays }: Bodies): Quaternion {
  // A base lies square to the panel's foot.
  if (space.ribs.length > space.own) return new Quaternion().setFromUnitVectors(new Vector3().fromArray(arrays[10]!, 0).normalize(), up);
  const hinges = arrays[11]!;
  let turn = 0;
  for (let at = 6; at < hinges.length; at += 7) turn += hinges[at]!;
  // Its hollow side looks at the eye.
  if (space.own > 1 && Math.abs(turn) > wraps) return new Quaternion().setFromAxisAngle(new Vector3(1, 0, 0), -Math.PI / 2);
  return new Quaternion().setFromAxisAngle(new Vector3(0, 0, 1), space.turned ? Math.PI : 0);
}
