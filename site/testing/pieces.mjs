// Fits runs of points with two general-purpose libraries at a ladder of settings, for
// the count of pieces in the README. Reads runs of [x, y] from standard input and
// writes, for each library and run, the cubics of each fit that differs from the one
// before: [x, y of the start, of two handles, of the end].
//
// fit-curve is Schneider's algorithm (An algorithm for automatically fitting digitized
// curves, Graphics Gems, 1990) as such; paper is a library of vector geometry, whose
// simplify() grew from the same. Both take the squared error.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const require = createRequire(import.meta.url);
const fitCurve = require("fit-curve");
const paper = require("paper/dist/paper-core.js");
paper.setup(new paper.Size(1, 1));

const libraries = {
  "fit-curve": (points, error) => fitCurve(points, error * error).map((c) => c.flat()),
  paper(points, error) {
    const path = new paper.Path({ segments: points, insert: false });
    path.simplify(error * error);
    return path.curves.map(({ points: [a, b, c, d] }) => [a.x, a.y, b.x, b.y, c.x, c.y, d.x, d.y]);
  },
};

// About the tolerance of 0.01 mm, from 0.003 to 0.03 in steps of 6 %.
const ladder = Array.from({ length: 41 }, (_, i) => 0.003 * 10 ** (i / 40));

function fits(library, points) {
  const found = [];
  for (const error of ladder) {
    const curves = library(points, error);
    if (String(curves) !== String(found.at(-1))) found.push(curves);
  }
  return found;
}

const runs = JSON.parse(readFileSync(0, "utf8"));
const answers = Object.fromEntries(Object.entries(libraries).map(([name, library]) => [name, runs.map((run) => fits(library, run))]));
process.stdout.write(JSON.stringify(answers));
