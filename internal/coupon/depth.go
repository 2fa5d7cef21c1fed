package coupon

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"springrib/internal/finding"
	"springrib/internal/hinge"
	"springrib/internal/solve"
	"springrib/internal/unit"
)

const (
	// lawSigma is how far the law may be off in ln EI of a scored tongue: rms 1.2 %
	// against finite elements (package hinge), and as much for scores that are spread
	// over a tongue of finite length.
	lawSigma = 0.017
	// plainSigma is the same for a tongue without scores, whose width was cut to a few
	// hundredths of a millimetre.
	plainSigma = 0.005
	// caliperSigma is of the skin of a snapped tongue: torn fibre, char in the groove,
	// and the stiff face that makes the skin that bends differ from the one that
	// measures (common practice, no source).
	caliperSigma = 0.05
	// thicknessSigma is the least that a thickness can be trusted to, mm.
	thicknessSigma = 0.02
	// oddSigmas is where a reading is pointed out.
	oddSigmas = 2.5
)

// depthFit is the joint fit of the sag test. Its parameters are ln t, ln E, the ln of
// the factor on EZ and GXZ, ln(h/(t-h)) of each number of passes measured, and how much
// more skin each spot of the bed leaves, where there are several (see spots.go); last, where
// it is not known, by how much the faces are stiffer than was believed. A deeper skin is
// more of a face, so skins that were both measured and bent tell that.
type depthFit struct {
	was     Belief
	passes  []int
	spots   []string
	apart   float64 // standard deviation of the skin over the spots, mm, as believed
	tongues []tongue
	results []TongueResult
	skins   []Reading // caliper readings
	// skinIndex are the numbers of those.
	skinIndex []int
}

func newDepthFit(was Belief, tongues []tongue, results []TongueResult) depthFit {
	return depthFit{was: was, tongues: tongues, results: results}
}

func (d depthFit) index(passes int) int {
	for k, p := range d.passes {
		if p == passes {
			return 3 + k
		}
	}
	return -1
}

func (d depthFit) names() []string {
	out := []string{"ln t", "ln E", "ln softness"}
	for _, p := range d.passes {
		out = append(out, fmt.Sprintf("logit skin %d", p))
	}
	for _, s := range d.spots {
		out = append(out, spotName+s)
	}
	if d.was.SpreadFace > 0 {
		out = append(out, faceName)
	}
	return out
}

const faceName = "face"

// passesOf reads back what names wrote.
func passesOf(names []string) []int {
	var out []int
	for _, n := range names[3:] {
		if n == faceName || strings.HasPrefix(n, spotName) {
			continue
		}
		p, err := strconv.Atoi(strings.TrimPrefix(n, "logit skin "))
		if err != nil {
			panic("coupon: " + n)
		}
		out = append(out, p)
	}
	return out
}

// start begins at what was believed, and a skin of a third where nothing was.
func (d depthFit) start() []float64 {
	x := []float64{math.Log(d.was.Thickness.Value), math.Log(d.was.Material.E), 0}
	for _, p := range d.passes {
		share := 1.0 / 3
		if d.was.deepEnough(p) {
			share = d.was.Skins[p-1].Value / d.was.Thickness.Value
		}
		x = append(x, math.Log(share/(1-share)))
	}
	return append(x, make([]float64, len(d.names())-len(x))...)
}

// skin is held between a thousandth of the thickness and the rest, where a fit may
// wander on its way.
func (d depthFit) skin(x []float64, passes int) float64 {
	e := solve.Exp(-math.Max(-7, math.Min(7, x[d.index(passes)])))
	return solve.Exp(x[0]) / (1 + e)
}

