package intake

import (
	"fmt"
	"strconv"

	"springrib/internal/finding"
)

// note is the kind of a finding about a file.
type note uint8

const (
	noteEmpty note = iota
	noteBrokenPath
	noteBrokenShape
	noteFar
	noteMany
	noteText
	noteImage
	noteClip
	noteMask
	noteForeign
	noteMarker
	noteOutside
	noteMissing
	noteOrigin
	noteSelector
	noteHidden
	noteUnpainted
	noteOtherEntity
	notePaper
	noteTilted
	noteWidth
	noteFitPoints
	noteKinds // how many there are
)

// noteWords is what is told of each kind of note; %d is how often it came up.
// noteOtherEntity is told with the kinds of the entities.
var noteWords = [noteKinds]struct {
	id   string
	sev  finding.Severity
	text string
}{
	noteEmpty:       {"intake-empty", finding.Stop, "The file holds no outline, line or curve that could be taken."},
	noteBrokenPath:  {"intake-path-broken", finding.Warn, "Broken path data: %d. Each was taken up to the fault."},
	noteBrokenShape: {"intake-shape-broken", finding.Warn, "Shapes left out because a figure is missing or can't be read: %d."},
	noteFar:         {"intake-far", finding.Warn, "Shapes left out because a number in them is not finite, or too large for a place on a sheet: %d."},
	noteMany:        {"intake-many", finding.Warn, "The drawing holds more separate lines than can be worked with. The largest were taken and the smallest left out: %d. Leave out what isn't cut, or join lines to paths where it was drawn."},
	noteText:        {"intake-text", finding.Warn, "Text is not taken: %d. Turn it into paths in the program that drew it."},
	noteImage:       {"intake-image", finding.Warn, "Pictures are not taken: %d."},
	noteClip:        {"intake-clip", finding.Warn, "Clipped shapes were taken whole: %d. Cut them in the program that drew them."},
	noteMask:        {"intake-mask", finding.Warn, "Masked shapes were taken whole: %d. Cut them in the program that drew them."},
	noteForeign:     {"intake-foreign", finding.Warn, "Parts in another language than SVG are not taken: %d."},
	noteMarker:      {"intake-marker", finding.Note, "Arrow heads and other markers are not taken: %d."},
	noteOutside:     {"intake-outside", finding.Warn, "Parts kept in other files are not taken: %d."},
	noteMissing:     {"intake-missing", finding.Warn, "Parts that the file refers to but doesn't hold: %d."},
	noteOrigin:      {"intake-transform-origin", finding.Warn, "A transform origin is set and was not followed: %d. Those shapes may be misplaced."},
	noteSelector:    {"intake-selector", finding.Note, "Style rules for nested elements were not followed: %d. Colours may differ."},
	noteHidden:      {"intake-hidden", finding.Note, "Hidden parts were left out: %d."},
	noteUnpainted:   {"intake-unpainted", finding.Note, "Shapes with neither line nor filling, invisible in the drawing: %d. They are listed, but not used unless you choose them."},
	notePaper:       {"intake-paper", finding.Note, "Parts of a page layout were left out: %d."},
	noteTilted:      {"intake-tilted", finding.Warn, "Shapes drawn in a tilted plane were taken as seen from above: %d."},
	noteWidth:       {"intake-width", finding.Note, "Lines drawn with a width were taken along their middle: %d."},
	noteFitPoints:   {"intake-fit-points", finding.Warn, "Splines given only by points on them were laid through those points: %d. Compare them with the drawing."},
}

// notes counts what is to be told about a file.
type notes struct {
	count  [noteKinds]int
	others []otherKind // entities that aren't taken, in the order met
}

type otherKind struct {
	name  string
	count int
}

func (n *notes) add(k note, count int) { n.count[k] += count }

// other counts an entity of a kind that isn't taken. Past twenty kinds they are
// counted together.
func (n *notes) other(kind string) {
	for i := range n.others {
		if n.others[i].name == kind {
			n.others[i].count++
			return
		}
	}
	if len(n.others) < 20 {
		n.others = append(n.others, otherKind{kind, 1})
		return
	}
	n.others[len(n.others)-1] = otherKind{"more", n.others[len(n.others)-1].count + 1}
}

func (n *notes) findings() []finding.Finding {
	var out []finding.Finding
	for k, c := range n.count {
		if c == 0 {
			continue
		}
		w := &noteWords[k]
		text := w.text
		if note(k) != noteEmpty {
			text = fmt.Sprintf(text, c)
		}
		out = append(out, finding.Finding{ID: w.id, Severity: w.sev, Text: text, Numbers: map[string]float64{"count": float64(c)}})
	}
	for _, o := range n.others {
		out = append(out, finding.Finding{
			ID: "intake-entity", Severity: finding.Warn, Place: finding.Place{Part: o.name},
			Text:    fmt.Sprintf("%s is not taken: %d.", o.name, o.count),
			Numbers: map[string]float64{"count": float64(o.count)},
		})
	}
	return out
}

// question asks for the unit of a file that doesn't say it.
func (u Units) question() finding.Finding {
	f := finding.Finding{
		ID: "intake-units-unknown", Severity: finding.Warn, Place: finding.Place{Field: "perInch"},
		Text:    "The file doesn't say how large it is. Choose the size that it should have.",
		Numbers: map[string]float64{"perInch": u.PerInch},
	}
	for _, c := range u.Choices {
		f.Remedies = append(f.Remedies, finding.Remedy{
			Text: fmt.Sprintf("%s: %.1f x %.1f mm", c.Label, c.Width, c.Height),
			Set:  map[string]string{"perInch": strconv.FormatFloat(c.PerInch, 'g', -1, 64)},
		})
	}
	return f
}
