package resistance

import "math"

const (
	rennels  = "D. C. Rennels, H. M. Hudson, Pipe Flow, 2012"
	smallOne = "in the smaller of the two cross-sections"
	duct     = "in the duct"
)

// contractionLoss returns K on the velocity in the smaller cross-section of a
// sudden contraction by its area ratio σ:
//
//	K = 0.0696·(1 − β⁵)·λ² + (λ − 1)², λ = 1 + 0.622·(1 − 0.215·β² − 0.785·β⁵), β = √σ  [Rennels]
func contractionLoss(ratio float64) float64 {
	beta := math.Sqrt(ratio)
	fifth := ratio * ratio * beta
	lambda := 1 + 0.622*(1-0.215*ratio-0.785*fifth)
	return 0.0696*(1-fifth)*lambda*lambda + (lambda-1)*(lambda-1)
}

// expansionLoss returns K on the velocity in the smaller cross-section of a
// sudden expansion by its area ratio σ: (1 − σ)², Borda–Carnot.
func expansionLoss(ratio float64) float64 { return (1 - ratio) * (1 - ratio) }

// Contraction returns the sudden narrowing from one area in m² to a smaller one,
// with sharp edges; K is on the velocity in the smaller. For turbulent flow;
// [Rennels], which is up to a third above the older 0.5·(1 − σ).
func Contraction(name string, from, to float64) (Element, error) {
	if err := areas(name, to, from); err != nil {
		return Element{}, err
	}
	return Element{
		Name: name, Area: to, Velocity: smallOne, Source: rennels, Valid: "sharp edge, turbulent flow",
		made: true, law: onHead(contractionLoss(to/from), to),
	}, nil
}

// Expansion returns the sudden widening from one area in m² to a larger one;
// K = (1 − from/to)² is on the velocity in the smaller, Borda–Carnot.
func Expansion(name string, from, to float64) (Element, error) {
	if err := areas(name, from, to); err != nil {
		return Element{}, err
	}
	return Element{
		Name: name, Area: from, Velocity: smallOne, Source: "Borda–Carnot", Valid: "turbulent flow, room enough to fill the larger cross-section again",
		made: true, law: onHead(expansionLoss(from/to), from),
	}, nil
}

// areas checks two areas of which the first is not the larger.
func areas(name string, small, large float64) error {
	if err := positive(of("smaller area in m²", name), small); err != nil {
		return err
	}
	if err := positive(of("larger area in m²", name), large); err != nil {
		return err
	}
	return within(of("ratio of the smaller to the larger area", name), small/large, 0, 1)
}

// Entrance returns the flush, sharp edge through which still air enters a duct
// of the area in m²: K = 0.5 on the velocity in it (Idelchik, Crane, Blevins and
// Swamee; [Rennels] has 0.57).
func Entrance(name string, area float64) (Element, error) {
	e, err := Coefficient(name, 0.5, area, duct, "I. E. Idelchik, Handbook of Hydraulic Resistance")
	e.Valid = "sharp edge, flush with a wall"
	return e, err
}

// Exit returns the end of the path, where the air leaves a duct of the area in
// m² and its velocity is lost: K = 1. A fan that sucks at the end of the path
// has none: its static pressure is what is left after its own exit.
func Exit(name string, area float64) (Element, error) {
	e, err := Coefficient(name, 1, area, duct, rennels)
	e.Valid = "turbulent flow into the open"
	return e, err
}

// Coefficient returns an element with a loss coefficient of one's own, k ≥ 0,
// on the velocity Q/area, area in m²; velocity says which that is, source where
// it comes from.
func Coefficient(name string, k, area float64, velocity, source string) (Element, error) {
	if err := positive(of("reference area in m²", name), area); err != nil {
		return Element{}, err
	}
	if !(k >= 0) || math.IsInf(k, 0) {
		return Element{}, &InputError{What: of("loss coefficient", name), Value: k, Want: "zero or above"}
	}
	return Element{
		Name: name, Area: area, Velocity: velocity, Source: source, Valid: "as its source says",
		made: true, law: onHead(k, area),
	}, nil
}
