package export

import (
	"strconv"
	"strings"
)

// Table is text in rows and columns.
type Table struct {
	Title string
	Head  []string
	Rows  [][]string
}

// Position is a score for those who cut with a saw and set a fence.
type Position struct {
	Score int     // from the foot, from 1
	From  float64 // from the foot edge to the middle of the score, in the unit of the table
	Step  float64 // from the score before it
	Skin  float64 // skin left, or depth; 0 leaves the column out when all are
}

// Positions returns the table of a part's scores, counted and measured from the
// foot edge, so that no error adds up from score to score. Unit heads the columns, whose
// cells are plain numbers with so many decimals; skin says what the last column is, "skin
// left" or "depth".
func Positions(part, unit string, decimals int, skin string, rows []Position) Table {
	t := Table{Title: part, Head: []string{"score", "from the foot edge (" + unit + ")", "from the score before (" + unit + ")"}}
	withSkin := false
	for _, r := range rows {
		withSkin = withSkin || r.Skin != 0
	}
	if withSkin {
		t.Head = append(t.Head, skin+" ("+unit+")")
	}
	number := func(v float64) string { return string(appendDecimal(nil, v, decimals)) }
	for _, r := range rows {
		row := []string{strconv.Itoa(r.Score), number(r.From), number(r.Step)}
		if withSkin {
			row = append(row, number(r.Skin))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// CSV returns tables as comma-separated values, RFC 4180, in UTF-8: for each the
// title and the head as lines of their own, an empty line between two. A cell that
// a spreadsheet would take for a formula gets an apostrophe in front.
func CSV(tables []Table) []byte {
	var b strings.Builder
	for i, t := range tables {
		if i > 0 {
			b.WriteString("\r\n")
		}
		csvRow(&b, []string{t.Title})
		csvRow(&b, t.Head)
		for _, r := range t.Rows {
			csvRow(&b, r)
		}
	}
	return []byte(b.String())
}

func csvRow(b *strings.Builder, cells []string) {
	for i, c := range cells {
		if i > 0 {
			b.WriteByte(',')
		}
		c = cleanLine(c)
		if c != "" && strings.ContainsRune("=+-@", rune(c[0])) {
			if _, err := strconv.ParseFloat(c, 64); err != nil {
				c = "'" + c
			}
		}
		if strings.ContainsAny(c, `",`) {
			c = `"` + strings.ReplaceAll(c, `"`, `""`) + `"`
		}
		b.WriteString(c)
	}
	b.WriteString("\r\n")
}
