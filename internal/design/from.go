package design

import "springrib/internal/stock"

// Own returns the panel's sheet.
func (v *Values) Own() stock.Sheet {
	s, st := &v.Sheet, v.Sheet.Stock // its own copy: a part must not hold on to the values
	return stock.Sheet{Stock: &st, Thickness: s.T, Own: true, Grained: s.Grained, Field: PanelStock}
}

// From returns what a part of a stock is cut from, so thick, as a field says: the panel's
// own sheet where it is of that stock and as thick, else one beside it.
func (v *Values) From(st stock.Stock, thickness float64, field string) stock.Sheet {
	s := stock.Sheet{Stock: &st, Thickness: thickness, Grained: st.Grain, Field: field}
	if own := v.Own(); s.Same(own) {
		return own
	}
	return s
}
