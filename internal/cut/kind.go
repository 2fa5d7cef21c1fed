package cut

import "fmt"

// Kinds returns the kinds in cutting order.
func Kinds() []Kind { return []Kind{Score, Mark, Inner, Outer} }

// String returns the short ASCII word for k that files use as an id.
func (k Kind) String() string {
	switch k {
	case Score:
		return "score"
	case Mark:
		return "mark"
	case Inner:
		return "inner-cuts"
	case Outer:
		return "outer-cuts"
	}
	panic(fmt.Sprintf("cut: no kind %d", uint8(k)))
}

// Name returns the name an operation of kind k has until the person changes it. It
// starts with its place in the cutting order, since some programs sort by name.
func (k Kind) Name() string {
	switch k {
	case Score:
		return "1 score"
	case Mark:
		return "2 mark"
	case Inner:
		return "3 inner cuts"
	case Outer:
		return "4 outer cuts"
	}
	panic(fmt.Sprintf("cut: no kind %d", uint8(k)))
}

// Colour returns the colour an operation of kind k has until the person changes it:
// four of the palette that stays apart for colour-blind eyes.
//
// Okabe and Ito, "Color Universal Design", 2008: orange, sky blue, bluish green,
// reddish purple.
func (k Kind) Colour() string {
	switch k {
	case Score:
		return "#E69F00"
	case Mark:
		return "#56B4E9"
	case Inner:
		return "#009E73"
	case Outer:
		return "#CC79A7"
	}
	panic(fmt.Sprintf("cut: no kind %d", uint8(k)))
}
