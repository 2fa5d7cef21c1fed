package chance

import (
	"math"
	"strconv"
)

// OneIn says a chance as panels, to two figures: "about 1 panel in 45".
func OneIn(x float64) string {
	switch {
	case x > 0.4:
		return "about " + strconv.Itoa(int(math.Round(10*x))) + " panels in 10"
	case x < 1e-4:
		return "fewer than 1 panel in 10000"
	}
	n, step := 1/x, 500.0
	for _, s := range []float64{100, 50, 10, 5, 1} {
		if n < 20*s {
			step = s
		}
	}
	return "about 1 panel in " + strconv.Itoa(int(math.Round(n/step)*step))
}
