package thermal

import (
	"fmt"
	"slices"
)

// DefaultMargin is what a spot is kept below its limit where nothing else is
// told, in K (common practice).
const DefaultMargin = 10.0

// Conditions is what a temperature depends on besides the flow.
type Conditions struct {
	Ambient float64 // °C of the room
	Heat    float64 // W put into this air path
}

// Spot is a watched place in the device and how it was found, steady, at the
// present flow. All spots of one device are found at the same flow.
type Spot struct {
	Name       string
	Found      float64 // °C
	Then       Conditions
	Inlet      float64 // °C of the air that entered the device then
	InletKnown bool    // not known: that of the room, no warm air drawn in again

	Limit       float64 // °C
	Margin      float64 // K below the limit
	MarginKnown bool    // not known: DefaultMargin

	Shares Shares
}

// Model is a spot that has been checked, ready to be asked.
type Model struct {
	name    string
	rise    float64 // K over the inlet, as found
	excess  float64 // K of the inlet over the room, drawn in again
	heat    float64 // W, as found
	limit   float64 // °C
	margin  float64 // K
	shares  Shares  // with the spans of what is not known
	corners []Corner
	middle  Corner
	assumed []string
}

// New checks a spot. The error is an *InputError, a *SharesError or a
// *RiseError.
func New(s Spot) (Model, error) {
	m := Model{name: s.Name, limit: s.Limit, margin: s.Margin, heat: s.Then.Heat}
	if !s.InletKnown {
		s.Inlet = s.Then.Ambient
		m.assumed = append(m.assumed, "air goes in at the temperature of the room")
	}
	if !s.MarginKnown {
		m.margin = DefaultMargin
		m.assumed = append(m.assumed, fmt.Sprintf("margin %g K", DefaultMargin))
	}
	if err := s.check(m.margin); err != nil {
		return Model{}, err
	}
	full, assumed, err := s.Shares.checked()
	if err != nil {
		return Model{}, err
	}
	m.rise, m.excess = s.Found-s.Inlet, s.Inlet-s.Then.Ambient
	m.shares = full
	m.corners = full.corners()
	m.middle = middle(m.corners)
	m.assumed = append(m.assumed, assumed...)
	return m, nil
}

func (s Spot) check(margin float64) error {
	for _, t := range []struct {
		what    string
		celsius float64
	}{
		{"temperature found in °C", s.Found},
		{"temperature of the room then in °C", s.Then.Ambient},
		{"temperature of the inlet then in °C", s.Inlet},
		{"limit in °C", s.Limit},
	} {
		if err := temperature(t.what, t.celsius); err != nil {
			return err
		}
	}
	if !finite(margin) || margin < 0 {
		return &InputError{"margin in K", margin, "zero or above"}
	}
	if err := positive("heat then in W", s.Then.Heat); err != nil {
		return err
	}
	if s.Found <= s.Inlet {
		return &RiseError{Spot: s.Name, Found: s.Found, Inlet: s.Inlet}
	}
	return nil
}

// check refuses conditions nothing can be computed for.
func (c Conditions) check() error {
	if err := temperature("temperature of the room in °C", c.Ambient); err != nil {
		return err
	}
	return positive("heat in W", c.Heat)
}

// coldest and hottest bound what is taken for a temperature, in °C.
const coldest, hottest = -100.0, 2000.0

func temperature(what string, celsius float64) error {
	if !(celsius >= coldest && celsius <= hottest) {
		return &InputError{what, celsius, fmt.Sprintf("between %g and %g", coldest, hottest)}
	}
	return nil
}

// Name returns the name of the spot.
func (m Model) Name() string { return m.name }

// Rise returns how far the spot was found above the air that entered, in K.
func (m Model) Rise() float64 { return m.rise }

// Assumed lists what was not known and how it was filled.
func (m Model) Assumed() []string { return slices.Clone(m.assumed) }

// Corners lists the ways the rise may split that are evaluated.
func (m Model) Corners() []Corner { return slices.Clone(m.corners) }

// Inlet returns the temperature in °C of the air that enters the device: that of
// the room plus the excess as it was found (warm air drawn in again).
func (m Model) Inlet(c Conditions) float64 { return c.Ambient + m.excess }
