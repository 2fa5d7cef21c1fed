package intake

import (
	"math"

	"springrib/internal/plane"
)

// vec3 is a point or direction in the space that DXF draws in.
type vec3 struct{ x, y, z float64 }

func (a vec3) cross(b vec3) vec3 {
	return vec3{a.y*b.z - a.z*b.y, a.z*b.x - a.x*b.z, a.x*b.y - a.y*b.x}
}

func (a vec3) len() float64 { return math.Sqrt(a.x*a.x + a.y*a.y + a.z*a.z) }

func (a vec3) unit() vec3 {
	l := a.len()
	if !(l > 0) || l > math.MaxFloat64 {
		return vec3{0, 0, 1}
	}
	return vec3{a.x / l, a.y / l, a.z / l}
}

// flat is a as seen from above.
func (a vec3) flat() plane.Point { return plane.Pt(a.x, a.y) }

// seen returns the map from the object coordinates of an entity with normal n and
// the given elevation to world coordinates seen from above (DXF Reference,
// "Arbitrary Axis Algorithm"). For n = (0, 0, -1) it mirrors X.
func seen(n vec3, elevation float64) plane.Affine {
	if n == (vec3{0, 0, 1}) {
		return plane.Identity()
	}
	up := vec3{0, 0, 1}
	if math.Abs(n.x) < 1./64 && math.Abs(n.y) < 1./64 {
		up = vec3{0, 1, 0}
	}
	ax := up.cross(n).unit()
	ay := n.cross(ax).unit()
	return plane.Affine{ax.x, ax.y, ay.x, ay.y, n.x * elevation, n.y * elevation}
}
