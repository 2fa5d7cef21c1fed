package sheet_test

import (
	"fmt"

	"springrib/internal/plane"
	"springrib/internal/sheet"
)

// Seven strips of 200 x 40 mm on beds of 450 x 200 mm, 4 mm apart and 5 mm from the edge.
//
//	+--------------------+
//	| [=======][=======] |
//	| [=======][=======] |
//	| [=======][=======] |
//	| [=======]          |
//	+--------------------+
func ExampleRows() {
	strip := plane.Region{Outer: plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(200, 40)))}
	job := sheet.Job{Pieces: []sheet.Piece{{ID: "strip", Outline: strip, Quantity: 7}}, Beds: []sheet.Bed{{W: 450, H: 200, Margin: 5}}, Gap: 4}
	l := sheet.Rows(job)
	fmt.Println(len(l.Placed), "placed on", len(l.Sheets), "sheet; faults:", len(sheet.Verify(&job, &l)))
	// Output: 7 placed on 1 sheet; faults: 0
}
