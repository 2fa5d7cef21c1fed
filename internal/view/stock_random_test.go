package view

import (
	"math"
	"math/rand/v2"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/plan"
	"springrib/internal/stock"
	"springrib/internal/wire"
)

// ofSeveralStocks is a panel with ribs, a base and a caul of any sheets.
func ofSeveralStocks(r *rand.Rand) design.Document {
	pick := func(xs ...string) string { return xs[r.IntN(len(xs))] }
	num := func(lo, hi float64) string { return strconv.FormatFloat(lo+(hi-lo)*r.Float64(), 'f', 2, 64) }
	stocks := []string{"mdf-3", "mdf-6", "birch-3", "birch-4", "birch-6", "acrylic-3", "mdf-3"}
	if r.IntN(2) == 0 {
		stocks = append(stocks, "pvc-3", "pvc-3")
	}
	any := func(more ...string) string { return pick(append(more, stocks...)...) }
	d := design.Empty()
	d.Machine.Tool = pick("laser", "laser", "laser", "router", "knife")
	d.Sheet.Stock, d.Sheet.Grain = any(), pick("across", "along", "none")
	if r.IntN(6) == 0 {
		d.Sheet.Stock, d.Sheet.OwnName, d.Sheet.OwnKind, d.Sheet.E = "own", "Shed board", pick("wood", "unknown"), "3000"
	}
	d.Curve.Radius, d.Curve.Angle, d.Curve.Foot, d.Curve.Tip = num(120, 300), num(30, 80), "20", "20"
	d.Panel.Width, d.Panel.Quantity = num(80, 140), pick("1", "1", "2", "3")
	d.Rib.Stock, d.Rib.Thickness, d.Rib.Foot = any("same", "same"), pick("", "", "", num(2, 7)), pick("plain", "tenon", "tenon")
	d.Rib.FootDepth, d.Rib.TipDepth = num(15, 40), num(10, 14)
	for i := range r.IntN(4) {
		d.Rib.Places = append(d.Rib.Places, design.RibPlace{Across: strconv.Itoa(-24 + 24*i), Stock: any("", "", "same"), Thickness: pick("", "", "", num(2, 7))})
	}
	d.Base.Kind = pick("none", "row")
	d.Base.Stock, d.Base.Thickness = any("", "rib", "same"), pick("", "", num(2, 9))
	d.Rib.Caul = pick("no", "no", "yes")
	d.Cut.Turns, d.Cut.Gap = pick("", "", "none", "half", "quarter"), pick("", "", "0")
	if r.IntN(4) == 0 {
		d.Cut.Scrap = []design.ScrapPoint{{X: "0", Y: "0"}, {X: "400", Y: "0"}, {X: "400", Y: "300"}, {X: "0", Y: "300"}}
	}
	return d
}

// stockOf returns what a part is cut from as the person chose it, asked of the text alone.
func stockOf(d design.Document, p *plan.Plan, id string) string {
	ribs := d.Rib.Stock
	if ribs == "same" {
		ribs = d.Sheet.Stock
	}
	named := func(text string) string {
		switch text {
		case "", "rib":
			return ribs
		case "same":
			return d.Sheet.Stock
		}
		return text
	}
	switch id {
	case "panel":
		return d.Sheet.Stock
	case "caul":
		return ribs
	case "base":
		return named(d.Base.Stock)
	}
	for _, s := range p.Supports.All {
		if p.Ribs.Kinds[s.Kind].ID == id && s.Row >= 0 {
			return named(d.Rib.Places[s.Row].Stock)
		}
	}
	return ribs
}

// Over random designs with parts of several stocks: each part lies with those of its stock
// and thickness, none of a forbidden stock leaves for a laser, a grain is kept to, and
// the bench sheet calls every stock by its name.
func TestRandomPartsKeepTheirStock(t *testing.T) {
	designs := 250
	if testing.Short() || runtime.GOARCH == "wasm" {
		designs = 40
	}
	named := map[string]bool{"Shed board": true}
	grain := map[string]bool{}
	for _, s := range stock.Choices() {
		named[s.Name], grain[s.ID] = true, s.Grain
	}
	r := rand.New(rand.NewPCG(51, 52))
	seen := map[string]int{}
	for n := 0; n < designs; {
		d := ofSeveralStocks(r)
		w := workOut(d, wire.Show{}, new(plan.Memory))
		if !w.plan.Drawn {
			continue
		}
		n++
		if n%10 == 0 {
			v, _ := design.Read(d)
			_, packed := plan.Pack(v, 50_000, 0)
			packed.Run(50_000)
			w.plan.Lay.Sheets = packed.Sheets
		}
		text := string(raw(t, d))
		p := &w.plan
		forbidden := false
		for i, g := range p.Lay.Sheets {
			for _, o := range p.Lay.Sheets[:i] {
				require.False(t, o.From.Same(g.From), text)
			}
			assert.Equal(t, g.Parts[0].ID == "panel", g.From.Own, text)
			for k, pt := range g.Parts {
				id := stockOf(d, p, pt.ID)
				require.Equal(t, id, pt.From.Stock.ID, "%s: %s", pt.ID, text)
				require.Equal(t, id, g.From.Stock.ID, "%s: %s", pt.ID, text)
				require.InDelta(t, g.From.Thickness, pt.From.Thickness, 0.0501, "%s: %s", pt.ID, text)
				forbidden = forbidden || id == "pvc-3" || id == "own" && d.Sheet.OwnKind == "unknown"
				grained := grain[id] && !(g.From.Own && d.Sheet.Grain == "none")
				if grained && d.Cut.Turns != "quarter" {
					seen["grained"]++
					for _, turn := range g.Job.Pieces[k].Turns {
						require.InDelta(t, 0, math.Sin(turn), 1e-9, "%s: %s", pt.ID, text)
					}
					for _, at := range g.Layout.Placed {
						require.True(t, at.Piece != k || math.Abs(math.Sin(at.Turn)) < 1e-9, "%s: %s", pt.ID, text)
					}
				}
			}
			seen["sheets "+strconv.Itoa(i+1)]++
		}
		stopped := len(of(w, "must-not-laser")) > 0
		require.Equal(t, forbidden && d.Machine.Tool == "laser", stopped, text)
		if stopped {
			seen["stopped"]++
			for _, f := range w.all() {
				require.False(t, strings.HasSuffix(f.name, ".svg") || strings.HasSuffix(f.name, ".dxf"), text)
			}
		}
		for _, name := range table(w, "From") {
			require.True(t, named[name], "%q: %s", name, text)
		}
		require.Len(t, p.Lay.Froms, len(p.Lay.Jobs))
	}
	for _, k := range []string{"grained", "sheets 2", "sheets 3", "stopped"} {
		assert.Greater(t, seen[k], designs/12, k)
	}
	t.Log(seen)
}
