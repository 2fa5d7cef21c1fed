package stock

import (
	"math"

	"springrib/internal/solve"
)

// bendRow is a row of a published table of minimum bend radii: unscored plywood bent
// cold and dry (10 % moisture) on a mandrel, inches.
type bendRow struct{ thickness, stiff, soft float64 }

// FAA Advisory Circular AC 43.13-1B, Acceptable Methods, Techniques and Practices,
// table of plywood minimum bend radii, columns "10 percent moisture content, bent on
// cold mandrels", read in a reprint. Stiff is its column "90 degrees to face grain",
// soft its "0 to 45 degrees". The reprint does not say which way the angle is counted;
// the larger radii are taken to be those for bending the face grain.
func bendTable(plies int) []bendRow {
	if plies >= 5 {
		return []bendRow{
			{.160, 17, 11}, {.190, 21, 14}, {.225, 27, 17}, {.250, 31, 20}, {.315, 43, 28}, {.375, 54, 36},
		}
	}
	return []bendRow{
		{.035, 2.0, 1.1}, {.070, 5.2, 3.2}, {.100, 8.6, 5.2}, {.125, 12.0, 7.1}, {.155, 16.0, 10.0}, {.185, 20.0, 13.0},
	}
}

const inch = 25.4

// MinimumBend returns the least radius in mm that unscored plywood of thickness t, mm,
// is bent to cold and dry by FAA AC 43.13-1B, with its face grain bent (acrossScores) or
// not; between the table's rows by straight lines in logarithms, where it is close to
// a power of 1.3 to 1.7. ok is false outside the table's thicknesses, 0.89 to 4.70 mm
// for three plies and 4.06 to 9.53 for five, within a hundredth.
func MinimumBend(plies int, t float64, acrossScores bool) (radius float64, ok bool) {
	rows := bendTable(plies)
	value := func(r bendRow) float64 {
		if acrossScores {
			return r.stiff
		}
		return r.soft
	}
	x, last := t/inch, len(rows)-1
	if plies < 3 || !(x >= 0.99*rows[0].thickness && x <= 1.01*rows[last].thickness) {
		return 0, false
	}
	i := 1
	for i < last && x > rows[i].thickness {
		i++
	}
	a, b := rows[i-1], rows[i]
	f := math.Log(x/a.thickness) / math.Log(b.thickness/a.thickness)
	return inch * value(a) * solve.Pow(value(b)/value(a), f), true
}

// Unscored returns the radius, mm, at which a plain sheet t thick reaches an outer strain.
func Unscored(t, strain float64) float64 { return t / (2 * strain) }
