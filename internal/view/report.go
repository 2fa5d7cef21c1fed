package view

import (
	"encoding/json"
	"math"

	"springrib/internal/check"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/plane"
)

// Report is every number of a plan, for other programs and for checking. Lengths are
// mm, angles degrees, forces N, moments N mm, stresses MPa, times s; uses are shares of
// a limit, 1 being the limit itself. Infinite and undefined numbers are null. Paths are
// in the text form of package plane, Y up, rounded to 1e-6 mm. DEVELOPERS.md describes
// each field.
type Report struct {
	Name     string            `json:"name"`
	Revision string            `json:"revision"`
	Drawn    bool              `json:"drawn"`
	Findings []finding.Finding `json:"findings"`
	// Files says whether files of the parts leave: "free", "marked", "withheld" or "barred".
	Files    string          `json:"files"`
	Sheet    ReportSheet     `json:"sheet"`
	Edge     ReportEdge      `json:"edge"`
	Tries    []ReportTry     `json:"tries"`
	Chosen   int             `json:"chosen"`
	Law      ReportLaw       `json:"law"`
	Runs     []ReportRun     `json:"runs"`
	Scores   []ReportScore   `json:"scores"`
	Panel    ReportPanel     `json:"panel"`
	Cone     *ReportCone     `json:"cone,omitempty"`
	Skin     *ReportSkin     `json:"skin,omitempty"`
	Ribs     []ReportRib     `json:"ribs"`
	Supports []ReportSupport `json:"supports"`
	Fit      ReportFit       `json:"fit"`
	Hold     ReportHold      `json:"hold"`
	Ranges   ReportRanges    `json:"ranges"`
	Chance   ReportChance    `json:"chance"`
	Learned  *ReportLearned  `json:"learned"`
	Sheets   []ReportPlaced  `json:"placed"`
}

// ReportSheet is the sheet as it was worked with.
type ReportSheet struct {
	Stock           string  `json:"stock"`
	Thickness       float64 `json:"thickness"`
	ThicknessSpread float64 `json:"thicknessSpread"`
	E               float64 `json:"e"`
	EZ              float64 `json:"ez"`
	GXZ             float64 `json:"gxz"`
	Face            float64 `json:"face"` // stiffness of the faces over e; 0 where taken as even
	Rupture         float64 `json:"ruptureStrain"`
	StrainTested    bool    `json:"strainTested"`
}

// ReportEdge is the contact edge.
type ReportEdge struct {
	Length    number  `json:"length"`
	Turning   number  `json:"turning"`
	Tightest  number  `json:"tightestRadius"`
	PanelLeft bool    `json:"panelLeft"`
	Towards   bool    `json:"scoredFaceMeetsRib"`
	Closed    bool    `json:"closed"`
	Developed float64 `json:"developedLength"`
}

// ReportTry is what one number of passes would give.
type ReportTry struct {
	Passes    int    `json:"passes"`
	Skin      number `json:"skin"`
	Count     int    `json:"count"`
	Least     number `json:"leastSpacing"`
	Most      number `json:"mostSpacing"`
	Cracking  number `json:"cracking"`
	CrackBad  number `json:"crackingAtWorst"`
	Pinching  number `json:"pinching"`
	PinchBad  number `json:"pinchingAtWorst"`
	EndForce  number `json:"endForce"`
	Seconds   number `json:"seconds"`
	Sound     bool   `json:"sound"`
	ReasonOut string `json:"reasonOut,omitempty"`
}

// ReportLaw is the law at the middle run's spacing.
type ReportLaw struct {
	Skin      number `json:"skin"`
	Spacing   number `json:"spacing"`
	Softening number `json:"softening"`
	Stiffness number `json:"stiffness"` // N mm^2 per mm of width
	Neutral   number `json:"neutral"`   // from the uncut face
	Hinge     number `json:"hingeLength"`
	Lever     number `json:"mouthLever"`
	Closing   number `json:"closingAngle"`
}

// ReportChance is the share of panels that fail: in one of the two states, and in each.
type ReportChance struct {
	Cracks  number `json:"cracks"`
	Pinches number `json:"pinches"`
	Fails   number `json:"fails"`
	InHand  number `json:"inHand"`
	OnRib   number `json:"onRib"`
}

func reportChance(p *plan.Plan) ReportChance {
	c := p.Proof.Chance
	if c.Fail == 0 {
		return ReportChance{}
	}
	both := c.Lot.Both()
	return ReportChance{number(c.Crack), number(c.Pinch), number(c.Fail), number(both.Hand.Fail), number(both.Glued.Fail)}
}

// ReportRun is one curved stretch.
type ReportRun struct {
	Start   number `json:"start"`
	End     number `json:"end"`
	Radius  number `json:"radius"`
	Flats   int    `json:"flats"`
	Pitch   number `json:"spacing"`
	Bound   string `json:"boundBy"`
	Reached bool   `json:"reached"`
	Wraps   bool   `json:"wraps"`
	Closing bool   `json:"closing"`
}

