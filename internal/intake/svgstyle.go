package intake

import (
	"sort"
	"strings"
)

// property is one of the style properties that matter for outlines.
type property uint8

const (
	propStroke property = iota
	propFill
	propColour
	propDisplay
	propVisibility
	propTransform
	propOrigin
	propClip
	propMask
	propMarker
	properties // how many there are
)

func propertyOf(name string) (property, bool) {
	switch name {
	case "stroke":
		return propStroke, true
	case "fill":
		return propFill, true
	case "color":
		return propColour, true
	case "display":
		return propDisplay, true
	case "visibility":
		return propVisibility, true
	case "transform":
		return propTransform, true
	case "transform-origin":
		return propOrigin, true
	case "clip-path":
		return propClip, true
	case "mask":
		return propMask, true
	case "marker", "marker-start", "marker-mid", "marker-end":
		return propMarker, true
	}
	return 0, false
}

// declared is the value that each property ends up with on an element, and the
// weight of the declaration that set it.
type declared struct {
	value  [properties]string
	weight [properties]int
}

// Weights of declarations, strongest first (CSS 2.1, section 6.4): marked important,
// in the style attribute, in a rule by its selector, as an attribute.
const (
	weightImportant = 1 << 40
	weightInline    = 1 << 39
	weightID        = 1 << 30
	weightClass     = 1 << 20
	weightType      = 1 << 10
)

type declaration struct {
	prop      property
	value     string
	important bool
}

func (d *declared) apply(decls []declaration, weight int) {
	for _, c := range decls {
		w := weight
		if c.important {
			w += weightImportant
		}
		if w >= d.weight[c.prop] {
			d.value[c.prop], d.weight[c.prop] = c.value, w
		}
	}
}

// parseDeclarations reads "name: value; ..." and keeps the properties that matter.
func parseDeclarations(text string) []declaration {
	var out []declaration
	for text != "" {
		var one string
		one, text, _ = strings.Cut(text, ";")
		name, value, ok := strings.Cut(one, ":")
		if !ok {
			continue
		}
		prop, ok := propertyOf(strings.ToLower(strings.TrimSpace(name)))
		if !ok {
			continue
		}
		value = strings.TrimSpace(value)
		important := false
		if v, mark, found := strings.Cut(value, "!"); found && strings.EqualFold(strings.TrimSpace(mark), "important") {
			value, important = strings.TrimSpace(v), true
		}
		out = put(out, declaration{prop, value, important})
	}
	return out
}

// put appends d, in place of what it overrides.
func put(list []declaration, d declaration) []declaration {
	for i := range list {
		if list[i].prop == d.prop && list[i].important == d.important {
			list[i] = d
			return list
		}
	}
	return append(list, d)
}

// selector is a compound of a type, an id and classes, all of which must match.
type selector struct {
	kind, id string
	classes  []string
	weight   int
	rule     int
}

func (s selector) matches(n *node, classes []string) bool {
	if s.kind != "" && s.kind != n.name || s.id != "" && s.id != n.get("id") {
		return false
	}
	for _, c := range s.classes {
		found := false
		for _, have := range classes {
			found = found || have == c
		}
		if !found {
			return false
		}
	}
	return true
}

// sheet is all the style rules of a file, found by the last part of a selector.
type sheet struct {
	rules [][]declaration
	byKey map[string][]selector
	count int // selectors read
}

// maxClasses bounds the classes of one element that are looked at, maxSelectors
// those of all style rules.
const (
	maxClasses   = 32
	maxSelectors = 20_000
)

