package intake

// unitOf returns the name of a value of $INSUNITS and how many of it make an inch
// (DXF Reference, "HEADER": $INSUNITS); ok is false for 0, unknown values, and the
// gigametres, astronomical units, light years and parsecs of 17 to 20, which nothing that
// is cut is drawn in: a value there was meant for something else.
func unitOf(insUnits int) (name string, perInch float64, ok bool) {
	const inch = 25.4 // mm
	mm := 0.0
	switch insUnits {
	case 1:
		name, mm = "in", inch
	case 2:
		name, mm = "ft", 12*inch
	case 3:
		name, mm = "mi", 63360*inch
	case 4:
		name, mm = "mm", 1
	case 5:
		name, mm = "cm", 10
	case 6:
		name, mm = "m", 1e3
	case 7:
		name, mm = "km", 1e6
	case 8:
		name, mm = "microinch", inch*1e-6
	case 9:
		name, mm = "mil", inch*1e-3
	case 10:
		name, mm = "yd", 36*inch
	case 11:
		name, mm = "angstrom", 1e-7
	case 12:
		name, mm = "nm", 1e-6
	case 13:
		name, mm = "micron", 1e-3
	case 14:
		name, mm = "dm", 100
	case 15:
		name, mm = "dam", 1e4
	case 16:
		name, mm = "hm", 1e5
	case 21: // the US survey foot is 1200/3937 m
		name, mm = "US survey ft", 1200e3/3937
	case 22:
		name, mm = "US survey in", 100e3/3937
	case 23:
		name, mm = "US survey yd", 3600e3/3937
	case 24:
		name, mm = "US survey mi", 5280*1200e3/3937
	default:
		return "", 0, false
	}
	return name, inch / mm, true
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
