package part

// Plain completes a part that is neither panel nor rib: work lies inside it in its own
// coordinates, and the cuts along its outline follow, allowed for the kerf.
func Plain(p Part, work []Work, kerf float64) Part {
	p.Work = append([]Work{}, work...)
	p.free(kerf)
	return p
}
