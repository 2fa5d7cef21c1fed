package coupon

import (
	"fmt"
	"math"
	"strconv"

	"springrib/internal/cut"
	"springrib/internal/part"
	"springrib/internal/plane"
	"springrib/internal/stock"
)

// Order is what test strips are cut for.
type Order struct {
	From     stock.Sheet // what the strips are cut from
	Kerf     float64     // of a through cut
	Width    float64     // of a score
	Passes   int         // numbers of passes to tell, 1 to this
	Chosen   int         // number of passes of the design
	Spacing  float64     // of the design, mm; 0 when it has none
	Overrun  float64     // of scores past the edge
	Length   float64     // of a tongue from the table's edge to the hole
	Tongue   float64     // width of a tongue
	Closing  float64     // turn of one score of the design that shuts it, rad; +Inf when none does
	Cracking float64     // radius on the hollow side at which the design's scores may crack, mm
	// Corners asks for a dense tongue of the design's passes for every corner of the bed,
	// and names the spot on each scored tongue.
	Corners bool
	// ChosenOnly keeps to the tongues of the design's passes at the centre, where a bed has
	// no room there for more; the others can be cut anywhere.
	ChosenOnly bool
}

// Strip is one test piece and how often its scores are run.
type Strip struct {
	part.Part
	Kind    Piece
	Passes  int       // 0: no scores
	Spacing float64   // of its scores
	Count   int       // of its scores
	Spot    string    // where on the bed it has to be cut: LowerLeft...; empty for anywhere
	Radius  float64   // of a gauge
	Spare   []float64 // of a fit strip: what each slot is wider than the sheet is thick, mm
}

// Piece is what a test piece is for.
type Piece string

// The pieces: a tongue to hang over a table's edge, a strip to close until its mouths
// touch, a strip to bend round gauges, a gauge, a window for the kerf, slots for the fit.
const (
	TonguePiece Piece = "tongue"
	ClosePiece  Piece = "close"
	BendPiece   Piece = "bend"
	GaugePiece  Piece = "gauge"
	KerfPiece   Piece = "kerf"
	FitPiece    Piece = "fit"
)

// TableEdge is where on a tongue the line for the table's edge is, from its clamped end.
const TableEdge = clampLength

// Sizes of the pieces, mm. Common practice, no source.
const (
	clampLength = 40.0 // of a tongue, held down on the table
	pastHole    = 6.0  // of a tongue past its hole
	hole        = 3.0  // for the hook of a weight
	broad       = 20.0 // width of strips that are bent by hand
	plainEnd    = 30.0 // of those, to hold them by
	textHeight  = 4.0
	gaugeSweep  = 70 * math.Pi / 180
)

// Dense returns the spacing of the dense tongues, about 0.3 of the thickness, where the
// stiffness hardly depends on the softness through the thickness; wider where scores
// would meet.
func (o Order) Dense() float64 { return hundredth(math.Max(0.3*o.From.Thickness, 2*o.Width)) }

// design returns the spacing of the design, or one thickness.
func (o Order) design() float64 {
	if o.Spacing > 0 {
		return hundredth(math.Max(o.Spacing, 1.5*o.Width))
	}
	return hundredth(math.Max(o.From.Thickness, 1.5*o.Width))
}

// hundredth rounds a spacing to what its label says.
func hundredth(v float64) float64 { return math.Round(v*100) / 100 }

// Depth returns the tongues of the depth strip: one without scores, and for each number
// of passes one with dense scores and one at the spacing of the design. Each carries
// its passes and its spacing in figures where it is clamped, a line for the table's
// edge, and a hole for the weight. With Corners the scored ones are for the centre of the
// bed, and four more, as dense ones tell the skin best, for its corners; their labels end
// in the figure of the spot.
func (o Order) Depth() []Strip {
	out := []Strip{o.tongue(0, 0, "")}
	chosen := max(o.Chosen, min(1, o.Passes))
	for n := 1; n <= o.Passes; n++ {
		spot := ""
		if o.Corners && (n == chosen || !o.ChosenOnly) {
			spot = Centre
		}
		out = append(out, o.tongue(n, o.Dense(), spot))
		if o.design() > 1.2*o.Dense() {
			out = append(out, o.tongue(n, o.design(), spot))
		}
	}
	if n := chosen; o.Corners && n > 0 {
		for _, corner := range []string{LowerLeft, LowerRight, UpperLeft, UpperRight} {
			out = append(out, o.tongue(n, o.Dense(), corner))
		}
	}
	return out
}

