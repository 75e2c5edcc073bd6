package match

import (
	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// Seat is the place a fan sits in: what the device offers and asks. What is
// unknown makes a check unclear, never passed.
type Seat struct {
	Width, Height quantity.Known[quantity.Length] // of the frame it takes
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

	SpaceWidth, SpaceHeight   quantity.Known[quantity.Length]  // the room there is, where it is more than the frame
	OutletWidth, OutletHeight quantity.Known[quantity.Length]  // blowers only
	VoltageLow                quantity.Known[quantity.Voltage] // lowest at the plug; Voltage is the highest
	Pulsed                    quantity.Known[bool]             // the supply is chopped, so meters and tach mislead
	Output                    string                           // the device's output that drives it; fans of one name share it
	AlarmShare                quantity.Known[float64]          // the alarm as a share of the fitted fan's label speed
	AlarmKind                 AlarmKind
	PWM                       PWMLine
	Pins                      []Pin // of the plug, from pin 1 on; empty where not measured
}

// AlarmKind is what a device that watches an alarm lead takes for a fan that
// turns.
type AlarmKind uint8

// The kinds of alarm lead.
const (
	AlarmUnknown  AlarmKind = iota
	AlarmLowRuns            // low while the fan turns
	AlarmHighRuns           // high, or open, while the fan turns
)

// AlarmKinds lists the names of the kinds, by AlarmKind less one.
var AlarmKinds = []string{"low_when_turning", "high_when_turning"}

// PWMLine is what the device does with the PWM lead of its plug.
type PWMLine uint8

// What may be done with a PWM lead.
const (
	PWMUnknown PWMLine = iota
	PWMDriven
	PWMOpen // the lead is there, nothing drives it
	PWMNone // there is no such lead
)

// PWMLines lists the names, by PWMLine less one.
var PWMLines = []string{"driven", "open", "none"}

// Pin is what a pin of the plug does.
type Pin uint8

// The pins.
const (
	PinMinus Pin = iota + 1
	PinPlus
	PinTach
	PinAlarm
	PinPWM
	PinLive
	PinNeutral
	PinEarth
	PinUnused
)

// PinNames lists the names of what pins do, by Pin less one.
var PinNames = []string{"minus", "plus", "tach", "alarm", "pwm", "live", "neutral", "earth", "unused"}

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
