package match

import (
	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// Device is everything recorded of a device at the bench. What was not
// recorded is unknown.
type Device struct {
	Name         string
	Purpose      Purpose
	Ambient      quantity.Known[quantity.Temperature] // of the room while it was measured
	AmbientWorst quantity.Known[quantity.Temperature] // the hottest room it will stand in
	Altitude     quantity.Known[quantity.Length]      // of the hottest place it will stand in; unknown: sea level, said
	Listener     quantity.Known[quantity.Length]      // from the device to where people sit
	Room         quantity.Known[quantity.SoundPressureLevel]
	RoomBands    *acoustics.Thirds // of the room with the device off, where people sit; nil where not measured
	Paths        []Path
	Sources      []Source
	Readings     []Reading // of the whole device
}

// Path is one air path through the device with the fan that moves its air:
// what was recorded of the fan, its seat, and of what its air cools.
type Path struct {
	Name     string
	Fitted   *catalog.Fan
	Row      int // of the fitted fan in the catalogue; NotInCatalogue where it is described only
	Seat     Seat
	SpeedNow Speed
	Way      Way   // the one way the resistance is taken from
	Ways     []Way // all ways recorded; empty where there is only Way

	Fans      int  // equal fans that share this path's air; 0 counts as one
	Series    bool // one behind the other, else side by side
	Arranged  bool // which of both was said
	Regulated bool // the fan sets its own speed (thermistor), or the device does
	Listener  quantity.Known[quantity.Length]
	Guard     quantity.Known[quantity.Length] // from the blades to the nearest grille or obstacle
	Heat      quantity.Known[quantity.Power]  // into this path while measured; else that of the heat balance
	HeatWorst quantity.Known[quantity.Power]
	Inlet     quantity.Known[quantity.Temperature] // of the air that entered while measured; else the room's
	Spots     []Spot
	Reading   *Reading // level of this path's fan alone; nil where not measured

	Direction   Direction
	RegulatedBy Regulator                            // what sets the speed; with RegulatedUnknown Regulated is false
	Outlet      quantity.Known[quantity.Temperature] // of the mixed air that left while measured
	Near        Near
	Clean       quantity.Known[bool] // no dirt on filter, grilles and fins while measured
	Mount       Mount
	Shaft       Shaft
}

// Purpose says what a device is for, as far as that forbids advice.
type Purpose uint8

// The purposes. All but PurposeOrdinary and the unknown are turned away.
const (
	PurposeUnknown Purpose = iota
	PurposeOrdinary
	PurposeMedical
	PurposeSafety // life safety, fire protection, ducts that carry fumes
	PurposeSealed // a sealed module with mains inside
)

// Purposes lists the names of the purposes, by Purpose less one.
var Purposes = []string{"ordinary", "medical", "safety", "sealed_mains"}

// completed gives the path with what its seat says of the fitted fan: a fan whose
// kind is not stated is of the kind that its seat takes.
func (p Path) completed() Path {
	if p.Fitted == nil || p.Fitted.Kind.Known() || p.Seat.AnyKind || !p.Seat.Kind.Known() {
		return p
	}
	fitted := *p.Fitted
	fitted.Kind = p.Seat.Kind
	p.Fitted = &fitted
	return p
}

// Direction is which way the air goes at the fan, as found.
type Direction uint8

// The directions.
const (
	DirectionUnknown Direction = iota
	BlowsIn                    // into the device: it meets the air that enters
	BlowsOut                   // out of the device: it meets the warm air
)

// Directions lists the names of the directions, by Direction less one.
var Directions = []string{"in", "out"}

// Regulator is what sets the speed of a fan.
type Regulator uint8

// The regulators.
const (
	RegulatedUnknown  Regulator = iota
	RegulatedNot                // it runs as its supply lets it
	RegulatedByFan              // a thermistor in the fan
	RegulatedByDevice           // the device, by what it measures
)

// Regulators lists the names of the regulators, by Regulator less one.
var Regulators = []string{"no", "fan", "device"}

// Near is what stands close to the fan, from its blades on.
type Near struct{ Grille, Filter, InletObstacle, OutletObstacle Clearance }

// Clearance is the distance to a thing beside the fan. Its zero value is
// unknown.
type Clearance struct {
	Distance quantity.Known[quantity.Length]
	None     bool // there is no such thing
}

// Known says whether the thing's distance, or that it is not there, is known.
func (c Clearance) Known() bool { return c.None || c.Distance.Known() }

// Mount is how a fan is held.
type Mount uint8

// The mounts.
const (
	MountUnknown Mount = iota
	MountHard          // screwed to sheet metal
	MountSoft          // on rubber
)

// Mounts lists the names of the mounts, by Mount less one.
var Mounts = []string{"hard", "soft"}

// Shaft is how the axis of a fan lies.
type Shaft uint8

// The positions of the shaft.
const (
	ShaftUnknown  Shaft = iota
	ShaftLevel          // lying
	ShaftFaceUp         // standing, the open side of the blades up
	ShaftFaceDown       // standing, the open side of the blades down: its weight hangs in the bearing
)

// Shafts lists the names of the positions, by Shaft less one.
var Shafts = []string{"level", "face_up", "face_down"}

// Spot is a watched place and how it was found, steady, at the present flow.
type Spot struct {
	Name    string
	Found   quantity.Temperature
	Limit   quantity.Temperature
	LimitBy string                                   // what sets it: a cut-out, a data sheet
	Margin  quantity.Known[quantity.TemperatureRise] // unknown: 10 K
	Part    SpotPart
	Load    string                        // under what load it was found
	Soak    quantity.Known[quantity.Time] // for how long
	Settled string                        // name of the settling rule it kept; empty where none was tried
	Solid   quantity.Known[float64]       // share of the rise that no flow takes away
	Film    quantity.Known[float64]       // exponent m of the film part
	Seen    quantity.Known[SpotAir]       // which air cools it
}

// SpotPart says what part a spot is, for the price in life of more warmth.
type SpotPart uint8

// The parts. SpotOther has no rule of life.
const (
	SpotOther SpotPart = iota
	SpotCapacitor
	SpotSemiconductor
)

// SpotParts lists the names of the parts, by SpotPart.
var SpotParts = []string{"other", "capacitor", "semiconductor"}

// SpotAir says which air a spot meets.
type SpotAir uint8

// The airs.
const (
	AirOutlet SpotAir = iota + 1 // all the air of the path, at its outlet
	AirMean                      // on the way: half the rise
)

// SpotAirs lists the names of the airs, by SpotAir less one.
var SpotAirs = []string{"outlet", "mean"}

// Source is another thing that makes noise.
type Source struct {
	Name     string
	Level    quantity.SoundPressureLevel // at Distance
	Distance quantity.Length             // at which Level holds
	Bands    *acoustics.Thirds           // at Distance; nil where not measured
	Listener quantity.Known[quantity.Length]
}

// Reading is a level that was measured.
type Reading struct {
	Level      quantity.SoundPressureLevel
	Distance   quantity.Length
	Bands      *acoustics.Thirds                           // nil where not measured; Level is theirs where no meter said one
	Background quantity.Known[quantity.SoundPressureLevel] // with everything off
	After      bool                                        // after a change: not of the device as found
	Meter      acoustics.Meter                             // that it was measured with; zero where that is not known
}
