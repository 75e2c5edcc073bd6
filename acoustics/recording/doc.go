// Package recording reads sound files and tables of band levels, and tells what
// is in them: A-weighted level over time, third-octave spectrum, narrow-band
// spectrum, tones; with a meter's reading also sound pressure levels and loudness;
// and what changed from one recording to another.
//
// [Open] reads the header of a WAV file, [Analyse] goes through its samples once.
// Levels are in dB re full scale ([FullScale]) until [Analysis.Calibrate] sets
// their scale by what a meter showed during the recording: only differences
// between recordings of one gain mean anything before. Whose a tone is, the
// package does not know.
//
// How it is measured:
//
//   - Windows of 1 to 2 s, the least power of two that resolves 1 Hz, half
//     overlapping. One Fourier transform of each serves twice: tapered by Hann's
//     window it goes into the mean power spectrum (Welch's method); weighted by A
//     and turned back, its middle half is the A-weighted sound in time. The
//     weighting is that of acoustics, exact at every bin.
//   - A-weighted levels are those of a meter on "fast" (125 ms), and equivalent
//     levels of each second. A quarter window at both ends has none.
//   - Third octaves are sums of bins between the exact edges of the bands, bins
//     at an edge by their share. Bands beyond half the sampling rate are not
//     known. For loudness the bands have the skirts of filters instead.
//   - Nothing above 22.4 kHz counts, nor does a constant offset.
//   - Two channels are their energy mean, without one that is silent.
//
// Assumptions: the sound is steady, as that of a fan is; a finding says where it
// is not. What the microphone hears unevenly and what a phone's noise suppression
// takes away is in the result.
//
// Nothing in a file is trusted. Memory is bounded by the sampling rate and, at 8
// bytes a second, by the length of the recording, which ends at 4 GiB; no size
// that a header states makes room. Of go-audio this package takes the reader of
// chunk headers (riff) alone. Its WAV decoder is used by tests, as a second
// opinion on integer samples: it needs a file to seek in, makes room by the sizes
// that format and list chunks claim, takes floating point for integers, and does
// not say what is missing. The chunk reader takes a size that cannot be read for
// zero; the bytes are counted here for that.
//
// [ReadBands] reads tables of band levels of apps and analysers.
//
// # References
//
//   - [IEC61672] IEC 61672-1, sound level meters: time weighting F, A- and
//     C-weighting.
//   - [IEC61260] IEC 61260-1, octave-band filters: bands, base ten.
//   - [ISO532-1] ISO 532-1:2017, loudness, and what levels it takes.
//   - [ANSIS1.11] ANSI S1.11-1986, octave-band filters: the bandwidth of
//     Butterworth designs; from memory.
//   - [BendatPiersol] Bendat, Piersol, Random Data, ch. 8: random error of a mean
//     square, 1/√(B·T).
//   - Welch, The use of fast Fourier transform for the estimation of power
//     spectra, IEEE Trans. Audio Electroacoust. 15 (1967).
//   - RIFF WAVE: Multimedia Programming Interface and Data Specifications 1.0
//     (1991), and the extensible format of 2001.
package recording
