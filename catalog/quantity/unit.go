package quantity

import (
	"slices"
	"strings"
)

// Dimension names what a unit measures.
type Dimension uint8

// The dimensions of fan data. DimLevel covers rated noise in dB(A) and bel.
const (
	DimNone Dimension = iota
	DimLength
	DimFlow
	DimPressure
	DimVoltage
	DimCurrent
	DimPower
	DimSpeed
	DimFrequency
	DimTime
	DimTemperature
	DimTemperatureRise
	DimLevel
)

var dimensionNames = [...]string{
	"number", "length", "flow", "pressure", "voltage", "current", "power",
	"speed", "frequency", "time", "temperature", "temperature rise", "level",
}

// String gives the dimension's name as messages use it.
func (d Dimension) String() string { return dimensionNames[d] }

// Unit is one unit of a dimension: SI = value·Factor + Offset. The SI of a
// temperature is the degree Celsius here, of a level the decibel.
type Unit struct {
	Symbol    string
	Dimension Dimension
	Factor    float64
	Offset    float64
	spellings string // further folded spellings, separated by blanks
}

// ToSI gives v of this unit in SI.
func (u Unit) ToSI(v float64) float64 { return v*u.Factor + u.Offset }

// FromSI gives the SI value v in this unit.
func (u Unit) FromSI(v float64) float64 { return (v - u.Offset) / u.Factor }

// units lists every unit that is understood; the first of a dimension is the
// one the tool prints. Spellings are the folded ones (see Fold); with them
// come the short forms of English, German, French and Spanish data sheets.
var units = []Unit{
	{Symbol: "mm", Dimension: DimLength, Factor: float64(Millimetre), spellings: "millimeter millimetre millimeters millimetres"},
	{Symbol: "cm", Dimension: DimLength, Factor: float64(Centimetre), spellings: "centimeter centimetre"},
	{Symbol: "m", Dimension: DimLength, Factor: 1, spellings: "meter metre"},
	{Symbol: "inch", Dimension: DimLength, Factor: float64(Inch), spellings: `in in. inches " '' zoll pouce pouces pulgada pulgadas`},
	{Symbol: "ft", Dimension: DimLength, Factor: float64(Foot), spellings: "ft. foot feet"},

	{Symbol: "m³/h", Dimension: DimFlow, Factor: float64(CubicMetrePerHour), spellings: "m3/h m3/hr m3/hrs m3/std m3/std. m3/stunde m3/heure m3/hora m3h cbm/h qm3/h m3/hour m3h-1 m3/1h cmh"},
	{Symbol: "m³/min", Dimension: DimFlow, Factor: float64(CubicMetrePerMinute), spellings: "m3/min m3/mn m3/m cbm/min cmm m3min-1"},
	{Symbol: "m³/s", Dimension: DimFlow, Factor: 1, spellings: "m3/s m3/sec m3s-1"},
	{Symbol: "l/s", Dimension: DimFlow, Factor: float64(LitrePerSecond), spellings: "l/sec ls-1 lps dm3/s"},
	{Symbol: "l/min", Dimension: DimFlow, Factor: float64(LitrePerMinute), spellings: "l/mn lmin-1 lpm dm3/min"},
	{Symbol: "CFM", Dimension: DimFlow, Factor: float64(CFM), spellings: "cfm c.f.m. ft3/min cuft/min cu.ft/min cu.ft./min cf/m pi3/min pi3/mn pie3/min pies3/min"},

	{Symbol: "Pa", Dimension: DimPressure, Factor: 1, spellings: "pascal pascals n/m2"},
	{Symbol: "mmH₂O", Dimension: DimPressure, Factor: float64(MillimetreWater), spellings: "mmh2o mmaq mm-h2o mm-aq mmwc mmwg mmws mmce mmca mmc.a. mm.c.a. mmc.e. mm.h2o mmd'eau mmwater mmw.g. mmw.g mmw.c. mmw.c mm.w.g. mmofwater"},
	{Symbol: "inH₂O", Dimension: DimPressure, Factor: float64(InchWater), spellings: `inh2o inchh2o inchesh2o in-h2o inch-h2o in.h2o inaq inwc inwg in.wg in.wg. in.wc iwc iwg "h2o "wc "wg inchaq in.w.g. in.w.g in.w.c. in.w.c inw.g. inw.g inw.c. inw.c "w.g. "w.g "w.c. "w.c inchw.g. inchesw.g. inchw.c. inchesw.c. inchwg incheswg inchwc incheswc inchofwater inchesofwater inofwater in.ofwater in.water`},
	{Symbol: "daPa", Dimension: DimPressure, Factor: 10},
	{Symbol: "hPa", Dimension: DimPressure, Factor: float64(Hectopascal), spellings: "mbar"},
	{Symbol: "kPa", Dimension: DimPressure, Factor: float64(Kilopascal)},
	{Symbol: "psi", Dimension: DimPressure, Factor: float64(PoundPerSquare)},

	{Symbol: "V", Dimension: DimVoltage, Factor: 1, spellings: "volt volts volts voltios vdc vac dcv acv v= v~ v- v⎓ v⏦ vdc. vac. vcc vca v/dc v/ac v(dc) v(ac) vgs vws"},

	{Symbol: "A", Dimension: DimCurrent, Factor: 1, spellings: "amp amps ampere amperes adc aac"},
	{Symbol: "mA", Dimension: DimCurrent, Factor: float64(Milliampere), spellings: "milliamp milliampere"},

	{Symbol: "W", Dimension: DimPower, Factor: 1, spellings: "watt watts"},
	{Symbol: "mW", Dimension: DimPower, Factor: float64(Milliwatt)},
	{Symbol: "kW", Dimension: DimPower, Factor: 1000},

	{Symbol: "rpm", Dimension: DimSpeed, Factor: float64(RevolutionPerMinute), spellings: "1/min min-1 /min u/min upm r/min rev/min r.p.m. r.p.m tr/min t/min tr/mn trs/min g/min giri/min obr/min rpm. umdr/min umdr./min vueltas/min giros/min rev./min"},
	{Symbol: "1/s", Dimension: DimSpeed, Factor: 1, spellings: "s-1 rps rev/s"},

	{Symbol: "Hz", Dimension: DimFrequency, Factor: 1, spellings: "hertz"},
	{Symbol: "kHz", Dimension: DimFrequency, Factor: 1000},

	{Symbol: "h", Dimension: DimTime, Factor: float64(Hour), spellings: "hr hrs hour hours std std. stunden heure heures hora horas"},
	{Symbol: "kh", Dimension: DimTime, Factor: 1000 * float64(Hour), spellings: "khrs tsdh"},
	{Symbol: "min", Dimension: DimTime, Factor: float64(Minute)},
	{Symbol: "s", Dimension: DimTime, Factor: 1, spellings: "sec"},

	{Symbol: "°C", Dimension: DimTemperature, Factor: 1, spellings: "c degc grdc celsius deg.c"},
	{Symbol: "°F", Dimension: DimTemperature, Factor: 5.0 / 9, Offset: -160.0 / 9, spellings: "f degf fahrenheit deg.f"},

	{Symbol: "K", Dimension: DimTemperatureRise, Factor: 1, spellings: "kelvin °c c degc"},

	{Symbol: "dB(A)", Dimension: DimLevel, Factor: 1, spellings: "db dba db-a db/a db[a] decibel decibels"},
	{Symbol: "B", Dimension: DimLevel, Factor: 10, spellings: "bel bels ba b(a)"},
}

