package export

import (
	"fmt"
	"strconv"

	"springrib/internal/cut"
)

// rgb is a colour of 8 bits a channel.
type rgb struct{ r, g, b uint8 }

// String returns "#rrggbb".
func (c rgb) String() string { return fmt.Sprintf("#%02x%02x%02x", c.r, c.g, c.b) }

// operationColour returns the colour the person gave op, or the one its kind
// starts with when that is not "#rrggbb".
func operationColour(op cut.Operation) rgb {
	if c, ok := parseColour(op.Colour); ok {
		return c
	}
	c, _ := parseColour(op.Kind.Colour())
	return c
}

func parseColour(s string) (rgb, bool) {
	if len(s) != 7 || s[0] != '#' {
		return rgb{}, false
	}
	v, err := strconv.ParseUint(s[1:], 16, 32)
	if err != nil {
		return rgb{}, false
	}
	return rgb{uint8(v >> 16), uint8(v >> 8), uint8(v)}, true
}
