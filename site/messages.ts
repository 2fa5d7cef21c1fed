// Made from the Go types of internal/wire by: go run ./build messages
// Change those, not this file.

/** SpaceArrays is how many arrays of numbers a Space has. */
export const spaceArrays = 15;

/**
 * MaxDrawing is the longest file drawn elsewhere that is read, in bytes. The page looks at
 * the size of a file before it loads it.
 */
export const maxDrawing = 16777216;

/**
 * MaxRequest is the longest request that is read, in bytes: a file of MaxDrawing as base64
 * with a design beside it. One without such a file has at most MaxDesign: a design by hand
 * is a few kilobytes, and the room above that is for outlines drawn elsewhere.
 */
export const maxRequest = 33554432;

/**
 * MaxRequest is the longest request that is read, in bytes: a file of MaxDrawing as base64
 * with a design beside it. One without such a file has at most MaxDesign: a design by hand
 * is a few kilobytes, and the room above that is for outlines drawn elsewhere.
 */
export const maxDesign = 8388608;

/**
 * Request is what the page asks. Kind says which of the other members count:
 *
 * 	"fields"   nothing: the table of controls, stocks and examples
 * 	"plan"     Design: the whole plan as shown; with Drag, of the design that it makes,
 * 	           and its Set, Partial and without the search for what would do where
 * 	           nothing works; with Brief, Partial; with Show, in space as well
 * 	"open"     Text: a saved design of any version, read and upgraded
 * 	"convert"  Design, Text: the design with its lengths in the units Text, "mm" or "in"
 * 	"bench"    Design: the bench sheet
 * 	"machine"  Design, Text: the design with the settings of a machine from a file
 * 	"stock"    Design, Text: the design with the sheet of a file and its readings
 * 	"pack"     Design, Effort, Seed, Slice: the design with its parts laid closer. Asked again
 * 	           for the same parts, the core goes on where it was, or from the places in
 * 	           Design where those are better
 * 	"save"     Design: the design as a file
 * 	"file"     Design, File: one file of the plan, by the name a plan listed; with Faces, PDFs
 * 	           in that typeface
 * 	"job"      Text: a saved job, designs that are cut together: all that leaves of it as one
 * 	           file, and in Findings what there is to say of its members; with Faces likewise
 * 	"intake"   Design, Intake: what a file drawn elsewhere holds
 * 	"take"     Design, Intake: the design with what was chosen of that file
 */
export interface Request {
  id: number;
  kind: string;
  design?: unknown;
  text?: string;
  file?: string;
  /** Faces is the typeface of PDFs, which the page has and the core has not. */
  faces?: unknown;
  drag?: Drag;
  /** steps of work in all */
  effort?: number;
  /** steps until an answer; 0 for all */
  slice?: number;
  /** another one finds another layout */
  seed?: number;
  intake?: Intake;
  /**
   * Show is "space" for the panel as bodies, or "isometric" for a drawing of them bent
   * as far as Folded says, a share of all scores from the foot.
   */
  show?: string;
  folded?: number;
  /**
   * Brief leaves out what nobody waits for, test strips and files: a second request
   * for the same design fetches them.
   */
  brief?: boolean;
  /** Untried leaves out what would mend the findings. */
  untried?: boolean;
}

/**
 * Reply answers the Request of the same ID. Exactly the members that its kind calls
 * for are set; Error is set alone when the request could not be answered at all.
 */
export interface Reply {
  id: number;
  /** a plain sentence for the person */
  error?: string;
  controls?: Controls;
  plan?: PlanView;
  /** for "open", "convert" and "take": the document */
  design?: unknown;
  findings?: Finding[];
  file?: FileBody;
  intake?: IntakeView;
  packed?: Packed;
  bench?: BenchSheet;
  /** for a plan with Drag: path -> its new text */
  set?: Record<string, string>;
}

/** Drag moves a handle of a drawing to a place, mm as in the drawing. */
export interface Drag {
  /** ID of a Handle */
  handle: string;
  x: number;
  y: number;
  /** rounded ten times as closely */
  fine?: boolean;
}

