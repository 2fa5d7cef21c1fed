package view

import (
	"encoding/base64"
	"errors"
	"fmt"
	"math"
	"sort"
	"strconv"
	"strings"

	"springrib/internal/intake"
	"springrib/internal/plane"
	"springrib/internal/unit"
	"springrib/internal/wire"
)

// brought is a file drawn elsewhere on its way in: read, mended, every path with a role.
type brought struct {
	in       wire.Intake
	name     string
	units    unit.System
	drawing  intake.Drawing
	gap      wire.Field
	drawnGap float64 // mm, as worked with
	items    []intake.Item
	changes  []intake.Change
	of       map[int]int // number of a path as read -> of the mended one it became part of
	rows     []group
	roles    []intake.Role
	guess    intake.Guessed
	taken    takenPaths
}

// group is the paths that share a row, by number.
type group struct {
	layer, colour string
	guess         intake.Role
	closed        bool
	paths         []int
}

// maxGap is the widest gap that is closed, mm: twice what a person draws by eye.
const maxGap = 5

// maxPaths is the number of paths of a row up to which each can be chosen by itself.
const maxPaths = 60

// maxRows is the number of rows shown; the rest of the drawing shares the last.
const maxRows = 120

// bring reads the file. The error is a sentence for the person.
func bring(in wire.Intake, units unit.System) (*brought, error) {
	if len(in.Base64) > base64.StdEncoding.EncodedLen(wire.MaxDrawing) {
		return nil, fmt.Errorf("This drawing has more than %d MB. Leave out pictures and whatever is not cut.", wire.MaxDrawing>>20)
	}
	data, err := base64.StdEncoding.DecodeString(in.Base64)
	if err != nil {
		return nil, errors.New("The page could not hand over the drawing. Open it again.")
	}
	per := in.PerInch
	if !(per > 0 && per < 1e6) {
		per = 0
	}
	in.Base64 = "" // so that its memory is free
	b := &brought{in: in, name: intake.PlainName(in.Name), units: units}
	if b.drawing, err = intake.Read(data, intake.Options{PerInch: per}); err != nil {
		return nil, err
	}
	b.drawnGap = b.readGap()
	mended, changes := intake.Mend(b.drawing.Items, b.drawnGap, in.Leave...)
	b.items, b.changes = mended.Items, changes
	b.of = map[int]int{}
	for i, from := range mended.From {
		for _, k := range from {
			b.of[k] = i
		}
	}
	b.choose()
	return b, nil
}

// readGap reads the gap as typed.
func (b *brought) readGap() float64 {
	const usual = 0.1 // mm, below what a person sees in the cut: common practice, no source
	b.gap.Default = unit.LengthFine(usual, b.units)
	if b.in.Gap == "" {
		return usual
	}
	v, err := unit.ParseLength(b.in.Gap, b.units)
	switch {
	case err != nil:
		b.gap.Problem = err.Error()
		return usual
	case v < 0 || v > maxGap:
		b.gap.Problem = "Write " + unit.Length(maxGap, b.units) + " or less; mend wider gaps where it was drawn."
		return usual
	}
	return v
}

// choose guesses each path's role, sorts the paths into rows, and then takes over what
// the person chose for rows and for single paths.
func (b *brought) choose() {
	edge := intake.Edge(b.in.Edge)
	b.guess = intake.Guess(b.items, b.drawing.Page, edge)
	guess := b.guess.Roles
	for i, r := range guess {
		if r == intake.Curve { // nothing closed: no outline, and the panel's card asked for one
			guess[i] = intake.Unused
		}
	}
	if b.in.Card == "curve" {
		guess = guessLine(b.items)
	}
	b.sort(guess)
	b.roles = guess
	for i, g := range b.rows {
		if r, ok := role(b.in.Roles[rowID(i)]); ok {
			for _, k := range g.paths {
				b.roles[k] = r
			}
		}
	}
	for k := range b.items {
		if r, ok := role(b.in.Roles[pathID(k)]); ok {
			b.roles[k] = r
		}
	}
}

// guessLine takes the longest open line that the file shows for the curve, and where there
// is none the one closed line.
func guessLine(items []intake.Item) []intake.Role {
	out := make([]intake.Role, len(items))
	best, length := -1, 0.0
	for i := range items {
		it := &items[i]
		if l := it.Length(); !it.Path.Closed && it.Painted() && l > length*(1+1e-9) {
			best, length = i, l
		}
	}
	if best < 0 {
		for i := range items {
			if it := &items[i]; !it.Painted() || it.Length() == 0 {
				continue
			}
			if best >= 0 {
				return out // two of them: the person says which
			}
			best = i
		}
	}
	if best >= 0 {
		out[best] = intake.Curve
	}
	return out
}

