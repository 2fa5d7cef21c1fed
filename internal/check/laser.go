package check

import (
	"math"
	"strings"

	"springrib/internal/finding"
	"springrib/internal/machine"
	"springrib/internal/plan"
	"springrib/internal/stock"
)

// mustNotLaser goes over all parts that are cut, and speaks once of each field that gives
// them a stock that no laser may touch. Test strips are of the panel's sheet.
func mustNotLaser(p *plan.Plan) []finding.Finding {
	if p.V.Machine.Tool != machine.Laser {
		return nil
	}
	var out []finding.Finding
	parts := map[string][]string{} // names by field
	for _, g := range p.Sheets {
		for _, pt := range g.Parts {
			from := pt.From
			if !from.Stock.Laser.Never {
				continue
			}
			if parts[from.Field] == nil {
				f := with(found("must-not-laser", finding.Stop, from.Stock.Name+" must not be cut with a laser: "+from.Stock.Laser.Why, nil),
					elsewhere(p, from), set("Cut it with a knife", "machine.tool", "knife"))
				f.Place.Part = pt.ID
				out = append(out, on(f, from.Field))
			}
			parts[from.Field] = append(parts[from.Field], pt.Name)
		}
	}
	for i := range out {
		out[i].Text += " Cut from it: " + strings.Join(parts[out[i].Place.Field], ", ") + "."
	}
	return out
}

// elsewhere offers another stock for parts that are not of the panel's sheet: that sheet
// where a laser may cut it, else the stock nearest in thickness of those that it may.
func elsewhere(p *plan.Plan, from stock.Sheet) finding.Remedy {
	prefix, ok := strings.CutSuffix(from.Field, "stock")
	if !ok || from.Field == "sheet.stock" {
		return finding.Remedy{}
	}
	text, id := "Take the panel's sheet for it", "same"
	if p.V.Sheet.Stock.Laser.Never {
		off := math.Inf(1)
		for _, s := range stock.All() {
			if away := math.Abs(s.Thickness.Value - from.Thickness); !s.Laser.Never && away < off {
				text, id, off = "Take "+s.Name+" for it", s.ID, away
			}
		}
	}
	return set(text, from.Field, id, prefix+"thickness", "")
}