/** Intake is a file drawn elsewhere and what is to be made of it. */
export interface Intake {
  /** of the file */
  name: string;
  /** its bytes */
  base64: string;
  /** what it was opened for: "panel" or "curve" */
  card: string;
  /** units of the file to an inch, for one that doesn't say; 0 asks */
  perInch: number;
  /** ends this near are joined, as typed; empty takes the default */
  gap: string;
  /** which line of a double outline is meant: "outer", "inner" or "both"; empty asks */
  edge: string;
  /** Leave holds the keys of changes that are not to be made. */
  leave: string[];
  /** Roles holds what was chosen: the id of a row or of one path -> its role. */
  roles: Record<string, string>;
  /** Lay holds the fields that say how the drawing is laid, path -> text. */
  lay: Record<string, string>;
}

/** Controls is everything the page needs to draw its form; it never changes in a session. */
export interface Controls {
  cards: Card[];
  controls: Control[];
  examples: Example[];
  /** the document a new design starts from */
  empty: unknown;
}

/**
 * PlanView is a plan in words, numbers and drawings, all in the person's unit.
 * When a field can't be read or a stop leaves nothing to draw, Drawn is false, the
 * drawings are empty and the page keeps the last ones.
 */
export interface PlanView {
  drawn: boolean;
  verdict: Verdict;
  /** card id -> its summary sentence */
  cards: Record<string, string>;
  /** path -> what the core says of the field */
  fields: Record<string, Field>;
  /** graver first */
  findings: Finding[];
  numbers: NumberView[];
  options: Options;
  scores: ScoreView[];
  drawings: Drawing[];
  files: FileView[];
  /**
   * Withheld are the sentences of what keeps files of the parts from leaving: each must be
   * mended first.
   */
  withheld?: string[];
  cautions: string[];
  /** Corners is the outline of the panel by its corners, where it has another shape. */
  corners?: Corner[];
  /** when Show asked for it */
  space?: Space;
  /**
   * Partial says that the drawings of test strips and the files are left out, as in the
   * answer to a Drag: those of the plan before still stand.
   */
  partial?: boolean;
}

/** Finding is one thing a person should know. */
export interface Finding {
  id: string;
  severity: Severity;
  place: Place;
  /** one or two plain sentences with numbers and units */
  text: string;
  /** mm, degrees, N, ratios; the name says which */
  numbers?: Record<string, number>;
  remedies?: Remedy[];
}

/**
 * FileBody is one finished file. Its bytes are in base64 whatever they are: a text of JSON
 * would harm those that are not UTF-8.
 */
export interface FileBody {
  name: string;
  /** media type */
  type: string;
  base64: string;
}

/** IntakeView is what a file drawn elsewhere holds and what would be taken of it. */
export interface IntakeView {
  name: string;
  /** "SVG, 212 × 94 mm" */
  size: string;
  /** where the file doesn't say how large it is */
  units?: UnitsQuestion;
  /** where the outline is a double line */
  edges?: EdgeQuestion;
  gap: Field;
  /** all that a path can be */
  roles: Choice[];
  rows: IntakeRow[];
  changes: IntakeChange[];
  /** changes made or found beyond those in the list */
  more: number;
  findings: Finding[];
  /** the fields of Lay */
  controls: Control[];
  /** what the core says of them */
  fields: Record<string, Field>;
  /** what would be taken, or what is missing */
  sentence: string;
  /** it can be taken */
  ready: boolean;
  /** all that was read, as it would lie; refs are ids of paths or rows */
  drawing: Drawing;
  /**
   * Taken is what would be taken, in the same place and size, its numbers after those of
   * Drawing in the same array. What the file does not hold is in items of role "lit", and
   * what is left out of it in those of role "ghost" of Drawing.
   */
  taken: Drawing;
}

