package acoustics

// Noise criterion curves by [Beranek], octaves from 63 Hz to 8 kHz, as handbooks
// and open libraries print them. Those of [S12.2] differ by 1 dB in single bands.
const (
	firstNC  = 15 // of the first curve
	lastNC   = 70
	stepNC   = 5
	numNC    = 12
	octaveNC = 1 // the octave of a curve's first level: 63 Hz
)

var ncCurves = [numNC][NumOctaves - octaveNC]float64{
	{47, 36, 29, 22, 17, 14, 12, 11}, // NC-15
	{51, 40, 33, 26, 22, 19, 17, 16},
	{54, 44, 37, 31, 27, 24, 22, 21},
	{57, 48, 41, 35, 31, 29, 28, 27}, // NC-30
	{60, 52, 45, 40, 36, 34, 33, 32},
	{64, 56, 50, 45, 41, 39, 38, 37},
	{67, 60, 54, 49, 46, 44, 43, 42}, // NC-45
	{71, 64, 58, 54, 51, 49, 48, 47},
	{74, 67, 62, 58, 56, 54, 53, 52},
	{77, 71, 67, 63, 61, 59, 58, 57}, // NC-60
	{80, 75, 71, 68, 66, 64, 63, 62},
	{83, 79, 75, 72, 71, 70, 69, 68}, // NC-70
}

// nc31Hz holds the levels of the curves in the octave at 31.5 Hz, which only
// [S12.2] gives.
var nc31Hz = [numNC]float64{61, 63, 65, 68, 71, 74, 76, 79, 82, 85, 88, 90}
