package view

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/bench"
	"springrib/internal/design"
	"springrib/internal/finding"
)

// standing is a panel on two ribs with tenons in a base, all of one sheet of MDF.
func standing() design.Document {
	d := design.Empty()
	d.Name = "Standing"
	d.Sheet.Readings = []string{"3.01", "3.02", "3.00", "3.01", "2.99"}
	d.Machine.Depths, d.Machine.DepthSpread, d.Machine.ScoreWidth, d.Machine.Tested = []string{"1.2", "2.1", "2.5"}, "0.05", "0.2", true
	d.Curve.Radius, d.Curve.Angle, d.Curve.Foot, d.Curve.Tip = "120", "60", "20", "20"
	d.Panel.Width = "120"
	d.Rib.FootDepth, d.Rib.TipDepth, d.Rib.Foot = "30", "20", "tenon"
	d.Rib.Places = []design.RibPlace{{Across: "-30"}, {Across: "30"}}
	d.Base.Kind = "row"
	return d
}

func of(w *worked, id string) []finding.Finding {
	var out []finding.Finding
	for _, f := range w.findings {
		if f.ID == id {
			out = append(out, f)
		}
	}
	return out
}

// pressed is a design with a remedy pressed, as the page does.
func pressed(t *testing.T, d design.Document, r finding.Remedy) design.Document {
	t.Helper()
	for _, path := range design.Paths(r.Set) {
		var ok bool
		d, ok = design.Set(d, path, r.Set[path])
		require.True(t, ok, path)
	}
	return d
}

// A stock that gives off poison under a beam stops the design whatever part is of it, at
// the field that says so, and no file leaves, strips neither. Each remedy mends.
func TestNoPartOfAForbiddenStockLeavesForALaser(t *testing.T) {
	for name, c := range map[string]struct {
		edit   func(d *design.Document)
		fields []string
	}{
		"panel":            {func(d *design.Document) { d.Sheet.Stock, d.Rib.Stock = "pvc-3", "mdf-3" }, []string{"sheet.stock"}},
		"all":              {func(d *design.Document) { d.Sheet.Stock = "pvc-3" }, []string{"sheet.stock"}},
		"a rib's place":    {func(d *design.Document) { d.Rib.Places[1].Stock = "pvc-3" }, []string{"rib.places.1.stock"}},
		"ribs and base":    {func(d *design.Document) { d.Rib.Stock = "pvc-3" }, []string{"rib.stock"}},
		"base":             {func(d *design.Document) { d.Base.Stock = "pvc-3" }, []string{"base.stock"}},
		"base and a place": {func(d *design.Document) { d.Base.Stock, d.Rib.Places[0].Stock = "pvc-3", "pvc-3" }, []string{"base.stock", "rib.places.0.stock"}},
		"caul":             {func(d *design.Document) { cauled(d); d.Rib.Stock = "pvc-3" }, []string{"rib.stock"}},
		"inches":           {func(d *design.Document) { d.Units = "in"; inches(d); d.Rib.Places[1].Stock = "pvc-3" }, []string{"rib.places.1.stock"}},
		"thicker":          {func(d *design.Document) { d.Rib.Places[1].Stock, d.Rib.Places[1].Thickness = "pvc-3", "4.2" }, []string{"rib.places.1.stock"}},
		"unknown, by itself": {func(d *design.Document) {
			d.Sheet.Stock, d.Sheet.OwnKind, d.Sheet.E, d.Rib.Stock = "own", "unknown", "3000", "mdf-3"
		}, []string{"sheet.stock"}},
		"unknown, thicker":  {func(d *design.Document) { d.Sheet.Stock, d.Sheet.E, d.Rib.Thickness = "own", "3000", "5" }, []string{"sheet.stock"}},
		"none of it is cut": {func(d *design.Document) { cauled(d); d.Rib.Caul = "no"; d.Rib.Stock = "pvc-3" }, nil},
		"router": {func(d *design.Document) {
			d.Machine.Tool, d.Machine.Depths, d.Rib.Places[1].Stock = "router", nil, "pvc-3"
		}, nil},
	} {
		t.Run(name, func(t *testing.T) {
			d := standing()
			c.edit(&d)
			w := work(d)
			require.True(t, w.plan.Drawn, "%+v", w.findings)
			var fields []string
			for _, f := range of(w, "must-not-laser") {
				fields = append(fields, f.Place.Field)
				assert.Equal(t, finding.Stop, f.Severity)
				assert.NotEmpty(t, f.Place.Part)
				for _, r := range f.Remedies {
					after := work(pressed(t, d, r))
					assert.True(t, after.plan.Drawn, r.Text)
					for _, g := range of(after, "must-not-laser") {
						assert.NotEqual(t, f.Place.Field, g.Place.Field, "%s: %s", r.Text, g.Text)
					}
				}
				if f.Place.Field != "sheet.stock" {
					assert.GreaterOrEqual(t, len(f.Remedies), 1, f.Text)
				}
			}
			assert.ElementsMatch(t, c.fields, fields)
			if c.fields != nil {
				for _, f := range w.all() {
					assert.NotContains(t, []string{"svg", "dxf"}, f.name[strings.LastIndex(f.name, ".")+1:], f.name)
				}
			}
		})
	}
}

