package form

import (
	"math"

	"springrib/internal/surface"
)

// Hinge is the line about which a strip turns at one ruling, in space, where everything
// before it is folded.
type Hinge struct {
	At   surface.Vec
	Axis surface.Vec // unit
	Turn float64     // by how much, right-handed about Axis, once the fold is whole
}

// turn returns the frame turned about the hinge by a share of its fold.
func (h Hinge) turn(f surface.Frame, share float64) surface.Frame {
	a := h.Turn * share
	return surface.Frame{
		Origin: h.At.Add(rotate(f.Origin.Sub(h.At), h.Axis, a)),
		U:      rotate(f.U, h.Axis, a),
		V:      rotate(f.V, h.Axis, a),
		N:      rotate(f.N, h.Axis, a),
	}
}

// hinge returns the line about which the flat after a ruling turns, f being the frame
// of the flat before it.
func hinge(f surface.Frame, r surface.Ruling) Hinge {
	a := f.At(r.Flat[0].X, r.Flat[0].Y, r.Height[0])
	b := f.At(r.Flat[1].X, r.Flat[1].Y, r.Height[1])
	axis := b.Sub(a).Unit()
	// A positive turn takes the next flat away from the panel's side. Which way round
	// the axis that is depends on the handedness of the frame, and on nothing else: a
	// ruling may lean any way in the flat panel.
	turn := -r.Turn
	if f.U.Cross(f.V).Dot(f.N) > 0 {
		turn = r.Turn
	}
	return Hinge{At: a, Axis: axis, Turn: turn}
}

// Before returns the frame of the flat before a ruling whose flat after it lies at f.
func Before(f surface.Frame, r surface.Ruling) surface.Frame { return hinge(f, r).turn(f, -1) }

// Hinges returns the hinge of every ruling of the strip.
func Hinges(s surface.Strip) []Hinge {
	out := make([]Hinge, len(s.Rulings))
	f := s.Start
	for i, r := range s.Rulings {
		out[i] = hinge(f, r)
		f = out[i].turn(f, 1)
	}
	return out
}

// Partly returns the frame of every flat while the panel is being bent, as in the
// glue-up from the foot toward the tip: the first of folded rulings are whole, a last
// share of one is under way, and the panel after it is still straight. A number below
// zero is none, one above all is all.
func Partly(s surface.Strip, folded float64) []surface.Frame {
	frames := make([]surface.Frame, 0, len(s.Rulings)+1)
	f := s.Start
	frames = append(frames, f)
	for i, r := range s.Rulings {
		if share := math.Min(1, folded-float64(i)); share > 0 {
			f = hinge(f, r).turn(f, share)
		}
		frames = append(frames, f)
	}
	return frames
}
