package wire

import "springrib/internal/finding"

// MaxDrawing is the longest file drawn elsewhere that is read, in bytes. The page looks at
// the size of a file before it loads it.
const MaxDrawing = 16 << 20

// Intake is a file drawn elsewhere and what is to be made of it.
type Intake struct {
	Name    string  `json:"name"`    // of the file
	Base64  string  `json:"base64"`  // its bytes
	Card    string  `json:"card"`    // what it was opened for: "panel" or "curve"
	PerInch float64 `json:"perInch"` // units of the file to an inch, for one that doesn't say; 0 asks
	Gap     string  `json:"gap"`     // ends this near are joined, as typed; empty takes the default
	Edge    string  `json:"edge"`    // which line of a double outline is meant: "outer", "inner" or "both"; empty asks
	// Leave holds the keys of changes that are not to be made.
	Leave []string `json:"leave"`
	// Roles holds what was chosen: the id of a row or of one path -> its role.
	Roles map[string]string `json:"roles"`
	// Lay holds the fields that say how the drawing is laid, path -> text.
	Lay map[string]string `json:"lay"`
}

// IntakeView is what a file drawn elsewhere holds and what would be taken of it.
type IntakeView struct {
	Name     string            `json:"name"`
	Size     string            `json:"size"`            // "SVG, 212 × 94 mm"
	Units    *UnitsQuestion    `json:"units,omitempty"` // where the file doesn't say how large it is
	Edges    *EdgeQuestion     `json:"edges,omitempty"` // where the outline is a double line
	Gap      Field             `json:"gap"`
	Roles    []Choice          `json:"roles"` // all that a path can be
	Rows     []IntakeRow       `json:"rows"`
	Changes  []IntakeChange    `json:"changes"`
	More     int               `json:"more"` // changes made or found beyond those in the list
	Findings []finding.Finding `json:"findings"`
	Controls []Control         `json:"controls"` // the fields of Lay
	Fields   map[string]Field  `json:"fields"`   // what the core says of them
	Sentence string            `json:"sentence"` // what would be taken, or what is missing
	Ready    bool              `json:"ready"`    // it can be taken
	Drawing  Drawing           `json:"drawing"`  // all that was read, as it would lie; refs are ids of paths or rows
	// Taken is what would be taken, in the same place and size, its numbers after those of
	// Drawing in the same array. What the file does not hold is in items of role "lit", and
	// what is left out of it in those of role "ghost" of Drawing.
	Taken Drawing `json:"taken"`
}

// EdgeQuestion asks which line of a double outline is meant.
type EdgeQuestion struct {
	Text    string   `json:"text"` // how far they are apart
	Chosen  string   `json:"chosen"`
	Choices []Choice `json:"choices"`
}

// UnitsQuestion asks how large a file is that doesn't say. Chosen is 0 until answered.
type UnitsQuestion struct {
	Chosen  float64       `json:"chosen"`
	Choices []UnitsChoice `json:"choices"`
}

// UnitsChoice is one reading, with the size that it gives.
type UnitsChoice struct {
	PerInch float64 `json:"perInch"`
	Label   string  `json:"label"`
	Size    string  `json:"size"`
}

// IntakeRow is paths of one layer and colour that look alike.
type IntakeRow struct {
	ID     string       `json:"id"`
	Layer  string       `json:"layer"`  // plain characters; empty when the file names none
	Colour string       `json:"colour"` // "#rrggbb", of the line or else of the filling; empty for neither
	Text   string       `json:"text"`   // "2 closed lines, 12 to 40 mm long"
	Role   string       `json:"role"`   // empty when its paths differ
	Paths  []IntakePath `json:"paths"`  // one by one, unless they are too many
}

// IntakePath is one path of a row.
type IntakePath struct {
	ID   string `json:"id"`
	Text string `json:"text"`
	Role string `json:"role"`
}

// IntakeChange is one thing that mending does, or only points at.
type IntakeChange struct {
	Key  string   `json:"key"` // empty where it can't be left
	Text string   `json:"text"`
	Done bool     `json:"done"`
	X    float64  `json:"x"` // in the drawing
	Y    float64  `json:"y"`
	Refs []string `json:"refs"` // the paths it concerns
	Gap  string   `json:"gap"`  // what to close gaps up to so that it is mended; empty where that was not found to help
}
