package thermal

import (
	"errors"
	"fmt"
)

// ErrNoSpots reports a need asked of no watched spot at all.
var ErrNoSpots = errors.New("no watched spot: nothing says how much air is needed")

// InputError reports a value that cannot be one.
type InputError struct {
	What  string
	Value float64
	Want  string // what it must be
}

func (e *InputError) Error() string {
	return fmt.Sprintf("%s of %.6g: it must be %s", e.What, e.Value, e.Want)
}

// SharesError reports shares of the air and of the solid part that are more than
// the whole.
type SharesError struct{ Air, Solid float64 }

func (e *SharesError) Error() string {
	return fmt.Sprintf("the air has %.3g of the rise and the solid part %.3g, together %.3g: at most 1 is there to share; usual causes: %s, or the solid part was taken at more heat than flows there",
		e.Air, e.Solid, e.Air+e.Solid, airCauses)
}

// RiseError reports a spot that was found no warmer than the air that cools it.
type RiseError struct {
	Spot         string
	Found, Inlet float64 // °C
}

func (e *RiseError) Error() string {
	return fmt.Sprintf("%q was found at %.4g °C with air of %.4g °C going in: a heated spot is warmer than the air that cools it; usual causes: the probe has no contact, or the inlet was taken in warm air",
		e.Spot, e.Found, e.Inlet)
}

// AirRiseError reports air that warms by more than the spot it cools.
type AirRiseError struct{ Air, Spot float64 } // K over the inlet

func (e *AirRiseError) Error() string {
	return fmt.Sprintf("the air up to the spot warms by %.4g K, the spot itself stands only %.4g K above the inlet; usual causes: %s",
		e.Air, e.Spot, airCauses)
}

const airCauses = "the spot lies upstream of most of the heat, part of the heat leaves through the case, or the probe has no contact"
