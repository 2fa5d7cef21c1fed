package stock

// Veneer returns the moduli along and across its own grain of the veneer that a
// cross-laminated sheet is made of, such that Laminate gives the sheet's EAlong and
// ECross; both 0 for a sheet without plies. With k the share that the plies along the
// face grain have of the second moment, Laminate gives along = k el + (1-k) et and cross
// the other way round.
func (s Stock) Veneer() (el, et float64) {
	if len(s.Plies) == 0 {
		return 0, 0
	}
	k, _ := Laminate(s.Plies, 1, 0)
	sum, diff := s.EAlong.Value+s.ECross.Value, (s.EAlong.Value-s.ECross.Value)/(2*k-1)
	return (sum + diff) / 2, (sum - diff) / 2
}
