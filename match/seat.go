package match

import (
	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// Seat is the place a fan sits in: what the device offers and asks. What is
// unknown makes a check unclear, never passed.
type Seat struct {
	Width, Height quantity.Known[quantity.Length]
	HolePitch     quantity.Known[quantity.Length]
	DepthMax      quantity.Known[quantity.Length]
	Kind          quantity.Known[catalog.Kind]
	AnyKind       bool // kinds may be exchanged, because the person said so

	Supply     quantity.Known[catalog.Supply]
	Voltage    quantity.Known[quantity.Voltage]   // at the plug
	Mains      quantity.Known[quantity.Frequency] // AC only
	CurrentMax quantity.Known[quantity.Current]   // what the output gives
	Leads      quantity.Known[float64]
	Connector  string

	Watches     Watch
	AlarmSpeed  quantity.Known[quantity.Speed] // below it the device alarms
	AlarmPulses quantity.Known[float64]        // pulses per turn the device counts with
	SlowBy      SlowBy
	AirTemp     quantity.Known[quantity.Temperature] // of the air that meets the fan
}

// SeatOf gives the seat that the fitted fan tells of: its own frame, pitch,
// kind, supply and plug, its depth as the most, its nominal voltage.
func SeatOf(f *catalog.Fan) Seat {
	return Seat{
		Width: f.Width, Height: f.Height, HolePitch: f.HolePitch, DepthMax: f.Depth,
		Kind: f.Kind, Supply: f.Supply, Voltage: f.Voltage, Mains: f.Frequency,
		Leads: f.Leads, Connector: f.Connector,
	}
}

// Watch is what the device does with the third lead.
type Watch uint8

// What a device may watch. Unwatched is stated; WatchUnknown is the zero value.
const (
	WatchUnknown Watch = iota
	Unwatched
	WatchTach  // counts the pulses
	WatchAlarm // expects a locked-rotor signal
)

// Watches lists the names of what a device may watch, by Watch less one.
var Watches = []string{"nothing", "tach", "alarm"}

// SlowBy is how the device can slow a fan down.
type SlowBy uint8

// The ways to slow a fan down.
const (
	SlowAny     SlowBy = iota // every speed from the lowest one at which the fan runs
	SlowNone                  // full speed only
	SlowVoltage               // by a linear regulator on the same supply
	SlowPWM                   // by the fan's PWM input
)

// SlowWays lists the names of the ways to slow down, by SlowBy.
var SlowWays = []string{"any", "none", "voltage", "pwm"}

// String gives the way's name.
func (s SlowBy) String() string { return SlowWays[s] }
