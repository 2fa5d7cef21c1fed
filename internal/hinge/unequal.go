package hinge

import (
	"fmt"
	"math"

	"springrib/internal/solve"
)

// Constants of the land that a deeper score takes from a shallower neighbour, fitted for
// this project to 41 finite-element strips of unequal skins, of which
// testdata/reference/unequal-depth-fe.csv is not one (4.2 and 2.05 there, rounded).
const (
	takeMost = 4.0
	takeFall = 2.0
)

// Unequal returns how the scores of one strip share its turning under one moment, where
// they have different skins: laws are those of the scores from one end to the other, gaps
// the spacings between them, mm, and beyond both ends the sheet runs on plain. The shares
// are those of the scores' own rotation, without the bending of the lands, and add up to 1.
//
//	c_i = (l_i/t)(eta_i^-3 - 1),   l_i the mean of both sides:   infinity at an end, else
//	l(p) (1 + tanh((4/u) exp(-2u) ln(h_j/h_i))),   u = p/(h Lam N), h = (h_i+h_j)/2
//
// Neighbours that lie close share the land between them: the deeper one takes more of it.
// For skins within 20 % of each other and u >= 0.8 the share of the softest score is
// within 2 % and that of any other within 6 % of finite elements; without the second
// factor within 7 and 15 %, and 27 % too little below that. From u = 1.6 on it makes no
// difference. The strain of each score follows from its share as usual (see Fold).
func Unequal(laws []Law, gaps []float64) []float64 {
	if len(laws) == 0 || len(gaps) != len(laws)-1 {
		panic(fmt.Sprintf("hinge: %d scores with %d spacings between them", len(laws), len(gaps)))
	}
	shares := make([]float64, len(laws))
	sum := 0.0
	for i, l := range laws {
		left, right := l.hinge(math.Inf(1)), l.hinge(math.Inf(1))
		if i > 0 {
			left = l.hinge(l.over(gaps[i-1])) * l.takes(laws[i-1], gaps[i-1])
		}
		if i < len(gaps) {
			right = l.hinge(l.over(gaps[i])) * l.takes(laws[i+1], gaps[i])
		}
		shares[i] = (left + right) / 2 * l.cube / l.web
		sum += shares[i]
	}
	for i := range shares {
		shares[i] /= sum
	}
	return shares
}

// takes is the factor on the hinge length of a score with a neighbour at distance p.
func (l Law) takes(neighbour Law, p float64) float64 {
	skin := (l.Skin() + neighbour.Skin()) / 2
	u := p / (skin * l.lam * math.Sqrt((1+l.rho)/2))
	return 1 + solve.Tanh(takeMost/u*solve.Exp(-takeFall*u)*math.Log(neighbour.Skin()/l.Skin()))
}
