// Package machine describes what cuts: how large its bed is, how wide and how deep it
// scores, and what its head needs to reach speed.
//
// Lengths are mm, speeds mm/s, accelerations mm/s².
package machine

import "math"

// Reference says what a depth is measured from.
type Reference uint8

// The references.
const (
	// Top: the tool goes d deep from the top face, as a laser does. The skin is t - d,
	// and an error of either changes it.
	Top Reference = iota
	// Table: the tool stands h above the table, as a saw or a router zeroed on the table
	// does. The skin is h, however thick the sheet.
	Table
)

// Bottom is the shape of the bottom of a score.
type Bottom uint8

// The shapes.
const (
	Round Bottom = iota // a half circle as wide as the score
	Flat
	Vee // narrowing to a root
)

// Tool is the kind of machine.
type Tool uint8

// The tools.
const (
	Laser Tool = iota
	Router
	Saw
	Knife
)

// Setup is a machine with its setting for one stock.
type Setup struct {
	Tool                Tool
	Reference           Reference
	BedWidth, BedHeight float64
	Kerf                float64 // width of a through cut
	ScoreWidth          float64 // width of a score at its mouth
	WidthSpread         float64 // half width of what ScoreWidth may be off by
	Bottom              Bottom
	// Depths after 1, 2, 3... passes in all: from the top face, growing, with Top; the
	// skin left, shrinking, with Table.
	Depths      []float64
	DepthSpread float64 // half width of what a depth may be off by
	// Spreads is DepthSpread for each number of passes, where strips told them; empty, or
	// zero for one, leaves DepthSpread.
	Spreads []float64
	// Apart is what of that differs from one score to the next, half width; 0 is the share
	// that ApartShare has. The rest moves all scores alike.
	Apart        float64
	Speed        float64
	Acceleration float64 // 0 when it does not matter
}

// Skin is what a number of passes leaves, with its spread.
type Skin struct{ Value, Low, High float64 }

// Skin returns the skin after passes (counted from 1) in a sheet t thick, known to
// +-tSpread. With Top the errors of thickness and of depth come from different causes
// and are added in quadrature; with Table only the depth's counts. Low is never under
// zero. It panics when there is no such number of passes.
func (s Setup) Skin(passes int, t, tSpread float64) Skin {
	if passes < 1 || passes > len(s.Depths) {
		panic("machine: no depth for that number of passes")
	}
	h, half := s.Depths[passes-1], s.Spread(passes)
	if s.Reference == Top {
		h, half = t-h, math.Hypot(half, tSpread)
	}
	return Skin{h, math.Max(0, h-half), h + half}
}

// Spread returns the half width of what the depth after passes may be off by.
func (s Setup) Spread(passes int) float64 {
	if passes <= len(s.Spreads) && s.Spreads[passes-1] > 0 {
		return s.Spreads[passes-1]
	}
	return s.DepthSpread
}

// ApartShare is the share of the variance of a depth that differs from score to score where
// nobody said more. No source.
const ApartShare = 0.5

// Between returns the half width of what one score differs by from the next after passes.
func (s Setup) Between(passes int) float64 {
	if s.Apart > 0 {
		return s.Apart
	}
	return math.Sqrt(ApartShare) * s.Spread(passes)
}

// Depth returns how deep the score is after passes in a sheet t thick.
func (s Setup) Depth(passes int, t float64) float64 { return t - s.Skin(passes, t, 0).Value }

// Growing tells whether every pass goes deeper than the one before.
func (s Setup) Growing() bool {
	for i := 1; i < len(s.Depths); i++ {
		if s.Reference == Top && s.Depths[i] <= s.Depths[i-1] || s.Reference == Table && s.Depths[i] >= s.Depths[i-1] {
			return false
		}
	}
	return true
}

// LeastOverrun returns how far past the edge a line must run so that the head is at
// speed v all the way across the part: v²/(2a). Zero when a is not known.
func LeastOverrun(v, a float64) float64 {
	if !(a > 0) {
		return 0
	}
	return v * v / (2 * a)
}

// StrokeTime returns the seconds from rest to rest over length at speed v and
// acceleration a (trapezoidal speed). v must be positive.
func StrokeTime(v, a, length float64) float64 {
	if !(v > 0) {
		panic("machine: speed must be positive")
	}
	if !(a > 0) {
		return length / v
	}
	if length >= v*v/a {
		return length/v + v/a
	}
	return 2 * math.Sqrt(length/a)
}
