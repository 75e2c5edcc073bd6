package quantity

// BandLevel is the sound pressure level of one frequency band in dB re 20 µPa,
// unweighted unless it is stated where it is used. Frequency is the band's
// mid-band frequency, nominal or exact; whether bands are octaves or thirds
// shows only when all of them are seen together.
type BandLevel struct {
	Frequency Frequency
	Level     Decibel
}
