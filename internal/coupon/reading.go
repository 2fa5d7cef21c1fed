package coupon

import (
	"fmt"
	"math"

	"springrib/internal/finding"
	"springrib/internal/unit"
)

// Kind says what a reading is of.
type Kind string

// The kinds of readings; Reading says what Value is for each.
const (
	KindThickness Kind = "thickness"
	KindSag       Kind = "sag"
	KindSkin      Kind = "skin"
	KindClosing   Kind = "closing"
	KindBend      Kind = "bend"
	KindKerf      Kind = "kerf"
	KindFit       Kind = "fit"
)

// Verdict is what a bend or a fit did.
type Verdict string

// The verdicts: Held and Broke of a bend, the others of a fit.
const (
	Held  Verdict = "held"
	Broke Verdict = "broke"
	Loose Verdict = "loose"
	Good  Verdict = "good"
	Tight Verdict = "tight"
)

// Reading is one figure read off one strip. It belongs to a stock and a setting of the
// machine; Date and Batch are the person's own text.
type Reading struct {
	Kind    Kind    `json:"kind"`
	Date    string  `json:"date,omitempty"`
	Stock   string  `json:"stock,omitempty"`
	Setting string  `json:"setting,omitempty"`
	Batch   string  `json:"batch,omitempty"`
	Spot    string  `json:"spot,omitempty"` // where on the bed; tells tongues apart
	Passes  int     `json:"passes,omitempty"`
	Spacing float64 `json:"spacing,omitempty"` // of the scores
	Length  float64 `json:"length,omitempty"`  // sag: from the table's edge to the mark
	Width   float64 `json:"width,omitempty"`   // sag: of the tongue
	Load    float64 `json:"load,omitempty"`    // sag: weight at the mark, N; 0 is a reading too
	Count   int     `json:"count,omitempty"`   // closing: number of scores that share Value
	// Value: thickness of the sheet; drop of the mark below the table; skin of a snapped
	// tongue; turn of the whole strip when the mouths touch; radius of the gauge on the
	// hollow side; width of a kerf; slot less tenon.
	Value   float64 `json:"value"`
	Verdict Verdict `json:"verdict,omitempty"`
	// RoundSide says that a bend strip had its scores on the round side.
	RoundSide bool `json:"roundSide,omitempty"`
}

// The ids of findings about readings.
const (
	IDNotPositive  = "reading-not-positive"
	IDIncomplete   = "reading-incomplete"
	IDUnits        = "reading-units"
	IDSkinOver     = "reading-skin-over-sheet"
	IDDropOver     = "reading-drop-over-length"
	IDAlone        = "reading-alone"
	IDContradicts  = "reading-contradicts"
	IDOutlier      = "reading-outlier"
	IDOtherBatch   = "reading-other-batch"
	IDShut         = "reading-mouths-shut"
	IDNoControl    = "reading-no-control"
	IDStiffFaces   = "reading-stiff-faces"
	IDOnlyHeld     = "reading-only-held"
	IDOnlyBroke    = "reading-only-broke"
	IDOtherSetting = "reading-other-setting"
	IDOtherStock   = "reading-other-stock"
	IDUnknownDepth = "reading-unknown-depth"
	IDUneven       = "reading-bed-uneven"
)

// say builds a finding about reading i.
func say(id string, severity finding.Severity, i int, numbers map[string]float64, format string, args ...any) finding.Finding {
	return finding.Finding{
		ID: id, Severity: severity, Numbers: numbers,
		Place: finding.Place{Field: fmt.Sprintf("readings.%d", i)},
		Text:  fmt.Sprintf(format, args...),
	}
}

// passesLeave says what a number of passes does: "One pass leaves", "2 passes leave".
func passesLeave(n int) string {
	if n == 1 {
		return "One pass leaves"
	}
	return fmt.Sprintf("%d passes leave", n)
}

// passesGo is the same of how deep they go.
func passesGo(n int) string {
	if n == 1 {
		return "one pass goes"
	}
	return fmt.Sprintf("%d passes go", n)
}

// check returns what is wrong with a reading by itself, for a sheet t thick.
func (r Reading) check(i int, t float64, units unit.System) *finding.Finding {
	bad := func(id string, numbers map[string]float64, format string, args ...any) *finding.Finding {
		f := say(id, finding.Warn, i, numbers, format, args...)
		return &f
	}
	if !(r.Value > 0) || math.IsInf(r.Value, 0) {
		if r.Kind != KindFit && !(r.Kind == KindSag && r.Value == 0 && r.Load == 0) {
			return bad(IDNotPositive, map[string]float64{"value": finite(r.Value)}, "A reading of %g can't be: it must be more than 0. It is not used.", r.Value)
		}
	}
	switch r.Kind {
	case KindThickness, KindSkin, KindKerf:
		return r.checkLength(bad, t, units)
	case KindSag:
		return r.checkSag(bad, units)
	case KindClosing, KindBend:
		return r.checkBend(bad)
	case KindFit:
		return r.checkFit(bad, units)
	}
	return bad(IDIncomplete, nil, "A reading of an unknown kind, %q. It is not used.", r.Kind)
}