// cauled is a panel whose ribs are of the panel's sheet and whose caul is not.
func cauled(d *design.Document) {
	d.Rib.Caul, d.Base.Stock = "yes", "same"
	for i := range d.Rib.Places {
		d.Rib.Places[i].Stock = "same"
	}
}

func inches(d *design.Document) {
	d.Sheet.Readings, d.Machine.Depths = nil, nil
	d.Machine.DepthSpread, d.Machine.ScoreWidth = "", ""
	d.Curve.Radius, d.Curve.Foot, d.Curve.Tip, d.Panel.Width, d.Rib.FootDepth, d.Rib.TipDepth = "5", "1", "1", "5", "1.2", ".8"
	d.Rib.Places = []design.RibPlace{{Across: "-1.2"}, {Across: "1.2"}}
}

func table(w *worked, head string) (out []string) {
	for _, s := range bench.Make(&w.plan, w.findings).Sections { // without what would mend the findings
		if s.ID != "parts" {
			continue
		}
		for i, h := range s.Table.Head {
			if h != head {
				continue
			}
			for _, r := range s.Table.Rows {
				out = append(out, r[i])
			}
		}
	}
	return out
}

func TestPartsAreOfAStockByItsName(t *testing.T) {
	d := standing()
	d.Rib.Places[1].Stock, d.Base.Stock = "birch-6", "same"
	assert.ElementsMatch(t, []string{"MDF 3 mm", "MDF 3 mm", "MDF 3 mm", "Birch plywood 6 mm"}, table(work(d), "From"))
	d.Sheet.Stock, d.Sheet.OwnName, d.Sheet.OwnKind, d.Sheet.E = "own", "Shed board", "wood", "3000"
	assert.ElementsMatch(t, []string{"Shed board", "Shed board", "Shed board", "Birch plywood 6 mm"}, table(work(d), "From"))
}

// Two thicknesses never share a sheet, of one name or of two.
func TestTwoThicknessesNeverShareASheet(t *testing.T) {
	groups := func(edit func(d *design.Document)) int {
		d := standing()
		edit(&d)
		w := work(d)
		require.True(t, w.plan.Drawn, "%+v", w.findings)
		return len(w.plan.Lay.Sheets)
	}
	assert.Equal(t, 1, groups(func(*design.Document) {}))
	assert.Equal(t, 1, groups(func(d *design.Document) { d.Rib.Thickness = "3.02" }), "the same sheet, measured elsewhere")
	assert.Equal(t, 2, groups(func(d *design.Document) { d.Rib.Thickness = "3.5" }))
	assert.Equal(t, 2, groups(func(d *design.Document) { d.Rib.Stock, d.Rib.Thickness = "mdf-3", "3.3" }))
	assert.Equal(t, 2, groups(func(d *design.Document) { d.Rib.Places[0].Thickness = "6.1" }))
	assert.Equal(t, 3, groups(func(d *design.Document) { d.Rib.Places[0].Thickness, d.Rib.Places[1].Thickness = "6.1", "9" }))
	assert.Equal(t, 2, groups(func(d *design.Document) { d.Base.Thickness = "9" }))
	assert.Equal(t, 2, groups(func(d *design.Document) { d.Rib.Stock, d.Base.Stock = "birch-6", "birch-6" }))
	assert.Equal(t, 3, groups(func(d *design.Document) { d.Rib.Stock, d.Base.Stock, d.Base.Thickness = "birch-6", "birch-6", "6.4" }))
}

