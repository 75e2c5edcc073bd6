package match

import (
	"context"
	"errors"
	"fmt"
	"math"

	"lowsone/catalog"
	"lowsone/match/curve"
	"lowsone/match/drive"
)

// Seated is one fan in the device, ready to be asked how it does at any speed.
// It is told for the conditions a ranking would be made for: the worst case
// where watched spots decide.
type Seated struct {
	Top  float64 // its speed ratio on the seat's supply
	Seat Installation
	// NoFlow is set where no flow keeps a watched spot at its limit; the device is
	// then told at the present air.
	NoFlow *NoFlowError

	p    *problem
	fan  rated
	heat bool // spots are watched
}

// AtSpeed is how a fan does at one speed.
type AtSpeed struct {
	Point
	Stalled bool              // in or near the dip of its curve, or probably
	Spots   []SpotTemperature // nil where none is watched
	FanAir  float64           // °C, NaN where no spot is watched
}

// Sit puts row of the catalogue (the fitted fan's own row: what was said of it)
// into the device of a request. What keeps a fan from being ranked keeps it from
// being asked: the error is a *FittedError, a *RankableError, or one of Rank's.
func Sit(ctx context.Context, fans catalog.Fans, req Request, row int) (*Seated, error) {
	s := &Seated{}
	p, err := prepare(ctx, fans, req)
	if errors.As(err, &s.NoFlow) {
		req.Need = Need{Share: 1}
		p, err = prepare(ctx, fans, req)
	}
	if err != nil {
		return nil, err
	}
	s.p, s.Seat, s.heat = p, p.seat, p.cooling != nil
	why := lack("")
	if s.fan = p.known.fitted; row != req.Path.Row {
		g, err := p.known.ground.at(ctx, row)
		if err != nil {
			return nil, err
		}
		why = g.rate(0, &s.fan)
	} else if p.known.noLevel {
		why = lackLevel
	}
	if why != "" && why != lackLevel {
		return nil, &RankableError{string(why)}
	}
	if why == lackLevel {
		s.fan.level = math.NaN()
	}
	s.Top, err = atSupply(&s.fan, p.task.volts)
	return s, err
}

// RankableError says why a fan cannot be reckoned with.
type RankableError struct{ Reason string }

// Error gives the reason.
func (e *RankableError) Error() string { return "this fan cannot be reckoned with: " + e.Reason }

// At gives how the fan does at a speed ratio. The error says that its curve does
// not meet the device there.
func (s *Seated) At(ratio float64) (AtSpeed, error) {
	t := &s.p.task
	point, _, err := curve.Held(s.fan.curve.AtDensity(t.density), t.system, ratio)
	if err != nil {
		return AtSpeed{}, fmt.Errorf("at %s %% of its speed: %w", Plain(100*ratio), err)
	}
	x := point.Q / ratio
	a := AtSpeed{Point: t.point(&s.fan, ratio, point.Q, point.P, x), FanAir: math.NaN()}
	a.Stalled = s.stalled(x)
	if !s.heat {
		return a, nil
	}
	mass := point.Q * t.density
	a.FanAir = s.p.cooling.fanAir(mass)
	a.Spots, err = s.p.cooling.temperatures(mass, mass)
	return a, err
}

func (s *Seated) stalled(x float64) bool {
	e := evaluation{rated: s.fan, match: curve.Match{X: x}}
	return e.stall() != StallClear
}

// Now gives the fitted fan of the seat as it was found, at the listener.
func (s *Seated) Now() Baseline { return s.p.baseline() }

// System gives the device's resistance with the fitted fan's working point as it
// was found.
func (s *Seated) System() System { return s.p.known.system }

// Heat gives the need of the watched spots; nil where none is watched.
func (s *Seated) Heat() *HeatNeed {
	if !s.heat {
		return nil
	}
	return &s.p.cooling.need
}

// SpeedFor gives the speed ratio at which the fan moves a flow in m³/s in this
// device, the fastest of several.
func (s *Seated) SpeedFor(flow float64) (float64, error) {
	m, _, err := curve.SpeedFor(s.fan.curve.AtDensity(s.p.task.density), s.p.task.system, flow)
	return m.Ratio, err
}

// Need gives the flow the device needs in m³/s and where that comes from; NaN
// where no flow is enough.
func (s *Seated) Need() (float64, string) {
	if s.NoFlow != nil {
		return math.NaN(), s.NoFlow.Error()
	}
	return s.p.task.need, s.p.needFrom
}

// LoadOf gives a fan as a supply sees it. Its current is the rated one, else
// power over voltage; one that does not say AC or DC is taken for DC up to 60 V, as
// in a ranking. That a fan regulates itself no catalogue says.
func LoadOf(f *catalog.Fan) drive.Load {
	c := catalog.ColumnsOf(f)
	supply := f.Supply.Or(0)
	if supply == 0 && c.Number(catalog.FieldVoltage, 0) <= lowVoltage {
		supply = catalog.DC
	}
	return drive.Load{
		Fan: drive.Fan{
			Supply: drive.Supply(supply), PWM: c.Code(catalog.FieldPWM, 0) == codeYes,
			StartVoltage: c.Number(catalog.FieldStartVoltage, 0), NominalVoltage: c.Number(catalog.FieldVoltage, 0), RatedSpeed: c.Number(catalog.FieldSpeed, 0),
		},
		RatedCurrent: drawnCurrent(c, 0), Leads: int(f.Leads.Or(0)), PulsesPerTurn: c.Number(catalog.FieldTachPerRev, 0),
	}
}
