package sheet

// copyOf is one copy of a piece that is to be laid.
type copyOf struct{ piece, copy int }

// sortOut lists the copies that can be laid at all: those pinned, with their places,
// and those free. The rest is reported.
func (job *Job) sortOut() (pinned []Placed, free []copyOf, missing []Missing) {
	left := MaxParts
	for i := range job.Pieces {
		p := &job.Pieces[i]
		n := max(0, p.Quantity)
		if n > 0 && !p.sound() {
			missing = append(missing, job.missing(i, n, NoShape))
			continue
		}
		lay := min(n, left)
		left -= lay
		astray := 0
		for c := range lay {
			switch {
			case c >= len(p.Pins):
				free = append(free, copyOf{i, c})
			case p.Pins[c].Sheet < 0 || job.bedOf(p.Pins[c].Sheet) < 0:
				astray++
			default:
				pinned = append(pinned, Placed{i, c, p.Pins[c]})
			}
		}
		if astray > 0 {
			missing = append(missing, job.missing(i, astray, NoSheet))
		}
		if n > lay {
			missing = append(missing, job.missing(i, n-lay, TooMany))
		}
	}
	return pinned, free, missing
}

// lose adds one missing copy to the records.
func (job *Job) lose(ms []Missing, piece int, why Why) []Missing {
	for i := range ms {
		if ms[i].Piece == piece && ms[i].Why == why {
			ms[i].Copies++
			return ms
		}
	}
	return append(ms, job.missing(piece, 1, why))
}
