package stock

// Scatter returns by how much the strain at which strips of one sheet break scatters about
// their mean: the coefficient of variation. Published are 3-20 %, mostly 10-17 %, for the
// least bending radius of layered aspen and beech (Forests 10(6) 470, 2019, table 1), but
// between specimens, so that some of it is the sheets' own. Sheet without plies is taken as
// more even. Defaults without a source; strips of the sheet replace them.
func (s Stock) Scatter() Figure {
	f := Figure{Value: 0.06, Low: 0.03, High: 0.12, Grade: Practice, Source: "for sheet without plies; no source"}
	switch s.Family {
	case Plywood:
		f = Figure{Value: 0.10, Low: 0.03, High: 0.20, Grade: Practice, Source: "from 3-20 % between specimens of layered wood, Forests 10(6) 470, 2019, table 1; no source within one sheet"}
	case Plastic:
		f = Figure{Value: 0.04, Low: 0.02, High: 0.10, Grade: Practice, Source: "for cast sheet; no source"}
	case Fibreboard, Paper:
	}
	return f
}
