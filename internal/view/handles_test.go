package view

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"reflect"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/unit"
	"springrib/internal/wire"
)

// bends are designs of every kind of curve and outline that has handles. All are invented.
func bends() map[string]design.Document {
	of := func(f func(*design.Document)) design.Document {
		d := design.Empty()
		d.Sheet.Readings = []string{"3", "3.02"}
		d.Machine.Depths, d.Machine.ScoreWidth, d.Machine.Kerf = []string{"1.3", "2.2"}, "0.2", "0.18"
		d.Machine.BedWidth, d.Machine.BedHeight = "1500", "1000"
		d.Curve.Radius, d.Curve.Angle = "180", "80"
		d.Curve.Foot, d.Curve.Tip = "15", "20"
		d.Panel.Width = "90"
		f(&d)
		return d
	}
	return map[string]design.Document{
		"radius and angle": of(func(d *design.Document) {}),
		"past a half":      of(func(d *design.Document) { d.Curve.Angle = "220" }),
		"inches": of(func(d *design.Document) {
			d.Units = "in"
			d.Curve.Radius, d.Panel.Width, d.Curve.Foot, d.Curve.Tip = "7 1/2", "3 1/2", "1/2", "3/4 in"
			metric(d)
		}),
		"span and rise": of(func(d *design.Document) {
			d.Curve.Kind, d.Curve.Span, d.Curve.Rise, d.Curve.Line = design.SpanRise, "300", "50", design.Outer
		}),
		"length and radius": of(func(d *design.Document) {
			d.Curve.Kind, d.Curve.Length, d.Curve.Radius, d.Curve.Line = design.LengthRadius, "260", "200", design.Neutral
		}),
		"chain": of(func(d *design.Document) {
			d.Curve.Kind = design.Chain
			d.Curve.Pieces = []design.Piece{{Turn: "over", Length: "120", Radius: "150"}, {Turn: "straight", Length: "40"}, {Turn: "back", Length: "80", Radius: "200"}}
		}),
		"points": of(func(d *design.Document) {
			d.Curve.Kind = design.Points
			d.Curve.Points = []design.Point{{X: "0", Y: "0"}, {X: "90", Y: "40"}, {X: "190", Y: "45"}, {X: "300", Y: "20"}}
		}),
		"box": of(func(d *design.Document) {
			d.Curve.Kind, d.Curve.BoxWidth, d.Curve.BoxHeight, d.Curve.Corner = design.Box, "240", "200", "80"
		}),
		"oval": of(func(d *design.Document) {
			d.Curve.Kind, d.Curve.BoxWidth, d.Curve.BoxHeight = design.Oval, "300", "240"
		}),
		"part of a cone": of(func(d *design.Document) {
			d.Curve.Kind, d.Curve.Small, d.Curve.Large, d.Curve.RimHeight, d.Curve.Sweep = design.ConePart, "240", "300", "120", "130"
		}),
		"cone, by its slant": of(func(d *design.Document) {
			d.Curve.Kind, d.Curve.Rims, d.Curve.Large, d.Curve.Slant, d.Curve.Lean = design.Cone, design.BySlant, "300", "110", "12"
			d.Machine.BedWidth, d.Machine.BedHeight = "3000", "3000"
		}),
		"taper, cradle": of(func(d *design.Document) {
			d.Panel.Shape, d.Panel.FootWidth, d.Panel.WidestWidth, d.Panel.WidestAt, d.Panel.TipWidth = design.Taper, "50", "70", "90", "30"
			d.Rib.Side, d.Panel.ScoredFace, d.Panel.TipRound = design.Round, design.Round, true
		}),
		"polygon with holes, two ribs": of(func(d *design.Document) {
			d.Panel.Shape, d.Panel.ScoredFace, d.Panel.ShowFace = design.Polygon, design.Hollow, design.Round
			d.Panel.Corners = []design.Corner{{Along: "0", Across: "-40"}, {Along: "280", Across: "-30"}, {Along: "286", Across: "40"}, {Along: "10", Across: "50"}}
			d.Panel.Holes = []design.Hole{{Kind: "round", Along: "60", Across: "20", Width: "12"}, {Kind: "slot", Along: "150", Across: "-8", Width: "8", Length: "30"}}
			d.Rib.Quantity = "2"
		}),
		"sector": of(func(d *design.Document) {
			d.Panel.Shape, d.Panel.InnerRadius, d.Panel.SectorAngle, d.Panel.Length = design.Sector, "120", "35", "260"
			d.Panel.ScoredFace, d.Panel.ShowFace = design.Hollow, design.Round
		}),
		"rounded, given as seen": of(func(d *design.Document) {
			d.Panel.View, d.Panel.CornerRadius, d.Panel.ScoredFace, d.Panel.ShowFace = design.SeenView, "12", design.Hollow, design.Round
			d.Panel.Holes = []design.Hole{{Kind: "round", Along: "60", Across: "15", Width: "20"}}
		}),
		"polygon given as seen": of(func(d *design.Document) {
			d.Panel.Shape, d.Panel.View = design.Polygon, design.SeenView
			d.Panel.Corners = []design.Corner{{Along: "0", Across: "-40", Radius: "9"}, {Along: "240", Across: "-30"}, {Along: "245", Across: "40", Radius: "20"}, {Along: "10", Across: "52"}}
			d.Panel.Holes = []design.Hole{{Kind: "slot", Along: "150", Across: "-4", Width: "9", Length: "40", Turn: "60"}}
		}),
		"ribs at places, panel set off": of(func(d *design.Document) {
			d.Rib.Places = []design.RibPlace{{Across: "-20"}, {Across: "25"}}
			d.Panel.Along, d.Panel.Across, d.Rib.Short = "5", "3", "12"
			d.Panel.Passes = "2" // else a shorter rib may take others, and the panel is half a millimetre longer
		}),
	}
}

