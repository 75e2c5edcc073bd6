package match

import (
	"math"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match/resistance"
)

// Unknowns says what of the device is not certain.
type Unknowns struct {
	Method        resistance.Method
	Assumed       bool // no way to the resistance was given
	Others        int  // further ways that were measured
	SpeedGiven    bool // of the fitted fan, measured or known from its supply
	SpeedMeasured bool
	Fitted        FanUnknowns
	HasFitted     bool // the fitted fan has a curve and a level of its own
	SeatMeasured  bool // the level at the fitted fan was measured
	// MeterOff is how far that level may be off by the class of the meter, either
	// way; 0 where the meter is not known, NaN where nothing is known of it at that
	// level.
	MeterOff quantity.Decibel
	Spots    []SpotUnknowns
}

// SpotUnknowns says what of a watched spot is known exactly.
type SpotUnknowns struct {
	Name             string
	Air, Solid, Film bool
}

// FanUnknowns says what of a fan is not certain.
type FanUnknowns struct {
	TwoEnded  bool
	Estimated []catalog.FieldID
	Level     quantity.Decibel // half the 10–90 % band of a level that was estimated; 0 where its row states one
	Flow      float64          // the same of a free delivery, as a share of it
	Pressure  float64          // the same of a shut-off pressure
}

// Unknowns says what of the device is not certain.
func (s *Study) Unknowns() Unknowns {
	k := s.p.known
	u := Unknowns{
		Method: k.path.Way.Method, Assumed: k.path.Way.Assumed, Others: len(k.otherWays), SpeedGiven: k.system.Given,
		SpeedMeasured: k.path.SpeedNow.Turns.Known() || k.path.SpeedNow.Ratio.Known(),
		HasFitted:     k.hasAir, SeatMeasured: s.p.seat.Known,
	}
	if u.SeatMeasured {
		u.MeterOff = s.p.meterOff()
	}
	if k.hasAir {
		u.Fitted = k.ground.unknowns(&k.fitted)
	}
	if s.p.cooling != nil {
		for _, m := range s.p.cooling.models {
			one := SpotUnknowns{Name: m.Name()}
			one.Air, one.Solid, one.Film = m.Exact()
			u.Spots = append(u.Spots, one)
		}
	}
	return u
}

// meterOff gives how far the level measured at the fitted fan may be off.
func (p *problem) meterOff() quantity.Decibel {
	r := p.req.Path.Reading
	shapes := p.spectrumFitted().shapes
	if r.Meter == 0 || len(shapes) == 0 {
		return 0
	}
	at := shapes[0].Thirds.ScaledTo(r.Level)
	return r.Meter.HalfWidth(&at)
}

// unknowns says what of a rated fan is not certain.
func (g *footing) unknowns(r *rated) FanUnknowns {
	u := FanUnknowns{TwoEnded: r.twoEnded, Estimated: r.estimated.list()}
	if g.similar == nil || r.kind > catalog.Crossflow {
		return u
	}
	if math.IsNaN(r.labelLevel) {
		k := g.similar.noise[r.kind]
		u.Level = quantity.Decibel(k.High-k.Low) / 2
	}
	phi, psi := g.similar.phi[r.kind].half(), g.similar.psi[r.kind].half()
	if math.IsNaN(r.turns) { // the tip speed was estimated from the other end
		phi, psi = math.Hypot(phi, psi/2), math.Hypot(psi, 2*phi)
	}
	if r.twoEnded && r.estimated.has(catalog.FieldAirflow) && !r.mains.done {
		u.Flow = phi
	}
	if r.twoEnded && r.estimated.has(catalog.FieldStaticPressure) {
		u.Pressure = psi
	}
	return u
}

// half gives half the band as a share of the middle.
func (s spread) half() float64 { return (s.High - s.Low) / (2 * s.Mid) }
