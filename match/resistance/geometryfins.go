package resistance

import (
	"fmt"
	"math"
)

// FinStack is a row of equal channels between fins, all sides closed, through
// which all the air goes.
type FinStack struct {
	Channels            int
	Gap, Height, Length float64 // m, of one channel: between fins, along a fin, along the air
	Face                float64 // m², of the duct before and behind the fins
}

const laminar = 2300 // Reynolds number up to which the flow in a channel is laminar (common practice)

// Constants of the inlet length, K∞ and C, between plates and in a rectangular
// duct, and the aspect from which on those of the duct hold [Shah].
const (
	excessPlates, excessDuct = 0.674, 1.25
	shortPlates, shortDuct   = 2.9e-5, 2.1e-4
	ductFrom                 = 0.5
)

// frictionProduct returns f·Re of laminar flow far inside a rectangular channel,
// f of Fanning, Re of the hydraulic diameter, by aspect, the shorter side over
// the longer, 0 to 1:
//
//	f·Re = 24·(1 − 1.3553·α + 1.9467·α² − 1.7012·α³ + 0.9564·α⁴ − 0.2537·α⁵)
//
// within 0.06 % of the exact series [ShahLondon].
func frictionProduct(aspect float64) float64 {
	a := aspect
	return 24 * (1 + a*(-1.3553+a*(1.9467+a*(-1.7012+a*(0.9564-a*0.2537)))))
}

// apparentProduct returns f·Re meant over a channel from its inlet on, with
// x⁺ = L/(D_h·Re) given as its inverse z:
//
//	f·Re = 3.44·√z + (K∞·z/4 + (f·Re)∞ − 3.44·√z) / (1 + C·z²)  [Shah]
//
// It holds what the forming profile costs, in friction and in momentum: the long
// channel adds K∞ to the loss on ½ρv², the short one is all boundary layer. K∞
// and C are 0.674 and 2.9e-5 for plates, 1.25 and 2.1e-4 for rectangular ducts
// as far as they were read; the straight line between, up to an aspect of 0.5,
// is ours. [Shah] states ±2.4 % with constants for each aspect.
func apparentProduct(aspect, z float64) float64 {
	t := min(aspect/ductFrom, 1)
	excess := (1-t)*excessPlates + t*excessDuct
	short := (1-t)*shortPlates + t*shortDuct
	layer := 3.44 * math.Sqrt(z)
	return layer + (excess*z/4+frictionProduct(aspect)-layer)/(1+short*z*z)
}

// Fins returns the channels of a heat sink, on the velocity v in the channels:
//
//	Δp = ½ρv²·(4·f·L/D_h + K_in + K_out)
//
// f is that of laminar flow from the inlet on; K_in and K_out are the sudden
// contraction into the channels and the expansion behind them by
// σ = channels·gap·height/face. The forming profile is in f, so they are those of
// an even one: the laminar curves of Kays and London hold it once more
// [Webb]. Above a Reynolds number of 2300 the flow may be turbulent and cost
// more; a flow beside the fins is a branch of Parallel.
func Fins(name string, s FinStack) (Element, error) {
	if err := s.check(name); err != nil {
		return Element{}, err
	}
	free := float64(s.Channels) * s.Gap * s.Height
	hydraulic := 2 * s.Gap * s.Height / (s.Gap + s.Height)
	aspect := min(s.Gap, s.Height) / max(s.Gap, s.Height)
	ratio := min(free/s.Face, 1)
	ends := onHead(contractionLoss(ratio)+expansionLoss(ratio), free)
	reynolds := func(q float64, in Air) float64 { return q / free * hydraulic * in.Density / in.Viscosity }
	ends.rest = func(q float64, in Air) float64 {
		// 4·f·L/D_h·½ρv² with f = product/Re, which stays finite at no flow
		product := apparentProduct(aspect, hydraulic/s.Length*reynolds(q, in))
		return 2 * product * in.Viscosity * s.Length / (hydraulic * hydraulic) * q / free
	}
	return Element{
		Name: name, Area: free, Velocity: "in the channels between the fins", made: true, law: ends,
		Source: "R. K. Shah, J. Fluids Eng. 100 (1978) 177; " + rennels + "; Borda–Carnot",
		Valid:  fmt.Sprintf("smooth closed channels, Reynolds number below %d", laminar),
		doubt: func(q float64, in Air) string {
			if re := reynolds(q, in); re > laminar {
				return fmt.Sprintf("the flow in %q may be turbulent (Reynolds number %.0f, laminar up to %d): it may cost more than is said here", name, re, laminar)
			}
			return ""
		},
	}, nil
}

func (s FinStack) check(name string) error {
	if s.Channels < 1 {
		return &InputError{What: of("number of channels", name), Value: float64(s.Channels), Want: "one or more"}
	}
	for _, x := range []struct {
		what  string
		value float64
	}{{"gap between the fins in m", s.Gap}, {"height of the fins in m", s.Height}, {"length of the fins in m", s.Length}, {"face area in m²", s.Face}} {
		if err := positive(of(x.what, name), x.value); err != nil {
			return err
		}
	}
	const rounding = 1e-9 // channels that fill the face
	return within(of("free share of the face", name), float64(s.Channels)*s.Gap*s.Height/s.Face, 0, 1+rounding)
}
