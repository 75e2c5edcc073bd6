package devicefile

import (
	"context"
	"math"
	"testing"

	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
	"lowsone/match/resistance"
)

// Both devices hold what their files say, in SI.
func TestDevices(t *testing.T) {
	amp, cabinet := resolved(t, "amplifier.yaml").Device, resolved(t, "cabinet.yaml").Device
	left, supply, chamber, box := &amp.Paths[0], &amp.Paths[1], &cabinet.Paths[0], &cabinet.Paths[1]
	deg := func(k quantity.Known[quantity.Temperature]) float64 {
		return k.Or(quantity.Celsius(math.NaN())).Celsius()
	}
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"room now", deg(amp.Ambient), 24},
		{"worst room", deg(amp.AmbientWorst), 30},
		{"altitude", float64(amp.Altitude.Or(0)), 250},
		{"listener", float64(amp.Listener.Or(0)), 1.5},
		{"room level", amp.Room.Or(quantity.PressureLevel(0)).DB(), 24},
		{"row of the fitted fan", float64(left.Row), 0},
		{"row of the second", float64(supply.Row), 1},
		{"label of the fitted fan", float64(left.Fitted.Airflow.Or(0)) * 3600, 47.5},
		{"speed now", float64(left.SpeedNow.Turns.Or(0)) * 60, 5500},
		{"heat", float64(left.Heat.Or(0)), 90},
		{"worst heat", float64(supply.HeatWorst.Or(0)), 35},
		{"rise of the air", float64(left.Way.Heat.AirRise), 9},
		{"spots", float64(len(left.Spots)), 2},
		{"found", left.Spots[0].Found.Celsius(), 58},
		{"limit", left.Spots[0].Limit.Celsius(), 75},
		{"soak", float64(left.Spots[0].Soak.Or(0)), 5400},
		{"alarm", float64(left.Seat.AlarmSpeed.Or(0)) * 60, 1800},
		{"depth", float64(left.Seat.DepthMax.Or(0)), 0.038},
		{"guard", float64(left.Guard.Or(0)), 0.012},
		{"reading", left.Reading.Level.DB(), 44},
		{"the loud fan in the third of its blade tone", left.Reading.Bands[14], 37},
		{"speed of the second fan", float64(supply.SpeedNow.Turns.Or(0)) * 60, 6600},
		{"room in the octave at 1 kHz", octave(cabinet.RoomBands, 5), 29},
		{"fan of the chamber in the third at 250 Hz", chamber.Reading.Bands[10], 48},
		{"its level, of the meter", chamber.Reading.Level.DB(), 51},
		{"hum in the third at 100 Hz", cabinet.Sources[0].Bands[6], 49},
		{"level of the hum, of its bands", cabinet.Sources[0].Level.DB(), cabinet.Sources[0].Bands.A().DB()},
		{"band levels of the blower's label", float64(len(box.Fitted.NoiseBands)), 7},
		{"one of them", float64(box.Fitted.NoiseBands[4].Level), 27.5},
		{"kind of the second seat, of its fan", float64(supply.Seat.Kind.Or(0)), float64(catalog.Axial)},
		{"described fan's row", float64(chamber.Row), match.NotInCatalogue},
		{"described fan's curve", float64(len(chamber.Fitted.Curve)), 6},
		{"free flow of the curve", float64(chamber.Fitted.Airflow.Or(0)) * 3600, 160},
		{"pitch of the diagonal", float64(chamber.Seat.HolePitch.Or(0)), 0.1482 / math.Sqrt2},
		{"voltage", float64(chamber.Seat.Voltage.Or(0)), 235},
		{"lowest voltage", float64(chamber.Seat.VoltageLow.Or(0)), 225},
		{"ways", float64(len(chamber.Ways)), 3},
		{"pieces", float64(len(chamber.Ways[1].Geometry)), 8},
		{"alarm of a share", float64(box.Seat.AlarmSpeed.Or(0)) * 60, 0.4 * 4600},
		{"outlet of the blower", float64(box.Seat.OutletHeight.Or(0)), 0.013},
	} {
		if !(math.Abs(c.got-c.want) <= 1e-9*math.Abs(c.want)) {
			t.Errorf("%s = %v, want %v", c.name, c.got, c.want)
		}
	}
	for _, c := range []struct {
		name string
		ok   bool
	}{
		{"way by heat", left.Way.Method == resistance.ByHeat},
		{"fan at the inlet", !left.Way.Heat.Outlet && left.Direction == match.BlowsIn},
		{"fan at the outlet", supply.Way.Heat.Outlet && supply.Direction == match.BlowsOut},
		{"regulated", box.Regulated && box.RegulatedBy == match.RegulatedByDevice && !left.Regulated},
		{"reading as found", !left.Reading.After},
		{"meters", chamber.Reading.Meter == acoustics.Class2 && box.Reading.Meter == acoustics.Phone && left.Reading.Meter == acoustics.Class2},
		{"no bands", amp.RoomBands == nil && supply.Reading == nil && amp.Sources[0].Bands == nil},
		{"no filter", left.Near.Filter.None},
		{"pins", len(box.Seat.Pins) == 3 && box.Seat.Pins[0] == match.PinPlus},
		{"name of the described fan", chamber.Fitted.Name() == "Lenzkamp HA-12038-230"},
		{"ordinary", amp.Purpose == match.PurposeOrdinary},
	} {
		if !c.ok {
			t.Errorf("%s is not as the file says", c.name)
		}
	}
}

func octave(bands *acoustics.Thirds, i int) float64 { o := bands.Octaves(); return o[i] }

// The two devices are plausible: the ways to each resistance agree within their
// spans.
func TestDevicesAreOfAPiece(t *testing.T) {
	for _, name := range devices {
		for _, path := range resolved(t, name).Device.Paths {
			cols := catalog.ColumnsOf(path.Fitted)
			var all []resistance.Estimate
			for _, way := range append([]match.Way{path.Way}, path.Ways...) {
				one := path
				one.Way, one.Ways = way, nil
				s, _, err := match.EstimateSystem(context.Background(), cols, one, false)
				if err != nil {
					t.Fatalf("%s, %s, by %s: %v", name, path.Name, way.Method, err)
				}
				all = append(all, s.Estimate)
			}
			c, err := resistance.Compare(all...)
			if err != nil || len(c.Warnings) > 0 {
				t.Errorf("%s, %s: %v %q, want the ways to agree", name, path.Name, err, c.Warnings)
			}
		}
	}
}
