package coupon

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func skinsOf(passes int, date string, values ...float64) []Reading {
	var out []Reading
	for _, v := range values {
		out = append(out, Reading{Kind: KindSkin, Passes: passes, Date: date, Value: v})
	}
	return out
}

// Worked by hand: what was typed counts as four degrees of freedom.
func TestSkinsOfOneStripTellTheSpreadFromScoreToScore(t *testing.T) {
	alternate := make([]float64, 40)
	for i := range alternate {
		alternate[i] = 0.82
		if i%2 == 0 {
			alternate[i] = 0.78
		}
	}
	for _, c := range []struct {
		name     string
		typed    float64
		readings []Reading
		want     Measured
	}{
		// mean .82, squares .0016+.0004+.0004+.0016 = .004: (4 .04^2 + .004)/8 = .0013
		{"five of one strip", .04, skinsOf(2, "", .78, .84, .80, .86, .82), Measured{.0360555, .0090139, 5}},
		// squares .0008 with one to spare and .0018 with two: (.0064 + .0026)/7 = .0012857
		{"two strips pooled", .04, append(skinsOf(2, "", .80, .84), skinsOf(1, "", 1.50, 1.56, 1.53)...), Measured{.0358569, .0095832, 5}},
		// 40 x .02^2 = .016: (.0064 + .016)/43 = .00052093, near the .0203 of the skins alone
		{"many decide", .04, skinsOf(2, "", alternate...), Measured{.0228239, .0024612, 40}},
		{"one each tells nothing", .04, append(skinsOf(2, "", .8), skinsOf(1, "", 1.5)...), Measured{.04, 0, 0}},
		{"two days are two strips", .04, append(skinsOf(2, "2 May", .8), skinsOf(2, "9 May", .9)...), Measured{.04, 0, 0}},
		{"all alike, and none typed", 0, skinsOf(2, "", .8, .8, .8, .8), Measured{.01, .01 / 3.7416574, 4}},
	} {
		was := handbook()
		was.Apart = Measured{Value: c.typed}
		got := Learn(was, c.readings, Owner{}).Apart
		assert.InDelta(t, c.want.Value, got.Value, 1e-6, c.name)
		assert.InDelta(t, c.want.Sigma, got.Sigma, 1e-6, c.name)
		assert.Equal(t, c.want.N, got.N, c.name)
	}
}