// loopedBends returns the designs that the loops over all handles go through: as wasm, which is
// several times slower, one of each kind of handle.
func loopedBends() map[string]design.Document {
	all := bends()
	if runtime.GOARCH == "wasm" {
		for _, name := range []string{"past a half", "length and radius", "ribs at places, panel set off", "oval", "rounded, given as seen"} {
			delete(all, name)
		}
	}
	return all
}

// metric gives the sheet and the machine of a design in inches their millimetres.
func metric(d *design.Document) {
	d.Sheet.Readings = []string{"3 mm"}
	d.Machine.Depths, d.Machine.ScoreWidth, d.Machine.Kerf = []string{"1.3 mm", "2.2 mm"}, "0.2 mm", "0.18 mm"
	d.Machine.BedWidth, d.Machine.BedHeight = "1500 mm", "1000 mm"
}

// allHandles returns the handles of a design by their ID.
func allHandles(t *testing.T, d design.Document) map[string]wire.Handle {
	t.Helper()
	v := untried(t, d)
	require.True(t, v.Drawn, "%+v", v.Findings)
	out := map[string]wire.Handle{}
	for _, dr := range v.Drawings {
		for _, h := range dr.Handles {
			require.NotContains(t, out, h.ID)
			require.NotEmpty(t, h.Label)
			require.NotEmpty(t, h.Text)
			require.NotEmpty(t, h.Fields)
			require.LessOrEqual(t, h.Low, h.Value+1e-9, "%s", h.ID)
			require.GreaterOrEqual(t, h.High, h.Value-1e-9, "%s", h.ID)
			out[h.ID] = h
		}
	}
	return out
}

// move drags a handle and returns the design that comes of it.
func move(t *testing.T, d design.Document, drag wire.Drag) (design.Document, map[string]string) {
	t.Helper()
	set, changed, err := Core{}.Drag(raw(t, d), drag)
	require.NoError(t, err)
	var out design.Document
	require.NoError(t, json.Unmarshal(changed, &out))
	for path, text := range set {
		got, ok := design.Get(out, path)
		require.True(t, ok)
		require.Equal(t, text, got)
	}
	return out, set
}

