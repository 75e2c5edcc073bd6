package resistance

import "math"

// SmoothFriction is the Darcy friction factor of a smooth duct at a Reynolds
// number of about 10⁴, as in the ducts of devices (common practice).
const SmoothFriction = 0.03

// mitreLoss returns K of a bend with one joint and no radius:
//
//	K = 0.42·sin(α/2) + 2.56·sin³(α/2)  [Rennels]
func mitreLoss(degrees float64) float64 {
	half := math.Sin(degrees * math.Pi / 360)
	return 0.42*half + 2.56*half*half*half
}

// bendLoss returns K of a rounded bend with the radius r of its middle line over
// the width d and the Darcy friction factor f:
//
//	K = f·α·r/d + (0.10 + 2.4·f)·sin(α/2) + 6.6·f·(√sin(α/2) + sin(α/2)) / (r/d)^(4α/π)  [Rennels]
//
// the friction of its length included.
func bendLoss(degrees, radius, friction float64) float64 {
	alpha := degrees * math.Pi / 180
	half := math.Sin(alpha / 2)
	return friction*alpha*radius + (0.10+2.4*friction)*half +
		6.6*friction*(math.Sqrt(half)+half)/math.Pow(radius, 4*alpha/math.Pi)
}

// Mitre returns a bend with a sharp corner in a duct of the area in m², which
// turns the air by an angle above 0 and up to 150°; K is on the velocity in the
// duct.
func Mitre(name string, area, degrees float64) (Element, error) {
	if err := bendInput(name, area, degrees, 150); err != nil {
		return Element{}, err
	}
	return Element{
		Name: name, Area: area, Velocity: duct, Source: rennels, Valid: "turbulent flow, straight duct before and behind",
		made: true, law: onHead(mitreLoss(degrees), area),
	}, nil
}

// Bend returns a rounded bend in a duct of the area in m², which turns the air
// by an angle above 0 and up to 180°; radius is that of its middle line over the
// width of the duct in its plane, from 0.5 (a sharp inner edge) to 10; friction
// is the Darcy factor, SmoothFriction where nothing better is known. K is on the
// velocity in the duct.
func Bend(name string, area, degrees, radius, friction float64) (Element, error) {
	if err := bendInput(name, area, degrees, 180); err != nil {
		return Element{}, err
	}
	if err := within(of("radius over width", name), radius, 0.5, 10); err != nil {
		return Element{}, err
	}
	if err := within(of("friction factor", name), friction, 0.005, 0.1); err != nil {
		return Element{}, err
	}
	return Element{
		Name: name, Area: area, Velocity: duct, Source: rennels, Valid: "turbulent flow, smooth wall, straight duct before and behind",
		made: true, law: onHead(bendLoss(degrees, radius, friction), area),
	}, nil
}

func bendInput(name string, area, degrees, most float64) error {
	if err := positive(of("area of the duct in m²", name), area); err != nil {
		return err
	}
	if err := positive(of("angle in degrees", name), degrees); err != nil {
		return err
	}
	return within(of("angle in degrees", name), degrees, 0, most)
}
