package export

import (
	"fmt"
	"strings"

	"springrib/internal/cut"
)

// Names in DXF. A value is one line, so a line break in a name would start a new
// group; files up to R2000 are in a code page, here 1252.

// dxfText returns a clean name in code page 1252, with \U+XXXX for what the page
// lacks and "_" for what that form lacks.
func dxfText(s string) string {
	text, _ := winAnsiText(s, func(r rune) string {
		if r > 0xFFFF {
			return "_"
		}
		return fmt.Sprintf(`\U+%04X`, r)
	})
	return string(text)
}

// forbiddenInLayers are the characters that R2000 does not allow in a layer name
// (DXF reference, symbol table names), with the apostrophe, which scripts of some
// programs stumble over.
const forbiddenInLayers = "<>/\\\":;?*|,=`'"

// r2000Name returns s as an R2000 layer name: "_" for what is forbidden and for
// what the code page lacks, since \U+XXXX would bring in a forbidden character.
func r2000Name(s string) string {
	return strings.Map(func(r rune) rune {
		if _, ok := winAnsi(r); !ok || strings.ContainsRune(forbiddenInLayers, r) {
			return '_'
		}
		return r
	}, s)
}

// r12Name returns s as an R12 layer name: capitals, digits, "$", "-" and "_", at
// most 31 characters.
func r12Name(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z':
			return r - 'a' + 'A'
		case r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '$', r == '-', r == '_':
			return r
		}
		return '_'
	}, s)
	return s[:min(len(s), maxR12)]
}

const maxR12 = 31

// dxfLayers gives each layer a name of its own and a colour number of its own.
func dxfLayers(job cut.Job, o DXFOptions) []dxfLayer {
	var out []dxfLayer
	names, numbers := takenNames(), map[int]bool{}
	index := map[RGB]int{}
	for _, l := range layers(job, o.RepeatPasses) {
		name := layerName(l.title, names, o.R12)
		if index[l.colour] == 0 {
			index[l.colour] = nearestACI(l.colour, numbers)
			numbers[index[l.colour]] = true
		}
		out = append(out, dxfLayer{l, dxfText(name), index[l.colour]})
	}
	return out
}

// takenNames are those that no layer of ours may have.
func takenNames() map[string]bool {
	return map[string]bool{"0": true, "DEFPOINTS": true, unitLayer: true}
}

// layerName returns the name of a layer whose title is that, and takes it.
func layerName(title string, taken map[string]bool, r12 bool) string {
	if r12 {
		return unusedName(r12Name(title), taken, true)
	}
	return unusedName(r2000Name(title), taken, false)
}

// Renamed is an operation that is not called in DXF files as the person calls it: Name in
// those of R2000, R12 in those of R12.
type Renamed struct {
	Operation int // index
	Name, R12 string
}

// RenamedLayers returns which operations a DXF file calls otherwise, since the format
// forbids some characters and two layers of one name. That R12 has capitals only, and no
// spaces, goes without saying.
func RenamedLayers(ops []cut.Operation) []Renamed {
	var out []Renamed
	names, old := takenNames(), takenNames()
	for i, op := range ops {
		title := titleOf(op)
		r := Renamed{i, layerName(title, names, false), layerName(title, old, true)}
		if r.Name != title || r.R12 != strings.ToUpper(strings.ReplaceAll(title, " ", "_")) {
			out = append(out, r)
		}
	}
	return out
}

// unusedName returns name, with a number behind it if it is taken. Layer names do
// not tell capitals from small letters.
func unusedName(name string, taken map[string]bool, r12 bool) string {
	for n := 1; ; n++ {
		try := name
		if n > 1 {
			tail := fmt.Sprintf("-%d", n)
			if r12 {
				try = try[:min(len(try), maxR12-len(tail))]
			}
			try += tail
		}
		if key := strings.ToUpper(try); !taken[key] {
			taken[key] = true
			return try
		}
	}
}
