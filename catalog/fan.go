package catalog

import (
	"strings"

	"golang.org/x/text/unicode/norm"

	"lowsone/catalog/quantity"
)

// Fan is one row of a parts catalogue. What no cell gave is unknown, never
// zero. All values are as the row states them: at rated voltage, in free air
// of standard density.
type Fan struct {
	Part  string // never empty
	Maker string // empty where unknown

	Kind          quantity.Known[Kind]
	Width, Height quantity.Known[quantity.Length]
	Depth         quantity.Known[quantity.Length]
	HolePitch     quantity.Known[quantity.Length]

	Voltage        quantity.Known[quantity.Voltage] // nominal
	VoltageMin     quantity.Known[quantity.Voltage]
	VoltageMax     quantity.Known[quantity.Voltage]
	Supply         quantity.Known[Supply]
	Current        quantity.Known[quantity.Current]
	Power          quantity.Known[quantity.Power]
	Leads          quantity.Known[float64]
	Connector      string
	TachPerRev     quantity.Known[float64] // pulses per revolution; a known 0 is a fan without tach
	PWM            quantity.Known[bool]    // has a PWM input
	StartVoltage   quantity.Known[quantity.Voltage]
	Frequency      quantity.Known[quantity.Frequency] // mains frequency its values hold for (AC)
	Airflow        quantity.Known[quantity.Flow]      // free delivery
	StaticPressure quantity.Known[quantity.Pressure]  // shut-off
	Curve          []CurvePoint                       // rising flow; empty where none was given
	Speed          quantity.Known[quantity.Speed]
	Noise          quantity.Known[quantity.Decibel] // A-weighted; what it is stands in NoiseKind
	NoiseKind      quantity.Known[NoiseKind]
	NoiseDistance  quantity.Known[quantity.Length]
	NoiseBands     []quantity.BandLevel // unweighted, rising frequency; of NoiseKind at NoiseDistance; empty where none were given

	Blades    quantity.Known[float64]
	Bearing   string
	Life      quantity.Known[quantity.Time]
	LifeTemp  quantity.Known[quantity.Temperature]
	TempMax   quantity.Known[quantity.Temperature]
	Price     quantity.Known[float64] // in Currency
	Currency  string
	Supplier  string
	OrderCode string
	Stock     quantity.Known[float64] // pieces
	InStock   quantity.Known[bool]    // said without a number: "yes" is no count of pieces

	Description string
	Extra       []Extra // columns that were not recognised, in file order
	Source      Source
	Remarks     []string // what the reading of the row had to say about it
}

// CurvePoint is one point of a static pressure curve.
type CurvePoint struct {
	Flow     quantity.Flow
	Pressure quantity.Pressure
}

// Extra is a cell of a column that no field stands for.
type Extra struct{ Header, Text string }

// Source says where a row was read.
type Source struct {
	Name string // file name, or the name given at import
	Line int    // physical line, from 1
}

// Kind is how a fan moves its air. Its zero value names no kind.
type Kind uint8

// The kinds.
const (
	Axial Kind = iota + 1
	Centrifugal
	Mixed
	Crossflow
)

// Supply is what a fan runs on.
type Supply uint8

// The supplies.
const (
	DC Supply = iota + 1
	AC
)

// NoiseKind says whether a rated level is a sound pressure or a sound power.
type NoiseKind uint8

// The kinds of rated level.
const (
	NoisePressure NoiseKind = iota + 1
	NoisePower
)

var (
	kindNames      = []string{"axial", "centrifugal", "mixed", "crossflow"}
	supplyNames    = []string{"dc", "ac"}
	noiseKindNames = []string{"pressure", "power"}
	yesNo          = []string{"no", "yes"}
)

// String gives the kind's name in the tool's own CSV; empty for no kind.
func (k Kind) String() string { return nameOf(kindNames, int(k)) }

// String gives the supply's name in the tool's own CSV.
func (s Supply) String() string { return nameOf(supplyNames, int(s)) }

// String gives the name of the kind of level in the tool's own CSV.
func (n NoiseKind) String() string { return nameOf(noiseKindNames, int(n)) }

func nameOf(names []string, code int) string {
	if code < 1 || code > len(names) {
		return ""
	}
	return names[code-1]
}

// Key identifies a fan within its source: maker and part with blanks and case
// folded. The maker ends at a character no cell can hold.
func Key(maker, part string) string { return FoldKey(maker) + "\x00" + FoldKey(part) }

// FoldKey folds one name for comparison: compatibility forms resolved, blanks
// dropped, lower case.
func FoldKey(name string) string {
	return strings.ToLower(strings.Join(strings.Fields(norm.NFKC.String(name)), ""))
}

// Key gives the fan's key.
func (f *Fan) Key() string { return Key(f.Maker, f.Part) }

// Name gives maker and part as people write them.
func (f *Fan) Name() string {
	if f.Maker == "" {
		return f.Part
	}
	return f.Maker + " " + f.Part
}
