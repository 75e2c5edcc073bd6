package quantity

// Length is stored in metres.
type Length float64

// Units of length. Inch and foot are exact by [NIST811] B.8.
const (
	Metre      Length = 1
	Millimetre Length = 1e-3
	Centimetre Length = 1e-2
	Inch       Length = 0.0254
	Foot       Length = 0.3048
)

// Area is stored in square metres.
type Area float64

// Units of area.
const (
	SquareMetre      Area = 1
	SquareCentimetre Area = 1e-4
)

// Flow is a volume flow, stored in m³/s.
type Flow float64

// Units of flow. CFM is the cubic foot per minute, exact by the inch.
const (
	CubicMetrePerSecond Flow = 1
	CubicMetrePerMinute Flow = 1.0 / 60
	CubicMetrePerHour   Flow = 1.0 / 3600
	LitrePerSecond      Flow = 1e-3
	LitrePerMinute      Flow = 1e-3 / 60
	CFM                 Flow = 0.3048 * 0.3048 * 0.3048 / 60
)

// Pressure is a static pressure rise or loss, stored in pascal.
type Pressure float64

// Units of pressure. The water columns are the conventional ones (1000 kg/m³,
// standard gravity 9.80665 m/s²), [NIST811] B.8.
const (
	Pascal          Pressure = 1
	Hectopascal     Pressure = 100
	Kilopascal      Pressure = 1000
	MillimetreWater Pressure = 9.80665
	InchWater       Pressure = 9.80665 * 25.4
	PoundPerSquare  Pressure = 6894.757293168
)

// Voltage is stored in volts.
type Voltage float64

// Volt is the unit of voltage.
const Volt Voltage = 1

// Current is stored in amperes.
type Current float64

// Units of current.
const (
	Ampere      Current = 1
	Milliampere Current = 1e-3
)

// Power is stored in watts.
type Power float64

// Units of power.
const (
	Watt      Power = 1
	Milliwatt Power = 1e-3
)

// Speed is a speed of rotation, stored in revolutions per second.
type Speed float64

// RevolutionPerMinute is the trade's unit of speed.
const RevolutionPerMinute Speed = 1.0 / 60

// Frequency is stored in hertz.
type Frequency float64

// Hertz is the unit of frequency.
const Hertz Frequency = 1

// Time is a span of time, stored in seconds.
type Time float64

// Units of time.
const (
	Second Time = 1
	Minute Time = 60
	Hour   Time = 3600
)

// Density is stored in kg/m³.
type Density float64

// TemperatureRise is a difference of temperatures, stored in kelvin.
type TemperatureRise float64

// Kelvin is the unit of a temperature difference.
const Kelvin TemperatureRise = 1

// Temperature is an absolute temperature. Two temperatures have a difference
// but no sum.
type Temperature struct{ celsius float64 }

// Celsius gives the temperature of c degrees Celsius.
func Celsius(c float64) Temperature { return Temperature{c} }

// Celsius gives t in degrees Celsius.
func (t Temperature) Celsius() float64 { return t.celsius }

// Plus gives the temperature that lies rise above t.
func (t Temperature) Plus(rise TemperatureRise) Temperature {
	return Temperature{t.celsius + float64(rise)}
}

// Above gives how far t lies above u.
func (t Temperature) Above(u Temperature) TemperatureRise {
	return TemperatureRise(t.celsius - u.celsius)
}
