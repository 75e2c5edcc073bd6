package gen

// Number is a value that may be unknown. The zero value is unknown, which is not the number 0.
type Number struct {
	Value float64
	Known bool
}

func known(v float64) Number { return Number{Value: v, Known: true} }

// Point is one point of a fan curve.
type Point struct{ FlowM3h, PressurePa float64 }

// Physics is what a fan really does, unrounded, at its rated speed in air of 1.2 kg/m³. No file carries it.
type Physics struct {
	Family     string  // fans that share a wheel: the similarity laws hold between them
	ImpellerMM float64 // wheel diameter over the blade tips
	SpanMM     float64 // length of a crossflow wheel; 0 for the other kinds
	SpeedRPM   float64
	Phi, Psi   float64 // flow and pressure coefficient
	FlowM3h    float64 // free air
	PressurePa float64 // at no flow
	AirPowerW  float64 // largest p·Q on its curve
	LevelDBA   float64 // sound pressure level in free air, 1 m from the inlet
	PowerW     float64 // electrical
	LifeHalveK float64 // temperature rise that halves the life
}

// Spec is one fan: the record of the catalogue in the units of its column names. An empty string is unknown.
type Spec struct {
	Part, Maker, Kind                       string
	WidthMM, HeightMM, DepthMM, HolePitchMM Number
	VoltageV, VoltageMinV, VoltageMaxV      Number
	Supply                                  string // dc or ac
	CurrentA, PowerW, Leads                 Number
	Connector                               string
	TachPerRev                              Number
	PWM                                     string // yes or no
	StartVoltageV, FrequencyHz              Number
	AirflowM3h, StaticPressurePa            Number
	Curve                                   []Point
	SpeedRPM, NoiseDBA                      Number
	NoiseKind                               string // pressure or power
	NoiseDistanceM, Blades                  Number
	OctavesDB                               [numOctaves]Number // unweighted, of the same kind and distance as NoiseDBA
	Bearing                                 string
	LifeH, LifeTempC, TempMaxC, Price       Number
	Currency, Supplier, OrderCode           string
	Stock                                   Number
	Description                             string
	Physics                                 Physics
	maker                                   *maker // habits of writing; what a file says is in the fields above
	bearing                                 byte
	level                                   float64 // NoiseDBA before it was rounded
	alarm                                   bool    // the third lead reports a stopped rotor, it does not pulse
}