func (o Order) tongue(passes int, spacing float64, spot string) Strip {
	s := o.strip(TonguePiece, passes, spacing)
	text := label(passes, spacing)
	if s.Spot = spot; spot != "" {
		s.ID, s.Name, text = s.ID+"-"+spot, s.Name+" "+spot, text+" "+spot
	}
	length := clampLength + o.Length + pastHole
	s.Outline = rectangle(length, o.Tongue)
	work := []part.Work{}
	if passes > 0 {
		s.Count = int(math.Floor(o.Length/spacing + 1e-9))
		first := clampLength + (o.Length-float64(s.Count-1)*spacing)/2
		work = o.scores(first, spacing, s.Count, o.Tongue)
	}
	work = append(work, mark(plane.Open(plane.Pt(clampLength, 0), plane.Pt(clampLength, o.Tongue))))
	work = append(work, figures(text, plane.Pt(4, (o.Tongue-textHeight)/2))...)
	if d := hole - o.Kerf; d > 0.5 {
		work = append(work, part.Work{Kind: cut.Inner, Path: circle(plane.Pt(clampLength+o.Length, o.Tongue/2), d/2)})
	} else { // the tool is wider than the hole: a notch of lines to tie a thread to
		x := clampLength + o.Length
		work = append(work, mark(plane.Open(plane.Pt(x, 0), plane.Pt(x, o.Tongue))))
	}
	s.Part = part.Plain(s.Part, work, o.Kerf)
	return s
}

// Close returns the width strip: scores of the design's passes over about a quarter
// turn when they shut, with plain ends to read the turn between. Nil where none shuts.
func (o Order) Close() []Strip {
	if o.Chosen < 1 || !(o.Closing > 0) || math.IsInf(o.Closing, 1) {
		return nil
	}
	s := o.strip(ClosePiece, o.Chosen, o.design())
	s.Count = int(math.Max(4, math.Min(60, math.Ceil(math.Pi/2/o.Closing-1e-9))))
	run := float64(s.Count-1) * s.Spacing
	s.Outline = rectangle(run+2*plainEnd, broad)
	work := o.scores(plainEnd, s.Spacing, s.Count, broad)
	text := label(s.Passes, s.Spacing)
	work = append(work, figures(text, plane.Pt(4, broad-textHeight-3))...)
	work = append(work, figures(strconv.Itoa(s.Count), plane.Pt(4, 3))...)
	s.Part = part.Plain(s.Part, work, o.Kerf)
	return []Strip{s}
}

// Bend returns strips to bend round gauges until one cracks, at three spacings about
// the design's, and the gauges with their radii in figures.
func (o Order) Bend() []Strip {
	if o.Chosen < 1 || !(o.Cracking > 0) {
		return nil
	}
	var out []Strip
	radii := o.Gauges()
	run := gaugeSweep * (radii[0] + o.From.Thickness)
	for _, f := range []float64{0.7, 1, 1.4} {
		p := hundredth(math.Max(f*o.design(), 1.5*o.Width))
		if n := len(out); n > 0 && out[n-1].Spacing == p {
			continue
		}
		s := o.strip(BendPiece, o.Chosen, p)
		s.Count = int(math.Max(3, math.Ceil(run/p-1e-9)))
		s.Outline = rectangle(float64(s.Count-1)*p+2*plainEnd, broad)
		s.Quantity = 2
		work := append(o.scores(plainEnd, p, s.Count, broad), figures(label(s.Passes, p), plane.Pt(4, (broad-textHeight)/2))...)
		s.Part = part.Plain(s.Part, work, o.Kerf)
		out = append(out, s)
	}
	for _, r := range radii {
		out = append(out, o.gauge(r))
	}
	return out
}

// Gauges returns the radii of the gauges, largest first: from twice the radius at which
// the skin may crack in steps of a fifth to half of it.
func (o Order) Gauges() []float64 {
	var out []float64
	for r := 2 * o.Cracking; r >= 0.5*o.Cracking; r /= 1.25 {
		if v := niceRadius(r); v >= 3 && (len(out) == 0 || v < out[len(out)-1]) {
			out = append(out, v)
		}
	}
	if len(out) == 0 {
		out = []float64{3}
	}
	return out
}

// niceRadius rounds to what a figure on a gauge can say.
func niceRadius(r float64) float64 {
	switch {
	case r >= 100:
		return math.Round(r/5) * 5
	case r >= 10:
		return math.Round(r)
	}
	return math.Round(2*r) / 2
}

