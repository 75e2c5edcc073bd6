package acoustics

import (
	"math"

	"lowsone/catalog/quantity"
)

// surfaceDirectivity is Q of a source on a large surface (a table, a rack's
// front): it radiates into half of all directions. Common practice for a fan
// in a device.
const surfaceDirectivity = 2.0

// SmallRoom is the room constant R of a small, fairly live room, the least that
// is usual: its critical distance is 0.6 m, and at 1 m it is 6 dB louder than
// free air. Common practice for a room that is not known.
const SmallRoom quantity.Area = 16 * math.Pi * 0.6 * 0.6 / surfaceDirectivity

// InRoom gives the level at distance r from a source of sound power level lw in
// a room of diffuse sound:
//
//	Lp = Lw + 10·lg( Q/(4π·r²) + 4/R )
//
// Q is the directivity factor (1 in free air, 2 on a surface, 4 in an edge, 8
// in a corner); R = S·α/(1 − α) is the room constant, with S the area of the
// room's surfaces and α their mean absorption. R = +Inf is free air. r and R
// must be above 0. [Bies] ch. 6.
func InRoom(lw quantity.SoundPowerLevel, q float64, r quantity.Length, room quantity.Area) quantity.SoundPressureLevel {
	direct := q / (4 * math.Pi * float64(r) * float64(r))
	diffuse := 4 / float64(room)
	return quantity.PressureLevel(lw.DB() + decibel(direct+diffuse))
}

// CriticalDistance gives the distance from a source on a surface (Q = 2) at
// which direct and diffuse sound are equal; beyond it the level hardly falls:
//
//	d_c = √(2·R/(16π))
//
// [Bies] ch. 6.
func CriticalDistance(room quantity.Area) quantity.Length {
	return quantity.Length(math.Sqrt(surfaceDirectivity * float64(room) / (16 * math.Pi)))
}

// RoomBand carries a label's free-air level from its distance to the listener
// in a room of constant R, as a band. Low is free air, all that is certain;
// high adds the room's diffuse sound for a source on a surface:
//
//	low  = L − 20·lg(to/from)
//	high = low + 10·lg(1 + (to/d_c)²)
//
// Well beyond the critical distance d_c high no longer falls. In SmallRoom high
// lies 6 dB above low at 1 m, and more beyond. from, to and R must be above 0.
// [Bies] ch. 6.
func RoomBand(l quantity.SoundPressureLevel, from, to quantity.Length, room quantity.Area) (low, high quantity.SoundPressureLevel) {
	low = AtDistance(l, from, to)
	share := float64(to / CriticalDistance(room))
	return low, low.Plus(quantity.Decibel(decibel(1 + share*share)))
}