/** Packed says what packing came to so far. */
export interface Packed {
  /** a sentence */
  text: string;
  /** share of the effort that is spent, 1 at the end */
  done: number;
  /** of two layouts of a design that with the lower one is closer */
  rank: number;
}

/**
 * BenchSheet is what lies beside the machine and the vice, in words, tables and figures.
 * The arrays of the reply belong to its figures, one by one in their order.
 */
export interface BenchSheet {
  /** what is wrong with files that were let go all the same */
  warning?: string;
  title: string;
  lead: string;
  sections: BenchSection[];
}

/** Card is one step of the job. */
export interface Card {
  /** "sheet", "machine", "curve", "panel", "rib", "cut" */
  id: string;
  title: string;
  help: string;
}

/** Control is one field of the form. */
export interface Control {
  /** dotted path in the document, "sheet.readings" */
  path: string;
  card: string;
  label: string;
  /** one plain sentence */
  help: string;
  /** "length","lengths","angle","number","count","choice","check","text","colour","rows" */
  kind: string;
  choices?: Choice[];
  /**
   * Columns are the fields of one row of a "rows" control; their paths are those
   * within the row, "length" for "curve.pieces.2.length", and so are the paths in
   * their When. Row names one row, "piece".
   */
  columns?: Control[];
  row?: string;
  /** shown under "more" of its card */
  more: boolean;
  /** shown only when all of these hold */
  when?: Term[];
}

/** Example is a ready design of an invented scenario. */
export interface Example {
  id: string;
  title: string;
  about: string;
  design: unknown;
}

/** Verdict is the answer in one sentence. */
export interface Verdict {
  /** "sound", "note", "warn", "stop" */
  severity: string;
  /** "Sound", "Look again", "Do not cut" */
  word: string;
  sentence: string;
  gauges: Gauge[];
}

/** Field is what the core says of one field now. */
export interface Field {
  /** what it is called now, when that is not the form's word */
  label?: string;
  /** what an empty field means, as text for the placeholder */
  default?: string;
  /** why it can't be used, and what to write instead */
  problem?: string;
  /** how it was understood, when that differs from what was typed */
  means?: string;
}

/** Number is one governing figure, ready to read. */
export interface NumberView {
  id: string;
  label: string;
  text: string;
  help?: string;
}

/** Options lays out what each number of passes would give, the first to take first. */
export interface Options {
  heads: string[];
  rows: Option[];
}

/**
 * ScoreView is what is said of one score; while a hand moves a handle nothing but its
 * place, and whether it is near a limit.
 */
export interface ScoreView {
  n: number;
  /** mm from the foot edge */
  u: number;
  at?: string;
  fold?: string;
  /** what limits it: "cracking, 0.81 of it" */
  limit?: string;
  /** over its allowed value */
  near?: boolean;
}

/**
 * Drawing is one picture. Its numbers lie in the typed array of the same index in
 * the reply: a run of path commands in mm, Y down as screens have it:
 * 0 x y move, 1 x y line, 2 x1 y1 x2 y2 x y cubic, 3 close.
 */
export interface Drawing {
  /** "bent", "flat", "sheet1", "sheet2"..., "strips1"..., "readings", "isometric" */
  id: string;
  title: string;
  /** x, y, width, height in mm */
  box: [number, number, number, number];
  items: Item[];
  labels: Label[];
  /**
   * Handles are what can be taken hold of, ID by ID the same while the design is of the
   * same kind.
   */
  handles?: Handle[];
}

/** FileView is one file the page can save. */
export interface FileView {
  name: string;
  label: string;
  about: string;
}

/** Corner is one of an outline, as the document has it. */
export interface Corner {
  along: string;
  across: string;
  radius: string;
}

