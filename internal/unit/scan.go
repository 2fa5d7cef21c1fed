package unit

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// maxText is the longest text read. "12 ft 11 63/64 in" has 17 characters.
const maxText = 48

// term is one figure and the unit written after it, "2 1/4 in".
type term struct {
	value    float64
	text     string // the figure as typed
	fraction bool   // written with a fraction
	unit     string // lower case, "" when none
}

// scanner reads terms from a normalised text.
type scanner struct {
	typed, s string
	pos      int
	example  string // how a right text looks, "3 mm or 1/8 in"
}

// scan splits typed into terms. At least one comes back when err is nil. Only the
// first may carry a sign; its sign goes with every term.
func scan(typed, example string) (terms []term, negative bool, err *Error) {
	sc := scanner{typed: shorten(typed), example: example}
	if len(typed) > 4*maxText || utf8.RuneCountInString(typed) > maxText {
		return nil, false, sc.fail(TooLong, "That is more text than a figure needs. Write "+example+".")
	}
	sc.s = normalise(typed)
	if sc.s == "" {
		return nil, false, sc.fail(Empty, "Nothing is written here. Write "+example+".")
	}
	if c := sc.s[0]; c == '-' || c == '+' {
		negative = c == '-'
		sc.pos++
	}
	for sc.skipSpace(); sc.pos < len(sc.s) || len(terms) == 0; sc.skipSpace() {
		t, err := sc.term()
		if err != nil {
			return nil, false, err
		}
		terms = append(terms, t)
	}
	return terms, negative, nil
}

func (sc *scanner) fail(k Kind, text string) *Error {
	return &Error{Kind: k, Typed: sc.typed, Text: text}
}

func (sc *scanner) skipSpace() {
	for sc.pos < len(sc.s) && sc.s[sc.pos] == ' ' {
		sc.pos++
	}
}

func (sc *scanner) term() (term, *Error) {
	start := sc.pos
	v, whole, err := sc.decimal()
	if err != nil {
		return term{}, err
	}
	t := term{value: v}
	f, found, err := sc.fraction(start, whole)
	if err != nil {
		return term{}, err
	}
	if found {
		t.value, t.fraction = f, true
	}
	t.text = strings.TrimSpace(sc.s[start:sc.pos])
	if t.value > Limit {
		return term{}, sc.fail(TooBig, sc.typed+" is beyond anything that fits on a bench.")
	}
	sc.skipSpace()
	t.unit = sc.unit()
	if strings.TrimRight(t.unit, "+-") == "e" && sc.pos < len(sc.s) {
		return term{}, sc.fail(NotNumber, "Write the figure in full, without an exponent: "+sc.example+".")
	}
	return t, nil
}

// decimal reads digits with at most one point or comma. whole tells that there was none.
func (sc *scanner) decimal() (v float64, whole bool, err *Error) {
	start := sc.pos
	for sc.pos < len(sc.s) && strings.IndexByte("0123456789.,", sc.s[sc.pos]) >= 0 {
		sc.pos++
	}
	text := sc.s[start:sc.pos]
	if strings.Trim(text, ".,") == "" {
		if sc.pos == len(sc.s) && len(text) <= 1 && sc.pos > 0 {
			return 0, false, sc.fail(Unfinished, sc.typed+" is not finished. Write "+sc.example+".")
		}
		return 0, false, sc.fail(NotNumber, quote(sc.typed)+" is not a figure. Write "+sc.example+".")
	}
	marks := strings.Count(text, ".") + strings.Count(text, ",")
	if marks > 1 {
		return 0, false, sc.fail(Ambiguous, text+" has more than one point or comma. Leave out the marks between thousands and write one decimal point.")
	}
	if i := strings.IndexByte(text, ','); i >= 1 && i <= 3 && text[0] != '0' && len(text)-i == 4 {
		return 0, false, sc.fail(Ambiguous, text+" can be read two ways. Write "+text[:i]+text[i+1:]+" or "+text[:i]+"."+text[i+1:]+".")
	}
	// Only digits and one point are left, so that ParseFloat's other forms stay out.
	v, perr := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	if perr != nil || v > Limit {
		return 0, false, sc.fail(TooBig, sc.typed+" is beyond anything that fits on a bench.")
	}
	return v, marks == 0, nil
}

