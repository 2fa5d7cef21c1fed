package plan

import (
	"testing"

	"springrib/internal/design"
)

// BenchmarkFourPasses plans each example with four numbers of passes to choose from, each to
// its end, as the table of them needs.
func BenchmarkFourPasses(b *testing.B) {
	for _, e := range design.Examples() {
		doc := e.Design
		doc.Machine.Depths = append([]string{"0.9"}, doc.Machine.Depths...)
		v, _ := design.Read(doc)
		b.Run(e.ID, func(b *testing.B) {
			for b.Loop() {
				if p := Make(v); len(p.Scores.Tries) != 4 {
					b.Fatal("not four numbers of passes")
				}
			}
		})
	}
}
