package thermal

// At returns the model with its rise split at one place of what is not known:
// air, solid and exponent go from 0 to 1 through the spans of f_air, f_solid and
// m, each as far as the one before it leaves room. Outside 0 to 1 the nearer end counts,
// for NaN the lower one. What is known exactly stays. Need and Temperature then
// have this one corner.
func (m Model) At(air, solid, exponent float64) Model {
	s := m.shares
	var c Corner
	c.Air = s.Air.atMost(1 - s.Solid.low).through(air)
	c.Solid = s.Solid.atMost(1 - c.Air).through(solid)
	c.Film = max(1-c.Air-c.Solid, 0)
	c.Exponent = s.Exponent.through(exponent)
	m.corners, m.middle = []Corner{c}, c
	return m
}

// through returns the value at the part u of the way through a span.
func (s Share) through(u float64) float64 {
	if !(u > 0) {
		u = 0
	}
	return s.low + (s.high-s.low)*min(u, 1)
}

// Exact says which of f_air, f_solid and m are known exactly.
func (m Model) Exact() (air, solid, exponent bool) {
	point := func(s Share) bool { return s.low == s.high }
	return point(m.shares.Air), point(m.shares.Solid), point(m.shares.Exponent)
}