// parse adds the rules of a style element; nested counts selectors that aren't
// followed.
func (s *sheet) parse(text string) (nested int, err error) {
	if s.byKey == nil {
		s.byKey = map[string][]selector{}
	}
	text = withoutComments(text)
	for {
		head, after, ok := strings.Cut(text, "{")
		if !ok {
			return nested, nil
		}
		if i := strings.LastIndexByte(head, ';'); i >= 0 { // @import and the like
			head = head[i+1:]
		}
		head = strings.TrimSpace(head)
		if strings.HasPrefix(head, "@") {
			text = skipBlock(after)
			continue
		}
		body, rest, _ := strings.Cut(after, "}")
		text = rest
		decls := parseDeclarations(body)
		if len(decls) == 0 {
			continue
		}
		s.rules = append(s.rules, decls)
		for more := true; more; {
			var one string
			one, head, more = strings.Cut(head, ",")
			sel, key, ok := parseSelector(strings.TrimSpace(one))
			if s.count++; s.count > maxSelectors {
				return nested, refuse(TooMany, "The file holds more than %d style rules.", maxSelectors)
			}
			if !ok {
				nested++
				continue
			}
			sel.rule = len(s.rules) - 1
			s.byKey[key] = append(s.byKey[key], sel)
		}
	}
}

func withoutComments(text string) string {
	var b strings.Builder
	for {
		before, after, found := strings.Cut(text, "/*")
		b.WriteString(before)
		if !found {
			return b.String()
		}
		_, text, _ = strings.Cut(after, "*/")
	}
}

// skipBlock returns what follows the block whose opening brace has been read.
func skipBlock(text string) string {
	depth := 1
	for i := range len(text) {
		switch text[i] {
		case '{':
			depth++
		case '}':
			if depth--; depth == 0 {
				return text[i+1:]
			}
		}
	}
	return ""
}

// parseSelector reads "type#id.class.class"; key is where sheet keeps it.
func parseSelector(text string) (s selector, key string, ok bool) {
	if text == "" || strings.ContainsAny(text, " \t\r\n>+~:[\\") {
		return s, "", false
	}
	rest := text
	part := func() string {
		end := len(rest)
		if i := strings.IndexAny(rest[1:], ".#"); i >= 0 {
			end = i + 1
		}
		p := rest[:end]
		rest = rest[end:]
		return p
	}
	key = "*"
	if rest[0] != '.' && rest[0] != '#' {
		if s.kind = part(); s.kind == "*" {
			s.kind = ""
		} else {
			key, s.weight = s.kind, weightType
		}
	}
	for rest != "" {
		switch p := part(); {
		case len(p) < 2:
			return s, "", false
		case p[0] == '#':
			s.id, key = p[1:], p
			s.weight += weightID
		default:
			s.classes = append(s.classes, p[1:])
			s.weight += weightClass
			if s.id == "" {
				key = p
			}
		}
	}
	return s, key, true
}

// style returns what is declared for n. tried counts the rules looked at.
func (s *sheet) style(n *node) (d declared, tried int) {
	for _, a := range n.attrs {
		if p, ok := propertyOf(a.name); ok {
			d.value[p], d.weight[p] = strings.TrimSpace(a.value), 1
		}
	}
	if len(s.rules) > 0 {
		tried = s.applyRules(n, &d)
	}
	if text := n.get("style"); text != "" {
		d.apply(parseDeclarations(withoutComments(text)), weightInline)
	}
	return d, tried
}

func (s *sheet) applyRules(n *node, d *declared) (tried int) {
	classes := strings.Fields(n.get("class"))
	classes = classes[:min(len(classes), maxClasses)]
	keys := []string{"*", n.name}
	if id := n.get("id"); id != "" {
		keys = append(keys, "#"+id)
	}
	for i, c := range classes {
		repeated := false
		for _, b := range classes[:i] {
			repeated = repeated || b == c
		}
		if !repeated {
			keys = append(keys, "."+c)
		}
	}
	var hits []selector
	for _, k := range keys {
		tried += len(s.byKey[k])
		for _, sel := range s.byKey[k] {
			if sel.matches(n, classes) {
				hits = append(hits, sel)
			}
		}
	}
	sort.SliceStable(hits, func(i, j int) bool { return hits[i].rule < hits[j].rule })
	for _, sel := range hits {
		// Attributes weigh 1, so that even the rule for everything is stronger.
		d.apply(s.rules[sel.rule], sel.weight+2)
	}
	return tried
}
