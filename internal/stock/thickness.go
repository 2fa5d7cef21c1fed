package stock

import (
	"math"
	"strings"
)

// Material is the name without a thickness: "MDF" of "MDF 3 mm".
func (s Stock) Material() string {
	at := strings.Index(s.Name, " mm")
	if at < 0 {
		return s.Name
	}
	return s.Name[:strings.LastIndex(s.Name[:at], " ")] + s.Name[at+len(" mm"):]
}

// Choices returns every stock, and after those of one material that material in any
// thickness, in the order in which a list should show them.
func Choices() []Stock {
	all := table()
	var out []Stock
	first := all[0]
	for i, s := range all {
		out = append(out, s)
		if i+1 == len(all) || all[i+1].Material() != s.Material() {
			out = append(out, anyThickness(first))
			first = all[min(i+1, len(all)-1)]
		}
	}
	return out
}

// anyThickness is a stock's material without a thickness by name: it has to be measured.
func anyThickness(s Stock) Stock {
	id, _, _ := strings.Cut(s.ID, "-")
	s.ID, s.Name, s.Unsized = id, s.Material(), true
	return s
}

// Of returns what is known of the material of s in a sheet t mm thick. A sheet within a
// quarter of the named thickness is s itself. Of others the figures are those of the thickness
// class, where a standard has classes, and the plies those usual for that thickness; what
// no source tells apart by thickness stays.
func (s Stock) Of(t float64) Stock {
	if n := s.Thickness.Value; !s.Unsized && t >= 0.8*n && t <= 1.25*n {
		return s
	}
	id, name := s.ID, s.Material()
	switch {
	case strings.HasPrefix(id, "mdf"):
		s = mdfOf(t)
	case strings.HasPrefix(id, "birch"):
		s = birch(id, name, t, evenPlies(t, 1.4), 0.4)
	case strings.HasPrefix(id, "basswood"):
		s = basswoodOf(evenPlies(t, 1))
	}
	s.ID, s.Name = id, name
	s.Thickness = fig(t, 0.9*t, 1.1*t, practice, Practice)
	return s
}

// evenPlies is an odd number of plies, three at least, each about veneer thick, but for the
// faces, which are sanded by a fifth. Birch: 4 mm has 3 plies, 6.5 mm 5, 9 mm 7, 12 mm 9, 18 mm
// 13, of 1.4 mm with faces of 1.1 (Handbook of Finnish Plywood, 2007, from memory, confidence high).
func evenPlies(t, veneer float64) []float64 {
	const face = 1.1 / 1.4
	n := max(3, 2*int(math.Round((t/veneer-1)/2))+1)
	inner := t / (float64(n-2) + 2*face)
	plies := make([]float64, n)
	for i := range plies {
		plies[i] = inner
	}
	plies[0], plies[n-1] = face*inner, face*inner
	return plies
}

// mdfOf lowers what the standard asks less of in thicker board: EN 622-5:2009, Table 3,
// general purpose boards for dry conditions, bending strength 23, 22, 20, 18 N/mm², modulus 2700, 2500, 2200,
// 2100, internal bond .65, .60, .55, .55 for boards up to 9, 12, 19 and 30 mm thick; from
// memory, confidence high.
func mdfOf(t float64) Stock {
	s := mdf("mdf", "MDF", t, fig(1.15, 1, 1.3, faces, Computed))
	if t < 4.5 {
		s.Face = thinFaces
	}
	switch low, e, bond := &s.MORAlong.Low, &s.EAlong.Low, &s.InternalBond.Value; {
	case t > 19:
		*low, *e, *bond = 18, 2100, 0.55
	case t > 12:
		*low, *e, *bond = 20, 2200, 0.55
	case t > 9:
		*low, *e, *bond = 22, 2500, 0.60
	}
	return s
}
