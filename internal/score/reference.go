package score

// Wanted returns the spacing that the limits allow where the contact edge has
// curvature k > 0, with the panel wrapped round the edge there or lying in it, and its
// scored face towards the edge or away from it.
func (lim Limits) Wanted(k float64, wraps, towards bool) Spacing {
	return lim.at(k, side{wraps: wraps, towards: towards})
}
