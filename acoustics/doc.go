// Package acoustics computes sound levels: how they add, how they fall with
// distance, what a fan's level becomes at another speed, density or duty, how
// loud a level is, and which tones a fan makes.
//
// Levels are A-weighted. A fan's rated level is taken as measured 1 m from the
// inlet in free air at 1.2 kg/m³, as labels mean it (common practice). Speed
// laws hold for the noise of the air alone; bearing, motor and chopped supply
// take over at low speed, which is marked. Everything here is a pure function
// without allocation. Arguments outside a stated range give NaN or the stated
// limit, never a panic.
//
// The loudness in sone given here is an estimate from the level alone. Loudness
// by [ISO532-1] needs third-octave levels and is not part of this package.
//
// # References
//
//   - [Bies] Bies, Hansen, Howard, Engineering Noise Control, 5th edition:
//     adding levels (ch. 1), direct and reverberant field (ch. 6).
//   - [IEC61260] IEC 61260-1:2014, octave-band and fractional-octave-band
//     filters: mid-band frequencies, exact and nominal.
//   - [IEC61672] IEC 61672-1:2013, sound level meters: A- and C-weighting.
//   - [ISO3746] ISO 3746:2010, sound power by the survey method: background
//     correction K1.
//   - [ISO532-1] ISO 532-1:2017, Zwicker loudness: sone and phon.
//   - [VDI2081] VDI 2081 part 1: noise of fans off their best duty.
package acoustics