// What is dragged to a place is found there again: a free handle in both directions, one
// on a line in its own; within what the rounding of its figure moves it.
func TestHandlesGoWhereTheyAreDragged(t *testing.T) {
	r := rand.New(rand.NewPCG(81, 82))
	seen := map[string]bool{}
	for name, d := range loopedBends() {
		grid := 0.5
		if d.Units == "in" {
			grid = unit.MMPerInch / 64
		}
		for id, h := range allHandles(t, d) {
			seen[strings.TrimRight(id, " 0123456789")] = true
			for range 2 {
				drag := wire.Drag{Handle: id, X: h.X + 8*r.Float64() - 4, Y: h.Y + 8*r.Float64() - 4}
				after, set := move(t, d, drag)
				again := allHandles(t, after)
				require.Contains(t, again, id, name)
				g := again[id]
				if strings.HasPrefix(id, "rib") {
					require.GreaterOrEqual(t, len(set), 1)
				} else {
					require.Len(t, set, len(h.Fields))
				}
				if g.Value <= g.Low || g.Value >= g.High {
					continue // it came to the end of its way
				}
				if h.Ways == "x" || h.Ways == "xy" {
					assert.InDelta(t, drag.X, g.X, grid, "%s %s %v", name, id, set)
				}
				if h.Ways == "y" || h.Ways == "xy" {
					assert.InDelta(t, drag.Y, g.Y, grid, "%s %s %v", name, id, set)
				}
				if h.Ways == "track" {
					assert.LessOrEqual(t, math.Hypot(g.X-drag.X, g.Y-drag.Y), math.Hypot(h.X-drag.X, h.Y-drag.Y)+grid, "%s %s never goes away", name, id)
				}
			}
		}
	}
	for _, kind := range []string{"crown", "arc-end", "foot", "tip", "bend", "piece", "point", "width", "height", "corner", "rim-wide", "rim-narrow", "slant", "lean", "sweep", "glue", "glue-flat",
		"panel-width", "foot-width", "widest", "tip-width", "hole", "rib",
		"inner-radius", "panel-length", "sector-angle", "panel-corner", "corner-radius", "hole-width", "hole-length", "hole-turn"} {
		assert.Contains(t, seen, kind)
	}
}

// A handle on a track that is dragged to where another figure would put it takes that
// figure.
func TestTracksTakeTheFigureOfAPlace(t *testing.T) {
	r := rand.New(rand.NewPCG(83, 84))
	tried := 0
	for name, d := range loopedBends() {
		for id, h := range allHandles(t, d) {
			if h.Ways != "track" || id == "glue" {
				continue
			}
			for range 2 {
				wanted := h.Value * (1 + 0.12*(r.Float64()-0.5))
				text := strconv.FormatFloat(wanted, 'f', 4, 64)
				if !strings.HasSuffix(h.Text, "°") {
					text += " mm"
				}
				other, ok := design.Set(d, h.Fields[0], text)
				require.True(t, ok)
				there := allHandles(t, other)[id]
				after, _ := move(t, d, wire.Drag{Handle: id, X: there.X, Y: there.Y, Fine: true})
				got := allHandles(t, after)[id]
				assert.InDelta(t, wanted, got.Value, 0.2, "%s %s", name, id)
				assert.InDelta(t, there.X, got.X, 0.15, "%s %s", name, id)
				assert.InDelta(t, there.Y, got.Y, 0.15, "%s %s", name, id)
				tried++
			}
		}
	}
	assert.Greater(t, tried, 40)
}

// Held still, a handle changes its figure by no more than the rounding.
func TestHandlesHeldStillStay(t *testing.T) {
	for name, d := range loopedBends() {
		for id, h := range allHandles(t, d) {
			after, set := move(t, d, wire.Drag{Handle: id, X: h.X, Y: h.Y, Fine: true})
			g := allHandles(t, after)[id]
			assert.InDelta(t, h.X, g.X, 0.06, "%s %s %v", name, id, set)
			assert.InDelta(t, h.Y, g.Y, 0.06, "%s %s %v", name, id, set)
		}
	}
}

// A handle pulled far out of everything stops at the bounds of its field: no drag makes
// a field that can't be used.
func TestHandlesStopAtTheirBounds(t *testing.T) {
	for name, d := range loopedBends() {
		for id, h := range allHandles(t, d) {
			for _, to := range []float64{-1e5, 1e5} {
				for _, drag := range []wire.Drag{{Handle: id, X: to, Y: to}, {Handle: id, X: to, Y: -to}} {
					after, _ := move(t, d, drag)
					_, found, states := design.ReadStates(after)
					for _, f := range found {
						assert.NotEqual(t, "field-range", f.ID, "%s %s: %s", name, id, f.Text)
						assert.NotEqual(t, "field-unreadable", f.ID, "%s %s: %s", name, id, f.Text)
					}
					for _, s := range states {
						for _, path := range h.Fields {
							if s.Path == path {
								assert.Empty(t, s.Problem, "%s %s", name, id)
							}
						}
					}
				}
			}
		}
	}
}