// gauge is a block with a round edge to lay a strip on.
func (o Order) gauge(r float64) Strip {
	s := o.strip(GaugePiece, 0, 0)
	s.ID, s.Name, s.Radius = fmt.Sprintf("gauge-%g", r), fmt.Sprintf("gauge R %g", r), r
	d := math.Min(18, 0.7*r)
	c := plane.Pt(0, -r)
	a0, a1 := (math.Pi-gaugeSweep)/2, (math.Pi+gaugeSweep)/2
	outer, inner := plane.ArcSeg(c, r, a0, a1), plane.ArcSeg(c, r-d, a1, a0)
	s.Outline = plane.Region{Outer: plane.Chain(true, outer, plane.LineSeg(outer.B, inner.A), inner, plane.LineSeg(inner.B, outer.A))}.Normal()
	text := strconv.FormatFloat(r, 'g', -1, 64)
	h := math.Min(textHeight, 0.4*d)
	at := plane.Pt(-FiguresWidth(text, h)/2, -(d+h)/2)
	s.Part = part.Plain(s.Part, figuresOf(text, at, h), o.Kerf)
	return s
}

// Fit returns the kerf strip, a block with a window cut on the line, and the fit strip,
// slots that an offcut of the sheet is tried in, each with its clearance in hundredths
// of a millimetre.
func (o Order) Fit() []Strip {
	k := o.strip(KerfPiece, 0, 0)
	k.Outline = rectangle(40, 25)
	window := plane.RectPath(plane.Box{Min: plane.Pt(10, 8), Max: plane.Pt(30, 18)})
	k.Part = part.Plain(k.Part, append([]part.Work{{Kind: cut.Inner, Path: window}}, figures("20", plane.Pt(17, 2))...), o.Kerf)

	f := o.strip(FitPiece, 0, 0)
	const slot, step = 15.0, 16.0
	var work []part.Work
	n := 0
	for c := -0.2; c < 0.41; c += 0.1 {
		w := o.From.Thickness + c - o.Kerf
		if w < 0.1 {
			continue
		}
		x := 6 + float64(n)*math.Max(step, o.From.Thickness+10)
		n++
		y := 10.0
		work = append(work, part.Work{Kind: cut.Inner, Path: plane.RectPath(plane.Box{
			Min: plane.Pt(x+o.Kerf/2, y+o.Kerf/2), Max: plane.Pt(x+o.Kerf/2+w, y+slot-o.Kerf/2)})})
		hundredths := math.Round(100 * c)
		f.Spare = append(f.Spare, hundredths/100)
		text := strconv.Itoa(int(hundredths))
		work = append(work, figures(text, plane.Pt(x-1, 3))...)
	}
	if n == 0 {
		return []Strip{k}
	}
	f.Outline = rectangle(6+float64(n)*math.Max(step, o.From.Thickness+10), 30)
	f.Part = part.Plain(f.Part, work, o.Kerf)
	return []Strip{k, f}
}

// strip starts a piece; its name says what its figures say.
func (o Order) strip(kind Piece, passes int, spacing float64) Strip {
	s := Strip{Kind: kind, Passes: passes, Spacing: spacing}
	name := string(kind)
	s.Part = part.Part{ID: name, Name: name, From: o.From, Quantity: 1}
	if passes > 0 || kind == TonguePiece {
		s.ID, s.Name = name+"-"+label(passes, spacing), name+" "+label(passes, spacing)
	}
	return s
}

// label is what a piece carries in figures: its passes and its spacing, "2-0.90"; "0"
// for one without scores.
func label(passes int, spacing float64) string {
	if passes == 0 {
		return "0"
	}
	return strconv.Itoa(passes) + "-" + strconv.FormatFloat(spacing, 'f', 2, 64)
}

// scores are lines across a strip of some width, run out past both edges.
func (o Order) scores(first, spacing float64, n int, width float64) []part.Work {
	out := make([]part.Work, n)
	for i := range out {
		x := first + float64(i)*spacing
		out[i] = part.Work{Kind: cut.Score, Score: i + 1, Path: plane.Open(plane.Pt(x, -o.Overrun), plane.Pt(x, width+o.Overrun))}
	}
	return out
}

func mark(p plane.Path) part.Work { return part.Work{Kind: cut.Mark, Path: p} }

func figures(text string, at plane.Point) []part.Work { return figuresOf(text, at, textHeight) }

func figuresOf(text string, at plane.Point, height float64) []part.Work {
	var out []part.Work
	for _, p := range Figures(text, at, height) {
		out = append(out, mark(p))
	}
	return out
}

func rectangle(w, h float64) plane.Region {
	return plane.Region{Outer: plane.RectPath(plane.Box{Max: plane.Pt(w, h)})}
}

func circle(c plane.Point, r float64) plane.Path {
	a, b := c.Add(plane.Pt(r, 0)), c.Sub(plane.Pt(r, 0))
	return plane.Chain(true, plane.BulgeSeg(a, b, 1), plane.BulgeSeg(b, a, 1))
}