func (d depthFit) material(x []float64, narrow bool) hinge.Material {
	m := d.was.Material
	m.E, m.Narrow = solve.Exp(x[1]), narrow
	if !m.Isotropic() {
		// The factor is on the ratios to E, so that a stiffer board is not taken to be
		// softer through its thickness for it.
		// No sheet is stiffer through than along.
		f := math.Min(solve.Exp(x[2])*m.E/d.was.Material.E, math.Max(1, m.E/m.EZ))
		m.EZ *= f
		m.GXZ *= f
	}
	if d.was.SpreadFace > 0 {
		m.Face = math.Min(math.Max(m.Face+x[len(x)-1], hinge.LeastFace), hinge.MostFace)
	}
	return m
}

func (d depthFit) law(x []float64, passes int, narrow bool) hinge.Law {
	return d.lawAt(x, passes, d.skin(x, passes), narrow)
}

func (d depthFit) lawAt(x []float64, passes int, h float64, narrow bool) hinge.Law {
	t := solve.Exp(x[0])
	return hinge.New(d.material(x, narrow), hinge.Score{Thickness: t, Depth: t - h, Width: d.was.Width.Value, Bottom: d.was.Bottom})
}

// model is EI of a tongue.
func (d depthFit) model(x []float64, g tongue) float64 {
	if g.passes == 0 {
		t := solve.Exp(x[0])
		return g.width * solve.Exp(x[1]) * t * t * t / 12
	}
	return g.width * d.lawAt(x, g.passes, d.skinOn(x, g.passes, g.spot), true).Stiffness(g.spacing)
}

// residuals: what was believed of t, E and the softness; each tongue; each caliper
// reading. A weak belief of one in a hundred to ninety-nine of the thickness keeps a
// skin that nothing was read of from running away.
func (d depthFit) residuals(x, r []float64) {
	was := d.was
	tSigma := math.Max(was.Thickness.Sigma, thicknessSigma) / was.Thickness.Value
	r[0] = (x[0] - math.Log(was.Thickness.Value)) / tSigma
	r[1] = (x[1] - math.Log(was.Material.E)) / was.SpreadE
	r[2] = x[2] / was.SpreadZ
	k := 3
	for i := range d.passes {
		r[k] = x[3+i] / 4.6
		k++
	}
	for i := range d.spots {
		r[k] = x[3+len(d.passes)+i] / d.apart
		k++
	}
	for i, g := range d.tongues {
		r[k] = (math.Log(d.model(x, g)) - math.Log(d.results[i].EI)) / d.results[i].SigmaLn
		k++
	}
	for _, s := range d.skins {
		r[k] = (d.skinOn(x, s.Passes, s.Spot) - s.Value) / caliperSigma
		k++
	}
	if was.SpreadFace > 0 {
		r[k] = x[len(x)-1] / was.SpreadFace
	}
}

// learnDepth fits the sag test and the caliper readings. order numbers the readings.
func (l *Learned) learnDepth(sag []Reading, sagIndex []int, skins []Reading, skinIndex []int) {
	d := newDepthFit(l.Belief, nil, nil)
	plain := false
	for _, g := range gatherTongues(sag, sagIndex, l.weightOf) {
		res, f, ok := g.stiffness(l.Units)
		if ok {
			f, ok = l.plausible(g, res)
		}
		if f != nil {
			l.Findings = append(l.Findings, *f)
		}
		if !ok {
			continue
		}
		own := lawSigma
		if g.passes == 0 {
			own, plain = plainSigma, true
		}
		res.SigmaLn = math.Hypot(res.SigmaLn, own)
		d.tongues, d.results = append(d.tongues, g), append(d.results, res)
		d.addPasses(g.passes)
	}
	d.skinIndex = skinIndex
	for _, s := range skins {
		d.skins = append(d.skins, s)
		d.addPasses(s.Passes)
	}
	if len(d.tongues)+len(d.skins) == 0 {
		return
	}
	d.findSpots()
	if len(d.tongues) > 0 && !plain {
		l.Findings = append(l.Findings, say(IDNoControl, finding.Note, d.results[0].First, nil,
			"There is no tongue without scores from this blank: the stiffness of the sheet is only as sure as the handbook, and so is the skin."))
	}
	fit := solve.LeastSquares(d.residuals, d.start(), d.rows())
	over := d.overBed(fit)
	if over.N > 0 {
		// As far apart as they came out: the mean over the bed is the surer for it.
		d.apart = math.Max(spotLeast, over.Value)
		fit = solve.LeastSquares(d.residuals, fit.X, d.rows())
	}
	if f := d.contradiction(fit); f != nil {
		l.Findings = append(l.Findings, *f)
		return
	}
	l.take(d, fit, plain)
	l.OverBed = over
	l.takeSpots(d, fit)
	l.pointOut(d, fit, skinIndex)
}