// Parts with a grain are not turned by a quarter; those beside them of a sheet without are.
func TestGrainIsAskedOfThePartsOwnStock(t *testing.T) {
	d := standing()
	d.Rib.Stock, d.Rib.Places[1].Stock, d.Base.Stock = "mdf-6", "birch-6", "birch-4"
	w := work(d)
	for _, g := range w.plan.Lay.Sheets {
		for _, pc := range g.Job.Pieces {
			want := 4
			if pc.ID == "rib2" || pc.ID == "base" {
				want = 2
			}
			assert.Len(t, pc.Turns, want, pc.ID)
		}
	}
	d = standing()
	d.Sheet.Stock, d.Sheet.Readings, d.Sheet.Grain, d.Rib.Stock, d.Rib.Places[1].Stock = "birch-3", nil, "none", "same", "birch-6"
	for _, g := range work(d).plan.Lay.Sheets {
		for _, pc := range g.Job.Pieces {
			assert.Equal(t, pc.ID != "rib2", len(pc.Turns) == 4, "the panel's sheet has none, says the person: %s", pc.ID)
		}
	}
}

// What belongs beside a stock is said of every stock that is cut.
func TestCautionsAreOfAllThatIsCut(t *testing.T) {
	d := standing()
	d.Rib.Places[1].Stock = "acrylic-3"
	v, _ := show(t, d)
	all := strings.Join(v.Cautions, "\n")
	for _, st := range work(d).plan.Supports.All[1].Stock.Notes {
		assert.Contains(t, all, st)
	}
	assert.Contains(t, all, "MDF dust")
	assert.Equal(t, 1, strings.Count(all, "MDF dust is fine"))
}

// A price is that of the panel's sheet: others come on top, and a scrap is of it alone.
func TestPriceAndScrapAreOfThePanelsSheet(t *testing.T) {
	d := standing()
	d.Cut.SheetPrice, d.Cut.Currency = "10", "EUR"
	d.Rib.Stock = "birch-6"
	d.Cut.Scrap = []design.ScrapPoint{{X: "0", Y: "0"}, {X: "590", Y: "0"}, {X: "590", Y: "390"}, {X: "0", Y: "390"}}
	w := work(d)
	text := ""
	for _, s := range w.bench().Sections {
		text += strings.Join(s.Lines, "\n") + "\n"
	}
	assert.Contains(t, text, "EUR 0 for 0 sheets of MDF 3 mm")
	assert.Contains(t, text, "Sheets of other stocks are not in it.")
	assert.Contains(t, text, "Sheet 2 is Birch plywood 6 mm")
	for _, g := range w.plan.Lay.Sheets {
		assert.Equal(t, g.Parts[0].ID == "panel", len(g.Job.Beds) == 2)
	}
}

// A reading that was taken of a sheet by its name stays its own when the sheet is measured
// to be of another thickness.
func TestReadingsOfASheetOfAnotherThickness(t *testing.T) {
	d := standing()
	d.Sheet.Stock, d.Sheet.Readings = "mdf-3", []string{"4.1", "4.1", "4.1"}
	d.Strips.Readings = []design.Reading{{Kind: "kerf", Value: "0.21", Stock: "MDF 3 mm"}}
	w := work(d)
	for _, f := range w.findings {
		assert.NotEqual(t, "reading-other-stock", f.ID, f.Text)
	}
}
