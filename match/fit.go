package match

import (
	"math"
	"strings"

	"lowsone/catalog"
)

// CheckName names a check of fit, or another reason to leave a fan out.
type CheckName string

// The checks in the order they are made; a fan is counted under the first that
// fails. TooWeak and NotRankable are no checks but stand in the same count.
const (
	CheckFrame       CheckName = "frame"
	CheckDepth       CheckName = "depth"
	CheckKind        CheckName = "kind"
	CheckSupply      CheckName = "supply"
	CheckVoltage     CheckName = "voltage"
	CheckCurrent     CheckName = "current"
	CheckTach        CheckName = "tach"
	CheckPWM         CheckName = "pwm"
	CheckTemperature CheckName = "temperature"
	CheckLeads       CheckName = "leads"
	CheckConnector   CheckName = "connector"
	TooWeak          CheckName = "too_weak"
	NotRankable      CheckName = "not_rankable"
)

// RejectNames lists every reason a fan is left out for, in order. Leads and
// connector warn and never take a fan out.
var RejectNames = []CheckName{
	CheckFrame, CheckDepth, CheckKind, CheckSupply, CheckVoltage, CheckCurrent,
	CheckTach, CheckPWM, CheckTemperature, TooWeak, NotRankable,
}

// Check is the answer of one check for one fan, with its reason.
type Check struct {
	Name    CheckName
	Verdict catalog.Verdict
	Note    string
	Asks    Question // what about the device would settle it
}

// Question is what is not known of a device and would settle a check.
type Question uint8

// The questions.
const (
	AskNothing Question = iota
	AskFrame
	AskDepth
	AskKind
	AskSupply
	AskVoltage
	AskCurrent
	AskWatches
	AskAlarm // the speed below which it alarms
	AskAirTemp
	AskLeads
	AskConnector
)

// fit is a seat made ready for checking many rows: SI numbers, NaN unknown.
type fit struct {
	seat                         Seat
	width, height, pitch, depth  float64
	voltage, currentMax, airTemp float64
	leads                        float64
	fittedCurrent, fittedTurns   float64
	fittedLeads, fittedTach      float64
	fans                         float64 // equal fans on the one output
	fittedPWM                    bool
	alarmTurns, alarmPulses      float64
	able                         []*check // that a fan can fail here
}

// check answers with a verdict and the note behind it. Notes are put into
// words only for the few fans that are shown.
type check struct {
	name  CheckName
	ask   func(*fit, *catalog.Columns, int) (catalog.Verdict, note)
	fails func(*fit) bool   // whether any fan can fail it on this seat; nil: none ever
	reads []catalog.FieldID // to say whether one does
}

var checks = []check{
	{CheckFrame, (*fit).frame, func(f *fit) bool { return isKnown(f.width) || isKnown(f.pitch) },
		[]catalog.FieldID{catalog.FieldHolePitch, catalog.FieldWidth, catalog.FieldHeight}},
	{CheckDepth, (*fit).depthFits, func(f *fit) bool { return isKnown(f.depth) }, []catalog.FieldID{catalog.FieldDepth}},
	{CheckKind, (*fit).kind, func(f *fit) bool { return f.seat.Kind.Known() && !f.seat.AnyKind }, []catalog.FieldID{catalog.FieldKind}},
	{CheckSupply, (*fit).supply, func(f *fit) bool { return f.seat.Supply.Known() },
		[]catalog.FieldID{catalog.FieldSupply, catalog.FieldFrequency}},
	{CheckVoltage, (*fit).voltageFits, func(f *fit) bool { return isKnown(f.voltage) },
		[]catalog.FieldID{catalog.FieldSupply, catalog.FieldVoltage, catalog.FieldVoltageMin, catalog.FieldVoltageMax}},
	{CheckCurrent, (*fit).current, func(f *fit) bool { return isKnown(f.currentMax) },
		[]catalog.FieldID{catalog.FieldCurrent, catalog.FieldPower, catalog.FieldVoltage}},
	{CheckTach, (*fit).tach, func(f *fit) bool { return f.seat.Watches == WatchTach || f.seat.Watches == WatchAlarm },
		[]catalog.FieldID{catalog.FieldLeads, catalog.FieldTachPerRev, catalog.FieldSpeed}},
	{CheckPWM, (*fit).pwm, func(f *fit) bool { return f.seat.SlowBy == SlowPWM }, []catalog.FieldID{catalog.FieldPWM, catalog.FieldLeads}},
	{CheckTemperature, (*fit).temperature, func(f *fit) bool { return isKnown(f.airTemp) }, []catalog.FieldID{catalog.FieldTempMax}},
	{CheckLeads, (*fit).leadCount, nil, nil},
	{CheckConnector, (*fit).connector, nil, nil},
}

func isKnown(v float64) bool { return !math.IsNaN(v) }