// addPasses keeps the numbers of passes in growing order.
func (d *depthFit) addPasses(p int) {
	if p == 0 {
		return
	}
	at := len(d.passes)
	for i, q := range d.passes {
		if q == p {
			return
		}
		if q > p {
			at = i
			break
		}
	}
	d.passes = append(d.passes, 0)
	copy(d.passes[at+1:], d.passes[at:])
	d.passes[at] = p
}

// plausible refuses a tongue that no such sheet could be.
func (l *Learned) plausible(g tongue, res TongueResult) (*finding.Finding, bool) {
	t := l.Thickness.Value
	sheet := g.width * l.Material.E * t * t * t / 12
	ratio := res.EI / sheet
	low, high := 1.0/3, 3.0
	if g.passes > 0 {
		low = 1e-5 // a skin of 2 % of the thickness
	}
	if ratio >= low && ratio <= high {
		return nil, true
	}
	f := say(IDUnits, finding.Warn, res.First, map[string]float64{"factor": ratio},
		"This tongue would be %.3g times as stiff as the sheet is without scores. Check the units of length, width, weight and drop; it is not used.", ratio)
	return &f, false
}

// contradiction is a sag test whose parts can't be true together: more passes that left
// more skin, or a fit far worse than its errors explain.
func (d depthFit) contradiction(fit solve.Fit) *finding.Finding {
	first := -1
	if len(d.results) > 0 {
		first = d.results[0].First
	}
	for i := 1; i < len(d.passes); i++ {
		a, b := d.skin(fit.X, d.passes[i-1]), d.skin(fit.X, d.passes[i])
		spread := math.Hypot(d.skinSigma(fit, d.passes[i-1]), d.skinSigma(fit, d.passes[i]))
		if b > a+2*spread {
			f := say(IDContradicts, finding.Warn, first, map[string]float64{"skin": b, "fewer": a},
				"%s %s and %d leave %s: more passes can't leave more. Were two tongues swapped? The skins stay as they were.", passesLeave(d.passes[i-1]), unit.LengthFine(a, d.was.Units), d.passes[i], unit.LengthFine(b, d.was.Units))
			return &f
		}
	}
	if dof := len(d.tongues) + len(d.skins); fit.Sum > 25*float64(dof)+25 || !fit.Converged {
		f := say(IDContradicts, finding.Warn, first, map[string]float64{"misfit": math.Sqrt(fit.Sum / float64(dof))},
			"The tongues and the caliper can't all be right: they lie %.0f times further apart than reading errors explain. The skins stay as they were.", math.Sqrt(fit.Sum/float64(dof)))
		return &f
	}
	return nil
}

// skinSigma is the standard deviation of a skin, mm.
func (d depthFit) skinSigma(fit solve.Fit, passes int) float64 {
	g := gradient(func(x []float64) float64 { return d.skin(x, passes) }, fit.X)
	return math.Sqrt(variance(fit.Covariance, g))
}

