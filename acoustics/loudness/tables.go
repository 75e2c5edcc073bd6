package loudness

// Sizes of the method. [ISO532-1] 5.2
const (
	lowBands   = 11 // third octaves from 25 to 250 Hz, which are put together
	lowGroups  = 3  // critical bands made of them
	coreBands  = 20 // approximated critical bands with a core loudness
	allBands   = 21 // the last takes the upper flank of the one before, to 24 Bark
	lowRanges  = 8
	slopeSteps = 18
	slopeCols  = 8
)

// lowRangeEnd holds the upper ends in dB of the ranges of corrected level at low
// frequencies. [ISO532-1] A.3, table A.3 (RAP)
var lowRangeEnd = [lowRanges]float64{45, 55, 65, 71, 80, 90, 100, 120}

// lowCorrection holds what the levels of the third octaves from 25 to 250 Hz are
// changed by in dB, a row for each range. [ISO532-1] A.3, table A.3 (ΔL)
var lowCorrection = [lowRanges][lowBands]float64{
	{-32, -24, -16, -10, -5, 0, -7, -3, 0, -2, 0},
	{-29, -22, -15, -10, -4, 0, -7, -2, 0, -2, 0},
	{-27, -19, -14, -9, -4, 0, -6, -2, 0, -2, 0},
	{-25, -17, -12, -9, -3, 0, -5, -2, 0, -2, 0},
	{-23, -16, -11, -7, -3, 0, -4, -1, 0, -1, 0},
	{-20, -14, -10, -6, -3, 0, -4, -1, 0, -1, 0},
	{-18, -12, -9, -6, -2, 0, -3, -1, 0, -1, 0},
	{-15, -10, -8, -4, -2, 0, -3, -1, 0, -1, 0},
}

// lowGroupEnd holds where each critical band made of low third octaves ends: 25
// to 80 Hz, 100 to 160 Hz, 200 and 250 Hz. [ISO532-1] 5.2, A.3
var lowGroupEnd = [lowGroups]int{6, 9, 11}

// earLoss holds what is lost in dB on the way through the ear, free field from
// the front. [ISO532-1] A.3, table A.4 (a0)
var earLoss = [coreBands]float64{
	0, 0, 0, 0, 0, 0, 0, 0, 0, 0,
	-0.5, -1.6, -3.2, -5.4, -5.6, -4, -1.5, 2, 5, 12,
}

// diffuseGain holds what the level at the ear is higher by in dB in a diffuse
// field. [ISO532-1] A.3, table A.5 (ΔL_DF)
var diffuseGain = [coreBands]float64{
	0, 0, 0.5, 0.9, 1.2, 1.6, 2.3, 2.8, 3, 2,
	0, -1.4, -2, -1.9, -1, 0.5, 3, 4, 4.3, 4,
}

// quietThreshold holds the level of the critical band in dB at the threshold in
// quiet, without the loss in the ear. [ISO532-1] A.3, table A.6 (L_TQ)
var quietThreshold = [coreBands]float64{
	30, 18, 12, 8, 7, 6, 5, 4, 3, 3,
	3, 3, 3, 3, 3, 3, 3, 3, 3, 3,
}

// bandAdaptation holds what third-octave levels are above those of the critical
// bands in dB. [ISO532-1] A.3, table A.7 (ΔL_CB)
var bandAdaptation = [coreBands]float64{
	-0.25, -0.6, -0.8, -0.8, -0.5, 0, 0.5, 1.1, 1.5, 1.7,
	1.8, 1.8, 1.7, 1.6, 1.4, 1.2, 0.8, 0.5, 0, -0.5,
}

// bandEnd holds the upper ends in Bark of the approximated critical bands.
// [ISO532-1] A.3, table A.8 (z)
var bandEnd = [allBands]float64{
	0.9, 1.8, 2.8, 3.5, 4.4, 5.4, 6.6, 7.9, 9.2, 10.6, 12.3,
	13.8, 15.2, 16.7, 18.1, 19.3, 20.6, 21.8, 22.7, 23.6, 24,
}

// slopeFloor holds the lower ends in sone per Bark of the ranges of specific
// loudness within which an upper flank is a straight line. [ISO532-1] A.3, table
// A.9 (N′)
var slopeFloor = [slopeSteps]float64{
	21.5, 18, 15.1, 11.5, 9, 6.1, 4.4, 3.1, 2.13,
	1.36, 0.82, 0.42, 0.30, 0.22, 0.15, 0.10, 0.035, 0,
}

// slope holds how much an upper flank falls in sone per Bark per Bark, a row for
// each range, a column for the critical band that it falls in: the second to the
// eighth, the last column for all from the ninth. The first band has no flank.
// [ISO532-1] A.3, table A.9 (S)
var slope = [slopeSteps][slopeCols]float64{
	{13, 8.2, 6.3, 5.5, 5.5, 5.5, 5.5, 5.5},
	{9, 7.5, 6, 5.1, 4.5, 4.5, 4.5, 4.5},
	{7.8, 6.7, 5.6, 4.9, 4.4, 3.9, 3.9, 3.9},
	{6.2, 5.4, 4.6, 4, 3.5, 3.2, 3.2, 3.2},
	{4.5, 3.8, 3.6, 3.2, 2.9, 2.7, 2.7, 2.7},
	{3.7, 3, 2.8, 2.35, 2.2, 2.2, 2.2, 2.2},
	{2.9, 2.3, 2.1, 1.9, 1.8, 1.7, 1.7, 1.7},
	{2.4, 1.7, 1.5, 1.35, 1.3, 1.3, 1.3, 1.3},
	{1.95, 1.45, 1.3, 1.15, 1.1, 1.1, 1.1, 1.1},
	{1.5, 1.2, 0.94, 0.86, 0.82, 0.82, 0.82, 0.82},
	{0.72, 0.67, 0.64, 0.63, 0.62, 0.62, 0.62, 0.62},
	{0.59, 0.53, 0.51, 0.50, 0.42, 0.42, 0.42, 0.42},
	{0.40, 0.33, 0.26, 0.24, 0.24, 0.22, 0.22, 0.22},
	{0.27, 0.21, 0.20, 0.18, 0.17, 0.17, 0.17, 0.17},
	{0.16, 0.15, 0.14, 0.12, 0.11, 0.11, 0.11, 0.11},
	{0.12, 0.11, 0.10, 0.08, 0.08, 0.08, 0.08, 0.08},
	{0.09, 0.08, 0.07, 0.06, 0.06, 0.06, 0.06, 0.05},
	{0.06, 0.05, 0.03, 0.02, 0.02, 0.02, 0.02, 0.02},
}