func newFit(seat Seat, fitted *catalog.Fan, fans int) *fit {
	c := catalog.ColumnsOf(fitted)
	f := &fit{
		seat: seat, fans: float64(max(1, fans)),
		width: orNaN(seat.Width), height: orNaN(seat.Height), pitch: orNaN(seat.HolePitch), depth: orNaN(seat.DepthMax),
		voltage: orNaN(seat.Voltage), currentMax: orNaN(seat.CurrentMax), leads: orNaN(seat.Leads), airTemp: math.NaN(),
		fittedCurrent: drawnCurrent(c, 0), fittedTurns: c.Number(catalog.FieldSpeed, 0),
		fittedLeads: c.Number(catalog.FieldLeads, 0), fittedTach: c.Number(catalog.FieldTachPerRev, 0),
		alarmTurns: orNaN(seat.AlarmSpeed), alarmPulses: orNaN(seat.AlarmPulses),
	}
	if f.fittedTach > 0 && math.IsNaN(f.alarmPulses) {
		f.alarmPulses = f.fittedTach // by which the device reads the right speed now
	}
	f.fittedPWM, _ = fitted.PWM.Get()
	if t, ok := seat.AirTemp.Get(); ok {
		f.airTemp = t.Celsius()
	}
	for n := range checks {
		if k := &checks[n]; k.fails != nil && k.fails(f) {
			f.able = append(f.able, k)
		}
	}
	return f
}

// reads lists the columns that firstFail reads.
func (f *fit) reads() (list []catalog.FieldID) {
	for _, k := range f.able {
		list = append(list, k.reads...)
	}
	return list
}

// firstFail gives the first check that row i fails; ok where none does.
func (f *fit) firstFail(c *catalog.Columns, i int) (name CheckName, ok bool) {
	for _, k := range f.able {
		if v, _ := k.ask(f, c, i); v == catalog.Fail {
			return k.name, false
		}
	}
	return "", true
}

// report answers every check of row i in words.
func (f *fit) report(c *catalog.Columns, i int) []Check {
	out := make([]Check, len(checks))
	for n, k := range checks {
		v, why := k.ask(f, c, i)
		out[n] = Check{k.name, v, why.String(), why.asks}
	}
	return out
}

// sitsThere is the report of the fitted fan: it fits, it is there.
func sitsThere() []Check {
	out := make([]Check, len(checks))
	for n, k := range checks {
		out[n] = Check{Name: k.name, Verdict: catalog.Pass, Note: "is fitted now"}
	}
	return out
}

func (f *fit) depthFits(c *catalog.Columns, i int) (catalog.Verdict, note) {
	d := c.Number(catalog.FieldDepth, i)
	switch {
	case math.IsNaN(d):
		return catalog.Unclear, note{format: "depth not stated"}
	case math.IsNaN(f.depth):
		return catalog.Unclear, note{format: "depth of the space not known", asks: AskDepth}
	case d > f.depth && !catalog.Same(d, f.depth):
		return catalog.Fail, note{format: "# mm deep, # mm at most", a: d * 1e3, b: f.depth * 1e3}
	case catalog.Same(d, f.depth):
		return catalog.Pass, note{}
	default:
		return catalog.Pass, note{format: "# mm thinner: screws and plug may differ", a: (f.depth - d) * 1e3}
	}
}

func (f *fit) kind(c *catalog.Columns, i int) (catalog.Verdict, note) {
	have := catalog.Kind(c.Code(catalog.FieldKind, i))
	want, known := f.seat.Kind.Get()
	switch {
	case have == 0:
		return catalog.Unclear, note{format: "kind not stated"}
	case !known && f.seat.AnyKind:
		return catalog.Pass, note{}
	case !known:
		return catalog.Unclear, note{format: "kind of the seat not known", asks: AskKind}
	case have == want:
		return catalog.Pass, note{}
	case f.seat.AnyKind:
		return catalog.Warn, note{format: "¤ in a seat for ¤: outlet side and area differ", s: have.String(), t: want.String()}
	default:
		return catalog.Fail, note{format: "¤ in a seat for ¤", s: have.String(), t: want.String()}
	}
}

func (f *fit) supply(c *catalog.Columns, i int) (catalog.Verdict, note) {
	have := catalog.Supply(c.Code(catalog.FieldSupply, i))
	want, known := f.seat.Supply.Get()
	switch {
	case have == 0:
		return catalog.Unclear, note{format: "AC or DC not stated"}
	case !known:
		return catalog.Unclear, note{format: "AC or DC in the device not known", asks: AskSupply}
	case have != want:
		return catalog.Fail, note{format: "¤ fan on a ¤ supply", s: strings.ToUpper(have.String()), t: strings.ToUpper(want.String())}
	case have == catalog.AC:
		return f.mains(c.Number(catalog.FieldFrequency, i))
	}
	return catalog.Pass, note{}
}

