// Package wire answers requests from the page: request bytes in, reply bytes and
// one array of numbers a drawing out. It is ordinary Go, so that native tests and
// the fuzzer reach everything that the page can ask.
package wire

import (
	"encoding/base64"
	"encoding/json"

	"springrib/internal/finding"
)

// Request is what the page asks. Kind says which of the other members count:
//
//	"fields"   nothing: the table of controls, stocks and examples
//	"plan"     Design: the whole plan as shown; with Drag, of the design that it makes,
//	           and its Set, Partial and without the search for what would do where
//	           nothing works; with Brief, Partial; with Show, in space as well
//	"open"     Text: a saved design of any version, read and upgraded
//	"convert"  Design, Text: the design with its lengths in the units Text, "mm" or "in"
//	"bench"    Design: the bench sheet
//	"machine"  Design, Text: the design with the settings of a machine from a file
//	"stock"    Design, Text: the design with the sheet of a file and its readings
//	"pack"     Design, Effort, Seed, Slice: the design with its parts laid closer. Asked again
//	           for the same parts, the core goes on where it was, or from the places in
//	           Design where those are better
//	"save"     Design: the design as a file
//	"file"     Design, File: one file of the plan, by the name a plan listed; with Faces, PDFs
//	           in that typeface
//	"job"      Text: a saved job, designs that are cut together: all that leaves of it as one
//	           file, and in Findings what there is to say of its members; with Faces likewise
//	"intake"   Design, Intake: what a file drawn elsewhere holds
//	"take"     Design, Intake: the design with what was chosen of that file
type Request struct {
	ID     int             `json:"id"`
	Kind   string          `json:"kind"`
	Design json.RawMessage `json:"design,omitempty"`
	Text   string          `json:"text,omitempty"`
	File   string          `json:"file,omitempty"`
	// Faces is the typeface of PDFs, which the page has and the core has not.
	Faces  json.RawMessage `json:"faces,omitempty"`
	Drag   *Drag           `json:"drag,omitempty"`
	Effort float64         `json:"effort,omitempty"` // steps of work in all
	Slice  float64         `json:"slice,omitempty"`  // steps until an answer; 0 for all
	Seed   int             `json:"seed,omitempty"`   // another one finds another layout
	Intake *Intake         `json:"intake,omitempty"`
	// Show is "space" for the panel as bodies, or "isometric" for a drawing of them bent
	// as far as Folded says, a share of all scores from the foot.
	Show   string  `json:"show,omitempty"`
	Folded float64 `json:"folded,omitempty"`
	// Brief leaves out what nobody waits for, test strips and files: a second request
	// for the same design fetches them.
	Brief bool `json:"brief,omitempty"`
	// Untried leaves out what would mend the findings.
	Untried bool `json:"untried,omitempty"`
}

// Packed says what packing came to so far.
type Packed struct {
	Text string  `json:"text"` // a sentence
	Done float64 `json:"done"` // share of the effort that is spent, 1 at the end
	Rank float64 `json:"rank"` // of two layouts of a design that with the lower one is closer
}

// Work says how much work to do: see Request.
type Work struct {
	Effort, Slice int64
	Seed          uint64
}

// Drag moves a handle of a drawing to a place, mm as in the drawing.
type Drag struct {
	Handle string  `json:"handle"` // ID of a Handle
	X      float64 `json:"x"`
	Y      float64 `json:"y"`
	Fine   bool    `json:"fine,omitempty"` // rounded ten times as closely
}

// Reply answers the Request of the same ID. Exactly the members that its kind calls
// for are set; Error is set alone when the request could not be answered at all.
type Reply struct {
	ID       int               `json:"id"`
	Error    string            `json:"error,omitempty"` // a plain sentence for the person
	Controls *Controls         `json:"controls,omitempty"`
	Plan     *PlanView         `json:"plan,omitempty"`
	Design   json.RawMessage   `json:"design,omitempty"` // for "open", "convert" and "take": the document
	Findings []finding.Finding `json:"findings,omitempty"`
	File     *FileBody         `json:"file,omitempty"`
	Intake   *IntakeView       `json:"intake,omitempty"`
	Packed   *Packed           `json:"packed,omitempty"`
	Bench    *BenchSheet       `json:"bench,omitempty"`
	Set      map[string]string `json:"set,omitempty"` // for a plan with Drag: path -> its new text
}

