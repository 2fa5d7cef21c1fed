package section_test

import (
	"fmt"

	"springrib/internal/design"
	"springrib/internal/section"
)

// The outer face of a panel 3 mm thick follows an arc of 200 mm; the rib lies on the hollow side.
func ExampleNew() {
	c := design.CurveValues{Kind: design.LengthRadius, Line: design.Outer, Radius: 200, Length: 300, Foot: 30, Tip: 20}
	line, _, _ := section.Line(&c, 0)
	s, said, ok := section.New(section.Task{
		Line: line, Curve: &c, Sheet: &design.SheetValues{T: 3}, ScoredFace: design.Hollow, RibSide: design.Hollow,
	})
	k, _ := s.Edge.Tightest()
	fmt.Printf("%v: radius %.0f mm, straights of %.0f and %.0f mm, scored towards the rib: %v; to say: %d\n", ok, 1/k, s.Foot(), s.Tip(), s.Towards, len(said))
	// Output: true: radius 197 mm, straights of 30 and 20 mm, scored towards the rib: true; to say: 0
}
