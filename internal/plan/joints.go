package plan

import (
	"springrib/internal/machine"
	"springrib/internal/part"
)

// LeftSeen is how far a tool may stay short of an edge unseen, mm. Common practice, no
// source.
const LeftSeen = 0.2

// Joint is a part whose square inside corners the tool leaves round, so that a tenon does
// not go home.
type Joint struct {
	*part.Part
	Left  float64 // of the worst corner, mm
	Whole bool    // not only the corner: the tool has no way in beside it
}

// RoundCorners returns the parts of joints that are left so.
func (p *Plan) RoundCorners() []Joint {
	var out []Joint
	for _, g := range p.Lay.Sheets {
		for i := range g.Parts {
			pt := &g.Parts[i]
			if !p.jointed(pt.ID) || p.Section.Closed {
				continue
			}
			left, usual := pt.CornersLeft(p.Lay.works[pt.ID], p.V.Machine.Kerf/2)
			whole, t := p.V.Cut.Relief || left > usual+0.02, p.V.Machine.Tool
			if left > LeftSeen && (whole || t == machine.Router || t == machine.Laser) { // saws and knives are not round
				out = append(out, Joint{pt, left, whole})
			}
		}
	}
	return out
}
