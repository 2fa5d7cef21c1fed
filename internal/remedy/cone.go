package remedy

import (
	"math"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
)

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
