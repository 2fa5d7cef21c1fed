package coupon

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"springrib/internal/unit"
)

// A person who works in inches and ounces is told of readings in these.
func TestReadingsAreToldInThePersonsUnits(t *testing.T) {
	was := handbook()
	was.Units = unit.Inch
	l := Learn(was, []Reading{
		{Kind: KindThickness, Value: 30},
		{Kind: KindSkin, Passes: 1, Value: 9},
		{Kind: KindKerf, Value: 30},
		{Kind: KindFit, Value: 9, Verdict: Good},
		{Kind: KindSag, Length: 80, Width: 12, Value: 90, Load: 1},
		{Kind: KindSag, Length: 80, Width: 12, Value: 79, Load: 1},
		{Kind: KindClosing, Passes: 1, Spacing: 2, Count: 40, Value: 3},
		{Kind: KindSag, Length: 80, Width: 12, Value: 20, Load: 1},
		{Kind: KindSag, Length: 80, Width: 12, Value: 10, Load: 2},
	}, Owner{})
	for _, f := range l.Findings {
		assert.NotContains(t, f.Text, " mm", f.ID)
		assert.NotContains(t, f.Text, " N ", f.ID)
	}
	assert.GreaterOrEqual(t, len(l.Findings), 7)
	assert.Contains(t, l.Findings[0].Text, "1.1811 in")
}
