package quantity

// Decibel is a difference of two levels, or the bare number of a rated level
// whose kind and distance stand beside it.
type Decibel float64

// SoundPressureLevel is an A-weighted sound pressure level in dB re 20 µPa, at
// a distance stated where it is used.
type SoundPressureLevel struct{ db float64 }

// PressureLevel gives the sound pressure level of db dB(A).
func PressureLevel(db float64) SoundPressureLevel { return SoundPressureLevel{db} }

// DB gives the level in dB(A).
func (l SoundPressureLevel) DB() float64 { return l.db }

// Plus gives the level that lies d above l.
func (l SoundPressureLevel) Plus(d Decibel) SoundPressureLevel {
	return SoundPressureLevel{l.db + float64(d)}
}

// Above gives how far l lies above m.
func (l SoundPressureLevel) Above(m SoundPressureLevel) Decibel { return Decibel(l.db - m.db) }

// SoundPowerLevel is an A-weighted sound power level in dB re 1 pW. It belongs
// to the source and has no distance.
type SoundPowerLevel struct{ db float64 }

// PowerLevel gives the sound power level of db dB(A).
func PowerLevel(db float64) SoundPowerLevel { return SoundPowerLevel{db} }

// DB gives the level in dB(A) re 1 pW.
func (l SoundPowerLevel) DB() float64 { return l.db }

// PowerOverPressure is how far a sound power level lies above the sound pressure
// level 1 m from the source in free air: 11 dB, of the exact 10·lg 4π = 10.99.
const PowerOverPressure Decibel = 11

// Plus gives the level that lies d above l.
func (l SoundPowerLevel) Plus(d Decibel) SoundPowerLevel {
	return SoundPowerLevel{l.db + float64(d)}
}