// FileBody is one finished file. Its bytes are in base64 whatever they are: a text of JSON
// would harm those that are not UTF-8.
type FileBody struct {
	Name   string `json:"name"`
	Type   string `json:"type"` // media type
	Base64 string `json:"base64"`
}

// Body returns a file with its bytes.
func Body(name, media string, bytes []byte) FileBody {
	return FileBody{name, media, base64.StdEncoding.EncodeToString(bytes)}
}

// Controls is everything the page needs to draw its form; it never changes in a session.
type Controls struct {
	Cards    []Card          `json:"cards"`
	Controls []Control       `json:"controls"`
	Examples []Example       `json:"examples"`
	Empty    json.RawMessage `json:"empty"` // the document a new design starts from
}

// Card is one step of the job.
type Card struct {
	ID    string `json:"id"` // "sheet", "machine", "curve", "panel", "rib", "cut"
	Title string `json:"title"`
	Help  string `json:"help"`
}

// Control is one field of the form.
type Control struct {
	Path    string   `json:"path"` // dotted path in the document, "sheet.readings"
	Card    string   `json:"card"`
	Label   string   `json:"label"`
	Help    string   `json:"help"` // one plain sentence
	Kind    string   `json:"kind"` // "length","lengths","angle","number","count","choice","check","text","colour","rows"
	Choices []Choice `json:"choices,omitempty"`
	// Columns are the fields of one row of a "rows" control; their paths are those
	// within the row, "length" for "curve.pieces.2.length", and so are the paths in
	// their When. Row names one row, "piece".
	Columns []Control `json:"columns,omitempty"`
	Row     string    `json:"row,omitempty"`
	More    bool      `json:"more"`           // shown under "more" of its card
	When    []Term    `json:"when,omitempty"` // shown only when all of these hold
}

// Term is one condition of a control: what counts at Path is one of Values.
type Term struct {
	Path   string   `json:"path"`
	Values []string `json:"values"`
	Or     []Term   `json:"or,omitempty"` // it holds where one of these does, too
}

// Choice is one value of a choice control.
type Choice struct {
	Value string `json:"value"`
	Label string `json:"label"`
}

// Example is a ready design of an invented scenario.
type Example struct {
	ID     string          `json:"id"`
	Title  string          `json:"title"`
	About  string          `json:"about"`
	Design json.RawMessage `json:"design"`
}

// PlanView is a plan in words, numbers and drawings, all in the person's unit.
// When a field can't be read or a stop leaves nothing to draw, Drawn is false, the
// drawings are empty and the page keeps the last ones.
type PlanView struct {
	Drawn    bool              `json:"drawn"`
	Verdict  Verdict           `json:"verdict"`
	Cards    map[string]string `json:"cards"`    // card id -> its summary sentence
	Fields   map[string]Field  `json:"fields"`   // path -> what the core says of the field
	Findings []finding.Finding `json:"findings"` // graver first
	Numbers  []Number          `json:"numbers"`
	Options  Options           `json:"options"`
	Scores   []ScoreView       `json:"scores"`
	Drawings []Drawing         `json:"drawings"`
	Files    []FileView        `json:"files"`
	// Withheld are the sentences of what keeps files of the parts from leaving: each must be
	// mended first.
	Withheld []string `json:"withheld,omitempty"`
	Cautions []string `json:"cautions"`
	// Corners is the outline of the panel by its corners, where it has another shape.
	Corners []Corner `json:"corners,omitempty"`
	Space   *Space   `json:"space,omitempty"` // when Show asked for it
	// Partial says that the drawings of test strips and the files are left out, as in the
	// answer to a Drag: those of the plan before still stand.
	Partial bool `json:"partial,omitempty"`
}

// Corner is one of an outline, as the document has it.
type Corner struct {
	Along  string `json:"along"`
	Across string `json:"across"`
	Radius string `json:"radius"`
}

