package check

import (
	"strings"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/machine"
	"springrib/internal/plan"
	"springrib/internal/stock"
	"springrib/internal/unit"
)

// mustNotLaser goes over all parts that are cut, and speaks once of each field that gives
// them a stock that no laser may touch. Test strips are of the panel's sheet.
func mustNotLaser(p *plan.Plan) []finding.Finding {
	if p.V.Machine.Tool != machine.Laser {
		return nil
	}
	var out []finding.Finding
	parts := map[string][]string{} // names by field
	for _, g := range p.Lay.Sheets {
		for _, pt := range g.Parts {
			from := pt.From
			if !from.Stock.Laser.Never {
				continue
			}
			if parts[from.Field] == nil {
				f := found("must-not-laser", finding.Stop, from.Stock.Name+" must not be cut with a laser: "+from.Stock.Laser.Why, nil)
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
		f := found("sheet-beside", finding.Note, unit.Upper(unit.The(name))+" is to be cut from the panel's sheet, which is "+mm(p, p.V.Sheet.T)+" thick, but is set to "+
			mm(p, from.Thickness)+". It is laid on a sheet of its own.",
			map[string]float64{"thickness": from.Thickness, "panel": p.V.Sheet.T})
		f.Place.Part = part
		out = append(out, on(f, field))
	}
	for _, s := range p.Supports.All {
		field := "rib.thickness" // which a place takes over with the stock
		if r := p.V.Rib; s.Row >= 0 && (r.StockAt != design.PanelStock || s.Thickness != r.Thickness) {
			field = "rib.places." + num(s.Row) + ".thickness"
		}
		say(s.Task.From, p.Ribs.Kinds[s.Kind].ID, p.Ribs.Kinds[s.Kind].Name, field)
	}
	if b := p.Base; b != nil {
		say(b.From, b.ID, b.Name, "base.thickness")
	}
	return out
}
