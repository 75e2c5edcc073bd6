package cli

import (
	"context"
	"fmt"
	"math"

	"lowsone/acoustics"
	"lowsone/acoustics/loudness"
	"lowsone/acoustics/recording"
	"lowsone/catalog/quantity"
	"lowsone/cmd/internal/view"
)

// halving gives by how many dB a spectrum must fall to be half as loud; NaN for
// one that is not heard.
func halving(thirds *acoustics.Thirds, field loudness.Field) float64 {
	table, err := loudness.NewTable(thirds, field)
	if err != nil {
		return math.NaN()
	}
	return table.Halving(thirds.A().DB())
}

// inRoom says what the sound adds to the noise of a room: one that was measured
// with the device off, or one of a level.
func (o *loudnessOptions) inRoom(ctx context.Context, doc *view.BandLoudness) error {
	level, known := o.room.Get()
	switch {
	case o.background != "":
		room, err := o.measuredRoom(ctx)
		if err != nil {
			return err
		}
		if err := notLouder(room, &doc.Thirds); err != nil {
			return err
		}
		doc.Room = room
		room.Alone, room.AtMost, room.Drowned = without(&doc.Thirds, &room.Thirds)
	case known:
		doc.Room = &view.RoomNoise{Thirds: acoustics.QuietRoom(level), Alone: doc.Thirds}
	default:
		return nil
	}
	r := doc.Room
	if err := loudness.Check(&r.Thirds); err != nil {
		return failf("levels must be sound pressure levels in dB re 20 µPa", "the room: %w", err)
	}
	r.Sone, r.AloneSone = loudness.Sone(&r.Thirds, o.field), loudness.Sone(&r.Alone, o.field)
	r.Added = loudness.Added(&r.Alone, &r.Thirds, o.field)
	return nil
}

// measuredRoom reads what was measured with the device off. A level that a meter
// showed of the sound sets the scale of both.
func (o *loudnessOptions) measuredRoom(ctx context.Context) (*view.RoomNoise, error) {
	var read recording.TableOptions // of another form than --bands
	if o.file != "" {
		read = o.read
	}
	read.AnyScale = o.level.Known()
	table, err := o.session.readBands(ctx, o.background, read)
	if err != nil {
		return nil, err
	}
	room := &view.RoomNoise{File: fileName(o.background), Width: table.Width, Weighting: table.Weighting, Thirds: table.Thirds, Notes: table.Notes}
	if read.AnyScale {
		room.Thirds = room.Thirds.Plus(o.shift)
		room.Notes = append(room.Notes, fmt.Sprintf("shifted by the same %+.1f dB as the sound, for both are taken as read by one app with one setting", float64(o.shift)))
	}
	return room, nil
}

// notLouder refuses a background above what was measured with the device on.
func notLouder(room *view.RoomNoise, total *acoustics.Thirds) error {
	if on, off := total.A().DB(), room.Thirds.A().DB(); off > on {
		return failf("are the two swapped, or not of one app and one setting? With the device on it cannot be quieter: measure both again, one after the other",
			"the background %q has %.1f dB(A), more than the %.1f dB(A) with the device on", room.File, off, on)
	}
	return nil
}

// without takes the energy of a background off each band. It lists the bands that
// stand less than 3 dB above it, where what is left is an upper bound, and those
// that do not stand above it at all, where nothing is left.
func without(total, background *acoustics.Thirds) (alone acoustics.Thirds, atMost, drowned []int) {
	for i := range total {
		if math.IsInf(background[i], -1) || math.IsInf(total[i], -1) {
			alone[i] = total[i]
			continue
		}
		left, how, err := acoustics.Subtract(quantity.PressureLevel(total[i]), quantity.PressureLevel(background[i]))
		switch {
		case err != nil:
			alone[i] = math.Inf(-1)
			drowned = append(drowned, i)
			continue
		case how == acoustics.UpperBound:
			atMost = append(atMost, i)
		}
		alone[i] = left.DB()
	}
	return alone, atMost, drowned
}
