package remedy

import (
	"math"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
)

// mostGores bounds into how many parts a cone is cut unasked.
const mostGores = 12

// gored cuts the panel of a cone in as few equal parts as lie on a bed of so much room.
func gored(p *plan.Plan, bw, bh float64) []finding.Remedy {
	f, over := p.Panel.Fan, 2*p.Panel.Overrun+p.V.Machine.Kerf
	outer := f.Inner + p.Width()
	seam := p.Outline.Length - p.Round()
	for n := p.Gores() + 1; n <= mostGores; n++ {
		half := math.Min(math.Pi, f.Angle*(1/float64(n)+seam/f.Bend)/2)
		w, h := 2*outer*math.Sin(math.Min(half, math.Pi/2))+over, outer-f.Inner*math.Cos(half)+over
		if w <= bw && h <= bh || p.V.Cut.Turns == design.TurnQuarter && h <= bw && w <= bh {
			return one("Cut the panel in "+num(n)+" equal parts", "curve.gores", num(n))
		}
	}
	return nil
}

// smallerHub makes the hole in a ring as large as there is room for.
func smallerHub(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	room := floor(f.Numbers["room"], 10)
	if field, _ := design.At("rib.hubHole"); room < field.Min {
		return nil
	}
	return one("Make the hole "+mm(p, room)+" wide", "rib.hubHole", bare(p, room))
}

// leastLap is the least that a lap is offered with, mm. Common practice, no source.
const leastLap = 15

// lapped laps the seam of a cone by as much as holds it.
func lapped(p *plan.Plan, _ *finding.Finding) []finding.Remedy {
	if p.Section.Cone == nil {
		return nil
	}
	lap := math.Max(leastLap, p.V.Curve.Lap)
	for range 4 {
		q := p.Anew()
		q.V.Curve.Seam, q.V.Curve.Lap = design.Lap, lap
		q.Section, q.Line, q.Size, q.Scores = p.Section, p.Line, p.Size, p.Scores
		if !q.Run(plan.StageOutline, plan.StageAcross, plan.StageSupports, plan.StagePanel, plan.StageRibs, plan.StageHold) {
			return nil
		}
		worst, peels := q.Peels(false)
		if !peels {
			return []finding.Remedy{set("Lap the seam by "+mm(p, lap), "curve.seam", design.Lap, "curve.lap", bare(p, lap))}
		}
		lap = math.Ceil(worst.Length + 1)
	}
	return nil
}
