package sheet

import (
	"fmt"
	"math"

	"springrib/internal/finding"
	"springrib/internal/plane"
	"springrib/internal/unit"
)

// Findings says in plain words, in units of sys, which parts are not laid and why. Lengths
// in the text are rounded up to the tenth of a millimetre or the hundredth of an inch,
// those in Numbers are exact mm.
func (l Layout) Findings(job *Job, sys unit.System) []finding.Finding {
	var fs []finding.Finding
	for _, m := range l.Missing {
		p := &job.Pieces[m.Piece]
		f := finding.Finding{
			Severity: finding.Stop,
			Place:    finding.Place{Part: p.ID},
			Numbers: map[string]float64{
				"copies": float64(m.Copies),
				"width":  m.Need.W(), "height": m.Need.H(),
				"bedWidth": m.Room.W(), "bedHeight": m.Room.H(),
			},
		}
		f.ID, f.Text, f.Remedies = m.words(p, sys)
		fs = append(fs, f)
	}
	return fs
}

// called is what a person calls the piece.
func (p *Piece) called() string {
	if p.Name == "" {
		return p.ID
	}
	return p.Name
}

func (m Missing) words(p *Piece, sys unit.System) (id, text string, remedies []finding.Remedy) {
	need := size(m.Need, sys) + " with its overruns"
	room := size(m.Room, sys) + " inside the margin"
	switch m.Why {
	case TooLarge:
		return "off-bed", fmt.Sprintf("%s measures %s; the sheet has %s. It does not fit at any turn that you allow.", unit.Upper(unit.The(p.called())), need, room),
			[]finding.Remedy{{Text: "Use a larger sheet or a smaller margin, allow the part to be turned, or make it smaller."}}
	case NoRoom:
		return "sheets-used-up", fmt.Sprintf("%d of %s (%s) found no room on the sheets there are.", m.Copies, p.called(), need),
			[]finding.Remedy{{Text: "Add a sheet, or ask for fewer."}}
	case NoSheet:
		return "pin-off-sheet", fmt.Sprintf("%d of %s are put on a sheet that is not there.", m.Copies, p.called()),
			[]finding.Remedy{{Text: "Put it on another sheet, or leave its place open."}}
	case TooMany:
		return "too-many-parts", fmt.Sprintf("%d of %s are left out: at most %d parts are laid at a time.", m.Copies, p.called(), MaxParts),
			[]finding.Remedy{{Text: "Ask for fewer, and cut the file more than once."}}
	}
	return "no-outline", fmt.Sprintf("The outline of %s encloses nothing, so it can't be laid.", unit.The(p.called())), nil
}

// up writes a length rounded up to 0.1 mm or 0.01 in, without its unit.
func up(x float64, sys unit.System) string {
	if sys == unit.Inch {
		return fmt.Sprintf("%.2f", math.Ceil(x/unit.MMPerInch*100-1e-6)/100)
	}
	return fmt.Sprintf("%.1f", math.Ceil(x*10-1e-6)/10)
}

func size(b plane.Box, sys unit.System) string {
	return up(b.W(), sys) + " x " + up(b.H(), sys) + " " + sys.String()
}

// missing returns the record for copies of piece i.
func (job *Job) missing(i, copies int, why Why) Missing {
	m := Missing{Piece: i, Copies: copies, Why: why}
	if why != NoShape {
		p := &job.Pieces[i]
		m.Need = p.extents(plane.Rotate(p.turns()[0]))
	}
	for k := range job.Beds {
		if r := job.Beds[k].room(); k == 0 || r.W()*r.H() > m.Room.W()*m.Room.H() {
			m.Room = r
		}
	}
	return m
}

// FaultFindings puts what Verify found in plain words, in units of sys. A layout of Rows or of a Search has
// faults only where pinned parts lie on one another or off the sheet.
func FaultFindings(job *Job, l *Layout, faults []Fault, sys unit.System) []finding.Finding {
	var fs []finding.Finding
	name := func(i int) string { return job.Pieces[l.Placed[i].Piece].called() }
	for _, f := range faults {
		if f.A < 0 {
			continue // a slip of the program, not of the person
		}
		out := finding.Finding{
			Severity: finding.Stop,
			Place:    finding.Place{Part: job.Pieces[l.Placed[f.A].Piece].ID},
			Numbers:  map[string]float64{"by": f.By, "sheet": float64(l.Placed[f.A].Sheet + 1), "gap": job.Gap},
			Remedies: []finding.Remedy{{Text: "Move the part that you placed, or leave its place open."}},
		}
		switch f.Flaw {
		case Overlap:
			out.ID = "parts-overlap"
			out.Text = fmt.Sprintf("On sheet %d %s and %s overlap by %s %v or more.", l.Placed[f.A].Sheet+1, unit.The(name(f.A)), unit.The(name(f.B)), up(f.By, sys), sys)
		case Near:
			out.ID = "parts-near"
			out.Text = fmt.Sprintf("On sheet %d %s and %s are %s %v nearer than the gap of %s %v.", l.Placed[f.A].Sheet+1, unit.The(name(f.A)), unit.The(name(f.B)), up(f.By, sys), sys, up(job.Gap, sys), sys)
		case OffBed:
			out.ID = "off-bed"
			out.Text = fmt.Sprintf("On sheet %d %s reaches over the margin by %s %v.", l.Placed[f.A].Sheet+1, unit.The(name(f.A)), up(f.By, sys), sys)
		default:
			continue
		}
		fs = append(fs, out)
	}
	return fs
}
