package view

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
)

// The page shows what is printed: every text, and a figure to each array.
func TestBenchSheetForThePage(t *testing.T) {
	for _, d := range []design.Document{design.Examples()[0].Design, tenFins()} {
		got, arrays, err := Core{}.Bench(raw(t, d))
		require.NoError(t, err)
		w := work(d)
		s := w.bench()
		var texts []string
		figures := 0
		texts = append(texts, got.Title, got.Lead)
		for _, sec := range got.Sections {
			texts = append(append(texts, sec.Title), sec.Lines...)
			for _, st := range sec.Steps {
				texts = append(texts, st.What, st.How)
			}
			if len(sec.Head) > 0 {
				texts = append(texts, strings.Join(sec.Head, " "))
			}
			for _, r := range sec.Rows {
				texts = append(texts, strings.Join(r.Cells, " "))
				assert.Len(t, r.Cells, len(sec.Head))
			}
			for _, f := range sec.Figures {
				last := f.Drawing.Items[len(f.Drawing.Items)-1]
				assert.Equal(t, last.To, len(arrays[figures]))
				title, _, _ := strings.Cut(f.Drawing.Title, ", at 1:")
				texts = append(texts, title)
				for _, l := range f.Drawing.Labels {
					texts = append(texts, l.Text)
				}
				assert.Greater(t, f.Text, 0.0)
				figures++
			}
		}
		assert.Len(t, arrays, figures)
		assert.Equal(t, textsOf(s), texts)
	}
	d := design.Empty()
	_, _, err := Core{}.Bench(raw(t, d))
	assert.Error(t, err, "nothing is drawn yet")
}
