package sample_test

import (
	"math"

	"lowsone/catalog"
)

// A trueFan is a fan as it is, whatever its label says. It is asked by walking its
// curve and halving, with formulas written down here from the sources named,
// not with those of the program.
type trueFan struct {
	x, p    []float64 // m³/s and Pa at the speed of the label, in air of 1.2 kg/m³
	level   float64   // dB(A) 1 m away in free air, at the speed of the label
	kind    catalog.Kind
	offBest float64 // of its noise off the best point, in half widths of the band
	law     float64 // dB per tenfold speed
	full    float64 // its speed at nominal supply, over that of the label
	slowed  float64 // its speed when slowed, over that of the voltage law
}

// A trueDevice takes Δp = p·(Q/q)ⁿ·(ρ/ρ₁)ⁿ⁻¹: by dimensions, a loss that grows as
// Qⁿ grows with the density as ρⁿ⁻¹. A finned heat sink with its duct has n = 1.91.
type trueDevice struct{ q, p, n, rho float64 }

func (d *trueDevice) loss(q, rho float64) float64 {
	return d.p * math.Pow(q/d.q, d.n) * math.Pow(rho/d.rho, d.n-1)
}

// free is its flow at no pressure, at the speed of the label.
func (f *trueFan) free() float64 { return f.x[len(f.x)-1] }

// at gives the pressure on its curve.
func (f *trueFan) at(x float64) float64 {
	i := 1
	for i < len(f.x)-1 && f.x[i] < x {
		i++
	}
	t := (x - f.x[i-1]) / (f.x[i] - f.x[i-1])
	return f.p[i-1] + t*(f.p[i]-f.p[i-1])
}

// speedSet gives the speed it has over that of its label where it is set to a
// share of its nominal one.
func (f *trueFan) speedSet(share float64) float64 {
	if share == 1 {
		return f.full
	}
	return share * f.full * f.slowed
}

// flowAt gives the flow at the speed ratio r in air of density rho: the lowest at
// which the fan stays.
func (f *trueFan) flowAt(r, rho float64, d *trueDevice) float64 {
	return r * f.fall(func(x, p float64) float64 { return r*r*p*rho/1.2 - d.loss(r*x, rho) })
}

// speedFor gives the speed ratio that moves the flow need: by the affinity laws
// p(x)/x² = Δp(need)/need², r = need/x.
func (f *trueFan) speedFor(need, rho float64, d *trueDevice) float64 {
	k := d.loss(need, rho) / (need * need)
	return need / f.fall(func(x, p float64) float64 { return p*rho/1.2 - k*x*x })
}

// fall gives the first x of the curve at which more than zero becomes less.
func (f *trueFan) fall(surplus func(x, p float64) float64) float64 {
	for i := 1; i < len(f.x); i++ {
		if surplus(f.x[i-1], f.p[i-1]) > 0 && surplus(f.x[i], f.p[i]) <= 0 {
			return halved(f.x[i-1], f.x[i], func(x float64) bool { return surplus(x, f.at(x)) > 0 })
		}
	}
	return math.NaN()
}

// halved gives the place between low, where it holds, and high from which on it no
// longer holds.
func halved(low, high float64, holds func(float64) bool) float64 {
	for range 60 {
		if mid := (low + high) / 2; holds(mid) {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}

// levelAt gives its level 1 m away while it moves the flow q at the speed ratio r:
// the fan law with its own factor down to half speed and 40 below; the off-duty
// curve of VDI 2081 with V_opt = 0.6 of free delivery, and how far it lies from
// that; 20·lg of the density. Under 10 dB(A) nothing is told.
func (f *trueFan) levelAt(r, q, rho float64) float64 {
	l := f.level + f.offDuty(q/r/f.free()) + f.law*math.Log10(math.Max(r, 0.5)) + 20*math.Log10(rho/1.2)
	if r < 0.5 {
		l += 40 * math.Log10(r/0.5)
	}
	return math.Max(l, 10)
}

// offDuty gives what the share q of free delivery adds to its free-air level.
func (f *trueFan) offDuty(q float64) float64 {
	if f.kind == catalog.Centrifugal {
		if f.offBest < 0 {
			return 3 * f.offBest
		}
		return 2 * f.offBest
	}
	v := q / 0.6
	switch {
	case q >= 0.48:
		return 2 * f.offBest
	case q >= 0.3:
		return 18.9 - 46.6*v + 33*v*v - 5.2*v*v*v + 2*f.offBest
	}
	return math.Min(3.2+17.5*(0.5-v), 8) + 4*f.offBest
}
