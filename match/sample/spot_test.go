package sample_test

import (
	"math"

	"lowsone/catalog/quantity"
	"lowsone/match"
)

// A trueSpot is a watched spot as it is. Its rise over the inlet splits into what
// the air has taken up, a film that cools as ṁ^−film, and a solid part.
type trueSpot struct {
	rise              float64 // K now
	air, solid, film  float64
	seen              float64 // share of the air's whole rise that it meets
	limit             float64 // °C
	margin            float64 // K
	tellsSeen, isMean bool
}

// spot draws a spot with that rise and share of the air: 0 to 0.3 solid, a film
// between laminar (0.5) and turbulent (0.8), in air between the mean of inlet and
// outlet and that of the outlet.
func (w *world) spot(rise, air float64) trueSpot {
	s := trueSpot{rise: rise, air: air, solid: w.even(0, 0.3), film: w.even(0.5, 0.8), seen: w.even(0.5, 1), margin: 10}
	if s.tellsSeen = w.chance(0.5); s.tellsSeen {
		s.isMean = w.chance(0.5)
		if s.seen = 1; s.isMean {
			s.seen = 0.5
		}
	}
	return s
}

// at gives its temperature in °C at the worst, with the mass flow μ over that now.
func (s *trueSpot) at(w *world, mu float64) float64 {
	return w.worstInlet() + s.rise*w.worst.heat*(s.air/mu+(1-s.air-s.solid)*math.Pow(mu, -s.film)+s.solid)
}

func (w *world) worstInlet() float64 { return w.worst.room + w.inlet - w.room }

// tellSpots tells the watched spots, within ±1 K, or none. The limit is set for
// what an ordinary split would make of a flow of 0.65 to 1.1 of that now.
func (w *world) tellSpots() {
	if w.chance(0.3) {
		w.spots = nil
		w.req.Need.Share = w.even(0.6, 1)
		return
	}
	if w.chance(0.3) {
		air := w.even(0.1, 0.6)
		if other := w.spot(0, air); w.rise*other.seen/air < 70 {
			other.rise = w.rise * other.seen / air
			w.spots = append(w.spots, other)
		}
	}
	p := &w.req.Path
	if p.Way.Heat.Power == 0 && w.chance(0.5) {
		p.Heat = quantity.Stated(quantity.Power(w.heat * (1 + w.off(0.12))))
	}
	if now, ok := w.heatTold(); ok {
		p.HeatWorst = quantity.Stated(now * quantity.Power(w.worst.heat))
	} else {
		w.worst.heat = 1
	}
	for i := range w.spots {
		s := &w.spots[i]
		mu := w.even(0.65, 1.1)
		s.limit = math.Round(w.worstInlet() + s.rise*w.worst.heat*(0.35/mu+0.5*math.Pow(mu, -0.65)+0.15) + s.margin)
		told := match.Spot{Name: []string{"sink", "choke"}[i], Found: quantity.Celsius(w.inlet + s.rise + w.off(1)), Limit: quantity.Celsius(s.limit)}
		if s.tellsSeen {
			told.Seen = quantity.Stated(match.AirOutlet)
			if s.isMean {
				told.Seen = quantity.Stated(match.AirMean)
			}
		}
		p.Spots = append(p.Spots, told)
	}
	w.req.Around = match.Surroundings{
		Ambient: quantity.Stated(quantity.Celsius(w.room)), AmbientWorst: quantity.Stated(quantity.Celsius(w.worst.room)),
		Altitude: quantity.Stated(quantity.Length(w.worst.altitude)),
	}
	if w.chance(0.3) {
		w.req.Need.Share = w.even(0.7, 1)
	}
}

func (w *world) heatTold() (quantity.Power, bool) {
	if heat, ok := w.req.Path.Heat.Get(); ok {
		return heat, true
	}
	heat := w.req.Path.Way.Heat.Power
	return heat, heat > 0
}
