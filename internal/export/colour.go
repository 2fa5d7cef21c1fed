package export

import (
	"fmt"
	"strconv"

	"springrib/internal/cut"
)

// RGB is a colour of 8 bits a channel. The zero RGB is black.
type RGB struct{ R, G, B uint8 }

// String returns "#rrggbb".
func (c RGB) String() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// Grey returns the grey of the given lightness, 0 black to 255 white.
func Grey(l uint8) RGB { return RGB{l, l, l} }

// ParseColour reads "#rrggbb".
func ParseColour(s string) (c RGB, ok bool) {
	if len(s) != 7 || s[0] != '#' {
		return RGB{}, false
	}
	v, err := strconv.ParseUint(s[1:], 16, 32)
	if err != nil {
		return RGB{}, false
	}
	return RGB{uint8(v >> 16), uint8(v >> 8), uint8(v)}, true
}

// operationColour returns the colour the person gave op, or the one its kind
// starts with when that is not "#rrggbb".
func operationColour(op cut.Operation) RGB {
	if c, ok := ParseColour(op.Colour); ok {
		return c
	}
	c, _ := ParseColour(op.Kind.Colour())
	return c
}
