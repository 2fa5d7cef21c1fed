// Measures every SVG file of a folder with paper.js, a general-purpose library of
// vector geometry, for the test of the outline reader against a set of icons.
//
//	node corpus.mjs ROOT SET     ROOT holds node_modules, SET is a package or a folder in it
//
// One line a file: its path, the signed area (Y down, open paths closed by a chord)
// and the length of all that it draws, in user units.
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";

const [root, set] = process.argv.slice(2);
const require = createRequire(join(root, "node_modules", "."));
const paper = require("paper/dist/paper-core.js");
const { DOMParser } = require("@xmldom/xmldom");
paper.setup(new paper.Size(1, 1));

/** The number of an attribute, 0 when absent. */
const number = (element, name) => Number(element.getAttribute(name) || 0);

/** The matrix of a transform attribute. */
function matrix(text) {
  const m = new paper.Matrix();
  for (const [, name, list] of (text || "").matchAll(/(\w+)\s*\(([^)]*)\)/g)) {
    const v = list.trim().split(/[\s,]+/).map(Number);
    if (name === "matrix") m.append(new paper.Matrix(...v));
    else if (name === "translate") m.translate(v[0], v[1] || 0);
    else if (name === "scale") m.scale(v[0], v[1] ?? v[0]);
    else if (name === "rotate") m.rotate(v[0], v[1] || 0, v[2] || 0);
    else throw new Error("transform " + name);
  }
  return m;
}

/** The path of a shape; null for what draws nothing itself. */
function shape(e) {
  const box = () => new paper.Rectangle(number(e, "x"), number(e, "y"), number(e, "width"), number(e, "height"));
  const points = () => (e.getAttribute("points").match(/[-+\d.e]+/gi) || []).map(Number);
  const pairs = (v) => v.flatMap((x, i) => (i % 2 ? [] : [[x, v[i + 1]]]));
  switch (e.localName) {
    case "path":
      return new paper.CompoundPath(e.getAttribute("d") || "");
    case "circle":
      return new paper.Path.Circle([number(e, "cx"), number(e, "cy")], number(e, "r"));
    case "ellipse":
      return new paper.Path.Ellipse({ center: [number(e, "cx"), number(e, "cy")], radius: [number(e, "rx"), number(e, "ry")] });
    case "rect":
      return new paper.Path.Rectangle(box(), new paper.Size(number(e, "rx") || number(e, "ry"), number(e, "ry") || number(e, "rx")));
    case "line":
      return new paper.Path.Line([number(e, "x1"), number(e, "y1")], [number(e, "x2"), number(e, "y2")]);
    case "polyline":
    case "polygon":
      return new paper.Path({ segments: pairs(points()), closed: e.localName === "polygon" });
  }
  return null;
}

/** Adds up what is drawn in e, under the matrix m. */
function measure(e, m, doc, sum) {
  if (["defs", "clipPath", "mask", "symbol", "title"].includes(e.localName) || e.getAttribute("display") === "none") return;
  const inner = m.appended(matrix(e.getAttribute("transform")));
  if (e.localName === "use") {
    inner.translate(number(e, "x"), number(e, "y"));
    const id = (e.getAttribute("href") || e.getAttribute("xlink:href")).slice(1);
    const target = Array.from(doc.getElementsByTagName("*")).find((t) => t.getAttribute("id") === id);
    if (target) measure(target, inner, doc, sum);
    return;
  }
  const item = shape(e);
  if (item) {
    item.transform(inner);
    for (const path of item.children || [item]) {
      sum.area += path.area;
      sum.gross += Math.abs(path.area);
      sum.length += path.length;
    }
    item.remove();
  }
  for (const child of Array.from(e.childNodes)) if (child.nodeType === 1) measure(child, inner, doc, sum);
}

const folder = join(root, "node_modules", set);
const files = readdirSync(folder, { recursive: true }).filter((f) => f.endsWith(".svg")).sort();
for (const file of files) {
  const doc = new DOMParser().parseFromString(readFileSync(join(folder, file), "utf8"), "image/svg+xml");
  const sum = { area: 0, gross: 0, length: 0 };
  measure(doc.documentElement, new paper.Matrix(), doc, sum);
  console.log([file, sum.area, sum.gross, sum.length].join("\t"));
}
