package gen

import "math"

const (
	kindAxial  = "axial"
	kindRadial = "centrifugal"
	kindMixed  = "mixed"
	kindCross  = "crossflow"

	rho      = 1.2   // kg/m³, air where a sheet is silent
	floorDBA = 12.0  // motor and bearing of a fan that hardly turns, at 1 m; common practice
	perHour  = 3600. // s/h
)

// axialPhi is the flow coefficient of an axial fan, (0.20 + 0.30·δ)·s with δ = depth/frame up to 0.5 and s = (frame/60 mm)^0.35 up to 1.05.
// Range: frames 25 to 172 mm. Anchored at 0.325 for 60×25 (25 m³/h at 3000 rpm, common practice).
func axialPhi(frame, depth float64) float64 {
	return (0.20 + 0.30*min(depth/frame, 0.5)) * min(math.Pow(frame/60, 0.35), 1.05)
}

// axialPsi is the pressure coefficient of an axial fan, (0.16 + 1.37·δ)·s with δ = depth/frame up to 0.45 and s = (frame/60 mm)^0.2
// up to 1. Anchored at 0.73 for 60×25 (35 Pa at 3000 rpm, common practice).
func axialPsi(frame, depth float64) float64 {
	return (0.16 + 1.37*min(depth/frame, 0.45)) * min(math.Pow(frame/60, 0.2), 1)
}

// coefficients are φ and ψ of a kind and size before scatter. Forward-curved blowers have ψ about 1.8 and a flow that grows with the
// width of the housing; mixed-flow wheels lie between them and axial ones; crossflow wheels move their flow over the span (all common practice).
func coefficients(kind string, frame, depth float64) (phi, psi float64) {
	switch kind {
	case kindRadial:
		return 0.06 + 0.5*depth/frame, 1.8
	case kindMixed:
		return 0.92 * axialPhi(frame, depth), 1.45 * axialPsi(frame, depth)
	case kindCross:
		return 0.8, 1.9
	default:
		return axialPhi(frame, depth), axialPsi(frame, depth)
	}
}

// wheel is the wheel's diameter and, for crossflow, its length, in mm. Shares of the housing are common practice.
func wheel(kind string, width, height float64) (diameter, span float64) {
	small := min(width, height)
	switch kind {
	case kindRadial:
		return 0.72 * small, 0
	case kindMixed:
		return 0.90 * small, 0
	case kindCross:
		return 0.64 * small, 0.82 * width
	default:
		return 0.93 * small, 0
	}
}

// soundConstant is K of the level law in dB; see the package doc.
func soundConstant(kind, supply string) float64 {
	k := map[string]float64{kindAxial: -18.5, kindRadial: -17, kindMixed: -18, kindCross: -15.5}[kind]
	if supply == supplyAC {
		k += 2 // hum of the shaded-pole motor
	}
	return k
}

// levelDBA is the sound pressure level at 1 m in free air: K + 10·log₁₀ Q₀ + 20·log₁₀ p₀ + offset, with the floor added as energy.
func levelDBA(k, flowM3h, pressurePa, offset float64) float64 {
	air := k + 10*math.Log10(flowM3h) + 20*math.Log10(pressurePa) + offset
	return 10 * math.Log10(math.Pow(10, air/10)+math.Pow(10, floorDBA/10))
}

// efficiency is air power over electrical power of the whole fan, 0.10·(u·D)^0.4·scatter, 5 % at least; AC half of it, 3 % at least.
func efficiency(supply string, tip, diameterM, scatter float64) float64 {
	e := 0.10 * math.Pow(tip*diameterM, 0.4) * scatter
	if supply == supplyAC {
		return max(e/2, 0.03)
	}
	return max(e, 0.05)
}

// design is what the fans of one family share.
type design struct {
	kind, supply    string
	diameter, span  float64 // mm
	phi, psi        float64
	sound           float64 // K and the family's offset, dB
	motor           float64 // scatter of the efficiency
	shape           shape
	voice           voice
	lifeAt40, halve float64 // h, K
	price           float64 // scatter of the price
}

// run is the fan of this design at a speed, its coefficients changed by the fan's own scatter.
func (d design) run(rpm, flowScatter, pressureScatter, soundScatter float64) Physics {
	tip := math.Pi * d.diameter / 1000 * rpm / 60
	area := math.Pi / 4 * d.diameter * d.diameter / 1e6
	if d.span > 0 {
		area = d.diameter * d.span / 1e6
	}
	p := Physics{ImpellerMM: d.diameter, SpanMM: d.span, SpeedRPM: rpm, LifeHalveK: d.halve,
		Phi: d.phi * flowScatter, Psi: d.psi * pressureScatter}
	p.FlowM3h = p.Phi * area * tip * perHour
	p.PressurePa = p.Psi * rho / 2 * tip * tip
	p.AirPowerW = d.shape.best() * p.FlowM3h / perHour * p.PressurePa
	p.LevelDBA = levelDBA(d.sound, p.FlowM3h, p.PressurePa, soundScatter)
	p.PowerW = p.AirPowerW / efficiency(d.supply, tip, d.diameter/1000, d.motor)
	return p
}

// life is the life in hours at a temperature in °C: it halves per halve kelvin.
func (d design) life(temp float64) float64 {
	return d.lifeAt40 * math.Pow(2, (40-temp)/d.halve)
}
