package match

import (
	"errors"

	"lowsone/match/curve"
	"lowsone/match/resistance"
	"lowsone/match/thermal"
)

// scenario is one share of the fitted fan's free delivery with what follows.
type scenario struct {
	share   float64
	system  curve.System
	density float64 // kg/m³
	need    float64 // m³/s, +Inf where no flow is enough
}

// scenarios are the three shares tried where none was given.
func (p *problem) scenarios() ([]scenario, error) {
	standing := p.known.fitted.curve.AtSpeed(p.known.system.Ratio)
	var out []scenario
	for _, share := range [...]float64{resistance.LowShare, resistance.DefaultShare, resistance.HighShare} {
		est, err := resistance.Share(standing, share)
		if err != nil {
			return nil, err
		}
		one := scenario{share: share, system: est.System, density: p.known.system.Density}
		possible := true
		if p.needFromSpots() {
			possible, err = p.coolAt(&one, est)
		} else {
			one.need, _, err = p.req.Need.of(est.Q, est.Located)
		}
		if err != nil {
			return nil, err
		}
		if possible {
			out = append(out, one)
		}
	}
	return out, nil
}

// needFromSpots says whether the watched spots decide what flow is needed.
func (p *problem) needFromSpots() bool { return p.cooling != nil && p.req.Need == Need{} }

// coolAt sets what the watched spots need where the fitted fan was found at
// est. A share at which their temperatures contradict each other is not
// possible. Where no flow is enough the need is infinite.
func (p *problem) coolAt(s *scenario, est resistance.Estimate) (possible bool, err error) {
	c, err := cool(&p.req.Path, p.req.Around, &System{Estimate: est, Density: s.density}, nil)
	var shares *thermal.SharesError
	var air *thermal.AirRiseError
	switch {
	case errors.As(err, &shares), errors.As(err, &air):
		return false, nil
	case err != nil:
		return false, err
	}
	s.need, s.system, s.density = c.need.Flow, c.atWorst(s.system, s.density), c.need.Density
	return true, nil
}

// shares gives the verdict over the three shares.
func (t *task) shares(e *evaluation) Shares {
	if len(t.scenario) == 0 {
		return SharesNone
	}
	enough := 0
	for _, s := range t.scenario {
		m, _, err := curve.SpeedFor(e.rated.curve.AtDensity(s.density), s.system, s.need)
		if err == nil && m.Ratio <= tooFast*e.top {
			enough++
		}
	}
	switch enough {
	case len(t.scenario):
		return SharesHold
	case 0:
		return SharesFail
	}
	return SharesDepends
}
