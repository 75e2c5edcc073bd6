package match

import (
	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match/resistance"
)

// NotInCatalogue is the Row of a fitted fan that no catalogue row stands for.
const NotInCatalogue = -1

// Speed is the speed the fitted fan had while measured, as turns per second or
// as a ratio to its label; both unknown: not measured.
type Speed struct {
	Turns quantity.Known[quantity.Speed]
	Ratio quantity.Known[float64]
}

// Way is the way from a measurement to the device's resistance. Method says
// which members count.
type Way struct {
	Method   resistance.Method
	Assumed  bool // share of resistance.DefaultShare, because nothing was given
	Share    float64
	Flow     quantity.Flow
	Pressure quantity.Pressure
	Heat     Heat
	Points   []catalog.CurvePoint
	Geometry resistance.Path
}

// Heat is a heat balance of the air path.
type Heat struct {
	Power   quantity.Power
	AirRise quantity.TemperatureRise
	Inlet   quantity.Known[quantity.Temperature]
	Outlet  bool // the fan sits in the warm air
}

// Need is the flow the device needs: Flow, or Share of the present flow. Of
// the two the one above zero counts. Both zero: what keeps the watched spots of
// the path at their limits, and where there are none, all of the present flow.
type Need struct {
	Share float64
	Flow  quantity.Flow
}

// Request asks for a ranking.
type Request struct {
	Path        Path
	Around      Surroundings
	Need        Need
	Listener    quantity.Length // 0: 1 m
	Room        quantity.Known[quantity.SoundPressureLevel]
	RoomBands   *acoustics.Thirds // of the room without the device at the listener; nil where not measured
	Others      []Turning         // other fans that turn in the device, for beats
	Choice      catalog.Filter    // which fans are looked at: maker, price, stock
	Exclude     []string          // part numbers left out
	NoEstimates bool
	Top         int // so many candidates are put into words; 0: all
	Weak        int // so many of the fans that are too weak are named, the nearest to enough; 0: ten
}
