package sample_test

import (
	"math"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
	"lowsone/match/resistance"
)

// A world is a device with its fitted fan and the fans on the market, as they
// are, and what is told to lowsone of them.
type world struct {
	market
	fans   []*made
	fitted *made

	device  trueDevice
	set     float64 // share of its nominal speed the fitted fan is set to
	ratio   float64 // its speed now over that of its label
	flow    float64 // m³/s now
	heat    float64 // W into the air
	rise    float64 // K of the air
	room    float64 // °C
	inlet   float64 // °C
	outlet  bool    // the fan sits in the warm air
	install float64 // dB that the seat adds
	spots   []trueSpot
	worst   worst

	way string
	req match.Request
}

// worst is the worst case the device has to stand.
type worst struct {
	room     float64 // °C
	heat     float64 // over that now
	altitude float64 // m
}

// ways to the device's resistance, as often as each is taken.
var ways = []string{"share", "share", "heat", "heat", "heat", "flow", "flow", "pressure", "pressure", "points", "points", "flow and heat", "flow and heat"}

// Supplies in V; all fans are made for the first.
const nominalVolts, lowVolts = 12, 9

// lowSupply is the measured speed of a fan at 9 of 12 V, over that at 12
// (testdata/sources/drive_speed_voltage.csv: 2310 of 2850 rpm).
const lowSupply = 2310.0 / 2850

// newWorld draws one.
func newWorld(d draws, axial []shape) *world {
	w := &world{market: market{d, axial, axial60}, room: d.even(18, 27)}
	if d.chance(0.3) {
		w.frame = centrifugal60
	}
	w.inlet = w.room + math.Max(0, d.even(-3, 3))
	w.fans = w.catalogue(16)
	w.fitted = w.fan("FITTED", d.even(4500, 7500))
	w.worst = worst{w.room + d.even(0, 10), d.even(1, 1.2), math.Max(0, d.even(-2000, 1500))}
	seat := match.SeatOf(w.fitted.label)
	seat.SlowBy = []match.SlowBy{match.SlowAny, match.SlowAny, match.SlowPWM, match.SlowVoltage, match.SlowNone}[d.IntN(5)]
	w.req.Path = match.Path{Fitted: w.fitted.label, Row: match.NotInCatalogue, Seat: seat}
	w.way = ways[d.IntN(len(ways))]
	w.outlet = strings.Contains(w.way, "heat") && d.chance(0.4)
	w.runFitted()
	w.air()
	w.tellWays()
	w.tellLevel()
	w.tellSpots()
	return w
}

// runFitted sets the speed of the fitted fan and tells what is known of it:
// counted within 1 %, known from the supply, or not at all: then it may be down
// to 85 % of its label.
func (w *world) runFitted() {
	w.set = 1
	switch {
	case w.chance(0.3):
		w.fitted.full = w.even(0.85, 1)
	case w.chance(0.3):
		w.set = lowSupply
		w.req.Path.Seat.Voltage = quantity.Stated(quantity.Voltage(lowVolts))
	default:
		if w.chance(0.4) {
			w.set = w.even(0.6, 0.95)
		}
		w.req.Path.SpeedNow.Ratio = quantity.Stated(w.fitted.speedSet(w.set) * (1 + w.off(0.01)))
	}
	w.ratio = w.fitted.speedSet(w.set)
}

// air sets the device: the share of its free delivery that the fitted fan moves is
// 0.4 to 0.7, seldom down to 0.25 or up to 0.92; the loss grows as Q to 1.8 to 2.
// The air rises by what puts a share of 0.1 to 0.6 of the spot's rise into it.
func (w *world) air() {
	share := 0.55 + w.off(0.15)
	for share < 0.25 || share > 0.92 {
		share = 0.55 + w.off(0.15)
	}
	spot := w.spot(w.even(20, 50), w.even(0.1, 0.6))
	w.rise = spot.air * spot.rise / spot.seen
	w.spots = []trueSpot{spot}
	w.flow = share * w.fitted.free() * w.ratio
	rho := w.density()
	w.heat = w.flow * rho * specificHeat * w.rise
	p := w.fitted.at(w.flow/w.ratio) * w.ratio * w.ratio * rho / 1.2
	w.device = trueDevice{w.flow, p, w.even(1.8, 2), rho}
}

const (
	specificHeat = 1005.0 // J/(kg·K) of air
	seaLevel     = 101325 // Pa
)

// top gives the share of their nominal speed that fans have on the supply.
func (w *world) top() float64 {
	if volts, ok := w.req.Path.Seat.Voltage.Get(); ok && volts == lowVolts {
		return lowSupply
	}
	return 1
}

// density gives that of air at a temperature and pressure, kg/m³: p/(287.05·T).
func density(celsius, pressure float64) float64 { return pressure / (287.05 * (celsius + 273.15)) }

// density gives that of the air at the fan now.
func (w *world) density() float64 {
	if w.outlet {
		return density(w.inlet+w.rise, seaLevel)
	}
	return density(w.inlet, seaLevel)
}

// tellWays tells what was measured of the device.
func (w *world) tellWays() {
	p := &w.req.Path
	heat := func() match.Way {
		return match.Way{Method: resistance.ByHeat, Heat: match.Heat{
			// What leaves through the case and what is useful output are not known
			// well, the air at the outlet is not mixed well: ±20 % together.
			Power:   quantity.Power(w.heat * (1 + w.off(0.12))),
			AirRise: quantity.TemperatureRise(w.rise * (1 + w.off(0.16))),
			Inlet:   quantity.Stated(quantity.Celsius(w.inlet)), Outlet: w.outlet,
		}}
	}
	flow := func() match.Way {
		return match.Way{Method: resistance.ByFlow, Flow: quantity.Flow(w.flow * (1 + w.off(0.10)))}
	}
	switch w.way {
	case "share":
		p.Way = match.Way{Method: resistance.ByShare, Assumed: true, Share: 0.55}
	case "heat":
		p.Way = heat()
	case "flow":
		p.Way = flow()
	case "pressure":
		p.Way = match.Way{Method: resistance.ByPressure, Pressure: quantity.Pressure(w.device.p + w.off(math.Max(2, 0.1*w.device.p)))}
	case "points":
		p.Way = match.Way{Method: resistance.ByPoints, Points: w.tellPoints()}
	default:
		p.Ways = []match.Way{flow(), heat()}
		p.Way = p.Ways[1]
	}
	p.Inlet = quantity.Stated(quantity.Celsius(w.inlet))
}

// tellPoints tells three points of the device: one gauge, off by up to ±10 % for
// all of them, each read within ±2 %.
func (w *world) tellPoints() (out []catalog.CurvePoint) {
	gauge := 1 + w.off(0.10)
	for _, share := range []float64{0.5, 0.75, 1} {
		q := share * w.flow
		out = append(out, catalog.CurvePoint{Flow: quantity.Flow(q), Pressure: quantity.Pressure(w.device.loss(q, w.device.rho) * gauge * (1 + w.off(0.02)))})
	}
	return out
}

// tellLevel tells the level measured at the fitted fan, within ±1.5 dB, with what
// its seat adds. Where nothing was measured, levels are told of fans alone.
func (w *world) tellLevel() {
	if w.chance(0.4) {
		return
	}
	w.install = math.Max(0, w.even(-2, 4))
	level := w.fitted.levelAt(w.ratio, w.flow, w.device.rho) + w.install + w.off(1.5)
	w.req.Path.Reading = &match.Reading{Level: quantity.PressureLevel(level), Distance: quantity.Metre}
}