func (b *brought) sort(guess []intake.Role) {
	type look struct {
		layer, colour string
		guess         intake.Role
		closed        bool
	}
	number := map[look]int{}
	for i := range b.items {
		it := &b.items[i]
		colour := it.Stroke
		if colour == "" {
			colour = it.Fill
		}
		k := look{it.Layer, colour, guess[i], it.Path.Closed}
		n, ok := number[k]
		if !ok && len(b.rows) >= maxRows {
			n, ok = maxRows-1, true
		}
		if !ok {
			n = len(b.rows)
			number[k] = n
			b.rows = append(b.rows, group{layer: k.layer, colour: k.colour, guess: k.guess, closed: k.closed})
		}
		b.rows[n].paths = append(b.rows[n].paths, i)
	}
	// What was taken for something stands first.
	order := map[intake.Role]int{intake.Outline: 0, intake.Curve: 1, intake.Hole: 2, intake.Mark: 3, intake.Unused: 4}
	sort.SliceStable(b.rows, func(i, j int) bool { return order[b.rows[i].guess] < order[b.rows[j].guess] })
}

func rowID(i int) string  { return "row " + strconv.Itoa(i) }
func pathID(i int) string { return "path " + strconv.Itoa(i) }

// unused is what the page calls a path that is left out.
const unused = "unused"

func role(name string) (intake.Role, bool) {
	switch r := intake.Role(name); r {
	case intake.Outline, intake.Hole, intake.Mark, intake.Curve:
		return r, true
	}
	return intake.Unused, name == unused
}

func nameOf(r intake.Role) string {
	if r == intake.Unused {
		return unused
	}
	return string(r)
}

func rolesOffered() []wire.Choice {
	return []wire.Choice{
		{Value: string(intake.Outline), Label: "Outline of the panel"}, {Value: string(intake.Hole), Label: "Hole"},
		{Value: string(intake.Mark), Label: "Mark on the scored face"}, {Value: string(intake.Curve), Label: "The curve it bends to"},
		{Value: unused, Label: "Left out"},
	}
}

// chosen returns the paths of a role.
func (b *brought) chosen(r intake.Role) []plane.Path {
	var out []plane.Path
	for i, it := range b.items {
		if b.roles[i] == r {
			out = append(out, it.Path)
		}
	}
	return out
}

// missing says what keeps the choice from being taken; empty when nothing does.
func (b *brought) missing() string {
	outlines, curves := b.chosen(intake.Outline), b.chosen(intake.Curve)
	switch {
	case len(b.items) == 0:
		return "There is nothing in this file that could be taken."
	case !b.drawing.Units.Stated && b.in.PerInch == 0:
		return "Say how large the drawing is."
	case b.gap.Problem != "":
		return "Gaps closed up to: " + b.gap.Problem
	case b.doubled() && b.in.Edge == "":
		return "The outline is a double line, " + b.mm(b.guess.Double.Width) + " wide, as a traced pen stroke is. Say which edge is meant."
	case len(outlines) > 1:
		return plural(len(outlines), "line") + " are chosen as the outline. Leave one, and say what the others are."
	case len(curves) > 1:
		return plural(len(curves), "line") + " are chosen as the curve. Leave one, and say what the others are."
	case len(outlines) == 0 && len(curves) == 0:
		if b.in.Card == "curve" {
			return "Choose the line that the panel is to follow: an open one, or a closed one to wrap."
		}
		return "Choose the outline of the panel; it must be closed."
	case len(outlines) == 0 && len(b.chosen(intake.Hole)) > 0:
		return "There are holes and no outline. Choose the outline of the panel."
	}
	if len(curves) == 1 {
		if w, thin := intake.Stroke(curves[0]); thin {
			return "The curve is a closed shape only " + b.mm(w) + " wide, as a traced pen stroke is. Draw its middle line in the program that drew it."
		}
	}
	for _, p := range append(outlines, b.chosen(intake.Hole)...) {
		if !p.Closed {
			return "What is chosen as an outline or hole is open by " + b.mm(p.Start().Dist(p.End())) + ". Close gaps up to that, or choose another."
		}
		if w := p.Box(); len(p.Segs) == 0 || math.Max(w.W(), w.H()) < 1e-3 {
			return "What is chosen as an outline or hole has no size. Choose another."
		}
	}
	return ""
}

// doubled tells whether the outline is one of the lines of a double one.
func (b *brought) doubled() bool {
	d := b.guess.Double
	if d == nil || b.in.Card == "curve" {
		return false
	}
	o, i := b.roles[d.Outer], b.roles[d.Inner]
	return o == intake.Outline && (i == intake.Hole || i == intake.Unused) || i == intake.Outline && o == intake.Unused
}

func (b *brought) mm(v float64) string { return unit.Length(v, b.units) }

func (b *brought) area(box plane.Box) string {
	return b.bare(box.W()) + " by " + b.mm(box.H())
}

// bare is a length without its unit, to stand before another.
func (b *brought) bare(v float64) string {
	return strings.TrimSuffix(b.mm(v), " "+b.units.String())
}
