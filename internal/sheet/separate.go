package sheet

// separation moves the items of a crowd until nothing overlaps. It gives up after a
// number of tries in a row that each ran for patience rounds without a gain.
type separation struct {
	c               *crowd
	until           int64 // what may be spent
	patience, tries int
	begun           bool
	best            float64 // the least overlap
	start           float64 // at the beginning of the try
	kept            []lie   // how the items lay when they overlapped least
	idle, try       int
}

// gainful is the share of the overlap to which a round must bring it to count as a gain.
const gainful = 0.98

// separate begins a separation.
func (c *crowd) separate(until int64, patience, tries int) *separation {
	return &separation{c: c, until: until, patience: patience, tries: tries}
}

// begin weighs all alike; true when nothing overlaps.
func (s *separation) begin() bool {
	c := s.c
	for i := range c.weight {
		c.weight[i] = 1
	}
	for i := range c.walls {
		c.walls[i] = 1
	}
	s.begun = true
	s.best = c.tally()
	s.start = s.best
	s.kept = c.lies(nil)
	return s.best == 0
}

// round moves each item in trouble once, and tells whether the separation is over and
// whether all lie apart. Where it failed the items lie as they overlapped least.
func (s *separation) round() (over, apart bool) {
	c := s.c
	if !s.begun && s.begin() {
		return true, true
	}
	ended := func() bool { return c.budget.spent >= s.until || c.budget.over() }
	for _, i := range c.troubled() {
		if ended() {
			break
		}
		c.move(i)
	}
	total := c.tally()
	if total == 0 {
		return true, true
	}
	s.idle++
	if total < s.best {
		if total < gainful*s.best {
			s.idle = 0
		}
		s.best = total
		s.kept = c.lies(s.kept)
	}
	c.reweigh()
	if ended() {
		s.back()
		return true, false
	}
	if s.idle >= s.patience {
		s.back()
		s.idle = 0
		s.try++
		if s.best < gainful*s.start {
			s.try = 0
		}
		s.start = s.best
	}
	return s.try >= s.tries, false
}

// back puts the items as they overlapped least.
func (s *separation) back() {
	s.c.restore(s.kept)
	s.c.tally()
}
