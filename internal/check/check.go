// Package check is the table of rules that a finished plan is held to. Each rule has
// an id, says why it is there and where it comes from, and returns findings with a
// place and numbers. The smallest change that would do is looked up in package remedy.
package check

import (
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/remedy"
)

// Rule is one row of the table.
type Rule struct {
	ID     string // also the id of its findings, or their common first part
	Why    string
	Source string
	Find   func(p *plan.Plan) []finding.Finding
}

// Run returns all findings of a plan: those of its own stages, then those of the
// rules, graver first. Rules that need what the plan did not come to are left out.
func Run(p *plan.Plan) []finding.Finding {
	out := Judged(p)
	remedy.Mend(p, out)
	return out
}

// Judged is Run without what would mend the findings, which takes longer to find than they do.
func Judged(p *plan.Plan) []finding.Finding {
	out := append([]finding.Finding{}, p.Findings...)
	if p.Drawn {
		for _, r := range Rules() {
			out = append(out, r.Find(p)...)
		}
	}
	finding.Sort(out)
	return out
}

// Tried returns all findings of a design that is read and planned, with the remedies that
// mend where that is tried (see remedy.Tried).
func Tried(doc design.Document, p *plan.Plan) []finding.Finding {
	return remedy.Tried(doc, append(NothingWorks(doc, p), Run(p)...), Judged)
}

// Rules returns the table, in the order in which a maker would look.
func Rules() []Rule {
	practice := "common practice, no source"
	return []Rule{
		{"must-not-laser", "Chlorinated and unknown plastics give off corrosive and poisonous gas under a beam.",
			"Laser-generated air contaminants: university safety guidance; makers' own bans on PVC", mustNotLaser},
		{"cuts-through", "A pass deeper than the sheet leaves no skin.", "geometry", cutsThrough},
		{"kerf-pinches", "Once the mouths are shut the panel stiffens several-fold and the strain doubles.",
			"finite elements with contact, testdata/reference/large-rotation-fe.csv", pinches},
		{"strain-over", "The skin breaks when its outer strain passes what the sheet stands.",
			"law of a scored panel; strain at rupture from a bend strip or a handbook", strain},
		{"may-fail", "Scores are not equally deep, nor is a sheet equally strong all over: the weakest of many decides.",
			"package chance: weakest link (W. Weibull, 1939) over the scores, held to simulation", mayFail},
		{"round-side-bottom", "On the round side the bottom of a score is pulled, and nobody has measured how much it stands.",
			"no trustworthy toughness data exist for these sheets", roundSide},
		{"skin-thin", "A very thin skin tears when the sheet is lifted or the char is brushed out.", practice, skinThin},
		{"land-narrow", "Between two scores sound material must remain.", practice, landNarrow},
		{"flats-visible", "Wide flats show, and stand off the rib edge.", "geometry: R(sec(theta/2)-1)", flats},
		{"count-missed", "A number of scores that the curve can't take must not pass for the one asked for.", "geometry", countMissed},
		{"folds-visible", "A sharper fold shows through the finish.", practice, folds},
		{"does-not-fit", "Folded up again from the file alone, the panel must meet the rib.", "refold check", fits},
		{"panel-length", "A panel longer than its curve runs on straight; a shorter one leaves a bend without panel.", "geometry", length},
		{"score-grazes", "A score along an edge splits it off.", practice, grazes},
		{"overrun-reenters", "A score that runs out past a narrow gap would score the other side.", "geometry", reenters},
		{"short-hot-line", "Where the head has not reached its speed it burns deeper.", "v^2/(2a), uniform acceleration", hotLines},
		{"sheet-beside", "One sheet has one thickness.", "geometry", sheetBeside},
		{"cuts-shared", "A line that two parts share is cut twice: wider than planned, and charred.", "geometry", cutsShared},
		{"kerf", "A hole no wider than the kerf is cut away; an outline that can't be moved is cut half a kerf small, one that crosses itself falls apart.", "geometry", kerfLost},
		{"corner-round", "A square tenon needs square corners, which a round tool leaves round.", "geometry: r/sin(a/2)-r", roundCorners},
		{"rib-wide", "A rib wider than the panel sticks out.", "geometry", ribWide},
		{"hole-over-rib", "Glue needs ground: a hole over a rib takes it away.", "geometry", holeOverRib},
		{"ring-wedge", "A square edge meets a leaning panel at one face only.", "geometry: t sin(lean); 0.5 mm is common practice, no source", ringWedge},
		{"scores-stop", "Two scores that run into each other leave nothing between them.", practice, scoresStop},
		{"rib-leans-both", "A square edge can't follow a panel that leans both ways.", "geometry: t tan(lean)", leansBoth},
		{"rim-too-narrow", "Among scores ever closer the skin still bends as a plain web.", "beam theory: half the skin over the radius", rimTooNarrow},
		{"cone-by-saw", "A fence sets parallel scores, and those of a cone run together.", "geometry", coneBySaw},
		{"rib-weak", "The bent panel pulls on the rib.", "6M/(b d^2), beam theory", ribWeak},
		{"rib-soft", "A soft rib lets the curve open when the clamps come off.", "beam theory; 0.5 mm is common practice, no source", ribSoft},
		{"glue-peels", "The panel's pull ends in peel at the end of the glue.", "beam on an elastic bed, upper bound; bond at its low end", peels},
		{"no-solid", "Four elastic figures that no solid has together give no answer.", "positive strain energy of an orthotropic solid", noSolid},
		{"glue-pulls", "Where the curve changes, the panel pulls at the middle of the glue line.",
			"second derivative of the panel's moment; beam on an elastic bed (M. Hetenyi, Beams on Elastic Foundation, 1946)", gluePulls},
		{"held-strain", "A plastic glued in its bend crazes under a strain that it does not stand for good.", "long-term design stress over the modulus, low authority", heldStrain},
		{"caul-left-out", "A caul needs room outside the panel.", "geometry", caulHits},
		{"end-gap", "Past the ribs the panel runs straight and stands off.", "geometry; s^2/(2R) for a short end", endGap},
		{"wrong-face", "Scores and ribs show on the face they are on.", practice, wrongFace},
		{"mark-turned", "A mark on the unscored face needs the sheet turned over.", "geometry", markTurned},
		{"along-grain", "A score along the face grain splits.", practice, alongGrain},
		{"glue-line", "A skin that ends at a glue line has an uneven bottom, and the glue resists the beam.", practice, glueLine},
		{"not-measured", "A thickness or depth from a table is not this sheet's.", "depth +-0.1 mm moves the stiffness by about a third", notMeasured},
		{"outside-law", "The law was checked on a range of shapes.", "testdata/reference/scored-cell-fe.csv", domain},
		{"passes-missing", "Only measured passes can be planned with.", "the machine's list of depths", passesMissing},
	}
}
