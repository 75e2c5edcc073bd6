package resistance

import "fmt"

// wirePoint is a row of the table of wire screens: the factor β at a Reynolds
// number of the gap [Blevins].
type wirePoint struct{ reynolds, beta float64 }

var wires = [...]wirePoint{{20, 1.3}, {30, 1.1}, {40, 0.95}, {60, 0.83}, {80, 0.75}, {100, 0.70}, {200, 0.60}, {400, 0.52}}

// wireFactor returns β at a Reynolds number: straight lines between the points
// of the table, its last value beyond either end.
func wireFactor(reynolds float64) float64 {
	last := len(wires) - 1
	switch {
	case reynolds <= wires[0].reynolds:
		return wires[0].beta
	case reynolds >= wires[last].reynolds:
		return wires[last].beta
	}
	i := 1
	for reynolds > wires[i].reynolds {
		i++
	}
	a, b := wires[i-1], wires[i]
	t := (reynolds - a.reynolds) / (b.reynolds - a.reynolds)
	return (1-t)*a.beta + t*b.beta
}

// UnknownGap stands for a wire screen whose gap was not measured.
const UnknownGap = 0

// Screen returns a screen of round wire, such as an insect or dust screen,
//
//	K = β(Re)·(1 − α²)/α²
//
// on the velocity over its face area in m², with the open share α from 0.05 to
// 0.8 and Re that of the air in the gap, v/α times the gap in m between wires
// [Blevins]. With UnknownGap β is that of Re above 400, the least: a fine screen
// then costs up to 2.5 times as much. Below Re 20 β grows further than the table.
func Screen(name string, area, open, gap float64) (Element, error) {
	if err := positive(of("face area in m²", name), area); err != nil {
		return Element{}, err
	}
	if err := within(of("open share", name), open, 0.05, 0.8); err != nil {
		return Element{}, err
	}
	e := Element{
		Name: name, Area: area, Velocity: ahead, Source: blevins,
		Valid: "round wire, Reynolds number of the gap above 20", made: true, fouls: true,
	}
	shape := (1 - open*open) / (open * open)
	if gap == UnknownGap {
		e.law = onHead(wireFactor(wires[len(wires)-1].reynolds)*shape, area)
		e.assumed = fmt.Sprintf("Reynolds number above %g in %q, whose gap is not known", wires[len(wires)-1].reynolds, name)
		return e, nil
	}
	if err := positive(of("gap in m", name), gap); err != nil {
		return Element{}, err
	}
	reynolds := func(q float64, in Air) float64 { return q / (area * open) * gap * in.Density / in.Viscosity }
	e.law = law{rest: func(q float64, in Air) float64 {
		return onHead(wireFactor(reynolds(q, in))*shape, area).loss(q, in)
	}}
	e.doubt = func(q float64, in Air) string {
		if re := reynolds(q, in); re < wires[0].reynolds {
			return fmt.Sprintf("the air creeps through %q (Reynolds number %.2g, published from %g): it costs more than is said here", name, re, wires[0].reynolds)
		}
		return ""
	}
	return e, nil
}

// Guard returns an open guard of round bars or wire rings, such as a finger
// guard,
//
//	K = 0.95·(1 − α) + 0.2·(1 − α)²
//
// on the velocity over its face area in m², with the open share α from 0.85 to 1
// [Blevins].
func Guard(name string, area, open float64) (Element, error) {
	if err := positive(of("face area in m²", name), area); err != nil {
		return Element{}, err
	}
	if err := within(of("open share", name), open, 0.85, 1); err != nil {
		return Element{}, err
	}
	k := (1 - open) * (0.95 + 0.2*(1-open))
	return Element{
		Name: name, Area: area, Velocity: ahead, Source: blevins, Valid: "round bars, Reynolds number of a bar above 500",
		made: true, fouls: true, law: onHead(k, area),
	}, nil
}