// Figures keep the unit and the manner of what was typed.
func TestFiguresAreWrittenAsTheyWere(t *testing.T) {
	length := knob{kind: design.Length, low: 0, high: 1000}
	angle := knob{kind: design.Angle, low: 0, high: 6}
	const degree = math.Pi / 180
	for _, c := range []struct {
		k           knob
		x, rate     float64
		former      string
		sys         unit.System
		fine        bool
		want, about string
	}{
		{k: length, x: 110.04, rate: 1, former: "110", want: "110", about: "a tenth of a millimetre"},
		{k: length, x: 110.06, rate: 1, former: "", want: "110.1"},
		{k: length, x: 110.064, rate: 1, former: "110", fine: true, want: "110.06"},
		{k: length, x: 110.06, rate: 1, former: "110 mm", want: "110.1 mm"},
		{k: length, x: 120.65, rate: 1, former: "4 1/2 in", want: "4 3/4 in", about: "inches stay inches"},
		{k: length, x: 120.6, rate: 1, former: "4.5\"", want: "4 3/4 in"},
		{k: length, x: 120.65, rate: 1, former: "4 1/2", sys: unit.Inch, want: "4 3/4"},
		{k: length, x: 120.64, rate: 1, former: "100 mm", sys: unit.Inch, want: "120.6 mm"},
		{k: length, x: 25.5, rate: 1, former: "1", sys: unit.Inch, want: "1"},
		{k: length, x: 25.5, rate: 1, former: "1", sys: unit.Inch, fine: true, want: "1.004"},
		{k: length, x: 110.04, rate: 40, former: "110", want: "110.04", about: "closer where it moves much"},
		{k: length, x: 1e6, rate: 1, former: "", want: "1000", about: "at its bound"},
		{k: angle, x: 91.26 * degree, rate: 100, former: "90", want: "91.3"},
		{k: angle, x: 91.26 * degree, rate: 20, former: "90", want: "91"},
		{k: angle, x: 91.26 * degree, rate: 100, former: "90°", want: "91.3°"},
		{k: angle, x: 91.26 * degree, rate: 100, former: "90 deg", want: "91.3 deg"},
		{k: angle, x: 1.5, rate: 100, former: "1.57 rad", want: "1.5 rad"},
	} {
		got := c.k.write(c.x, c.rate, c.former, c.sys, c.fine)
		assert.Equal(t, c.want, got, "%v from %q %s", c.x, c.former, c.about)
	}
}

// The first rib that is moved gives all of them places of their own.
func TestMovingOneOfTwoEvenRibsKeepsTheOther(t *testing.T) {
	d := bends()["polygon with holes, two ribs"]
	hs := allHandles(t, d)
	after, set := move(t, d, wire.Drag{Handle: "rib 2", X: 0, Y: hs["rib 2"].Y - 6})
	assert.Len(t, set, 2)
	require.Len(t, after.Rib.Places, 2)
	again := allHandles(t, after)
	assert.InDelta(t, hs["rib 1"].Y, again["rib 1"].Y, 1e-6)
	assert.InDelta(t, hs["rib 2"].Y-6, again["rib 2"].Y, 0.1)
}

func TestWhatIsNotThereCannotBeHeld(t *testing.T) {
	d := bends()["oval"]
	for _, drag := range []wire.Drag{{Handle: "crown"}, {Handle: ""}, {Handle: "point 9"}, {Handle: "width", X: 1e9}, {Handle: "width", X: math.Inf(1)}} {
		_, _, err := Core{}.Drag(raw(t, d), drag)
		require.Error(t, err)
		assert.Regexp(t, `let go`, err.Error())
	}
}

// Through the bridge: the plan is that of the design with the moved handle.
func TestADragAnswersWithThePlanOfWhatItMakes(t *testing.T) {
	d := bends()["span and rise"]
	d.Curve.Foot, d.Curve.Tip = "0", "0" // the crown then stands as high as the curve rises
	h := allHandles(t, d)["crown"]
	request, err := json.Marshal(wire.Request{ID: 3, Kind: "plan", Design: raw(t, d), Drag: &wire.Drag{Handle: "crown", X: h.X, Y: h.Y - 10}})
	require.NoError(t, err)
	reply, arrays := wire.Answer(Core{}, request)
	var r wire.Reply
	require.NoError(t, json.Unmarshal(reply, &r))
	require.Empty(t, r.Error)
	assert.Equal(t, map[string]string{"curve.rise": "60"}, r.Set)
	want, ok := design.Set(d, "curve.rise", "60")
	require.True(t, ok)
	v, same := show(t, want)
	assert.Equal(t, v.Verdict, r.Plan.Verdict)
	assert.True(t, r.Plan.Partial)
	assert.Empty(t, r.Plan.Files)
	assert.Equal(t, v.Numbers, r.Plan.Numbers)
	require.Less(t, len(arrays), len(same), "test strips are left out")
	_, drafted, err := Core{}.Plan(raw(t, want), wire.Show{Brief: true, Held: true})
	require.NoError(t, err)
	assert.True(t, reflect.DeepEqual(drafted, arrays), "the drawings are those of the design")
}

