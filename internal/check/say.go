package check

import (
	"strconv"

	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/unit"
)

// found starts a finding.
func found(id string, sev finding.Severity, text string, numbers map[string]float64) finding.Finding {
	return finding.Finding{ID: id, Severity: sev, Text: text, Numbers: numbers}
}

func one(f finding.Finding) []finding.Finding { return []finding.Finding{f} }

// at places a finding at a score.
func at(f finding.Finding, p *plan.Plan, score int) finding.Finding {
	f.Place.Part = "panel"
	if score >= 1 && score <= len(p.Scores.Layout.Folds) {
		f.Place.Score = score
		f.Place.At = finding.At(p.Scores.Layout.Folds[score-1].U)
	}
	return f
}

// on places a finding at a field.
func on(f finding.Finding, field string) finding.Finding {
	f.Place.Field = field
	return f
}

func mm(p *plan.Plan, mm float64) string { return unit.Length(mm, p.V.Units) }

func num(n int) string { return strconv.Itoa(n) }

// counted says how many of a thing are or do something: "1 hole is", "2 holes are".
func counted(n int, thing, is, are string) string {
	if n == 1 {
		are = is
	}
	return unit.Plural(n, thing) + " " + are
}

// Out says in a few words why a number of passes is out; nothing where it is not.
func Out(r plan.Reason) string {
	return [...]string{
		plan.Sound: "", plan.CutsThrough: "cuts through", plan.SkinThin: "skin too thin to handle", plan.HardlyScored: "hardly scored",
		plan.BendsTight: "bends too tight", plan.Pinches: "pinches", plan.Cracks: "cracks", plan.FlatsHigh: "flats too high",
		plan.FoldsVisible: "folds too visible", plan.LandNarrow: "land too narrow", plan.RibBreaks: "the rib may break",
		plan.GluePeels: "glue lets go at an end", plan.GluePulls: "glue lets go along the bend", plan.HeldStrained: "held strained for good", plan.RibGives: "the rib gives",
	}[r]
}
