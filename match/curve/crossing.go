package curve

// Crossing is a flow at which fan and device agree on the pressure.
type Crossing struct {
	Q, P float64 // m³/s, Pa
	// Stable: with a little more flow the device takes more than the fan gives,
	// with a little less it takes less, so the flow comes back.
	Stable bool
}

// Crossings appends to dst every crossing of c with s, by rising flow, and
// returns the extended slice. It allocates only where dst has no room.
//
// Between two knots the surplus g of fan over device is, with t from 0 to 1,
//
//	g(t) = g₀·(1−t) + g₁·t + B·ΔQ²·t·(1−t)
//
// a parabola with its crown up, so its roots are had in closed form and none
// is missed. A crossing at a knot counts once; a touch without passing through
// counts once and is not stable; where fan and device coincide over a stretch,
// its low end stands for it. At an end of the curve the one side that is known
// decides. For no resistance at all the crossing is the free delivery, if the
// curve reaches it. A negative or non-finite system has no crossings.
func Crossings(dst []Crossing, c Curve, s System) []Crossing {
	var w walk
	for w.start(c, s); w.next(); {
		dst = append(dst, w.crossing(c))
	}
	return dst
}