/**
 * Space is the panel with its ribs as bodies, and how the panel bends. Places are mm: in
 * space X and Y are those of the bent drawing with Y up, Z runs along the scores; in
 * the flat panel they are u along the bend, v along the scores, and the height over the
 * contact face. The arrays of the reply from First on belong to it:
 *
 * 	0, 1   body of the panel, triangles, flat and bent
 * 	2, 3   its slots, triangles, flat and bent
 * 	4, 5   its edges, lines, flat and bent
 * 	6, 7   its scores, lines, flat and bent
 * 	8, 9   one place beside each score, at the panel's edge, flat and bent
 * 	10     frames: 16 numbers for each flat, column by column, that carry a place of the
 * 	       flat panel to where the flat is once all before it is folded
 * 	11     hinges: 7 numbers for each score: a place, a direction, and the angle in radians
 * 	       by which all after it turns
 * 	12     bodies of the ribs, triangles in space
 * 	13     their edges, lines in space
 * 	14     the other panels on the base: 16 numbers for each, column by column, that carry
 * 	       the first panel and its ribs to where it stands
 *
 * Bent as far as score k, the flats up to k lie as in the bent arrays, and all after
 * them as the flat arrays do, carried by frame k and turned about hinge k by the share
 * that the next fold has come.
 */
export interface Space {
  first: number;
  /** a name for a picture of it, without ending */
  file: string;
  scores: number;
  /**
   * Body, Slots, Edges and Lines say, flat by flat, up to which place its arrays belong
   * to it and those before.
   */
  body: number[];
  slots: number[];
  edges: number[];
  lines: number[];
  /** Ribs says rib by rib up to which place array 12 and 13 belong to it and those before. */
  ribs: Extent[];
  /** Own is how many of them stand under each panel; the base comes after them, once. */
  own: number;
  /** Turned says that they are under its round side, so that it lies on them with its hollow up. */
  turned?: boolean;
  marks: SpaceMark[];
  /**
   * Bent and Straight are boxes around it with the first panel alone, bent whole and not at all: least and
   * greatest X, Y, Z.
   */
  bent: [number, number, number, number, number, number];
  straight: [number, number, number, number, number, number];
}

/** Severity orders findings by how grave they are. */
export type Severity = 'stop' | 'warn' | 'note';

/** Place says what a finding speaks of. Any part may be empty. */
export interface Place {
  /**
   * Field is the dotted path of a field of the design, "curve.radius" or
   * "curve.pieces.2.length".
   */
  field?: string;
  /** Part is the id of a part: "panel", "rib1". */
  part?: string;
  /** Score is the number of a score line counted from the foot, from 1. */
  score?: number;
  /** At is a station along the flat panel, mm from the foot edge; nil if none. */
  at?: number;
}

/**
 * Remedy is one way to mend a finding. Set holds the fields that a click changes
 * and the text each is given, in the form the document stores. Then is what it brings with it,
 * a sentence; empty for nothing.
 */
export interface Remedy {
  text: string;
  set?: Record<string, string>;
  then?: string;
}

/** UnitsQuestion asks how large a file is that doesn't say. Chosen is 0 until answered. */
export interface UnitsQuestion {
  chosen: number;
  choices: UnitsChoice[];
}

/** EdgeQuestion asks which line of a double outline is meant. */
export interface EdgeQuestion {
  /** how far they are apart */
  text: string;
  chosen: string;
  choices: Choice[];
}

/** Choice is one value of a choice control. */
export interface Choice {
  value: string;
  label: string;
}

/** IntakeRow is paths of one layer and colour that look alike. */
export interface IntakeRow {
  id: string;
  /** plain characters; empty when the file names none */
  layer: string;
  /** "#rrggbb", of the line or else of the filling; empty for neither */
  colour: string;
  /** "2 closed lines, 12 to 40 mm long" */
  text: string;
  /** empty when its paths differ */
  role: string;
  /** one by one, unless they are too many */
  paths: IntakePath[];
}

/** IntakeChange is one thing that mending does, or only points at. */
export interface IntakeChange {
  /** empty where it can't be left */
  key: string;
  text: string;
  done: boolean;
  /** in the drawing */
  x: number;
  y: number;
  /** the paths it concerns */
  refs: string[];
  /** what to close gaps up to so that it is mended; empty where that was not found to help */
  gap: string;
}

