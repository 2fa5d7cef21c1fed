package lay

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
func (l *Lay) RoundCorners() []Joint {
	var out []Joint
	for _, g := range l.Sheets {
		for i := range g.Parts {
			pt := &g.Parts[i]
			if l.task.Closed || !l.item(pt.ID).Joint {
				continue
			}
			left, usual := pt.CornersLeft(l.Works[pt.ID], l.task.Values.Machine.Kerf/2)
			whole, t := l.task.Values.Cut.Relief || left > usual+0.02, l.task.Values.Machine.Tool
			if left > LeftSeen && (whole || t == machine.Router || t == machine.Laser) { // saws and knives are not round
				out = append(out, Joint{pt, left, whole})
			}
		}
	}
	return out
}
