package view

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/export"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/unit"
)

// fileFindings tells what files can't hold as it is typed, without writing one.
func fileFindings(p *plan.Plan) []finding.Finding {
	if !p.Drawn {
		return nil
	}
	out := lackingFinding(p)
	out = append(out, layerFindings(p)...)
	return append(out, pageFinding(p)...)
}

// lackingFinding tells which characters of the typed texts no PDF can print.
func lackingFinding(p *plan.Plan) []finding.Finding {
	v := p.V
	texts := []string{v.Name, v.Revision, v.Cut.Currency, v.Sheet.Stock.Name, v.Rib.Stock.Name, v.Base.Stock.Name}
	for _, o := range v.Cut.Operations {
		texts = append(texts, o.Name)
	}
	lacking := export.Lacking(texts...)
	if len(lacking) == 0 {
		return nil
	}
	return []finding.Finding{{ID: "characters-missing", Severity: finding.Note,
		Text: fmt.Sprintf("The fonts of the PDF have no %q; a question mark is printed instead.", string(lacking))}}
}

// operations are those of all files of a plan, test strips among them, as they are named
// there; of the strips with as many passes as there can be.
func operations(p *plan.Plan) (sheets, strips []cut.Operation) {
	v := p.V
	for i, k := range cut.Kinds() {
		op := cut.Operation{Kind: k, Name: v.Cut.Operations[i].Name, Passes: 1}
		if k != cut.Score {
			strips = append(strips, op)
		}
		if v.Cut.RepeatLayers {
			op.Passes = v.Cut.Operations[i].Passes
			if op.Passes == 0 {
				op.Passes = p.Try().Passes
			}
		}
		sheets = append(sheets, cut.Repeated([]cut.Operation{op})...)
	}
	for pass := range v.Machine.Depths {
		strips = append([]cut.Operation{{Kind: cut.Score, Name: fmt.Sprintf("%s pass %d", v.Cut.Operations[0].Name, pass+1)}}, strips...)
	}
	return sheets, strips
}

// layerFindings tells which operations DXF files call otherwise: one finding an operation,
// with the name that would do where there is a sensible one.
func layerFindings(p *plan.Plan) []finding.Finding {
	var out []finding.Finding
	told := map[cut.Kind]bool{}
	sheets, strips := operations(p)
	for _, ops := range [][]cut.Operation{sheets, strips} {
		for _, r := range export.RenamedLayers(ops) {
			op := ops[r.Operation]
			if told[op.Kind] {
				continue
			}
			told[op.Kind] = true
			text := fmt.Sprintf("In DXF files the layer %q is called %q, and %q in those for old readers. The format does not take every name.", op.Name, r.Name, r.R12)
			if r.Name == op.Name {
				text = fmt.Sprintf("In DXF files for old readers the layer %q is called %q. The format does not take every name.", op.Name, r.R12)
			}
			path := "cut.operations." + design.OperationIDs()[op.Kind] + ".name"
			f := finding.Finding{ID: "name-changed", Severity: finding.Note, Place: finding.Place{Field: path}, Text: text}
			if name, ok := tamed(p, op.Kind, r.Name); ok {
				f.Remedies = []finding.Remedy{{Text: "Call it " + name, Set: map[string]string{path: name}}}
			}
			out = append(out, f)
		}
	}
	return out
}

// tamed returns a name for the operations of a kind, from one that R2000 takes, with which
// no file changes it any more; ok is false where there is none that says anything.
func tamed(p *plan.Plan, k cut.Kind, name string) (string, bool) {
	if strings.Contains(name, " pass ") {
		name, _, _ = strings.Cut(name, " pass ")
	}
	name = strings.Map(func(r rune) rune {
		if r == ' ' || r == '-' || r < unicode.MaxASCII && (unicode.IsLetter(r) || unicode.IsDigit(r)) {
			return r
		}
		return '_'
	}, name)
	if len(name) > 16 { // a pass and a number are added, and old readers take 31
		name = name[:16]
	}
	if strings.Trim(name, "_- ") == "" {
		return "", false
	}
	q := *p
	q.V.Cut.Operations[k].Name = name
	sheets, strips := operations(&q)
	for _, ops := range [][]cut.Operation{sheets, strips} {
		for _, r := range export.RenamedLayers(ops) {
			if ops[r.Operation].Kind == k {
				return "", false
			}
		}
	}
	return name, true
}

// pageFinding tells of a bed longer than a page of a PDF may be.
func pageFinding(p *plan.Plan) []finding.Finding {
	m := p.V.Machine
	side := math.Max(m.BedWidth, m.BedHeight)
	if side <= export.MaxPage {
		return nil
	}
	field := "machine.bedWidth"
	if m.BedHeight == side {
		field = "machine.bedHeight"
	}
	return []finding.Finding{{ID: "page-too-large", Severity: finding.Note, Place: finding.Place{Field: field},
		Text: "A bed " + unit.Length(side, p.V.Units) + " long is more than the " + unit.Length(export.MaxPage, p.V.Units) +
			" that a PDF page may have. Print the template in tiles.",
		Numbers: map[string]float64{"side": side, "limit": export.MaxPage}}}
}
