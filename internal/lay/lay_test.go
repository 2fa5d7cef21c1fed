package lay_test

import (
	"fmt"

	"springrib/internal/design"
	"springrib/internal/lay"
	"springrib/internal/part"
	"springrib/internal/plane"
)

func ExampleNew() {
	v, _ := design.Read(design.Empty())
	plate := part.NewBase(part.BaseTask{
		ID: "plate", Name: "plate", From: v.Own(), Quantity: 2,
		Outline: plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(200, 100))),
	})
	l, said := lay.New(lay.Task{Values: &v, Parts: []lay.Item{{Part: plate}}, Passes: 1})
	job := l.Jobs[0]
	fmt.Printf("%d parts on sheet %d of %d; first %q, %d strokes; to say: %d\n",
		len(l.Sheets[0].Layout.Placed), job.Sheet, job.Sheets, job.Operations[0].Name, len(job.Operations[0].Strokes), len(said))
	// Output: 2 parts on sheet 1 of 1; first "4 outer cuts", 2 strokes; to say: 0
}
