package resistance

import "math"

// Edge is how the holes or bars of a grille are edged.
type Edge uint8

// The edges of a grille.
const (
	SharpEdge   Edge = iota // punched or cut
	RoundedEdge             // rounded to both sides
)

// gridPoint is a row of a table of loss coefficients: K on the velocity ahead,
// at a free area ratio.
type gridPoint struct{ free, k float64 }

// sharpGrid is the thin perforated plate with square edges [Blevins]. The value
// at 0.15 lies 15 % under the run of its neighbours; it is kept as published.
var sharpGrid = [...]gridPoint{
	{0.05, 1000}, {0.10, 250}, {0.15, 85}, {0.20, 52}, {0.25, 30}, {0.30, 17}, {0.35, 11}, {0.40, 7.7},
	{0.45, 5.5}, {0.50, 3.8}, {0.55, 2.8}, {0.60, 2.0}, {0.65, 1.5}, {0.70, 1.1}, {0.75, 0.78}, {0.80, 0.53},
	{0.85, 0.35}, {0.90, 0.08}, {1.00, 0},
}

// roundedGrid is the grille with rounded edges [Blevins].
var roundedGrid = [...]gridPoint{{0.3, 2.0}, {0.4, 1.0}, {0.5, 0.6}, {0.6, 0.4}, {0.7, 0.2}}

// gridOf returns the table of an edge.
func gridOf(edge Edge) []gridPoint {
	if edge == RoundedEdge {
		return roundedGrid[:]
	}
	return sharpGrid[:]
}

// jetShare is the share of the area ahead of a grille that a jet would fill
// which, spreading to the whole of it again, loses K:
//
//	y = 1/(1 + √K), from K = (1/y − 1)² (Borda–Carnot)
//
// For a sharp plate y is free area ratio times contraction, nearly straight over
// the ratio, where K itself falls by four decades.
func jetShare(k float64) float64 { return 1 / (1 + math.Sqrt(k)) }

// gridLoss returns K on the velocity ahead at a free area ratio within the
// table: the published value at its points, between two of them that of the jet
// share y on the straight line. A point left out of the table is found from its
// two neighbours within 4 % from 0.3 to 0.8, 19 % below and 37 % above (sharp),
// and within 12 % (rounded).
func gridLoss(table []gridPoint, free float64) float64 {
	i := 1
	for i < len(table)-1 && free > table[i].free {
		i++
	}
	a, b := table[i-1], table[i]
	switch free {
	case a.free:
		return a.k
	case b.free:
		return b.k
	}
	t := (free - a.free) / (b.free - a.free)
	y := (1-t)*jetShare(a.k) + t*jetShare(b.k)
	return (1/y - 1) * (1/y - 1)
}

const (
	ahead   = "of the whole face, ahead of it"
	blevins = "R. D. Blevins, Applied Fluid Dynamics Handbook, 1984"
)

// Grille returns a grille or perforated plate with air on both sides of it in
// the same cross-section, or at an inlet: K on the velocity over its face area
// in m², holes and bars together, by the free area ratio [Blevins]. Sharp edges
// 0.05 to 1, rounded ones 0.3 to 0.7; between the points of the tables see
// gridLoss. For plates thinner than their holes are wide. Patterns differ by
// ±30 %.
func Grille(name string, area, free float64, edge Edge) (Element, error) {
	k, err := grilleLoss(name, area, free, edge)
	if err != nil {
		return Element{}, err
	}
	return Element{
		Name: name, Area: area, Velocity: ahead, Source: blevins,
		Valid: "plate thinner than its holes are wide, air on both sides in the same cross-section",
		made:  true, fouls: true, law: onHead(k, area),
	}, nil
}

// OutletGrille returns a grille through which the air leaves into the open. Its
// jets do not spread in a duct again: all their velocity is lost,
//
//	K = 1/y² = (1 + √K_grille)², at least 1/free²
//
// on the velocity ahead; no Exit comes behind it. Derived from the tables of
// Grille, not published.
func OutletGrille(name string, area, free float64, edge Edge) (Element, error) {
	k, err := grilleLoss(name, area, free, edge)
	if err != nil {
		return Element{}, err
	}
	k = max((1+math.Sqrt(k))*(1+math.Sqrt(k)), 1/(free*free))
	return Element{
		Name: name, Area: area, Velocity: ahead, Source: "derived from " + blevins,
		Valid: "plate thinner than its holes are wide, air leaves into the open",
		made:  true, fouls: true, law: onHead(k, area),
	}, nil
}

func grilleLoss(name string, area, free float64, edge Edge) (float64, error) {
	if err := positive(of("face area in m²", name), area); err != nil {
		return 0, err
	}
	table := gridOf(edge)
	if err := within(of("free area ratio", name), free, table[0].free, table[len(table)-1].free); err != nil {
		return 0, err
	}
	return gridLoss(table, free), nil
}
