package view

import (
	"math"
	"slices"
	"strconv"

	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/plane"
	"springrib/internal/section"
)

// curveGrips returns the handles of the wanted curve and of the section at a far rib, in the side view.
func curveGrips(v *design.Values) []grip { return append(nearGrips(v), farGrips(v)...) }

// nearGrips returns the handles of the wanted curve itself.
func nearGrips(v *design.Values) []grip {
	c := v.Curve
	var out []grip
	var line *curve.Curve
	if c, ok := section.Wanted(*v); ok {
		line = &c
	}
	switch c.Kind {
	case design.RadiusAngle:
		out = arcGrips(v, line, radiusKnob(v), lengthKnob(v, "curve.angle", design.Angle, c.Angle, func(v *design.Values, x float64) { v.Curve.Angle = x }))
	case design.LengthRadius:
		out = arcGrips(v, line, radiusKnob(v), lengthKnob(v, "curve.length", design.Length, c.Length, func(v *design.Values, x float64) { v.Curve.Length = x }))
	case design.SpanRise:
		out = arcGrips(v, line,
			lengthKnob(v, "curve.rise", design.Length, c.Rise, func(v *design.Values, x float64) { v.Curve.Rise = x }),
			lengthKnob(v, "curve.span", design.Length, c.Span, func(v *design.Values, x float64) { v.Curve.Span = x }))
	case design.Chain:
		out = pieceGrips(v, line)
	case design.Points:
		out = pointGrips(v)
	case design.Box:
		// A box stands on y = 0, an oval lies about it.
		return append(sizeGrips(v, c.BoxHeight/2, c.BoxHeight, 1), cornerGrip(v))
	case design.DrawnRound, design.Cone, design.ConePart:
		return nil
	case design.Oval:
		return sizeGrips(v, 0, c.BoxHeight/2, 2)
	}
	return append(out, endGrips(v, line)...)
}

// lengthKnob is a figure of the curve.
func lengthKnob(v *design.Values, path string, kind design.Kind, value float64, put func(*design.Values, float64)) knob {
	low, high := boundsOf(path)
	if path == "curve.length" {
		// Longer would go once around: the reader refuses it.
		high = math.Min(high, math.Floor(10*v.Curve.Radius*350*math.Pi/180)/10)
	}
	return knob{path: path, kind: kind, value: value, low: low, high: high, put: put}
}

func radiusKnob(v *design.Values) knob {
	k := lengthKnob(v, "curve.radius", design.Length, v.Curve.Radius, func(v *design.Values, x float64) { v.Curve.Radius = x })
	if v.Curve.Kind == design.LengthRadius {
		k.low = math.Max(k.low, math.Ceil(10*v.Curve.Length/(350*math.Pi/180))/10)
	}
	return k
}

// onCurve is a handle that stays on the wanted curve, at an arc length that follows from
// the figures. line is that curve, nil where there is none.
func onCurve(v *design.Values, line *curve.Curve, id, label string, k knob, s func(design.CurveValues) float64) grip {
	place := placeOn(s)
	var at plane.Point
	if line != nil {
		at = line.At(s(v.Curve)).P
	}
	return grip{id: id, label: label, drawing: "bent", ways: "track", knobs: []knob{k}, at: at, pull: along(v, k, place)}
}

// placeOn returns the place on the wanted curve of a design at an arc length.
func placeOn(s func(design.CurveValues) float64) func(*design.Values) (plane.Point, bool) {
	return func(v *design.Values) (plane.Point, bool) {
		line, ok := section.Wanted(*v)
		if !ok {
			return plane.Point{}, false
		}
		return line.At(s(v.Curve)).P, true
	}
}

// atHeight is a handle on the wanted curve that follows up and down alone: where it comes
// to lie to the sides is left to the curve.
func atHeight(v *design.Values, line *curve.Curve, id, label string, k knob, s func(design.CurveValues) float64) grip {
	place := placeOn(s)
	g := onCurve(v, line, id, label, k, s)
	g.ways = "y"
	up := along(v, k, func(v *design.Values) (plane.Point, bool) {
		at, ok := place(v)
		return plane.Pt(0, at.Y), ok
	})
	g.pull = func(to plane.Point) ([]float64, float64) { return up(plane.Pt(0, to.Y)) }
	return g
}

// arcGrips are the crown of an arc, which sets how tightly it bends, and its end, which
// sets how far it goes.
func arcGrips(v *design.Values, line *curve.Curve, crown, end knob) []grip {
	long := func(c design.CurveValues) float64 {
		switch c.Kind {
		case design.RadiusAngle:
			return c.Radius * c.Angle
		case design.LengthRadius:
			return c.Length
		}
		return section.ArcLength(c)
	}
	return []grip{
		atHeight(v, line, "crown", labelOf(crown.path), crown, func(c design.CurveValues) float64 { return c.Foot + long(c)/2 }),
		onCurve(v, line, "arc-end", labelOf(end.path), end, func(c design.CurveValues) float64 { return c.Foot + long(c) }),
	}
}

