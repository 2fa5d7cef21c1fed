package design

import (
	"maps"
	"math"
	"strconv"
	"strings"

	"springrib/internal/finding"
	"springrib/internal/machine"
)

// ScrapPoint is a corner of a scrap, from the lower left corner of the bed.
type ScrapPoint struct {
	X string `json:"x"`
	Y string `json:"y"`
}

// Pin holds one copy of a part in its place: the lower left corner of all that the tool
// runs over for it, turned as it lies.
type Pin struct {
	Part  string `json:"part"`  // "panel", "rib 1"
	Sheet string `json:"sheet"` // of its stock, from 1
	X     string `json:"x"`
	Y     string `json:"y"`
	Turn  string `json:"turn"`
}

// Lay is where packing put one copy of a part. No person types it: mm and degrees
// whatever the unit, the copy and the sheet of its stock from 1, X and Y of the part's
// own origin.
type Lay struct {
	Part  string `json:"part"` // id
	Copy  string `json:"copy"`
	Sheet string `json:"sheet"`
	X     string `json:"x"`
	Y     string `json:"y"`
	Turn  string `json:"turn"`
}

// LayValues is a Lay in figures: copy and sheet from 0, mm, radians.
type LayValues struct {
	Part        string
	Copy, Sheet int
	X, Y, Turn  float64
}

// PinValues is a Pin in figures, the sheet from 0.
type PinValues struct {
	Row        int // of the document
	Part       string
	Sheet      int
	X, Y, Turn float64
}

// ScrapValues is a corner of a scrap, mm.
type ScrapValues struct {
	Row  int // of the document
	X, Y float64
}

// How parts may be turned on the sheet.
const (
	TurnGrain   = "grain" // half turns where the sheet has a grain, else quarter turns
	TurnNone    = "none"
	TurnHalf    = "half"
	TurnQuarter = "quarter"
)

// Which parts are held by bridges.
const (
	BridgeSmall = "small"
	BridgeNone  = "none"
	BridgeAll   = "all"
)

// layFields ask how parts lie on the sheet and how they are held there.
func layFields() []Field {
	return []Field{
		{Path: "cut.turns", Label: "Parts may be turned", Kind: Choose, text: TurnGrain, More: true, job: true,
			Choices: []Choice{{TurnGrain, "As the grain allows"}, {TurnNone, "Not at all"}, {TurnHalf, "By half a turn"}, {TurnQuarter, "By quarter turns"}},
			Help:    "To lie closer; a part is never turned over."},
		{Path: "cut.cutOuts", Label: "Small parts may lie in cut-outs of larger ones", Kind: Check, More: true, job: true,
			Help: "Packing closer then uses the waste inside holes too."},
		{Path: "cut.scrap", Label: "A scrap to use up first, corner by corner", Kind: Rows, Columns: scrapFields(), Row: "corner", More: true, job: true,
			Help: "Of the panel's sheet, measured from the lower left corner of the bed.", whole: (*reader).scrapIsAnArea},
		// Where packing put things is no field; it is read along with this one.
		{Path: "cut.pins", Label: "Parts that stay where you put them", Kind: Rows, Columns: pinFields(), Row: "part", More: true, job: true,
			Help: "By the lower left corner of all that is scored and cut of it; the rest is laid round them.", whole: (*reader).lays},
		{Path: "cut.bridges", Label: "Bridges hold", Kind: Choose, text: BridgeSmall, More: true,
			Choices: []Choice{{BridgeSmall, "Small parts"}, {BridgeNone, "Nothing"}, {BridgeAll, "Every part"}},
			Help:    "Short gaps in the outer cut, never on an edge that is glued; a saw or a knife needs none.",
			into: func(v *Values, r reading) {
				v.Cut.Bridges = r.text
				if t := v.Machine.Tool; t == machine.Saw || t == machine.Knife {
					v.Cut.Bridges = BridgeNone
				}
			}},
		{Path: "cut.bridgeWidth", Label: "Width of a bridge", Kind: Length, Min: 0.1, Max: 50, preset: byTool(0.4, 4, 0.4, 0.4), More: true,
			When: is("cut.bridges", BridgeSmall, BridgeAll),
			Help: "Of sound material left standing."},
		{Path: "cut.bridgeBelow", Label: "A part is small when it is narrower than", Kind: Length, Min: 0, Max: 2000, preset: byTool(20, 100, 20, 20), More: true,
			Help: "What falls through the bed or is thrown by a cutter."},
		{Path: "cut.relief", Label: "Inside corners of slots and tenons", Kind: Choose, text: "auto", More: true,
			Choices: []Choice{{"auto", "Cleared where a round cutter needs it"}, {"none", "As they come"}},
			Help:    "A router leaves corners round; a short run into each lets the other part go home.",
			into: func(v *Values, r reading) {
				v.Cut.Relief = r.text == "auto" && v.Machine.Tool == machine.Router
			}},
	}
}