// fraction reads "/16" straight after the figure at start, or " 1/16" or "-1/16" as
// its fractional part, and returns the value of the whole.
func (sc *scanner) fraction(start int, whole bool) (v float64, found bool, err *Error) {
	figure, after := sc.s[start:sc.pos], sc.pos
	if after < len(sc.s) && sc.s[after] == '/' && !sc.unitAt(after+1) {
		if !whole {
			return 0, false, sc.notFraction()
		}
		v, err := sc.over(figure)
		return v, true, err
	}
	p, dash := after, false
	for ; p < len(sc.s) && (sc.s[p] == ' ' || sc.s[p] == '-' && !dash); p++ {
		dash = dash || sc.s[p] == '-'
	}
	n := digits(sc.s, p)
	switch {
	case n > p && p > after && n < len(sc.s) && sc.s[n] == '/':
	case dash && p == len(sc.s):
		return 0, false, sc.fail(Unfinished, sc.typed+" is not finished. Write "+sc.example+".")
	case dash:
		return 0, false, sc.fail(Ambiguous, sc.typed+" is more than one figure. Write "+sc.example+".")
	default:
		return 0, false, nil
	}
	if !whole {
		return 0, false, sc.notFraction()
	}
	base, _ := strconv.ParseFloat(figure, 64)
	sc.pos = n
	f, err := sc.over(sc.s[p:n])
	return base + f, true, err
}

// over reads "/16" at the scanner's place and returns top/16.
func (sc *scanner) over(top string) (float64, *Error) {
	sc.pos++
	end := digits(sc.s, sc.pos)
	if end == sc.pos {
		if end == len(sc.s) {
			return 0, sc.fail(Unfinished, sc.typed+" is not finished. Write the figure under the line too, such as 1/16 in.")
		}
		return 0, sc.notFraction()
	}
	// Both are digits only; more than Limit is caught by the caller.
	a, _ := strconv.ParseFloat(top, 64)
	b, _ := strconv.ParseFloat(sc.s[sc.pos:end], 64)
	sc.pos = end
	if sc.pos < len(sc.s) && strings.IndexByte(".,", sc.s[sc.pos]) >= 0 {
		return 0, sc.notFraction()
	}
	if b == 0 {
		return 0, sc.fail(NotNumber, sc.typed+" divides by nothing. Write "+sc.example+".")
	}
	return a / b, nil
}

func (sc *scanner) notFraction() *Error {
	return sc.fail(NotNumber, quote(sc.typed)+" is not a fraction that can be read. Write whole numbers such as 2 1/4 in, or a decimal such as 2.25 in.")
}

// unit reads the run of letters and signs that ends at a space or, unless it is a
// quotient such as "kg/m3", at a digit.
func (sc *scanner) unit() string {
	start := sc.pos
	for sc.pos < len(sc.s) && sc.s[sc.pos] != ' ' {
		c := sc.s[sc.pos]
		if c >= '0' && c <= '9' && strings.IndexByte(sc.s[start:sc.pos], '/') < 0 {
			break
		}
		sc.pos++
	}
	return sc.s[start:sc.pos]
}

// unitAt tells whether a letter stands at i: the slash before it belongs to a unit.
func (sc *scanner) unitAt(i int) bool {
	return i < len(sc.s) && (sc.s[i] >= 'a' && sc.s[i] <= 'z' || sc.s[i] >= 0x80)
}

func digits(s string, i int) int {
	for i < len(s) && s[i] >= '0' && s[i] <= '9' {
		i++
	}
	return i
}

// normalise lowers case, makes every space a single plain one, and writes the many
// forms of dashes, primes and ready-made fractions in ASCII.
func normalise(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case unicode.IsSpace(r) || r == '\u2060' || r == '\ufeff':
			b.WriteByte(' ')
		case strings.ContainsRune("−–—‐‑", r):
			b.WriteByte('-')
		case strings.ContainsRune("⁄∕", r):
			b.WriteByte('/')
		case strings.ContainsRune("″”“", r):
			b.WriteByte('"')
		case strings.ContainsRune("′’‘", r):
			b.WriteByte('\'')
		case r == '²':
			b.WriteByte('2')
		case r == '³':
			b.WriteByte('3')
		case vulgar(r) != "":
			b.WriteString(" " + vulgar(r) + " ")
		default:
			b.WriteRune(unicode.ToLower(r))
		}
	}
	return strings.Join(strings.Fields(strings.ReplaceAll(b.String(), "''", "\"")), " ")
}

// vulgar returns the ready-made fraction r in digits, "" when it is none.
func vulgar(r rune) string {
	switch r {
	case '½':
		return "1/2"
	case '⅓':
		return "1/3"
	case '⅔':
		return "2/3"
	case '¼':
		return "1/4"
	case '¾':
		return "3/4"
	case '⅕':
		return "1/5"
	case '⅖':
		return "2/5"
	case '⅗':
		return "3/5"
	case '⅘':
		return "4/5"
	case '⅙':
		return "1/6"
	case '⅚':
		return "5/6"
	case '⅛':
		return "1/8"
	case '⅜':
		return "3/8"
	case '⅝':
		return "5/8"
	case '⅞':
		return "7/8"
	}
	return ""
}

func quote(s string) string { return "\"" + s + "\"" }

// shorten keeps the start of a typed text for use in a sentence.
func shorten(s string) string {
	s = strings.Join(strings.Fields(strings.ToValidUTF8(s[:min(len(s), 200)], "?")), " ")
	if r := []rune(s); len(r) > 24 {
		return string(r[:24]) + "..."
	}
	return s
}
