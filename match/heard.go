package match

import (
	"context"
	"fmt"

	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// HeardBy says how a level at the listener became known.
type HeardBy uint8

// The ways, the best last.
const (
	HeardLabel    HeardBy = iota // the label alone: the device's resistance is not known
	HeardLaws                    // label and laws, at the speed and working point found
	HeardMeasured                // as measured
)

// HeardNames lists the names of the ways, by HeardBy.
var HeardNames = []string{"label", "label and laws", "measured"}

// OtherSource is the Path of what is no fan.
const OtherSource = -1

// Heard is what one path's fans, or another source, make at the listener now.
type Heard struct {
	Noise
	Path int // in Device.Paths, or OtherSource
	By   HeardBy
}

// Heard gives what is heard at the listener of every path and every other
// source as the device was found, in their order, in free field; and in words,
// what of it is not known. The error is that of the context.
func (d *Device) Heard(ctx context.Context, fans catalog.Fans) (heard []Heard, missing []string, err error) {
	for i := range d.Paths {
		h, why, err := d.hear(ctx, fans, i)
		switch {
		case err != nil:
			return nil, nil, err
		case why != "":
			missing = append(missing, why)
		default:
			heard = append(heard, h)
		}
	}
	for i := range d.Sources {
		s := &d.Sources[i]
		heard = append(heard, Heard{Noise{s.Name, s.AtListener(d.Listener)}, OtherSource, HeardMeasured})
	}
	return heard, missing, nil
}

// hear gives one path's level at the listener, or why it is not known.
func (d *Device) hear(ctx context.Context, fans catalog.Fans, i int) (h Heard, why string, err error) {
	p := &d.Paths[i]
	h = Heard{Noise: Noise{Name: d.PathName(i)}, Path: i, By: HeardLaws}
	req := Request{Path: *p, Around: d.Surroundings(), Need: Need{Share: 1}, Listener: d.ListenerOf(p)}
	seated, err := Sit(ctx, fans, req, p.Row)
	if ctx.Err() != nil {
		return h, "", ctx.Err()
	}
	if err == nil {
		if now := seated.Now(); now.HasLevel {
			if h.Level = now.Level.DB; seated.Seat.Known {
				h.By = HeardMeasured
			}
			return h, "", nil
		}
		return h, fmt.Sprintf("how loud %s is: neither measured nor on a label", h.Name), nil
	}
	noise, ok := p.Fitted.Noise.Get()
	if !ok {
		return h, fmt.Sprintf("how loud %s is: %v", h.Name, err), nil
	}
	at1m := labelAt1m(float64(noise), p.Fitted.NoiseKind.Or(0) == catalog.NoisePower, orNaN(p.Fitted.NoiseDistance))
	h.By = HeardLabel
	h.Level = p.Together(acoustics.AtDistance(quantity.PressureLevel(at1m), acoustics.LabelDistance, req.Listener).DB())
	return h, "", nil
}

// PathName gives the name of a path; one without is called by its place.
func (d *Device) PathName(i int) string {
	if name := d.Paths[i].Name; name != "" {
		return name
	}
	if len(d.Paths) == 1 {
		return "the fan"
	}
	return fmt.Sprintf("fan %d", i+1)
}

// Noises are levels without where they come from, for NoiseBudget.
func Noises(heard []Heard) []Noise {
	out := make([]Noise, len(heard))
	for i, h := range heard {
		out[i] = h.Noise
	}
	return out
}
