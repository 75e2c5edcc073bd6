package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/pflag"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
	"lowsone/match/resistance"
)

// wayFlags are the ways from a measurement to the device's resistance.
type wayFlags struct {
	delivers quantity.Known[float64]
	flow     quantity.Known[quantity.Flow]
	pressure quantity.Known[quantity.Pressure]
	heat     quantity.Known[quantity.Power]
	airRise  quantity.Known[quantity.TemperatureRise]
	inlet    quantity.Known[quantity.Temperature]
	fanAt    quantity.Known[resistance.Place]
	points   []catalog.CurvePoint
}

// places are the names of where a fan sits, by resistance.Place.
var places = []string{"inlet", "outlet"}

func (w *wayFlags) register(flags *pflag.FlagSet) {
	flags.Var(newParsed("SHARE", w.readShare), "delivers", "way 1: share of its free delivery that the fitted fan moves in the device, such as 60%")
	flags.Var(newMeasure(&w.flow, flowBounds()), "flow", "way 2: flow measured now, in m³/h, or with its unit: 12CFM")
	flags.Var(newMeasure(&w.pressure, pressureBounds()), "pressure", "way 3: pressure measured across the device with the fan running, in Pa")
	flags.Var(newMeasure(&w.heat, heatBounds()), "heat", "way 4: heat that goes into this air path, in W; with --air-rise")
	flags.Var(newMeasure(&w.airRise, riseBounds()), "air-rise", "by how much the air is warmer at the outlet, in K")
	flags.Var(newParsed("°C", w.readInlet), "inlet", "temperature of the air that enters, in °C (with --heat; else 20)")
	flags.Var(newParsed("PLACE", w.readPlace), "fan-at", "where the fan sits: inlet or outlet (with --heat; else inlet)")
	flags.Var(newParsed("FLOW:PRESSURE", w.readPoint), "point", "way 5: flow and pressure measured across the device, in m³/h and Pa, such as 20:9; twice or more")
}

// leastDelivered is the least share of its free delivery that a fan is believed
// to move in a device (common practice: 30 to 90 %).
const leastDelivered = 0.05

func (w *wayFlags) readShare(text string) error {
	v, err := readShare(text)
	w.delivers = quantity.Stated(v)
	bare, unread := quantity.Parse(text, quantity.PreferredUnit(quantity.DimNone))
	if _, notFlow := flowBounds().parse(text); unread != nil && notFlow == nil {
		return usagef("write --flow "+quoted(text), "%q is a flow, no share", text)
	}
	if unread == nil && bare > 0 && bare <= 1 {
		return usagef(fmt.Sprintf("write %.4g%%; mostly it is between 30%% and 90%%", 100*bare), "%q may be a share or a percentage", text)
	}
	if err == nil && v < leastDelivered {
		return usagef("write 60% for six tenths; mostly it is between 30% and 90%", "%q is less than any fan moves in a device", text)
	}
	return err
}

func (w *wayFlags) readInlet(text string) error {
	t, err := readTemperature(text)
	w.inlet = quantity.Stated(t)
	return err
}

func readTemperature(text string) (quantity.Temperature, error) {
	celsius, err := warmthBounds().parse(text)
	return quantity.Celsius(celsius), err
}

func (w *wayFlags) readPlace(text string) error {
	var place resistance.Place
	if err := newChoice(&place, places).Set(text); err != nil {
		return err
	}
	w.fanAt = quantity.Stated(place)
	return nil
}

func (w *wayFlags) readPoint(text string) error {
	left, right, ok := strings.Cut(text, ":")
	if !ok {
		return usagef("write flow and pressure, such as 20m3/h:9Pa", "%q has no colon", text)
	}
	q, err := flowBounds().parse(left)
	if err != nil {
		return err
	}
	p, err := pressureBounds().parse(right)
	if err != nil {
		return err
	}
	w.points = append(w.points, catalog.CurvePoint{Flow: quantity.Flow(q), Pressure: quantity.Pressure(p)})
	return nil
}

// given lists the flags of the ways that were given, one for each way.
func (w *wayFlags) given() []string {
	var names []string
	for _, way := range []struct {
		flag  string
		given bool
	}{
		{"--delivers", w.delivers.Known()}, {"--flow", w.flow.Known()}, {"--pressure", w.pressure.Known()},
		{"--heat", w.heat.Known() || w.airRise.Known()}, {"--point", len(w.points) > 0},
	} {
		if way.given {
			names = append(names, way.flag)
		}
	}
	return names
}

// check refuses flags that contradict each other or lack their fellow.
func (w *wayFlags) check() error {
	if given := w.given(); len(given) > 1 {
		return usagef("give the one you trust most: points, then heat, then pressure where the curve is steep",
			"%s are several ways to the device's curve, one is wanted", joinAnd(given))
	}
	switch {
	case w.heat.Known() && !w.airRise.Known():
		return usagef("measure the air at inlet and outlet", "--heat needs --air-rise")
	case w.airRise.Known() && !w.heat.Known():
		return usagef("the heat is the power drawn less the useful output", "--air-rise needs --heat")
	case w.inlet.Known() && !w.heat.Known():
		return usagef("for the air that meets the fan there is --air-temp", "--inlet needs --heat")
	case w.fanAt.Known() && !w.heat.Known():
		return usagef("", "--fan-at needs --heat")
	case w.delivers.Or(0) >= 1:
		return usagef("mostly it is between 30% and 90%", "--delivers: a fan in a device moves less than its free delivery")
	case len(w.points) == 1:
		return usagef("where only one is known, use --flow or --pressure", "--point is wanted twice or more")
	}
	return nil
}

// way gives the way; without any the usual share is assumed.
func (w *wayFlags) way() match.Way {
	way := match.Way{
		Share: w.delivers.Or(0), Flow: w.flow.Or(0), Pressure: w.pressure.Or(0), Points: w.points,
		Heat: match.Heat{Power: w.heat.Or(0), AirRise: w.airRise.Or(0), Inlet: w.inlet, Outlet: w.fanAt.Or(resistance.Inlet) == resistance.Outlet},
	}
	switch {
	case w.delivers.Known():
		way.Method = resistance.ByShare
	case w.flow.Known():
		way.Method = resistance.ByFlow
	case w.pressure.Known():
		way.Method = resistance.ByPressure
	case w.heat.Known():
		way.Method = resistance.ByHeat
	case len(w.points) > 0:
		way.Method = resistance.ByPoints
	default:
		way.Method, way.Share, way.Assumed = resistance.ByShare, resistance.DefaultShare, true
	}
	return way
}

// joinAnd writes a list as people do.
func joinAnd(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