// mains checks the frequency an AC fan's values are for. Those of 50 and 60 Hz
// can be brought to each other, others cannot.
func (f *fit) mains(hz float64) (catalog.Verdict, note) {
	here := orNaN(f.seat.Mains)
	usual := func(v float64) bool { return math.IsNaN(v) || v == 50 || v == 60 }
	switch {
	case otherMains(hz, here):
		return catalog.Fail, note{format: "made for # Hz, the device gives # Hz", a: hz, b: here}
	case math.IsNaN(hz) && !usual(here):
		return catalog.Unclear, note{format: "frequency not stated, the device gives # Hz", a: here}
	case math.IsNaN(here) && !usual(hz):
		return catalog.Unclear, note{format: "made for # Hz, the frequency in the device is not known", a: hz}
	}
	return catalog.Pass, note{}
}

// Tolerances of the supply where a fan states no range: ±5 % for DC, ±10 % for
// AC (common practice).
const (
	toleranceDC = 0.05
	toleranceAC = 0.10
)

func (f *fit) voltageFits(c *catalog.Columns, i int) (catalog.Verdict, note) {
	if math.IsNaN(f.voltage) {
		return catalog.Unclear, note{format: "supply voltage not known", asks: AskVoltage}
	}
	tolerance := toleranceDC
	if catalog.Supply(c.Code(catalog.FieldSupply, i)) == catalog.AC {
		tolerance = toleranceAC
	}
	nominal := c.Number(catalog.FieldVoltage, i)
	switch c.Takes(i, f.voltage, tolerance) {
	case catalog.Unclear:
		return catalog.Unclear, note{format: "voltage not stated"}
	case catalog.Fail:
		low, high := c.Number(catalog.FieldVoltageMin, i), c.Number(catalog.FieldVoltageMax, i)
		if math.IsNaN(low) || math.IsNaN(high) {
			return catalog.Fail, note{format: "# V fan on # V", a: nominal, b: f.voltage}
		}
		return catalog.Fail, note{format: "runs on # to # V, the device gives # V", a: low, b: high, c: f.voltage}
	}
	if !math.IsNaN(nominal) && math.Abs(nominal-f.voltage) > 1e-6 {
		return catalog.Pass, note{format: "# V fan, runs on # V at another speed", a: nominal, b: f.voltage}
	}
	return catalog.Pass, note{}
}

func (f *fit) current(c *catalog.Columns, i int) (catalog.Verdict, note) {
	drawn := drawnCurrent(c, i)
	switch {
	case math.IsNaN(drawn):
		return catalog.Unclear, note{format: "current not stated"}
	case !math.IsNaN(f.currentMax):
		if f.fans*drawn > f.currentMax*(1+1e-9) {
			return catalog.Fail, note{format: "draws # A, the output gives # A", a: f.fans * drawn, b: f.currentMax}
		}
		return catalog.Pass, note{}
	case math.IsNaN(f.fittedCurrent):
		return catalog.Unclear, note{format: "draws # A; what the output gives is not known", a: drawn, asks: AskCurrent}
	case drawn > f.fittedCurrent*(1+1e-9):
		return catalog.Warn, note{format: "draws # A, the fitted fan # A: check what the output gives", a: drawn, b: f.fittedCurrent, asks: AskCurrent}
	}
	return catalog.Pass, note{format: "draws no more than the fitted fan"}
}

// drawnCurrent gives the current of row i, else power over voltage; in ampere,
// NaN where unknown.
func drawnCurrent(c *catalog.Columns, i int) float64 {
	if a := c.Number(catalog.FieldCurrent, i); !math.IsNaN(a) {
		return a
	}
	return c.Number(catalog.FieldPower, i) / c.Number(catalog.FieldVoltage, i)
}

// temperatureMargin is how close to its highest air temperature a fan may come
// without a warning, in K (physics: 5 K, common practice).
const temperatureMargin = 5

func (f *fit) temperature(c *catalog.Columns, i int) (catalog.Verdict, note) {
	most := c.Number(catalog.FieldTempMax, i)
	switch {
	case math.IsNaN(f.airTemp):
		return catalog.Unclear, note{format: "air temperature at the fan not given", asks: AskAirTemp}
	case math.IsNaN(most):
		return catalog.Unclear, note{format: "highest air temperature not stated"}
	case f.airTemp > most:
		return catalog.Fail, note{format: "air of # °C, made for # °C", a: f.airTemp, b: most}
	case f.airTemp > most-temperatureMargin:
		return catalog.Warn, note{format: "air of # °C, made for # °C", a: f.airTemp, b: most}
	}
	return catalog.Pass, note{}
}

func (f *fit) connector(c *catalog.Columns, i int) (catalog.Verdict, note) {
	have := c.Text(catalog.FieldConnector, i)
	switch {
	case f.seat.Connector == "":
		return catalog.Unclear, note{format: "plug of the device not known", asks: AskConnector}
	case have == "":
		return catalog.Unclear, note{format: "plug not stated"}
	case catalog.FoldKey(have) == catalog.FoldKey(f.seat.Connector):
		return catalog.Pass, note{format: "same plug is not same pin order: confirm before power"}
	}
	return catalog.Warn, note{format: "plug ¤ against ¤: splice or adapt, confirm the pin order", s: have, t: f.seat.Connector}
}
