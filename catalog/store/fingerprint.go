package store

import (
	"crypto/sha256"
	"encoding/binary"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// fingerprint stands for the values of a fan, wherever its row stood.
type fingerprint [8]byte

// fingerprintOf gives the fingerprint of what a fan says: its values, their
// origins and the columns that were not recognised. What may differ between two
// readings of one and the same fan does not count: its line, the remarks.
func (s schema) fingerprintOf(f *catalog.Fan, scratch []byte) (fingerprint, []byte) {
	b := scratch[:0]
	for _, d := range s {
		v, origin := d.Get(f)
		if origin == quantity.Unknown {
			continue
		}
		b = appendText(append(b, byte(origin)), d.Name)
		b = appendFloat(b, v.Number)
		b = appendText(b, v.Text)
		b = binary.AppendUvarint(b, uint64(len(v.Curve)+len(v.Bands))) // a field has only one of them
		for _, p := range v.Curve {
			b = appendFloat(appendFloat(b, float64(p.Flow)), float64(p.Pressure))
		}
		for _, l := range v.Bands {
			b = appendFloat(appendFloat(b, float64(l.Frequency)), float64(l.Level))
		}
	}
	b = binary.AppendUvarint(append(b, 0), uint64(len(f.Extra)))
	for _, e := range f.Extra {
		b = appendText(appendText(b, e.Header), e.Text)
	}
	sum := sha256.Sum256(b)
	return fingerprint(sum[:8]), b
}
