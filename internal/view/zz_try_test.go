package view

import (
	"fmt"
	"os"
	"testing"

	"springrib/internal/design"
)

func TestTryCone(t *testing.T) {
	for _, e := range design.Examples()[5:] {
		w := work(e.Design)
		fmt.Println(len(w.plan.Scores.Layout.Folds), w.plan.Scores.Cracking, w.plan.Proof.Chance.Fail)
		fmt.Println(w.plan.Proof.Fit.Least, w.plan.Proof.Fit.Most, w.plan.Proof.Fit.EndMiss, w.plan.Strength.Hold.Peel, w.plan.Try().Passes, w.plan.Scores.Layout.Runs)
		for _, f := range w.findings {
			fmt.Println(f.Severity, f.ID, f.Place.Field, f.Text)
			for _, r := range f.Remedies {
				fmt.Println("    -", r.Text, r.Set)
			}
		}
		for _, f := range w.all() {
			os.MkdirAll("/tmp/conetry/example", 0o755)
			os.WriteFile("/tmp/conetry/example/"+f.name, f.body(), 0o644)
		}
	}
	for _, c := range [][3]string{} {
		d := design.Empty()
		d.Name = "Shade"
		d.Sheet.Readings = []string{"3.02", "3.05", "3.00", "3.04", "3.01"}
		d.Machine.Depths = []string{"1.25", "2.2", "2.55"}
		d.Machine.ScoreWidth, d.Machine.Kerf, d.Machine.DepthSpread = "0.2", "0.18", "0.08"
		d.Curve.Kind, d.Curve.Small, d.Curve.Large, d.Curve.RimHeight = design.Cone, c[0], c[1], c[2]
		d.Curve.Seam, d.Curve.Lap = "lap", "15"
		d.Rib.FootDepth = "18"
		w := work(d)
		fmt.Println(c, w.plan.Drawn, len(w.plan.Scores.Layout.Folds), w.plan.Proof.Fit, w.plan.Scores.Cracking, w.plan.Proof.Chance.Fail)
		fmt.Println(w.cards())
		for _, f := range w.findings {
			fmt.Println(f.Severity, f.ID, f.Place.Field, f.Text)
			for _, r := range f.Remedies {
				fmt.Println("    -", r.Text, r.Set)
			}
		}
		for _, f := range w.all() {
			os.MkdirAll("/tmp/conetry/"+c[0], 0o755)
			os.WriteFile("/tmp/conetry/"+c[0]+"/"+f.name, f.body(), 0o644)
		}
	}
}
