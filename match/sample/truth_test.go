package sample_test

import (
	"math"

	"lowsone/catalog/quantity"
	"lowsone/match"
)

// truth is what is so of a fan in a world.
type truth struct {
	now                         float64 // m³/s, present flow
	enough                      bool    // it moves the needed flow
	ratio, level                float64 // as needed
	pure                        float64 // dB(A) at the needed flow, however fast it would have to turn
	planFlow, planLevel, hotter float64 // as planned; K over the limit of the hottest spot
}

// need gives the needed flow, and the density of the air it is needed in.
func (w *world) need() (q, rho float64) {
	if share := w.req.Need.Share; share > 0 {
		return share * w.flow, w.device.rho
	}
	mu := 0.0
	for i := range w.spots {
		s := &w.spots[i]
		mu = math.Max(mu, halved(1e-3, 1e3, func(mu float64) bool { return s.at(w, mu) > s.limit-s.margin }))
	}
	mass := mu * w.flow * w.device.rho
	rho = w.worstDensity(mass)
	return mass / rho, rho
}

// worstDensity gives that of the air at the fan at the worst: barometric formula of
// the standard atmosphere, and the heat where the fan sits in the warm air.
func (w *world) worstDensity(mass float64) float64 {
	pressure := seaLevel * math.Pow(1-2.25577e-5*w.worst.altitude, 5.25588)
	t := w.worstInlet()
	if w.outlet {
		t += w.heat * w.worst.heat / (mass * specificHeat)
	}
	return density(t, pressure)
}

// tell works out what is so of a fan that is planned at a share of its speed.
func (w *world) tell(f *made, plan, top float64) truth {
	need, rho := w.need()
	t := truth{now: w.flow, ratio: f.speedFor(need, rho, &w.device)}
	t.pure = f.levelAt(t.ratio, need, rho) + w.install
	full, slowest := f.speedSet(top), f.speedSet(w.lowest(f, top))
	t.enough = t.ratio <= 1.005*full
	t.ratio = math.Min(math.Max(t.ratio, slowest), full)
	if w.req.Path.Seat.SlowBy == match.SlowVoltage && t.ratio > w.regulated(f) {
		t.ratio = full
	}
	t.level = f.levelAt(t.ratio, f.flowAt(t.ratio, rho, &w.device), rho) + w.install
	r := f.speedSet(plan)
	t.planFlow = f.flowAt(r, rho, &w.device)
	t.planLevel = f.levelAt(r, t.planFlow, rho) + w.install
	t.hotter = math.Inf(-1)
	for i := range w.spots {
		mu := t.planFlow * rho / (w.flow * w.device.rho)
		t.hotter = math.Max(t.hotter, w.spots[i].at(w, mu)-w.spots[i].limit)
	}
	return t
}

// lowest gives the slowest share of its speed a fan may be set to: 0.30 by its PWM
// input, that at 60 % of its voltage, or none where the device cannot slow it.
func (w *world) lowest(f *made, top float64) float64 {
	pwm := f.label.PWM.Or(false)
	switch by := w.req.Path.Seat.SlowBy; {
	case by == match.SlowNone, by == match.SlowPWM && !pwm:
		return top
	case pwm && by != match.SlowVoltage:
		return 0.30
	}
	return 0.68
}

// regulated gives the speed a fan has behind a linear regulator, which takes 2 V:
// by the measured law, straight lines from 7 V (0.66) and 9 V to 12 V.
func (w *world) regulated(f *made) float64 {
	volts := float64(w.req.Path.Seat.Voltage.Or(quantity.Voltage(nominalVolts))) - 2
	if volts < lowVolts {
		return f.speedSet(0.66 + (lowSupply-0.66)*(volts-7)/2)
	}
	return f.speedSet(lowSupply + (1-lowSupply)*(volts-lowVolts)/3)
}
