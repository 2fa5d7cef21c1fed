package wire

// Handle is a place of a drawing that can be taken hold of and moved.
type Handle struct {
	ID    string  `json:"id"`
	Label string  `json:"label"` // "Radius", "Point 3"
	Text  string  `json:"text"`  // what it stands at: "110 mm"
	X     float64 `json:"x"`     // in the drawing, mm
	Y     float64 `json:"y"`
	// Ways is how it moves: "x", "y", "xy", or "track" where it stays on a line of its own.
	Ways string `json:"ways"`
	// Fields are the paths that moving it writes, the first the one that Value tells of.
	Fields []string `json:"fields"`
	// Value, Low and High are its figure and the bounds of it, mm or degrees.
	Value float64 `json:"value"`
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
}

// SpaceArrays is how many arrays of numbers a Space has.
const SpaceArrays = 15

// Space is the panel with its ribs as bodies, and how the panel bends. Places are mm: in
// space X and Y are those of the bent drawing with Y up, Z runs along the scores; in
// the flat panel they are u along the bend, v along the scores, and the height over the
// contact face. The arrays of the reply from First on belong to it:
//
//	0, 1   body of the panel, triangles, flat and bent
//	2, 3   its slots, triangles, flat and bent
//	4, 5   its edges, lines, flat and bent
//	6, 7   its scores, lines, flat and bent
//	8, 9   one place beside each score, at the panel's edge, flat and bent
//	10     frames: 16 numbers for each flat, column by column, that carry a place of the
//	       flat panel to where the flat is once all before it is folded
//	11     hinges: 7 numbers for each score: a place, a direction, and the angle in radians
//	       by which all after it turns
//	12     bodies of the ribs, triangles in space
//	13     their edges, lines in space
//	14     the other panels on the base: 16 numbers for each, column by column, that carry
//	       the first panel and its ribs to where it stands
//
// Bent as far as score k, the flats up to k lie as in the bent arrays, and all after
// them as the flat arrays do, carried by frame k and turned about hinge k by the share
// that the next fold has come.
type Space struct {
	First  int    `json:"first"`
	File   string `json:"file"` // a name for a picture of it, without ending
	Scores int    `json:"scores"`
	// Body, Slots, Edges and Lines say, flat by flat, up to which place its arrays belong
	// to it and those before.
	Body  []int `json:"body"`
	Slots []int `json:"slots"`
	Edges []int `json:"edges"`
	Lines []int `json:"lines"`
	// Ribs says rib by rib up to which place array 12 and 13 belong to it and those before.
	Ribs []Extent `json:"ribs"`
	// Own is how many of them stand under each panel; the base comes after them, once.
	Own int `json:"own"`
	// Turned says that they are under its round side, so that it lies on them with its hollow up.
	Turned bool        `json:"turned,omitempty"`
	Marks  []SpaceMark `json:"marks"`
	// Bent and Straight are boxes around it with the first panel alone, bent whole and not at all: least and
	// greatest X, Y, Z.
	Bent     [6]float64 `json:"bent"`
	Straight [6]float64 `json:"straight"`
}

// Extent ends one body in arrays of triangles and lines.
type Extent struct {
	Ref   string `json:"ref"`
	Faces int    `json:"faces"`
	Edges int    `json:"edges"`
}

// SpaceMark is a run of scores that are near a limit.
type SpaceMark struct {
	First int    `json:"first"` // from 1
	Last  int    `json:"last"`
	At    int    `json:"at"`   // the score to put it at
	Text  string `json:"text"` // "12" or "12-40"
}
