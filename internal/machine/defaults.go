package machine

import "math"

// Defaults returns what a tool of its kind usually does to a sheet t thick: a place to
// start from until a depth strip and a width strip have been cut. All of it is common
// practice without a source, except where a comment says otherwise.
func Defaults(tool Tool, t float64) Setup {
	switch tool {
	case Router:
		return Setup{
			Tool: Router, Reference: Table, BedWidth: 800, BedHeight: 600,
			Kerf: 3.175, ScoreWidth: 1.6, WidthSpread: 0.1, Bottom: Flat,
			Depths: []float64{hundredths(0.55 * t), hundredths(0.28 * t)}, DepthSpread: 0.1,
			Speed: 25, Acceleration: 300,
		}
	case Saw:
		// A thin blade cuts 3/32 in: the range of saw kerfs is 3/32 to 1/8 in (from memory, confidence high).
		// Skins of 1/16 in are usual in 3/4 in board (Modern Cabinetmaking, Goodheart-Willcox, p. 389).
		return Setup{
			Tool: Saw, Reference: Table, BedWidth: 1200, BedHeight: 600,
			Kerf: 2.4, ScoreWidth: 2.4, WidthSpread: 0.15, Bottom: Flat,
			Depths: []float64{hundredths(math.Max(0.28*t, math.Min(1.6, 0.4*t)))}, DepthSpread: 0.15,
			Speed: 60, Acceleration: 0,
		}
	case Knife:
		return Setup{
			Tool: Knife, Reference: Top, BedWidth: 600, BedHeight: 600,
			Kerf: 0, ScoreWidth: 0.3, WidthSpread: 0.1, Bottom: Vee,
			Depths: []float64{hundredths(0.35 * t), hundredths(0.6 * t)}, DepthSpread: 0.1,
			Speed: 40, Acceleration: 800,
		}
	}
	// Kerfs of small CO2 lasers in 3-6 mm wood panel are 0.1-0.3 mm at focus (from memory, confidence high).
	// Depth falls with each pass: the beam narrows and defocuses.
	return Setup{
		Tool: Laser, Reference: Top, BedWidth: 600, BedHeight: 400,
		Kerf: 0.2, ScoreWidth: 0.2, WidthSpread: 0.04, Bottom: Round,
		Depths: []float64{hundredths(0.42 * t), hundredths(0.73 * t), hundredths(0.86 * t)}, DepthSpread: 0.1,
		Speed: 120, Acceleration: 1500,
	}
}

// hundredths rounds to 0.01 mm, so that a page can show exactly what is used.
func hundredths(v float64) float64 { return math.Round(v*100) / 100 }
