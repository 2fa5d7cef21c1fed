package check

import (
	"math"
	"strings"

	"springrib/internal/design"
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
	if !ok || from.Field == design.PanelStock {
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

// sheetBeside tells of ribs and a base that are to be of the panel's sheet and are typed
// of another thickness: they are laid on a sheet beside it.
func sheetBeside(p *plan.Plan) []finding.Finding {
	var out []finding.Finding
	seen := map[string]bool{}
	say := func(from stock.Sheet, part, name, field string) {
		if from.Own || from.Field != design.PanelStock || seen[field] {
			return
		}
		seen[field] = true
		f := found("sheet-beside", finding.Note, "The "+name+" is to be of the panel's sheet, which is "+mm(p, p.V.Sheet.T)+" thick, and is typed as "+
			mm(p, from.Thickness)+". It is laid on a sheet of its own, of that thickness.",
			map[string]float64{"thickness": from.Thickness, "panel": p.V.Sheet.T})
		f.Place.Part = part
		out = append(out, on(with(f, set("Take the panel's thickness", field, "")), field))
	}
	for _, s := range p.Supports {
		field := "rib.thickness" // which a place takes over with the stock
		if r := p.V.Rib; s.Row >= 0 && (r.StockAt != design.PanelStock || s.Thickness != r.Thickness) {
			field = "rib.places." + num(s.Row) + ".thickness"
		}
		say(s.Task.From, p.Ribs[s.Kind].ID, p.Ribs[s.Kind].Name, field)
	}
	if b := p.Base; b != nil {
		say(b.From, b.ID, b.Name, "base.thickness")
	}
	return out
}
