package unit

import (
	"strings"
	"unicode"
)

// Several takes a text apart that holds several lengths, as people write them on one line:
// "1.2 2.0 2.35", "1.2; 2; 2,35 mm". A unit behind the last goes for those that have none
// of their own. What reads as one length, "2 1/4 in", or not as lengths at all, comes back
// whole.
func Several(text string, sys System) []string {
	whole := []string{text}
	if _, err := ParseLength(text, sys); err == nil {
		return whole
	}
	for _, apart := range []func(string) []string{bySigns, strings.Fields} {
		parts := withUnit(apart(text))
		if len(parts) < 2 {
			continue
		}
		good := true
		for _, p := range parts {
			_, err := ParseLength(p, sys)
			good = good && err == nil
		}
		if good {
			return parts
		}
	}
	return whole
}

// bySigns cuts at semicolons, and at commas that a space follows: others are decimal.
func bySigns(text string) []string {
	var out []string
	for _, p := range strings.Split(strings.ReplaceAll(text, ", ", ";"), ";") {
		if p = strings.TrimSpace(p); p != "" {
			out = append(out, p)
		}
	}
	return out
}

// withUnit gives the unit of the last part, or standing as the last, to those without.
func withUnit(parts []string) []string {
	if len(parts) == 0 {
		return nil
	}
	last := parts[len(parts)-1]
	at := strings.IndexFunc(last, func(r rune) bool { return unicode.IsLetter(r) || r == '"' || r == '\'' })
	if at < 0 {
		return parts
	}
	name := last[at:]
	if at == 0 {
		parts = parts[:len(parts)-1]
	}
	out := make([]string, len(parts))
	for i, p := range parts {
		out[i] = p
		if !strings.ContainsFunc(p, func(r rune) bool { return unicode.IsLetter(r) || r == '"' || r == '\'' }) {
			out[i] = p + " " + name
		}
	}
	return out
}
