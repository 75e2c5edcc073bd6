package store

import (
	"crypto/sha256"
	"fmt"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// Row is a fan ready to be added.
type Row struct {
	fan   *catalog.Fan
	key   keyHash
	bytes int
	note  uint8
}

// NewRow makes a fan ready to be added; it belongs to the row from then on. The
// note is the caller's: [Standing] counts notes. Several goroutines may make
// rows at once. Errors: *RowError where no catalogue can hold the fan.
func NewRow(f *catalog.Fan, note uint8) (Row, error) {
	bytes, err := storable(f)
	if err != nil {
		return Row{}, err
	}
	return Row{f, keyHashOf(f), bytes, note}, nil
}

// maxRecord is the most bytes of texts and pairs in one record. No row of a
// parts table comes near; a hostile one must not fill the memory of those who
// read it.
const maxRecord = 1 << 20

// RowError says why a fan cannot be kept.
type RowError struct{ Reason string }

// Error gives the reason.
func (e *RowError) Error() string { return e.Reason }

// storable says how many bytes a fan takes in about, or why it cannot be kept: a
// *RowError.
func storable(f *catalog.Fan) (bytes int, err error) {
	if strings.TrimSpace(f.Part) == "" {
		return 0, &RowError{"it has no part"}
	}
	for i := range catalog.Fields {
		d := &catalog.Fields[i]
		v, origin := d.Get(f)
		if origin == quantity.Unknown {
			continue
		}
		if reason := unstorable(d, &v, origin); reason != "" {
			return 0, &RowError{fmt.Sprintf("its %s %s", d.Name, reason)}
		}
		bytes += 8 + len(v.Text) + 16*(len(v.Curve)+len(v.Bands))
	}
	for i := range f.Extra {
		bytes += 8 + len(f.Extra[i].Header) + len(f.Extra[i].Text)
	}
	for _, r := range f.Remarks {
		bytes += 8 + len(r)
	}
	if bytes > maxRecord {
		return 0, &RowError{fmt.Sprintf("it holds %d bytes, at most %d", bytes, maxRecord)}
	}
	return bytes, nil
}

// unstorable says why a known value cannot be kept; empty where it can.
func unstorable(d *catalog.Field, v *catalog.Value, origin quantity.Origin) string {
	if origin > quantity.Default {
		return fmt.Sprintf("has the origin %d, which there is not", origin)
	}
	switch d.Form {
	case catalog.Text:
		if v.Text == "" {
			return "is empty"
		}
	case catalog.Choice:
		if !(v.Number >= 1 && v.Number <= float64(len(d.Choices))) {
			return fmt.Sprintf("is choice %v of %d", v.Number, len(d.Choices))
		}
	case catalog.Points:
		for _, p := range v.Curve {
			if !finite(float64(p.Flow)) || !finite(float64(p.Pressure)) {
				return "has a point that is no pair of numbers"
			}
		}
	case catalog.Bands:
		for _, l := range v.Bands {
			if !finite(float64(l.Frequency)) || !finite(float64(l.Level)) {
				return "has a band that is no pair of numbers"
			}
		}
	default:
		if !finite(v.Number) {
			return fmt.Sprintf("is %v, which is no number", v.Number)
		}
	}
	return ""
}

// finite says whether v is a number: neither infinite nor none.
func finite(v float64) bool { return v-v == 0 }

// keyHash stands for a fan's key. Sixteen bytes of SHA-256 do not meet by
// accident, nor by intent.
type keyHash [16]byte

func keyHashOf(f *catalog.Fan) keyHash {
	sum := sha256.Sum256([]byte(f.Key()))
	return keyHash(sum[:16])
}