/** BenchSection is a part of the sheet; what it has is shown in the order of its members. */
export interface BenchSection {
  /** "watch", "cautions", "steps", "parts", "machine"... */
  id: string;
  title: string;
  /** begins a page on paper */
  newPage: boolean;
  lines: string[];
  steps: BenchStep[];
  /** the steps are in no order */
  loose: boolean;
  head: string[];
  rows: BenchRow[];
  /** the table is written in */
  ruled: boolean;
  figures: BenchFigure[];
}

/** Term is one condition of a control: what counts at Path is one of Values. */
export interface Term {
  path: string;
  values: string[];
  /** it holds where one of these does, too */
  or?: Term[];
}

/** Gauge shows how near a limit the design is: Value 1 is the limit itself. */
export interface Gauge {
  /** "cracking", "pinching", "flats" */
  id: string;
  label: string;
  value: number;
  low: number;
  high: number;
  /** the value at which the safety factor is used up */
  allowed: number;
  /** "0.78 of the limit" */
  text: string;
}

/** Option is one number of passes. */
export interface Option {
  /** one for each head */
  cells: string[];
  sound: boolean;
  /** why it is out */
  out?: string;
  /** the plan is made with it */
  chosen: boolean;
  /** takes it */
  set: Record<string, string>;
}

/** Item is one thing in a drawing: numbers From up to To of its array. */
export interface Item {
  /**
   * Role says how to draw it: "panel", "cutedge", "score", "mark", "inner", "outer", "rib",
   * "bed", "dimension", "neutral", "ghost", "flat", "glue"; in "readings" "axis", "point",
   * "fit", "range", "guess"; in "isometric" also faces
   * from the back to the front: "face", "flank", "slot", "wall", "plate".
   */
  role: string;
  /** "score 12", "rib1", "panel": what hovering lights in every drawing */
  ref?: string;
  from: number;
  to: number;
}

/** Label is a figure or word in a drawing. */
export interface Label {
  x: number;
  y: number;
  text: string;
  /** "start", "middle", "end" */
  anchor: string;
  /** degrees, clockwise as on the screen */
  turn: number;
}

/** Handle is a place of a drawing that can be taken hold of and moved. */
export interface Handle {
  id: string;
  /** "Radius", "Point 3" */
  label: string;
  /** what it stands at: "110 mm" */
  text: string;
  /** in the drawing, mm */
  x: number;
  y: number;
  /** Ways is how it moves: "x", "y", "xy", or "track" where it stays on a line of its own. */
  ways: string;
  /** Fields are the paths that moving it writes, the first the one that Value tells of. */
  fields: string[];
  /** Value, Low and High are its figure and the bounds of it, mm or degrees. */
  value: number;
  low: number;
  high: number;
}

/** Extent ends one body in arrays of triangles and lines. */
export interface Extent {
  ref: string;
  faces: number;
  edges: number;
}

/** SpaceMark is a run of scores that are near a limit. */
export interface SpaceMark {
  /** from 1 */
  first: number;
  last: number;
  /** the score to put it at */
  at: number;
  /** "12" or "12-40" */
  text: string;
}

/** UnitsChoice is one reading, with the size that it gives. */
export interface UnitsChoice {
  perInch: number;
  label: string;
  size: string;
}

/** IntakePath is one path of a row. */
export interface IntakePath {
  id: string;
  text: string;
  role: string;
}

/** BenchStep is one thing to do. */
export interface BenchStep {
  id: string;
  what: string;
  how: string;
}

/** BenchRow is one row of a section's table. */
export interface BenchRow {
  cells: string[];
}

/**
 * BenchFigure is a drawing and how it is printed: at one to Scale of its size, or as it
 * fits where Scale is 0.
 */
export interface BenchFigure {
  drawing: Drawing;
  scale: number;
  /** over the whole width */
  wide: boolean;
  /** height of the letters of its labels, in its own mm */
  text: number;
}