// misfit is how many times further apart what was read of a number of passes lies than
// its errors explain, at least 1: the square root of the sum of squares over the number of
// readings to spare (R. T. Birge, Phys. Rev. 40 (1932) 207).
func (d depthFit) misfit(fit solve.Fit, passes int) float64 {
	r := make([]float64, d.rows())
	d.residuals(fit.X, r)
	r = r[3+len(d.passes)+len(d.spots):]
	sum, n := 0.0, 0
	take := func(off float64) { sum, n = sum+off*off, n+1 }
	for i, g := range d.tongues {
		if g.passes == passes {
			take(r[i])
		}
	}
	for i, s := range d.skins {
		if s.Passes == passes {
			take(r[len(d.tongues)+i])
		}
	}
	return math.Max(1, math.Sqrt(sum/math.Max(1, float64(n-1))))
}

// take makes the fit the new belief.
func (l *Learned) take(d depthFit, fit solve.Fit, plain bool) {
	x := fit.X
	for _, p := range d.passes {
		for len(l.Skins) < p {
			l.Skins = append(l.Skins, Measured{})
		}
		n := 0
		for _, g := range d.tongues {
			if g.passes == p {
				n += len(g.drops)
			}
		}
		for _, s := range d.skins {
			if s.Passes == p {
				n++
			}
		}
		l.Skins[p-1] = Measured{d.skin(x, p), d.skinSigma(fit, p) * d.misfit(fit, p), n}
	}
	narrow := l.Material.Narrow
	if len(d.tongues) > 0 {
		l.Material = d.material(x, narrow)
		l.Softness = Measured{solve.Exp(x[2]), fit.Sigma(2), len(d.tongues)}
		l.SpreadZ = fit.Sigma(2)
		if plain {
			l.SpreadE = fit.Sigma(1)
		}
		if l.SpreadFace > 0 {
			l.SpreadFace = fit.Sigma(len(x) - 1)
		}
		l.Thickness.Value, l.Thickness.Sigma = solve.Exp(x[0]), fit.Sigma(0)*solve.Exp(x[0])
	}
	l.Names, l.Covariance = d.names(), fit.Covariance
	for i, g := range d.tongues {
		res := d.results[i]
		res.Fitted = d.model(x, g)
		l.Tongues = append(l.Tongues, res)
	}
}

// pointOut names what lies far from the fit, and keeps it.
func (l *Learned) pointOut(d depthFit, fit solve.Fit, skinIndex []int) {
	r := make([]float64, d.rows())
	d.residuals(fit.X, r)
	r = r[3+len(d.passes)+len(d.spots):]
	for i, res := range d.results {
		if math.Abs(r[i]) > oddSigmas {
			l.Findings = append(l.Findings, say(IDOutlier, finding.Note, res.First, map[string]float64{"sigmas": r[i]},
				"This tongue lies %.1f times its error from what the others say. It is used all the same; read it again.", math.Abs(r[i])))
		}
	}
	for i := range d.skins {
		s, off := &d.skins[i], r[len(d.results)+i]
		if math.Abs(off) <= oddSigmas {
			continue
		}
		all := d.skinOn(fit.X, s.Passes, s.Spot)
		own, others := unit.LengthFine(s.Value, l.Units), unit.LengthFine(all, l.Units)
		f := say(IDStiffFaces, finding.Note, skinIndex[i], map[string]float64{"sigmas": off, "caliper": s.Value, "bends": all},
			"The snapped tongue measures %s, but the skin bends as if it were %s: char in the groove, faces unlike the handbook's, or a wrong reading. Both are used.", own, others)
		if !d.bends(s.Passes) {
			f.ID = IDOutlier
			f.Text = fmt.Sprintf("This tongue measures %s, and all together %s. All are used, and the skin is known the less for it; measure it again or leave it out.", own, others)
		}
		l.Findings = append(l.Findings, f)
	}
}

// bends tells whether a tongue of that many passes was hung.
func (d depthFit) bends(passes int) bool {
	for _, g := range d.tongues {
		if g.passes == passes {
			return true
		}
	}
	return false
}