// PreferredUnit gives the unit the tool prints for d; the zero Unit where d
// has none.
func PreferredUnit(d Dimension) Unit {
	for _, u := range units {
		if u.Dimension == d {
			return u
		}
	}
	return Unit{Dimension: d, Factor: 1}
}

// Units lists every unit that is understood, the preferred one of each
// dimension first.
func Units() []Unit { return slices.Clone(units) }

// Spellings lists the folded spellings of the unit (see Fold), its symbol's
// first.
func (u Unit) Spellings() []string {
	return append([]string{Fold(u.Symbol)}, strings.Fields(u.spellings)...)
}

// UnitOf finds the unit of dimension d that is spelled so (folded first).
func UnitOf(d Dimension, spelling string) (Unit, bool) {
	want := Fold(spelling)
	if want == "" {
		return Unit{}, false
	}
	for _, u := range units {
		if u.Dimension == d && u.spelled(want) {
			return u, true
		}
	}
	return Unit{}, false
}

// UnitsSpelled lists the units of every dimension that are spelled so; "m³/h"
// has one, "C" is a temperature and a temperature rise.
func UnitsSpelled(spelling string) []Unit {
	want := Fold(spelling)
	var found []Unit
	for _, u := range units {
		if want != "" && u.spelled(want) {
			found = append(found, u)
		}
	}
	return found
}

// Symbols lists the symbols of dimension d, the preferred one first.
func Symbols(d Dimension) []string {
	var s []string
	for _, u := range units {
		if u.Dimension == d {
			s = append(s, u.Symbol)
		}
	}
	return s
}

func (u Unit) spelled(folded string) bool {
	if Fold(u.Symbol) == folded {
		return true
	}
	for rest := u.spellings; rest != ""; {
		word, after, _ := strings.Cut(rest, " ")
		if word == folded {
			return true
		}
		rest = after
	}
	return false
}
