package plan

import (
	"math"
	"slices"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/part"
	"springrib/internal/support"
	"strconv"
)

// RibPart is one kind of rib as it is cut, and how many of it.
type RibPart struct {
	part.Rib
	Task part.RibTask
}

// RibFactor is what a rib's strength is usually more than its stress by. Common practice,
// no source.
const RibFactor = 1.5

// ScoresCut returns how many scores are cut: those of the curve that the panel reaches.
func (p *Plan) ScoresCut() int {
	return len(p.Scores.Layout.Folds) - len(p.Panel.Flat.Outside) + p.Panel.Flat.Lapped
}

// Place returns the place along the flat panel over arc length s of the edge.
func (p *Plan) Place(s float64) float64 { return p.Scores.places.U(s) }

// rib makes the ribs; those alike are one part.
func rib(p *Plan) bool {
	for i := range p.Supports.All {
		s := &p.Supports.All[i]
		s.Kind = p.kindOf(*s)
		if s.Kind < len(p.Ribs.Kinds) {
			p.Ribs.Kinds[s.Kind].Quantity += p.V.Panel.Quantity
			s.Task = p.Ribs.Kinds[s.Kind].Task
			continue
		}
		t := &s.Task
		t.ID = "rib" + strconv.Itoa(s.Kind+1)
		t.Name = "rib"
		if p.Section.Cone != nil && p.Section.Closed {
			t.Name = "ring"
		}
		if len(p.Supports.All) > 1 {
			t.Name += " " + strconv.Itoa(s.Kind+1)
		}
		t.Quantity = p.V.Panel.Quantity
		if !p.deepEnough(*t) {
			return false
		}
		for k := range p.Ribs.Kinds { // one that differs in its foot or stock alone
			if o := p.Ribs.Kinds[k].Task; o.From.Same(t.From) && math.Abs(o.Start-t.Start) <= support.Alike && math.Abs(o.End-t.End) <= support.Alike {
				t.Start, t.End, t.Like = o.Start, o.End, &p.Ribs.Kinds[k].Rib
			}
		}
		made := RibPart{Task: *t}
		if p.Section.Closed {
			made.Rib = part.NewFormer(*t)
		} else {
			made.Rib = part.NewRib(*t)
		}
		p.Ribs.Kinds = append(p.Ribs.Kinds, made)
	}
	shown := p.Ribs.Kinds[p.Supports.All[p.Supports.Longest].Kind]
	p.Ribs.Rib, p.Ribs.Task = shown.Rib, shown.Task
	p.shoulders()
	return true
}

// kindOf returns the kind of rib that a support can be cut as, or a new one.
func (p *Plan) kindOf(s support.Support) int {
	for k, r := range p.Ribs.Kinds {
		for _, o := range p.Supports.All {
			if o.Task.ID == r.Task.ID && o.Task.ID != "" && alikeRibs(s, o) {
				return k
			}
		}
	}
	return len(p.Ribs.Kinds)
}

func alikeRibs(a, b support.Support) bool {
	return (a.Task.Hub == nil) == (b.Task.Hub == nil) && a.Task.From.Same(b.Task.From) && a.Thickness == b.Thickness && a.Foot == b.Foot &&
		math.Abs(a.Task.Start-b.Task.Start) <= support.Alike && math.Abs(a.Task.End-b.Task.End) <= support.Alike
}

// Fits tells whether no rib's back edge runs into itself.
func (p *Plan) Fits(t part.RibTask) bool {
	share, _ := t.Deepest()
	return p.Section.Closed || share <= 0.95
}

// deepEnough stops a rib whose back edge would run into itself.
func (p *Plan) deepEnough(t part.RibTask) bool {
	if p.Fits(t) {
		return true
	}
	share, s := t.Deepest()
	deep := t.DepthAt(s)
	return p.stop("rib-too-deep", "rib.footDepth",
		"The rib is "+p.len(deep)+" deep where its edge bends at a radius of "+p.len(deep/share)+
			", "+p.len(s)+" from the foot: its back edge would run into itself. Make it shallower there.",
		map[string]float64{"depth": deep, "radius": deep / share, "at": s})
}

// shoulders tells of a stub or tenon that leaves too little of its foot, or none: it is then
// cut no wider than the foot. A shoulder narrower than half the rib's thickness breaks off.
// Common practice, no source.
func (p *Plan) shoulders() {
	r := p.V.Rib
	on := slices.IndexFunc(p.Supports.All, func(s support.Support) bool { return s.Task.Stub != nil })
	shoulder := (r.FootDepth - r.StubWidth) / 2
	if on < 0 || shoulder >= r.Thickness/2-1e-9 {
		return
	}
	s := p.Supports.All[on]
	what := "tenon"
	if s.Foot == design.Stub {
		what = "stub"
	}
	f := finding.Finding{ID: "tenon-wide", Severity: finding.Warn, Place: finding.Place{Part: p.Ribs.Kinds[s.Kind].ID, Field: "rib.stubWidth"},
		Text: "The " + what + " leaves shoulders of only " + p.len(math.Max(0, shoulder)) + " on the foot.", Numbers: map[string]float64{"shoulder": shoulder}}
	if shoulder < 0 {
		f.Text = "The " + what + " is wider than the foot, so it is cut as wide as the foot and has no shoulders to stand on."
	}
	p.Findings = append(p.Findings, f)
}
