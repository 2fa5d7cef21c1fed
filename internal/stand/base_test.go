package stand_test

import (
	"fmt"

	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/form"
	"springrib/internal/part"
	"springrib/internal/plane"
	"springrib/internal/stand"
	"springrib/internal/surface"
)

// Two straight panels that stand upright in a row, 60 mm wide on one rib each.
func ExampleNewBase() {
	d := design.Empty()
	d.Panel.Quantity, d.Base.Kind, d.Rib.Foot = "2", design.RowBase, design.Tenon
	v, _ := design.Read(d)
	edge := curve.Level(curve.Piece{Length: 100})
	flat := surface.Cylinder(edge.At(0).P, edge.At(0).Phi, true, nil, -30, 30)
	rib := part.RibTask{Edge: edge, PanelLeft: true, End: 100, FootDepth: 20, TipDepth: 20, Stub: &part.Stub{Depth: 3, Width: 12}}
	base, said := stand.NewBase(stand.Task{
		Values: &v, Edge: edge, PanelLeft: true, Feet: []stand.Foot{{Row: -1, Thickness: 3, Tenon: true, Task: rib}},
		Outline: plane.Region{Outer: plane.RectPath(plane.BoxOf(plane.Pt(0, -30), plane.Pt(100, 30)))},
		Bent:    flat, Frames: form.Fold(flat),
	})
	b := base.Outline.Box()
	fmt.Printf("%d slots, %.0f mm apart, in a plate of %.0f x %.0f mm; to say: %d\n",
		len(base.Slots), base.Slots[0].At.Dist(base.Slots[1].At), b.W(), b.H(), len(said))
	// Output: 2 slots, 70 mm apart, in a plate of 104 x 43 mm; to say: 0
}
