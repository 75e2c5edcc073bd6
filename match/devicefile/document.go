package devicefile

import (
	"lowsone/acoustics"
	"lowsone/catalog/quantity"
	"lowsone/match"
	"lowsone/match/resistance"
)

// document is a device file as it is written, each value with its place.
type document struct {
	section
	device   placed[string]
	purpose  placed[match.Purpose]
	room     room
	listener placed[quantity.Length]
	paths    []path
	noise    []noise
	measured []reading
}

type room struct {
	section
	now, worst placed[quantity.Temperature]
	altitude   placed[quantity.Length]
	level      placed[quantity.SoundPressureLevel]
	heard      heard
}

type noise struct {
	section
	name               placed[string]
	level              placed[quantity.SoundPressureLevel]
	distance, listener placed[quantity.Length]
	heard              heard
}

type reading struct {
	section
	level, background placed[quantity.SoundPressureLevel]
	distance          placed[quantity.Length]
	when              placed[moment]
	meter             placed[acoustics.Meter]
	heard             heard
}

// moment is when a level was measured.
type moment uint8

const (
	asFound moment = iota
	changed
)

var moments = []string{"before", "after"} // a change

// meters lists the names of meters, by acoustics.Meter less one.
var meters = []string{"class_1", "class_2", "phone"}

type path struct {
	section
	name        placed[string]
	fan         fan
	fans        placed[float64]
	arrangement placed[arrangement]
	regulated   placed[match.Regulator]
	speed       placed[match.Speed]
	direction   placed[match.Direction]
	mount       placed[match.Mount]
	shaft       placed[match.Shaft]
	clean       placed[bool]
	listener    placed[quantity.Length]
	slowBy      placed[match.SlowBy]
	space       space
	supply      supply
	leads       leads
	near        near
	heat        heat
	air         airflow
	resistance  ways
	spots       []spot
	measured    reading
}

// arrangement is how several fans share a path's air.
type arrangement uint8

const (
	parallel arrangement = iota
	series
)

var arrangements = []string{"parallel", "series"}

type fan struct {
	section
	part, name placed[string]
	values     []fanValue
}

type fanValue struct {
	Value
	at Place
}

type space struct {
	section
	width, height, depth      placed[quantity.Length]
	holePitch, holeDiagonal   placed[quantity.Length]
	kind                      placed[seatKind]
	outletWidth, outletHeight placed[quantity.Length]
}

// seatKind is the kind of fan a seat takes: a catalog.Kind, or anyKind.
type seatKind uint8

const anyKind seatKind = 0

type supply struct {
	section
	kind               placed[supplyKind]
	voltage, low, high placed[quantity.Voltage]
	current            placed[quantity.Current]
	mains              placed[quantity.Frequency]
	pulsed             placed[bool]
	output             placed[string]
}

// supplyKind is a catalog.Supply.
type supplyKind uint8

type leads struct {
	section
	count       placed[float64]
	connector   placed[string]
	pins        placed[[]match.Pin]
	watches     placed[match.Watch]
	alarmBelow  placed[match.Speed]
	alarmPulses placed[float64]
	alarmKind   placed[match.AlarmKind]
	pwm         placed[match.PWMLine]
}

type near struct {
	section
	grille, filter, inletObstacle, outletObstacle placed[match.Clearance]
}

type heat struct {
	section
	now, worst placed[quantity.Power]
}

type airflow struct {
	section
	inlet, outlet placed[quantity.Temperature]
	fanAt         placed[resistance.Place]
}

type ways struct {
	section
	share    placed[float64]
	flow     placed[quantity.Flow]
	pressure placed[quantity.Pressure]
	points   []point
	geometry []piece
}

type point struct {
	section
	flow     placed[quantity.Flow]
	pressure placed[quantity.Pressure]
}

type spot struct {
	section
	name         placed[string]
	found, limit placed[quantity.Temperature]
	limitBy      placed[string]
	margin       placed[quantity.TemperatureRise]
	load         placed[string]
	soak         placed[quantity.Time]
	settled      placed[string]
	part         placed[match.SpotPart]
	solid, film  placed[float64]
	air          placed[match.SpotAir]
}
