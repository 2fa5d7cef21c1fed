package view

import (
	"strconv"

	"springrib/internal/check"
	"springrib/internal/plan"
	"springrib/internal/unit"
	"springrib/internal/wire"
)

// options lays out the numbers of passes that the machine has depths for. There is
// nothing to choose where no score is cut.
func (w *worked) options() wire.Options {
	p := &w.plan
	if p.ScoresCut() == 0 {
		return wire.Options{}
	}
	out := wire.Options{Heads: []string{"Passes", "Skin left", "Scores", "Spacing", "Cracking", "Pinching", "Flats", "Holds with", "Scoring time"}}
	for _, i := range p.Ranked() {
		t := p.Scores.Tries[i]
		out.Rows = append(out.Rows, wire.Option{
			Cells: []string{
				strconv.Itoa(t.Passes), w.mm(t.Skin), strconv.Itoa(len(t.Layout.Folds)), unit.LengthRange(t.Least, t.Most, p.V.Units),
				useText(t.Cracking), useText(t.Pinching), unit.LengthFine(t.StandOff, p.V.Units), unit.Mass(t.EndForce, p.V.Units), timeText(t.Seconds),
			},
			Sound: t.Sound() && t.Against == plan.Sound, Out: check.Out(max(t.Out, t.Against)), Chosen: i == p.Scores.Chosen, Set: map[string]string{"panel.passes": strconv.Itoa(t.Passes)},
		})
	}
	return out
}

// useText prints a use with its bad end: "0.62, at worst 0.91".
func useText(u plan.Use) string {
	if u.Score == 0 {
		return "none"
	}
	if bad := unit.Ratio(u.Bad); bad != unit.Ratio(u.Value) {
		return unit.Ratio(u.Value) + ", at worst " + bad
	}
	return unit.Ratio(u.Value)
}

func timeText(s float64) string {
	if s <= 0 {
		return "not known"
	}
	return unit.Time(s)
}
