package view

import (
	"testing"

	"springrib/internal/design"
	"springrib/internal/plan"
)

// manyParts is a hundred panels of two hundred scores with a rib each: 200 parts, 20,000
// scores.
func manyParts() design.Document {
	d := design.Empty()
	d.Name = "Many"
	d.Curve.Radius, d.Curve.Angle = "300", "90"
	d.Panel.Width, d.Panel.Quantity = "60", "100"
	d.Panel.Spacing, d.Panel.Count = "count", "200"
	d.Machine.ScoreWidth = "0.15"
	d.Machine.BedWidth, d.Machine.BedHeight = "1300", "900"
	return d
}

func counted(b *testing.B, p *plan.Plan) {
	b.Helper()
	parts := 0
	for _, g := range p.Lay.Sheets {
		parts += len(g.Layout.Placed)
	}
	if n := parts; n != 200 || len(p.Panel.Flat.Segments) != 200 {
		b.Fatalf("%d parts, %d scores each", n, len(p.Panel.Flat.Segments))
	}
}

// The plan with its lay-out and order.
func BenchmarkManyPartsPlan(b *testing.B) {
	v, _ := design.Read(manyParts())
	for b.Loop() {
		p := plan.Make(v)
		counted(b, &p)
	}
}

// The plan and every file of it, each once: all in one zip.
func BenchmarkManyPartsAllFiles(b *testing.B) {
	for b.Loop() {
		w := work(manyParts())
		counted(b, &w.plan)
		files := w.all()
		files[len(files)-1].body()
	}
}

// What packing forty mixed parts takes until they are laid, and with more effort.
func BenchmarkPackForty(b *testing.B) {
	d := manyParts()
	d.Panel.Count, d.Panel.Quantity, d.Rib.Quantity, d.Panel.Shape = "60", "10", "2", "taper"
	d.Panel.FootWidth, d.Panel.WidestWidth, d.Panel.TipWidth = "60", "80", "40"
	d.Rib.Foot, d.Base.Kind, d.Base.Copies = "tenon", "row", "1"
	v, _ := design.Read(d)
	for _, effort := range []int64{2e6, 60e6} {
		b.Run("", func(b *testing.B) {
			for b.Loop() {
				_, p := plan.Pack(v, effort, 0)
				p.Run(effort)
			}
		})
	}
}