// ReportScore is one score.
type ReportScore struct {
	N        int    `json:"n"`
	U        number `json:"u"`
	S        number `json:"s"`
	Fold     number `json:"fold"` // positive where the edge bulges to the panel
	Neutral  number `json:"neutral"`
	Left     number `json:"left"`
	Right    number `json:"right"`
	Strain   number `json:"strain"`
	MouthGap number `json:"mouthGap"`
	Closing  bool   `json:"closing"`
}

// ReportPanel is the flat panel.
type ReportPanel struct {
	Length   number          `json:"length"`
	Overrun  number          `json:"overrun"`
	Mirrored bool            `json:"mirrored"`
	Outline  []string        `json:"outline"`
	Lines    []ReportSegment `json:"lines"`
	MarkFrom number          `json:"markFrom"`
	MarkTo   number          `json:"markTo"`
	FreeEnd  number          `json:"freeEnd"`
	EndGap   number          `json:"endGap"`
	FreeFoot number          `json:"freeFoot"`
	FootGap  number          `json:"footGap"`
	Span     number          `json:"span"`
	Rise     number          `json:"rise"`
}

// ReportSegment is one stretch of a score in the panel: in and out of the material, and
// where the tool starts and stops.
type ReportSegment struct {
	Score int        `json:"score"`
	In    [2]float64 `json:"in"`
	Out   [2]float64 `json:"out"`
	Start [2]float64 `json:"start"`
	Stop  [2]float64 `json:"stop"`
}

// ReportRib is one kind of rib as it is cut; start and end are arc lengths of the edge.
type ReportRib struct {
	ID       string   `json:"id"`
	Stock    string   `json:"stock"`
	Thick    number   `json:"thickness"`
	Outline  []string `json:"outline"`
	Pieces   int      `json:"pieces"`
	Start    number   `json:"start"`
	End      number   `json:"end"`
	Quantity int      `json:"quantity"`
}

// ReportSupport is one rib at its place across the panel, with its glue mark along it.
type ReportSupport struct {
	Rib      string `json:"rib"`
	Across   number `json:"across"`
	MarkFrom number `json:"markFrom"`
	MarkTo   number `json:"markTo"`
	Moment   number `json:"moment"`
	RibUse   number `json:"ribUse"`
	Movement number `json:"movement"`
}

// ReportFit is the refolded panel against the rib edge.
type ReportFit struct {
	LeastGap number `json:"leastGap"`
	MostGap  number `json:"mostGap"`
	WorstGap number `json:"worstLeastGap"` // the flat furthest from touching
	EndMiss  number `json:"endMiss"`
}

// ReportHold is the pull of the panel.
type ReportHold struct {
	Moment     number `json:"moment"`
	EndForce   number `json:"endForce"`
	RibStress  number `json:"ribStress"`
	RibUse     number `json:"ribUse"`
	RibUseBad  number `json:"ribUseBad"`
	Movement   number `json:"movement"`
	PeelStress number `json:"peelStress"`
	PeelUse    number `json:"peelUse"`
	PeelLength number `json:"peelLength"`
}

// ReportPlaced is one part on one sheet.
type ReportPlaced struct {
	Stock string `json:"stock"`
	Thick number `json:"thickness"`
	Sheet int    `json:"sheet"` // from 1, within the stock
	Part  string `json:"part"`
	X     number `json:"x"`
	Y     number `json:"y"`
	Turn  number `json:"turn"`
}

// number is a float64 that JSON can hold: null where it is infinite or undefined.
type number float64

// MarshalJSON writes the number rounded to 1e-9, or null.
func (n number) MarshalJSON() ([]byte, error) {
	v := float64(n)
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return []byte("null"), nil
	}
	return json.Marshal(math.Round(v*1e9) / 1e9)
}

// Report works a design out and returns every number of it as indented JSON.
func (Core) Report(raw []byte) ([]byte, error) {
	doc, err := document(raw)
	if err != nil {
		return nil, err
	}
	w := work(doc)
	out, err := json.MarshalIndent(report(w), "", "  ")
	return append(out, '\n'), err
}

