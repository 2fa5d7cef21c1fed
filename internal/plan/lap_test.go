package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/cut"
	"springrib/internal/design"
)

// The lap of a seam lies on the panel's start, so it bends as that does: its scores go on as
// the start's do, until land is left before its end. Unscored, a lap of 15 mm on a radius of
// 65 mm would stand off by 15^2/(2 x 65) = 1.7 mm, or strain 3 mm of sheet by 2.3 %.
func TestTheLapOfASeamBends(t *testing.T) {
	round := shade(180, 240, 120)
	round.Curve.Seam, round.Curve.Lap = design.Lap, "15"
	parts := round
	parts.Curve.Gores = "3"
	oval := shade(180, 240, 120)
	oval.Curve.Kind, oval.Curve.BoxWidth, oval.Curve.BoxHeight, oval.Curve.Seam, oval.Curve.Lap = design.Oval, "180", "170", design.Lap, "18"
	oval.Panel.Width = "80"
	for name, d := range map[string]design.Document{"a cone": round, "in parts": parts, "an oval": oval} {
		p := made(t, d)
		require.True(t, p.Drawn, name)
		scored := map[int]float64{} // where along the panel, of the middle of each
		last := 0
		for _, w := range p.Panel.Flat.Work {
			if w.Kind == cut.Score {
				m := w.Path.Start().Lerp(w.Path.End(), 0.5)
				if p.Panel.Mirror {
					m.Y = -m.Y
				}
				scored[w.Score] = m.X
				if f := p.Panel.Fan; f != nil {
					out := m.Sub(f.Apex)
					scored[w.Score] = f.Bend / f.Angle * math.Mod(f.Start+math.Pi/2-math.Atan2(out.Y, out.X)+4*math.Pi, 2*math.Pi)
				}
				last = max(last, w.Score)
			}
		}
		var at []float64
		for n := 1; n <= last; n++ {
			if s, ok := scored[n]; ok {
				at = append(at, s)
			}
		}
		assert.Len(t, at, p.ScoresCut(), name)
		widest := 0.0
		for _, f := range p.Scores.Layout.Folds[1:] {
			widest = math.Max(widest, math.Min(f.Left, f.Right))
		}
		for i := 1; i < len(at); i++ {
			assert.Greater(t, at[i], at[i-1], "%s: score %d", name, i+1)
			assert.Less(t, at[i]-at[i-1], 1.5*widest+0.01, "%s: score %d", name, i+1)
		}
		assert.Greater(t, at[len(at)-1], p.Round()+1, "%s: the lap is scored", name)
		assert.Less(t, p.Outline.Length-at[len(at)-1], p.V.Panel.MinLand+p.Law().Score().Width+1.5*widest, "%s: what stays flat at its end", name)
	}
}
