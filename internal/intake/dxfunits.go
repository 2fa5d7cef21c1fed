package intake

const inch = 25.4 // mm

// dxfUnits are the values of $INSUNITS (DXF Reference, "HEADER") with their lengths in mm,
// without the gigametres, astronomical units, light years and parsecs of 17 to 20, which
// nothing that is cut is drawn in: a value there was meant for something else. The US
// survey foot is 1200/3937 m.
var dxfUnits = [...]struct {
	name string
	mm   float64
}{
	1:  {"in", inch},
	2:  {"ft", 12 * inch},
	3:  {"mi", 63360 * inch},
	4:  {"mm", 1},
	5:  {"cm", 10},
	6:  {"m", 1e3},
	7:  {"km", 1e6},
	8:  {"microinch", inch * 1e-6},
	9:  {"mil", inch * 1e-3},
	10: {"yd", 36 * inch},
	11: {"angstrom", 1e-7},
	12: {"nm", 1e-6},
	13: {"micron", 1e-3},
	14: {"dm", 100},
	15: {"dam", 1e4},
	16: {"hm", 1e5},
	21: {"US survey ft", 1200e3 / 3937},
	22: {"US survey in", 100e3 / 3937},
	23: {"US survey yd", 3600e3 / 3937},
	24: {"US survey mi", 5280 * 1200e3 / 3937},
}

// unitOf returns the name of a value of $INSUNITS and how many of it make an inch; ok is
// false for 0 and for values that are not in dxfUnits.
func unitOf(insUnits int) (name string, perInch float64, ok bool) {
	if insUnits < 0 || insUnits >= len(dxfUnits) || dxfUnits[insUnits].name == "" {
		return "", 0, false
	}
	u := dxfUnits[insUnits]
	return u.name, inch / u.mm, true
}

// units tells what a unit of the file measures. Lengths written in feet and inches ($LUNITS
// 3 and 4) are of drawings whose unit is the inch (DXF Reference, "HEADER"); where the two
// variables disagree, neither is believed.
func (r *dxfReader) units(opt Options) Units {
	name, n, ok := unitOf(r.insUnits)
	feet := r.lUnits == 3 || r.lUnits == 4
	switch {
	case ok && (!feet || name == "in"):
		return Units{Stated: true, Name: name, PerInch: n}
	case feet && r.insUnits == 0:
		return Units{Stated: true, Name: "in", PerInch: 1}
	}
	return askedUnits(Units{Name: name, PerInch: n}, opt)
}

// askedUnits leaves the unit to the person. What the file said of it and can't be is among
// the choices.
func askedUnits(said Units, opt Options) Units {
	u := Units{PerInch: opt.PerInch, Choices: []Choice{
		{Label: "1 unit is 1 mm", PerInch: 25.4},
		{Label: "1 unit is 1 inch", PerInch: 1},
		{Label: "1 unit is 1 cm", PerInch: 2.54},
		{Label: "1 unit is 1 m", PerInch: 0.0254},
	}}
	known := said.Name == ""
	for _, c := range u.Choices {
		known = known || c.PerInch == said.PerInch
	}
	if !known {
		u.Choices = append(u.Choices, Choice{Label: "1 unit is 1 " + said.Name + ", as the file says", PerInch: said.PerInch})
	}
	if u.PerInch == 0 {
		u.PerInch = u.Choices[0].PerInch
	}
	return u
}
