// Package loudness computes how loud a steady sound is, in sone, from its 28
// third-octave levels: Zwicker's method for stationary sounds of [ISO532-1],
// clause 5, in a free or a diffuse field.
//
// The levels of the third octaves from 25 to 250 Hz are corrected for the ear's
// loss at low frequencies and put together into three critical bands. From each
// of the 20 critical bands comes a core loudness, nothing below the threshold in
// quiet. Each core loudness throws an upper flank over the bands above it; where
// the flank is higher than what a band has of its own, it hides it. The area
// under the whole pattern over 24 Bark is the loudness. A tone of 1 kHz and 40 dB
// is 1 sone; twice the sone sounds twice as loud.
//
// Sone and Analyse compute it; a Table answers fast for sounds of one spectral
// shape by their level in dB(A); Added tells how much a source adds to a room.
//
// Assumptions and limits:
//
//   - The listener hears normally, with the threshold and the contours of equal
//     loudness that the method was made for, those of ISO 226:1987. By those of
//     2023 it is within 4 phon from 500 Hz to 4 kHz, but too loud by 7 phon for a
//     tone of 250 Hz, 9 of 8 kHz, and 19 of 63 Hz.
//   - The sound is steady. What changes in time is heard louder than its mean.
//   - The level of a band that holds a tone includes what the filters let into
//     its neighbours, 20 dB down in the next third octave (clauses 4 and 5.2).
//     Levels typed in for a tone without those skirts give some 8 % less.
//   - The correction at low frequencies goes by ranges of level, so that loudness
//     takes small steps where a band passes from one range to the next: up to 3
//     dB in that band, most at 25 Hz. That is in the standard.
//   - The standard ends at 120 dB a band. Check refuses levels above 130 dB.
//   - The standard asks for a loudness within 5 % or 0.1 sone of its test
//     implementation (clause 5.1). That program rounds to 0.001 sone up to 16
//     sone and to 0.01 above; nothing is rounded here.
//
// Everything here is a pure function of plain float64, levels in dB re 20 µPa.
// A level of -Inf is a band without sound; a NaN among the levels gives NaN.
//
// # References
//
//   - [ISO532-1] ISO 532-1:2017, Acoustics, methods for calculating loudness,
//     part 1: Zwicker method. Clause 5: stationary sounds; annex A: numerical
//     details; annex B: test signals. The numbers were taken over from open
//     implementations that agree with each other, clause numbers from the
//     standard's contents.
package loudness
