package view

import "springrib/internal/design"

// shape names the panel's shape and its width or what stands for it.
func (w *worked) shape() (name, width string) {
	v := w.plan.V.Panel
	wide := w.mm(w.plan.Width()) + " wide"
	if w.plan.V.Curve.Coned() {
		return "Cone", w.mm(w.plan.Width()) + " along its slant"
	}
	if w.plan.V.Curve.Skinned() {
		return "Between two ribs", w.mm(w.plan.V.Curve.Apart) + " from rib to rib"
	}
	switch v.Shape {
	case design.Taper:
		return "Tapered strip", w.mm(v.FootWidth) + " at the foot, " + w.mm(v.TipWidth) + " at the tip"
	case design.Ellipse:
		name, width = "Ellipse", wide
	case design.Lens:
		name, width = "Lens", wide
	case design.Sector:
		name, width = "Sector of a ring", "inner radius "+w.mm(v.InnerRadius)
	case design.Polygon:
		name, width = "Outline of "+plural(len(v.Corners), "corner"), wide
	case design.Drawn:
		name, width = "Outline drawn elsewhere", wide
	default:
		name, width = "Rectangle", wide
	}
	if n := len(v.Holes) + w.plan.Size.DrawnHoles(); n > 0 {
		width += ", " + plural(n, "hole")
	}
	return name, width
}

// howManyRibs begins the sentence about the ribs.
func (w *worked) howManyRibs() string {
	n := max(len(w.plan.V.Rib.Places), w.plan.V.Rib.Quantity)
	if len(w.plan.V.Rib.Places) > 0 {
		n = len(w.plan.V.Rib.Places)
	}
	switch w.plan.V.Curve.Kind {
	case design.Cone:
		return "On " + plural(n, "ring")
	case design.ConePart:
		return "On " + plural(n, "rib")
	}
	if w.plan.V.Curve.Skinned() {
		return "On " + plural(n, "rib")
	}
	if n <= 1 {
		return "On"
	}
	return plural(n, "rib") + " on"
}
