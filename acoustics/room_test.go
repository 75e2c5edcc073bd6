package acoustics

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lowsone/catalog/quantity"
)

// The band holds the room's formula: free air where the room is dead, 6 dB more
// at 1 m of a small room, and no more fall well beyond the critical distance.
func TestRoomBand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		room := quantity.Area(rapid.Float64Range(5, 200).Draw(t, "room"))
		to := quantity.Length(rapid.Float64Range(0.2, 20).Draw(t, "to"))
		low, high := RoomBand(level(40), 1, to, room)
		if free := AtDistance(level(40), 1, to); low != free {
			t.Fatalf("low = %v, want free air %v", low, free)
		}
		// The source whose free-air level at 1 m on a surface is 40 dB.
		lw := quantity.PowerLevel(40 + 10*math.Log10(4*math.Pi/2))
		if want := InRoom(lw, 2, to, room).DB(); math.Abs(high.DB()-want) > 1e-9 {
			t.Fatalf("high = %v, want InRoom %v", high, want)
		}
	})
	_, near := RoomBand(level(40), 1, 1, SmallRoom)
	check(t, "RoomBand at 1 m, SmallRoom", near.DB(), 46, 0.25, "physics of small rooms: +6 dB, common practice")
	_, far := RoomBand(level(40), 1, 6, SmallRoom)
	_, farther := RoomBand(level(40), 1, 12, SmallRoom)
	check(t, "RoomBand at 6 and 12 m", far.DB(), farther.DB(), 0.05, "the level no longer falls")
	check(t, "CriticalDistance(SmallRoom)", float64(CriticalDistance(SmallRoom)), 0.6, 1e-12, "doc of SmallRoom")
	low, high := RoomBand(level(40), 1, 3, quantity.Area(math.Inf(1)))
	if low != high {
		t.Errorf("RoomBand in free air = %v to %v, want one level", low, high)
	}
}

// The round 11 dB lies 0.008 dB off the sphere's formula, as its doc says.
func TestFromPower(t *testing.T) {
	free := InRoom(quantity.PowerLevel(50), 1, LabelDistance, quantity.Area(math.Inf(1)))
	check(t, "FromPower(50)", FromPower(quantity.PowerLevel(50)).DB(), 39, 0, "Lw − 11")
	check(t, "InRoom − FromPower", free.DB()-FromPower(quantity.PowerLevel(50)).DB(), 0.008, 0.0005, "doc of FromPower")
}
