package store

import (
	"encoding/binary"
	"errors"
	"math"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// Bands of rows that the chunk does not hold, or that come twice, are no bands.
func TestBandsOfOtherRows(t *testing.T) {
	fan := &catalog.Fan{Part: "A1", NoiseBands: []quantity.BandLevel{{Frequency: 63, Level: 41}}}
	chunk := encodeBands(catalog.ColumnsOf(fan, fan, fan))
	if err := decodeBands(chunk, 0, 2, &catalog.Columns{}); !errors.Is(err, errBytes) {
		t.Errorf("bands of three rows in a chunk of two: %v", err)
	}
	back := binary.AppendUvarint(nil, 2)
	back = appendBands(binary.AppendUvarint(back, 1), fan.NoiseBands)
	back = appendBands(binary.AppendUvarint(back, math.MaxUint64), fan.NoiseBands) // the row before
	if err := decodeBands(back, 0, 8, &catalog.Columns{}); !errors.Is(err, errBytes) {
		t.Errorf("rows that run backwards: %v", err)
	}
}

func TestUnstorableBands(t *testing.T) {
	for _, b := range []quantity.BandLevel{{Frequency: 63, Level: quantity.Decibel(math.NaN())}, {Frequency: quantity.Frequency(math.Inf(1)), Level: 41}} {
		var re *RowError
		if _, err := currentSchema().encode(&catalog.Fan{Part: "A1", NoiseBands: []quantity.BandLevel{b}}); !errors.As(err, &re) {
			t.Errorf("a fan with the band %v: %v, want a RowError", b, err)
		}
	}
}
