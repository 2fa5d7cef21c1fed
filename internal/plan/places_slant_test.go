package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Why a rib is square to the scores: a slanted straight line of the flat panel leaves every
// plane once it is bent, by 0.3 mm for a slant of 1 in 10 round 90 degrees of 100 mm
// radius; the line straight along does not. The best plane is that of least squares.
func TestASlantedLineLeavesItsPlane(t *testing.T) {
	off := func(k float64) float64 {
		const r, n = 100.0, 90
		var s [3][4]float64 // normal equations of across = a x + b z + c
		at := func(i int) [4]float64 {
			a := float64(i) / n * math.Pi / 2
			return [4]float64{r * math.Sin(a), r * (1 - math.Cos(a)), 1, k * r * a}
		}
		for i := 0; i <= n; i++ {
			v := at(i)
			for j := range 3 {
				for m := range 4 {
					s[j][m] += v[j] * v[m]
				}
			}
		}
		for j := range 3 { // Gauss-Jordan
			for m := 3; m >= j; m-- {
				s[j][m] /= s[j][j]
			}
			for o := range 3 {
				if o != j {
					for m := 3; m >= j; m-- {
						s[o][m] -= s[o][j] * s[j][m]
					}
				}
			}
		}
		worst := 0.0
		for i := 0; i <= n; i++ {
			v := at(i)
			worst = math.Max(worst, math.Abs(v[3]-s[0][3]*v[0]-s[1][3]*v[1]-s[2][3]))
		}
		return worst
	}
	assert.InDelta(t, 0, off(0), 1e-9)
	assert.InDelta(t, 0.32, off(0.1), 0.01)
	assert.InDelta(t, 10*off(0.01), off(0.1), 1e-9)
}