func report(w *worked) Report {
	p := &w.plan
	v := &p.V
	r := Report{
		Name: v.Name, Revision: v.Revision, Drawn: p.Drawn, Findings: w.findings, Files: w.release().effect.String(),
		Sheet: ReportSheet{v.Sheet.Stock.ID, v.Sheet.T, v.Sheet.TSpread, v.Sheet.E.Value, v.Sheet.EZ.Value,
			v.Sheet.GXZ.Value, v.Sheet.Face.Value, v.Sheet.Rupture.Value, v.Sheet.StrainTested},
	}
	if !p.Drawn {
		return r
	}
	k, _ := p.Section.Edge.Tightest()
	r.Edge = ReportEdge{number(p.Section.Edge.Length()), deg(p.Section.Edge.Turning()), number(1 / k), p.Section.PanelLeft, p.Section.Towards, p.Section.Closed, p.Scores.Layout.Length}
	for _, t := range p.Scores.Tries {
		r.Tries = append(r.Tries, ReportTry{t.Passes, number(t.Skin), len(t.Layout.Folds), number(t.Least), number(t.Most),
			number(t.Cracking.Value), number(t.Cracking.Bad), number(t.Pinching.Value), number(t.Pinching.Bad), number(t.EndForce), number(t.Seconds), t.Sound(), check.Out(t.Out)})
	}
	r.Chosen = p.Scores.Chosen
	r.Law = reportLaw(p)
	for _, run := range p.Scores.Layout.Runs {
		r.Runs = append(r.Runs, ReportRun{number(run.Start), number(run.End), number(run.Radius), run.Count, number(run.Pitch),
			string(run.Spacing.Bound), run.Spacing.Reached, run.Wraps, run.Closing})
	}
	for i, f := range p.Scores.Layout.Folds {
		r.Scores = append(r.Scores, ReportScore{i + 1, number(f.U), number(f.S), deg(f.Theta), number(f.D), number(f.Left), number(f.Right),
			number(f.State.Strain), number(f.State.MouthGap), f.Closing})
	}
	r.Panel = reportPanel(p)
	for _, rib := range p.Ribs.Kinds {
		r.Ribs = append(r.Ribs, ReportRib{rib.ID, rib.From.Stock.ID, number(rib.From.Thickness), outlineText(rib.Outline), len(rib.Outline.Outer.Segs),
			number(rib.Task.Start), number(rib.Task.End), rib.Quantity})
	}
	r.Cone = reportCone(p)
	r.Skin = reportSkin(p)
	for _, s := range p.Supports.All {
		r.Supports = append(r.Supports, ReportSupport{p.Ribs.Kinds[s.Kind].ID, number(s.Across), number(s.Mark.From), number(s.Mark.To),
			number(s.Hold.Moment), number(s.Hold.RibUse), number(s.Hold.Rib.Movement)})
	}
	r.Fit = ReportFit{number(p.Proof.Fit.Least), number(p.Proof.Fit.Most), number(p.Proof.Fit.LeastFlat), number(p.Proof.Fit.EndMiss)}
	r.Chance = reportChance(p)
	r.Ranges, r.Learned = reportRanges(p), reportLearned(p)
	h := p.Strength.Hold
	r.Hold = ReportHold{number(h.Moment), number(h.EndForce), number(h.Rib.Stress), number(h.RibUse), number(h.RibBad), number(h.Rib.Movement),
		number(h.Peel.Stress), number(h.Peel.Use), number(h.Peel.Length)}
	for _, g := range p.Lay.Sheets {
		for _, at := range g.Layout.Placed {
			r.Sheets = append(r.Sheets, ReportPlaced{g.From.Stock.ID, number(g.From.Thickness), at.Sheet + 1, g.Parts[at.Piece].ID, number(at.X), number(at.Y), deg(at.Turn)})
		}
	}
	return r
}

func deg(rad float64) number { return number(rad * 180 / math.Pi) }

func reportLaw(p *plan.Plan) ReportLaw {
	t := p.Try()
	pitch := t.Most
	if pitch <= 0 {
		return ReportLaw{Skin: number(t.Law.Skin())}
	}
	l := t.Law
	return ReportLaw{number(l.Skin()), number(pitch), number(l.Softening(pitch)), number(l.Stiffness(pitch)), number(l.Neutral(pitch)),
		number(l.HingeLength(pitch)), number(l.MouthLever(pitch)), deg(l.ClosingAngle(pitch))}
}

func reportPanel(p *plan.Plan) ReportPanel {
	out := ReportPanel{
		Length: number(p.Outline.Length), Overrun: number(p.Panel.Overrun), Mirrored: p.Panel.Mirror, Outline: outlineText(p.Panel.Flat.Outline),
		MarkFrom: number(p.Supports.Mark.From), MarkTo: number(p.Supports.Mark.To), FreeEnd: number(p.Supports.TipEnd.Free), EndGap: number(p.Supports.TipEnd.Gap),
		FreeFoot: number(p.Supports.FootEnd.Free), FootGap: number(p.Supports.FootEnd.Gap),
	}
	span, rise := p.Measure()
	out.Span, out.Rise = number(span), number(rise)
	at := func(q plane.Point) [2]float64 { return [2]float64{micro(q.X), micro(q.Y)} }
	for _, s := range p.Panel.Flat.Segments {
		out.Lines = append(out.Lines, ReportSegment{s.Score, at(s.A), at(s.B), at(s.RunA), at(s.RunB)})
	}
	return out
}

func micro(v float64) float64 { return math.Round(v*1e6) / 1e6 }

func outlineText(r plane.Region) []string {
	var out []string
	for _, p := range r.Paths() {
		out = append(out, p.Apply(plane.Identity()).String())
	}
	return out
}