// fault makes the finding about a reading that is not used.
type fault func(id string, numbers map[string]float64, format string, args ...any) *finding.Finding

// checkLength is check of what a gauge measures: thickness, skin and kerf.
func (r Reading) checkLength(bad fault, t float64, units unit.System) *finding.Finding {
	mm := func(v float64) string { return unit.LengthFine(v, units) }
	switch {
	case r.Kind == KindThickness:
		if r.Value < t/3 || r.Value > 3*t {
			return bad(IDUnits, map[string]float64{"value": r.Value, "expected": t}, "A sheet %s thick is not the one in hand, which is about %s. Check the unit; the reading is not used.", mm(r.Value), mm(t))
		}
	case r.Kind == KindKerf:
		if r.Value > 10 {
			return bad(IDUnits, map[string]float64{"kerf": r.Value}, "A kerf %s wide? Check the unit; the reading is not used.", mm(r.Value))
		}
	case r.Passes < 1:
		return bad(IDIncomplete, nil, "The skin of a snapped tongue needs the number of passes it was scored with. It is not used.")
	case r.Value >= t:
		return bad(IDSkinOver, map[string]float64{"skin": r.Value, "thickness": t}, "A skin of %s is thicker than the sheet, %s. It is not used.", mm(r.Value), mm(t))
	case r.Value < t/100:
		return bad(IDUnits, map[string]float64{"skin": r.Value, "thickness": t}, "A skin of %s would be next to nothing. Check the unit; the reading is not used.", mm(r.Value))
	}
	return nil
}

// checkBend is check of what strips say that are closed or bent.
func (r Reading) checkBend(bad fault) *finding.Finding {
	scored := r.Passes >= 1 && r.Spacing > 0
	switch {
	case r.Kind == KindBend:
		if !scored || r.Verdict != Held && r.Verdict != Broke {
			return bad(IDIncomplete, nil, "A bend strip needs its passes, its spacing, the gauge's radius, and whether it held or broke. It is not used.")
		}
	case !scored || r.Count < 1:
		return bad(IDIncomplete, nil, "A closed strip needs its passes, its spacing and how many scores shared the turn. It is not used.")
	case r.Value/float64(r.Count) > math.Pi/2:
		return bad(IDUnits, map[string]float64{"turn": r.Value * 180 / math.Pi}, "No score turns %.3g degrees before it shuts. Check the unit and the count; the reading is not used.", r.Value*180/math.Pi/float64(r.Count))
	}
	return nil
}

// checkFit is check of a slot.
func (r Reading) checkFit(bad fault, units unit.System) *finding.Finding {
	switch {
	case r.Verdict != Loose && r.Verdict != Good && r.Verdict != Tight:
		return bad(IDIncomplete, nil, "A slot of the fit strip is loose, good or tight; say which. It is not used.")
	case !(math.Abs(r.Value) <= 3):
		return bad(IDUnits, map[string]float64{"clearance": finite(r.Value)}, "A slot %s wider than its tenon? Check the unit; the reading is not used.", unit.LengthFine(r.Value, units))
	}
	return nil
}

// checkSag is check of a tongue that hangs.
func (r Reading) checkSag(bad fault, units unit.System) *finding.Finding {
	scored := r.Passes > 0
	switch {
	case !(r.Load >= 0) || math.IsInf(r.Load, 0):
		return bad(IDNotPositive, map[string]float64{"load": finite(r.Load)}, "A weight of %s can't be. The reading is not used.", unit.Mass(r.Load, units))
	case !(r.Length > 0) || !(r.Width > 0) || r.Passes < 0 || scored != (r.Spacing > 0):
		return bad(IDIncomplete, nil, "A tongue needs its free length and width, and its passes and spacing or neither. The reading is not used.")
	case r.Value >= r.Length:
		return bad(IDDropOver, map[string]float64{"drop": r.Value, "length": r.Length}, "A tongue %s long can't hang %s down. The reading is not used.", unit.Length(r.Length, units), unit.Length(r.Value, units))
	case r.Value > .93*r.Length:
		return bad(IDDropOver, map[string]float64{"drop": r.Value, "length": r.Length}, "The tongue hangs nearly straight down, %s of %s, which tells nothing of its stiffness. Use a lighter weight; the reading is not used.", unit.Length(r.Value, units), unit.Length(r.Length, units))
	}
	return nil
}

// finite keeps numbers of findings printable.
func finite(v float64) float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0
	}
	return v
}
