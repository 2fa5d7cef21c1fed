package view

import "springrib/internal/plan"

// ReportSkin is a panel that goes over from the section at the near rib to another at the far one.
type ReportSkin struct {
	Apart number       `json:"apart"` // from rib to rib, outer face to outer face
	Near  number       `json:"near"`  // length of the section at the near rib
	Far   number       `json:"far"`
	Lean  number       `json:"lean"`  // the most that the panel leans against the ribs, degrees
	Slant number       `json:"slant"` // the least angle between a score and an edge, degrees
	Ribs  []ReportFace `json:"ribs"`  // of the supports, index by index
}

// ReportFace is a rib between two sections: the height of its near face over the near rib's, what its
// edge leaves open where it is cut square, and by how much it would stand into the panel.
type ReportFace struct {
	Height number `json:"height"`
	Wedge  number `json:"wedge"`
	Poke   number `json:"poke"`
}

func reportSkin(p *plan.Plan) *ReportSkin {
	pair := p.Section.Pair
	if pair == nil {
		return nil
	}
	lean, slant, _ := pair.Stance()
	out := &ReportSkin{number(pair.Apart), number(pair.Near.Length()), number(pair.Far.Length()), deg(lean), deg(slant), nil}
	for _, s := range p.Supports.All {
		out.Ribs = append(out.Ribs, ReportFace{number(s.Height), number(s.Wedge), number(s.Poke)})
	}
	return out
}