func scrapFields() []Field {
	return []Field{
		{Path: "x", Label: "From the left", Kind: Length, Min: 0, Max: 20000, Help: "Along the bed.", Ask: "Say where this corner is along the bed."},
		{Path: "y", Label: "From the front", Kind: Length, Min: 0, Max: 20000, Help: "Across the bed.", Ask: "Say where this corner is across the bed."},
	}
}

func pinFields() []Field {
	return []Field{
		{Path: "part", Label: "Part", Kind: Text, text: "panel",
			Help: "As the bench sheet calls it.", into: func(v *Values, r reading) { last(v.Cut.Pins).Part = strings.TrimSpace(r.text) }},
		{Path: "sheet", Label: "Sheet", Kind: Count, Min: 1, Max: 500, preset: always(1),
			Help: "Of its own stock, from 1.", into: func(v *Values, r reading) { last(v.Cut.Pins).Sheet = int(r.num) - 1 }},
		{Path: "x", Label: "From the left", Kind: Length, Min: -20000, Max: 20000, Help: "Its left end.", Ask: "Say where its left end lies along the bed."},
		{Path: "y", Label: "From the front", Kind: Length, Min: -20000, Max: 20000, Help: "Its lower end.", Ask: "Say where its lower end lies across the bed."},
		{Path: "turn", Label: "Turned", Kind: Angle, Min: -2 * math.Pi, Max: 2 * math.Pi, preset: always(0), Help: "Counter-clockwise."},
	}
}

// scrapIsAnArea asks for three corners that are not in line.
func (r *reader) scrapIsAnArea(st *State) {
	s := r.v.Cut.Scrap
	if len(s) == 0 {
		return
	}
	area := 0.0
	for i, a := range s {
		b := s[(i+1)%len(s)]
		area += (a.X*b.Y - a.Y*b.X) / 2
	}
	// Less than a square of 5 mm holds no part that could be cut.
	if len(s) < 3 || math.Abs(area) < 25 {
		st.Problem = "Give at least three corners that enclose an area, or remove them all."
		none := finding.Remedy{Text: "Use no scrap", Set: map[string]string{}}
		for i := range min(len(r.doc.Cut.Scrap), maxList) {
			maps.Copy(none.Set, BlankRow("cut.scrap", i))
		}
		r.stop("scrap-nothing", "cut.scrap", "The scrap encloses nothing. "+st.Problem, none)
		r.v.Cut.Scrap = nil
	}
}

// MaxLays is how many packed places a document may hold.
const MaxLays = 2000

// lays reads where packing put things. All or none of it: a place that can't be read
// leaves the parts in rows.
func (r *reader) lays(*State) {
	if len(r.doc.Cut.Places) > MaxLays {
		return
	}
	out := make([]LayValues, 0, len(r.doc.Cut.Places))
	for _, l := range r.doc.Cut.Places {
		v, ok := l.values()
		if !ok {
			return
		}
		out = append(out, v)
	}
	r.v.Cut.Places = out
}

func (l Lay) values() (v LayValues, ok bool) {
	v.Part = l.Part
	var errs [5]error
	v.Copy, errs[0] = strconv.Atoi(l.Copy)
	v.Sheet, errs[1] = strconv.Atoi(l.Sheet)
	v.X, errs[2] = strconv.ParseFloat(l.X, 64)
	v.Y, errs[3] = strconv.ParseFloat(l.Y, 64)
	v.Turn, errs[4] = strconv.ParseFloat(l.Turn, 64)
	for _, err := range errs {
		if err != nil {
			return v, false
		}
	}
	v.Copy, v.Sheet, v.Turn = v.Copy-1, v.Sheet-1, v.Turn*math.Pi/180
	within := func(x float64) bool { return math.Abs(x) <= 1e6 } // false for what is no number
	return v, v.Copy >= 0 && v.Sheet >= 0 && within(v.X) && within(v.Y) && within(v.Turn)
}

// Lay writes places down as a document keeps them, lengths to a millionth of a
// millimetre: far below what checking a layout lets pass.
func (v LayValues) Lay() Lay {
	f := func(x float64) string {
		s := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(x, 'f', 6, 64), "0"), ".")
		if s == "-0" {
			return "0"
		}
		return s
	}
	return Lay{v.Part, strconv.Itoa(v.Copy + 1), strconv.Itoa(v.Sheet + 1), f(v.X), f(v.Y), f(v.Turn * 180 / math.Pi)}
}