// Field is what the core says of one field now.
type Field struct {
	Label   string `json:"label,omitempty"`   // what it is called now, when that is not the form's word
	Default string `json:"default,omitempty"` // what an empty field means, as text for the placeholder
	Problem string `json:"problem,omitempty"` // why it can't be used, and what to write instead
	Means   string `json:"means,omitempty"`   // how it was understood, when that differs from what was typed
}

// Verdict is the answer in one sentence.
type Verdict struct {
	Severity string  `json:"severity"` // "sound", "note", "warn", "stop"
	Word     string  `json:"word"`     // "Sound", "Look again", "Do not cut"
	Sentence string  `json:"sentence"`
	Gauges   []Gauge `json:"gauges"`
}

// Gauge shows how near a limit the design is: Value 1 is the limit itself.
type Gauge struct {
	ID      string  `json:"id"` // "cracking", "pinching", "flats"
	Label   string  `json:"label"`
	Value   float64 `json:"value"`
	Low     float64 `json:"low"`
	High    float64 `json:"high"`
	Allowed float64 `json:"allowed"` // the value at which the safety factor is used up
	Text    string  `json:"text"`    // "0.78 of the limit"
}

// Number is one governing figure, ready to read.
type Number struct {
	ID    string `json:"id"`
	Label string `json:"label"`
	Text  string `json:"text"`
	Help  string `json:"help,omitempty"`
}

// Options lays out what each number of passes would give, the first to take first.
type Options struct {
	Heads []string `json:"heads"`
	Rows  []Option `json:"rows"`
}

// Option is one number of passes.
type Option struct {
	Cells  []string          `json:"cells"` // one for each head
	Sound  bool              `json:"sound"`
	Out    string            `json:"out,omitempty"` // why it is out
	Chosen bool              `json:"chosen"`        // the plan is made with it
	Set    map[string]string `json:"set"`           // takes it
}

// ScoreView is what is said of one score; while a hand moves a handle nothing but its
// place, and whether it is near a limit.
type ScoreView struct {
	N     int     `json:"n"`
	U     float64 `json:"u"` // mm from the foot edge
	At    string  `json:"at,omitempty"`
	Fold  string  `json:"fold,omitempty"`
	Limit string  `json:"limit,omitempty"` // what limits it: "cracking, 0.81 of it"
	Near  bool    `json:"near,omitempty"`  // over its allowed value
}

// Drawing is one picture. Its numbers lie in the typed array of the same index in
// the reply: a run of path commands in mm, Y down as screens have it:
// 0 x y move, 1 x y line, 2 x1 y1 x2 y2 x y cubic, 3 close.
type Drawing struct {
	ID     string     `json:"id"` // "bent", "flat", "sheet1", "sheet2"..., "strips1"..., "readings", "isometric"
	Title  string     `json:"title"`
	Box    [4]float64 `json:"box"` // x, y, width, height in mm
	Items  []Item     `json:"items"`
	Labels []Label    `json:"labels"`
	// Handles are what can be taken hold of, ID by ID the same while the design is of the
	// same kind.
	Handles []Handle `json:"handles,omitempty"`
}

// Item is one thing in a drawing: numbers From up to To of its array.
type Item struct {
	// Role says how to draw it: "panel", "cutedge", "score", "mark", "inner", "outer", "rib",
	// "bed", "dimension", "neutral", "ghost", "flat", "glue"; in "readings" "axis", "point",
	// "fit", "range", "guess"; in "isometric" also faces
	// from the back to the front: "face", "flank", "slot", "wall", "plate".
	Role string `json:"role"`
	Ref  string `json:"ref,omitempty"` // "score 12", "rib1", "panel": what hovering lights in every drawing
	From int    `json:"from"`
	To   int    `json:"to"`
}

// Label is a figure or word in a drawing.
type Label struct {
	X      float64 `json:"x"`
	Y      float64 `json:"y"`
	Text   string  `json:"text"`
	Anchor string  `json:"anchor"` // "start", "middle", "end"
	Turn   float64 `json:"turn"`   // degrees, clockwise as on the screen
}

// FileView is one file the page can save.
type FileView struct {
	Name  string `json:"name"`
	Label string `json:"label"`
	About string `json:"about"`
}
