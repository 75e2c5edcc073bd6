package match

import (
	"context"
	"math"
	"strings"
	"testing"

	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match/resistance"
)

func heardOf(t testing.TB, d *Device) ([]Heard, []string) {
	t.Helper()
	heard, missing, err := d.Heard(context.Background(), catalog.ColumnsOf())
	if err != nil {
		t.Fatal(err)
	}
	return heard, missing
}

// Two equal fans on a path are 3 dB louder than one; a measured level is told as
// measured, brought to the listener by 20·lg of the distances.
func TestHeard(t *testing.T) {
	fan := fanOf(t, loud)
	path := Path{Name: "one", Fitted: fan, Row: NotInCatalogue, Seat: SeatOf(fan), Way: byFlow(30)}
	twin, quiet, bare := path, path, path
	twin.Name, twin.Fans, twin.Way = "twin", 2, byFlow(60) // each of the two moves 30
	quiet.Name, quiet.Reading = "measured", &Reading{Level: quantity.PressureLevel(50), Distance: 0.5}
	bare.Name, bare.Fitted, bare.Way = "bare", fanOf(t, "part=B noise_dba=30"), Way{Method: resistance.ByShare, Share: 0.55}
	d := &Device{Listener: quantity.Stated(2 * quantity.Metre), Paths: []Path{path, twin, quiet, bare},
		Sources: []Source{{Name: "hum", Level: quantity.PressureLevel(28), Distance: 1}}}
	heard, missing := heardOf(t, d)
	if len(heard) != 5 || len(missing) != 0 {
		t.Fatalf("heard %+v, missing %v: want four paths and a source", heard, missing)
	}
	for i, want := range []struct {
		by    HeardBy
		level float64
	}{
		{HeardLaws, heard[0].Level}, {HeardLaws, heard[0].Level + float64(acoustics.Identical(2))},
		{HeardMeasured, 50 - 20*math.Log10(2/0.5)}, {HeardLabel, 30 - 20*math.Log10(2)}, {HeardMeasured, 28 - 20*math.Log10(2)},
	} {
		if got := heard[i]; got.By != want.by || !near(got.Level, want.level, 1e-9) {
			t.Errorf("%s: %.3f dB(A) by %s, want %.3f by %s", got.Name, got.Level, HeardNames[got.By], want.level, HeardNames[want.by])
		}
	}
	if heard[4].Path != OtherSource || heard[1].Path != 1 {
		t.Errorf("paths %d and %d, want %d and 1", heard[4].Path, heard[1].Path, OtherSource)
	}
}

func TestHeardNamesWhatIsMissing(t *testing.T) {
	mute := fanOf(t, "part=M")
	d := &Device{Paths: []Path{{Fitted: mute, Row: NotInCatalogue, Way: byFlow(30)}}}
	heard, missing := heardOf(t, d)
	if len(heard) != 0 || len(missing) != 1 || !strings.Contains(missing[0], "the fan") {
		t.Errorf("heard %+v, missing %q: want the fan to be missing", heard, missing)
	}
}