// Any handle of any example dragged anywhere comes to a plan or to a sentence.
func FuzzDrag(f *testing.F) {
	f.Add(uint8(0), uint8(0), 3.0, -4.0, false)
	f.Add(uint8(1), uint8(2), 3e4, 1e-9, true)
	f.Add(uint8(4), uint8(1), math.Copysign(0, -1), math.MaxFloat32, false)
	f.Add(uint8(47), uint8(0), 29900.0, 1e-9, true) // an oval 30 m wide, of which no number of passes makes a panel
	names := []string{"radius and angle", "past a half", "span and rise", "length and radius", "chain", "points", "box", "oval", "taper, cradle", "polygon with holes, two ribs"}
	all := bends()
	f.Fuzz(func(t *testing.T, which, handle uint8, dx, dy float64, fine bool) {
		d := all[names[int(which)%len(names)]]
		v, _, err := Core{}.Plan(raw(t, d), wire.Show{Untried: true})
		require.NoError(t, err)
		var hs []wire.Handle
		for _, dr := range v.Drawings {
			hs = append(hs, dr.Handles...)
		}
		h := hs[int(handle)%len(hs)]
		_, changed, err := Core{}.Drag(raw(t, d), wire.Drag{Handle: h.ID, X: h.X + dx, Y: h.Y + dy, Fine: fine})
		if err != nil {
			require.Regexp(t, `let go`, err.Error())
			return
		}
		after, _, err := Core{}.Plan(changed, wire.Show{Kind: "space", Untried: true})
		require.NoError(t, err)
		require.True(t, after.Drawn || len(after.Findings) > 0)
	})
}

// A core that keeps the handles it found last answers as one that keeps nothing.
func TestKeptHandlesAnswerTheSame(t *testing.T) {
	kept := New()
	for _, e := range design.Examples() {
		in := raw(t, e.Design)
		v, _, err := Core{}.Plan(in, wire.Show{Untried: true})
		require.NoError(t, err)
		for _, d := range v.Drawings {
			for i, h := range d.Handles {
				if i%3 != 0 && testing.Short() {
					continue
				}
				for by := 1.0; by < 4; by++ {
					drag := wire.Drag{Handle: h.ID, X: h.X + by, Y: h.Y - by/2}
					want, wantDoc, err := Core{}.Drag(in, drag)
					require.NoError(t, err)
					got, gotDoc, err := kept.Drag(in, drag)
					require.NoError(t, err)
					require.Equal(t, want, got, "%s %s", e.ID, h.ID)
					require.Equal(t, string(wantDoc), string(gotDoc))
				}
			}
		}
	}
	_, _, err := kept.Drag(raw(t, design.Empty()), wire.Drag{Handle: "no such"})
	require.Error(t, err)
}

// A pull of the first handle of each example, from the page's request to the reply as text.
func BenchmarkPull(b *testing.B) {
	for _, e := range design.Examples() {
		b.Run(e.ID, func(b *testing.B) {
			core, in := New(), raw(b, e.Design)
			v, _, err := core.Plan(in, wire.Show{Untried: true})
			require.NoError(b, err)
			var handle wire.Handle
			for _, d := range slices.Backward(v.Drawings) {
				if len(d.Handles) > 0 {
					handle = d.Handles[0]
				}
			}
			b.ReportAllocs()
			size, i := 0, 0.0
			for b.Loop() {
				i++
				q := wire.Request{ID: 1, Kind: "plan", Design: in, Drag: &wire.Drag{
					Handle: handle.ID, X: handle.X + 4*math.Sin(i/15), Y: handle.Y + 4*math.Sin(i/20),
				}}
				text, err := json.Marshal(q)
				require.NoError(b, err)
				reply, _ := wire.Answer(core, text)
				size = len(reply)
			}
			b.ReportMetric(float64(size), "bytes")
		})
	}
}
