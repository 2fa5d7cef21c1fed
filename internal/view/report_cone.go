package view

import "springrib/internal/plan"

// ReportCone is a panel that goes round a cone or part of one, and the fan that it lies as when flat.
type ReportCone struct {
	Narrow number       `json:"narrow"` // radius of the contact face at the narrow rim
	Wide   number       `json:"wide"`
	Height number       `json:"height"`
	Lean   number       `json:"lean"` // of the panel to the axis
	Inner  number       `json:"inner"`
	Outer  number       `json:"outer"`
	Angle  number       `json:"angle"` // of the fan, without what laps, is trimmed or goes straight on
	Sweep  number       `json:"sweep"` // how far round the axis it goes
	Parts  int          `json:"parts"` // that the panel is cut in, each as much of the fan
	Rings  []ReportRing `json:"rings"` // of the supports, index by index
}

// ReportRing is a ring: the height of its narrow face over the narrow rim, its radius, and what
// its square edge leaves open.
type ReportRing struct {
	Height number `json:"height"`
	Radius number `json:"radius"`
	Wedge  number `json:"wedge"`
}

func reportCone(p *plan.Plan) *ReportCone {
	k, f := p.Section.Cone, p.Panel.Fan
	if k == nil || f == nil {
		return nil
	}
	out := &ReportCone{number(k.Narrow), number(k.Wide), number(k.Height), deg(k.Lean()), number(f.Inner), number(f.Inner + k.Slant()), deg(f.Angle), deg(p.Section.Sweep), p.Gores(), nil}
	for _, s := range p.Supports.All {
		out.Rings = append(out.Rings, ReportRing{number(s.Height), number(k.Radius(s.Height)), number(s.Wedge)})
	}
	return out
}
