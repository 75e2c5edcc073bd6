// Package acoustics computes sound levels and spectra: how levels add, how they
// fall with distance, what a fan's level and spectrum become at another speed,
// density or duty, how a spectrum is weighted and rated, and which tones a fan
// makes.
//
// A quantity.SoundPressureLevel is A-weighted; the bands of Thirds and Octaves
// are not. A fan's rated level is taken as measured 1 m from the inlet in free
// air at 1.2 kg/m³, as labels mean it (common practice). Speed laws hold for the
// noise of the air alone; bearing, motor and chopped supply take over at low
// speed, which is marked. Typical spectra are typical: what is worked out from
// them is an estimate.
//
// Band levels from a cell or a file come in through ReadBands alone, which says
// what is wrong with them. A band without sound is -Inf, one not known NaN, and
// so is what follows from it. Everything here is a pure function, and what may
// be asked for each of many fans does not allocate. Arguments outside a stated
// range give NaN or the stated limit, never a panic.
//
// Loudness by ISO 532-1 from third-octave levels is the package loudness beneath
// this one.
//
// # References
//
//   - [Beranek] Beranek, J. Acoust. Soc. Am. 25 (1953) 313: NC curves, as open
//     libraries table them.
//   - [Bies] Bies, Hansen, Howard, Engineering Noise Control, 5th edition:
//     adding levels (ch. 1), direct and reverberant field (ch. 6).
//   - [ECMA418] ECMA-418-1, 3rd edition 2024: critical bands, tone-to-noise and
//     prominence ratio, by two open libraries.
//   - [Fastl] Fastl, Zwicker, Psychoacoustics, 3rd edition 2007: fluctuation and
//     roughness.
//   - [IEC61260] IEC 61260-1:2014, octave-band and fractional-octave-band
//     filters: mid-band frequencies, exact and nominal.
//   - [IEC61672] IEC 61672-1:2013, sound level meters: A- and C-weighting; its
//     edition of 2002: tolerances of classes 1 and 2.
//   - [ISO226] ISO 226:2023, normal equal-loudness-level contours: the threshold
//     of hearing.
//   - [ISO3746] ISO 3746:2010, sound power by the survey method: background
//     correction K1.
//   - [KardousShaw] Kardous, Shaw, J. Acoust. Soc. Am. 135 (2014) EL186: phones
//     as sound level meters.
//   - [Nast] Nast, Speer, Le Prell, Noise & Health 16 (2014) 251: the same.
//   - [ISOR1996] ISO/R 1996:1971 and AS 1469:1983: noise rating curves.
//   - [S12.2] ANSI/ASA S12.2-2019, room noise: NC curves with 31.5 Hz.
//   - [VDI2081] VDI 2081 part 1: noise of fans off their best duty, and its
//     spectrum.
package acoustics
