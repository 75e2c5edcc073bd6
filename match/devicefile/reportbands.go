package devicefile

import (
	"errors"
	"fmt"
	"strings"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
	"lowsone/match"
)

// Report is ReportOf with where levels by band were read from and how.
func (f *File) Report() Report { return reportOf(&f.Device, f.spectra) }

// bandsAsked is what holds where a fan was not measured by bands.
var bandsAsked = open{Rounds, "a typical spectrum of its kind",
	"how loud a level sounds, in sone, hangs on its bands: measured ones, of a phone app or an analyser, take the place of typical ones", 0}

// roomBands, sourceBands and deviceReadings say of levels by band that are known.
func (r *reporter) roomBands(d *match.Device) { r.spectrum("room: "+bandsKey, d.RoomBands) }

func (r *reporter) sourceBands(d *match.Device) {
	for i := range d.Sources {
		r.spectrum("noise: "+d.Sources[i].Name+": "+bandsKey, d.Sources[i].Bands)
	}
}

// deviceReadings does not ask for the meter: no fan is judged by these.
func (r *reporter) deviceReadings(d *match.Device) {
	for i := range d.Readings {
		key := "measured: "
		if len(d.Readings) > 1 {
			key = fmt.Sprintf("measured: %d: ", i+1)
		}
		m := &d.Readings[i]
		if m.Meter != 0 {
			r.meter(key+"meter", m)
		}
		r.spectrum(key+bandsKey, m.Bands)
	}
}

// pathBands asks for the bands of a path's fan, unless its maker gives them.
func (r *reporter) pathBands(p *match.Path) {
	switch {
	case p.Reading != nil && p.Reading.Bands != nil:
		r.spectrum("measured: "+bandsKey, p.Reading.Bands)
	case len(p.Fitted.NoiseBands) == 0:
		r.ask("measured: "+bandsKey, "", bandsAsked)
	}
}

// labelBands holds the band levels of a fan's label against its level.
func (r *reporter) labelBands(p *match.Path) {
	const key = "fan: noise_bands"
	f := p.Fitted
	if len(f.NoiseBands) == 0 {
		return
	}
	reading, err := acoustics.ReadBands(f.NoiseBands, acoustics.Unweighted)
	if err != nil {
		why := err.Error()
		if e := (*acoustics.BandError)(nil); errors.As(err, &e) {
			why += ": " + bandHint(e, acoustics.Unweighted)
		}
		r.doubt(key, plural(len(f.NoiseBands), "level", "levels"), open{Rounds, "", why, 0})
		return
	}
	sum := reading.Thirds.A()
	value := spectrum{Table: Table{BandReading: reading}}.value()
	if l, ok := f.Noise.Get(); ok && !agree(float64(l), sum.DB()) {
		r.doubt(key, value, open{Sharpens, "", "its noise_dba is " + decibels(l) + ": of two conditions, or its bands are A-weighted", 6})
		return
	}
	r.ask(key, value, open{})
}

// spectrum says what is known by bands, and where from.
func (r *reporter) spectrum(key string, bands *acoustics.Thirds) {
	if bands == nil {
		return
	}
	sp, ok := r.from[bands]
	if !ok {
		r.ask(key, tenths(bands.A())+" together", open{})
		return
	}
	if !sp.Stated && !sp.held {
		sp.Notes = nil // they say the same
		r.doubt(key, sp.value(), open{Sharpens, "", "nothing says how its levels are weighted, they are taken as unweighted: write bands_weighting, or the level beside them", 6})
		return
	}
	r.ask(key, sp.value(), open{})
}

// value says what a spectrum holds, where it is from and how it was read; of a
// table the notes say what it lacks.
func (sp spectrum) value() string {
	said := sp.Width.String()
	if sp.file != "" {
		said += " of " + sp.file
	}
	said += ", " + tenths(sp.Thirds.A()) + " together"
	if sp.Width == acoustics.OctaveWide {
		said += ", the thirds within them estimated"
	}
	if sp.file == "" {
		said += sp.lacks()
	}
	return strings.Join(append([]string{said}, sp.Notes...), "; ")
}

// lacks says what was not given, and what was left out.
func (sp spectrum) lacks() (said string) {
	var silent, outside []string
	for _, end := range [][]quantity.Frequency{sp.Low, sp.High} {
		if n := len(end); n > 0 {
			silent = append(silent, spanOf(end[0], end[n-1]))
		}
	}
	if len(silent) > 0 {
		said += "; taken as silent, since not given: " + strings.Join(silent, ", ")
	}
	for _, b := range sp.Outside {
		outside = append(outside, hertz(b.Frequency))
	}
	if len(outside) > 0 {
		said += "; left out: " + strings.Join(outside, ", ")
	}
	return said
}

func spanOf(low, high quantity.Frequency) string {
	if low == high {
		return hertz(low)
	}
	return number(float64(low)) + " to " + hertz(high)
}