// pieceGrips are the end of each piece of a chain, which sets its length, and the middle
// of each bend, which sets its radius.
func pieceGrips(v *design.Values, line *curve.Curve) []grip {
	var out []grip
	upTo := func(c design.CurveValues, i int, share float64) float64 {
		s := c.Foot
		for _, p := range c.Pieces[:i] {
			s += p.Length
		}
		return s + share*c.Pieces[i].Length
	}
	for i, p := range v.Curve.Pieces {
		n, path := strconv.Itoa(i+1), "curve.pieces."+strconv.Itoa(i)
		change := func(v *design.Values, f func(*design.PieceValues)) {
			v.Curve.Pieces = slices.Clone(v.Curve.Pieces)
			f(&v.Curve.Pieces[i])
		}
		if p.Turn != design.Straight {
			k := lengthKnob(v, path+".radius", design.Length, p.Radius, func(v *design.Values, x float64) {
				change(v, func(p *design.PieceValues) { p.Radius = x })
			})
			out = append(out, onCurve(v, line, "bend "+n, "Radius of piece "+n, k, func(c design.CurveValues) float64 { return upTo(c, i, 0.5) }))
		}
		k := lengthKnob(v, path+".length", design.Length, p.Length, func(v *design.Values, x float64) {
			change(v, func(p *design.PieceValues) { p.Length = x })
		})
		out = append(out, onCurve(v, line, "piece "+n, "Length of piece "+n, k, func(c design.CurveValues) float64 { return upTo(c, i, 1) }))
	}
	return out
}

// pointGrips are the points of a smooth curve themselves.
func pointGrips(v *design.Values) []grip {
	var out []grip
	for i, xy := range v.Curve.Points {
		row := v.Curve.PointRows[i]
		n, path := strconv.Itoa(row+1), "curve.points."+strconv.Itoa(row)
		out = append(out, freeGrip("point "+n, "Point "+n, "bent", plane.Pt(xy[0], xy[1]), path+".x", path+".y",
			plane.Point{}, plane.Pt(1, 1)))
	}
	return out
}

// free is a handle that moves both ways: its figures are those of its place, seen from
// origin and stretched.
func freeGrip(id, label, drawing string, at plane.Point, pathX, pathY string, origin, stretch plane.Point) grip {
	x := (at.X - origin.X) * stretch.X
	y := (at.Y - origin.Y) * stretch.Y
	loX, hiX := boundsOf(pathX)
	loY, hiY := boundsOf(pathY)
	return grip{
		id: id, label: label, drawing: drawing, ways: "xy", at: at,
		knobs: []knob{{path: pathX, kind: design.Length, value: x, low: loX, high: hiX}, {path: pathY, kind: design.Length, value: y, low: loY, high: hiY}},
		pull: func(to plane.Point) ([]float64, float64) {
			return []float64{(to.X - origin.X) * stretch.X, (to.Y - origin.Y) * stretch.Y}, 1
		},
	}
}

// straight is a handle whose one figure grows along a direction from an origin, by stretch
// for a millimetre.
func straightGrip(id, label, drawing, ways string, at plane.Point, path string, origin, dir plane.Point, stretch float64) grip {
	low, high := boundsOf(path)
	figure := func(p plane.Point) float64 { return p.Sub(origin).Dot(dir) * stretch }
	return grip{
		id: id, label: label, drawing: drawing, ways: ways, at: at,
		knobs: []knob{{path: path, kind: design.Length, value: figure(at), low: low, high: high}},
		pull:  func(to plane.Point) ([]float64, float64) { return []float64{figure(to)}, 1 / stretch },
	}
}

// sizeGrips are the right side and the top of a closed shape that stands about x = 0: the
// heights of both, and by how much the shape grows for a millimetre that its top rises.
func sizeGrips(v *design.Values, middle, top, stretch float64) []grip {
	return []grip{
		straightGrip("width", labelOf("curve.boxWidth"), "bent", "x", plane.Pt(v.Curve.BoxWidth/2, middle), "curve.boxWidth", plane.Pt(0, middle), plane.Pt(1, 0), 2),
		straightGrip("height", labelOf("curve.boxHeight"), "bent", "y", plane.Pt(0, top), "curve.boxHeight", plane.Point{}, plane.Pt(0, 1), stretch),
	}
}

// cornerGrip is the middle of the upper right corner of a box.
func cornerGrip(v *design.Values) grip {
	c := v.Curve
	tip, in := plane.Pt(c.BoxWidth/2, c.BoxHeight), plane.Pt(-1, -1).Unit()
	stretch := 1 / (math.Sqrt2 - 1) // a rounding of r lies r (sqrt 2 - 1) inside the corner
	g := straightGrip("corner", labelOf("curve.corner"), "bent", "track", tip.Add(in.Mul(c.Corner/stretch)), "curve.corner", tip, in, stretch)
	g.knobs[0].high = math.Min(g.knobs[0].high, math.Floor(10*math.Min(c.BoxWidth, c.BoxHeight)/2)/10)
	return g
}

// endGrips are the lengths of the straight foot and tip, where there are any.
func endGrips(v *design.Values, line *curve.Curve) []grip {
	c := v.Curve
	var out []grip
	if line == nil {
		return nil
	}
	if c.Foot > 0 {
		k := lengthKnob(v, "curve.foot", design.Length, c.Foot, func(v *design.Values, x float64) { v.Curve.Foot = x })
		// A curve through points stays where it is and its foot grows outward; any other
		// begins with its foot.
		s := func(c design.CurveValues) float64 { return c.Foot }
		if c.Kind == design.Points {
			s = func(design.CurveValues) float64 { return 0 }
		}
		out = append(out, onCurve(v, line, "foot", labelOf("curve.foot"), k, s))
	}
	if c.Tip > 0 {
		long := line.Length() - c.Foot - c.Tip
		k := lengthKnob(v, "curve.tip", design.Length, c.Tip, func(v *design.Values, x float64) { v.Curve.Tip = x })
		out = append(out, onCurve(v, line, "tip", labelOf("curve.tip"), k, func(c design.CurveValues) float64 { return c.Foot + long + c.Tip }))
	}
	return out
}
