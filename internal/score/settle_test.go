package score

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"springrib/internal/curve"
	"springrib/internal/plane"
)

// The fold pivots about the fibre that keeps its length among the scores that are cut, not among
// those that would be allowed: whatever rule lays them, D is that of their own spacing.
func TestFoldsPivotByTheSpacingLaid(t *testing.T) {
	ring := curve.Ellipse(55, 55, false)
	arch := curve.Chain(plane.Point{}, 1, curve.Piece{Length: 6}, curve.Piece{Length: 90, Kappa: -1.0 / 60}, curve.Piece{Length: 6})
	for _, towards := range []bool{false, true} {
		for name, edge := range map[string]curve.Curve{"ring": ring, "arch": arch} {
			for rule, number := range map[Rule]int{Count: 70, Even: 0, Follow: 0, Pitch: 0} {
				task := Task{Edge: edge, PanelLeft: true, ScoredTowards: towards, Limits: limits(mdf()), Rule: rule, Number: number, Pitch: 3.3}
				l := Lay(task)
				law := task.Limits.Cases[0].Law
				for _, f := range l.Folds[1 : len(l.Folds)-1] {
					want := StandIn(law, (f.Left+f.Right)/2, towards)
					assert.InDelta(t, want, f.D, 2e-4, "%s %v", name, rule)
				}
			}
		}
	}
}
