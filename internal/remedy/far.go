package remedy

import (
	"math"
	"strconv"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/section"
)

// turnAlike gives the bends of the far section radii with which it turns as far as the near one.
func turnAlike(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	near, far := f.Numbers["near"], f.Numbers["far"]
	if p.V.Curve.Far != design.Chain || near <= 0 || far <= 0 {
		return nil
	}
	r := set("Turn the far section as far as the near one")
	for _, i := range section.Swing(p.V.Curve.FarPieces, int(f.Numbers["swing"])) {
		r.Set["curve.farPieces."+strconv.Itoa(i)+".radius"] = bare(p, math.Round(100*p.V.Curve.FarPieces[i].Radius*far/near)/100)
	}
	return []finding.Remedy{r}
}

// bevelled has ribs cut to their larger face and bevelled by hand.
func bevelled(p *plan.Plan, _ *finding.Finding) []finding.Remedy {
	if p.V.Rib.Edge == design.Bevel {
		return nil
	}
	return one("Bevel their edges by hand", "rib.edge", design.Bevel)
}

// further sets the ribs so far apart that the panel stands well on them.
func further(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	apart := math.Ceil(f.Numbers["apart"]/10) * 10
	if !(apart > p.V.Curve.Apart) {
		return nil
	}
	text := bare(p, apart)
	return one("Set the ribs "+mm(p, apart)+" apart", "curve.apart", text)
}
