package store

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"math"
	"slices"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// A record is one fan as bytes. It is driven by the field table, so that a new
// field needs nothing here, and keeps every number bit for bit:
//
//	head length, head: source line, remarks
//	body: number of values, values, number of extras, extras (header, text)
//	value: field number × 4 + origin, then the number (8 bytes), the text, the
//	choice, the points or the bands
//
// The head holds what may differ between two readings of one and the same fan;
// the body's hash is its fingerprint. The source's name is kept once for all
// its rows. A general encoding such as CBOR would need the same walk through
// the field table, name the fields in every record and give no stable bytes to
// hash.

// maxRecord is the most bytes of one record. No row of a parts table comes
// near; a hostile one must not fill the memory of those who read it.
const maxRecord = 1 << 20

// RowError says why a fan cannot be kept.
type RowError struct{ Reason string }

// Error gives the reason.
func (e *RowError) Error() string { return e.Reason }

// encode gives the record of f in the numbering of s.
func (s schema) encode(f *catalog.Fan) ([]byte, error) {
	if strings.TrimSpace(f.Part) == "" {
		return nil, &RowError{"it has no part"}
	}
	head := binary.AppendVarint(nil, int64(f.Source.Line))
	head = binary.AppendUvarint(head, uint64(len(f.Remarks)))
	for _, r := range f.Remarks {
		head = appendText(head, r)
	}
	b := make([]byte, 0, len(head)+256)
	b = append(binary.AppendUvarint(b, uint64(len(head))), head...)
	b, err := s.appendValues(b, f)
	if err != nil {
		return nil, err
	}
	b = binary.AppendUvarint(b, uint64(len(f.Extra)))
	for _, e := range f.Extra {
		b = appendText(appendText(b, e.Header), e.Text)
	}
	if len(b) > maxRecord {
		return nil, &RowError{fmt.Sprintf("it holds %d bytes, at most %d", len(b), maxRecord)}
	}
	return b, nil
}

func (s schema) appendValues(b []byte, f *catalog.Fan) ([]byte, error) {
	known := 0
	for _, d := range s {
		if _, origin := d.Get(f); origin != quantity.Unknown {
			known++
		}
	}
	b = binary.AppendUvarint(b, uint64(known))
	for i, d := range s {
		v, origin := d.Get(f)
		if origin == quantity.Unknown {
			continue
		}
		if reason := unstorable(d, v, origin); reason != "" {
			return nil, &RowError{fmt.Sprintf("its %s %s", d.Name, reason)}
		}
		b = binary.AppendUvarint(b, uint64(i)<<2|uint64(origin))
		b = appendValue(b, d, v)
	}
	return b, nil
}

// unstorable says why a known value cannot be kept; empty where it can.
func unstorable(d *catalog.Field, v catalog.Value, origin quantity.Origin) string {
	switch {
	case origin > quantity.Default:
		return fmt.Sprintf("has the origin %d, which there is not", origin)
	case d.Numeric() && !finite(v.Number):
		return fmt.Sprintf("is %v, which is no number", v.Number)
	case d.Form == catalog.Choice && !(v.Number >= 1 && v.Number <= float64(len(d.Choices))):
		return fmt.Sprintf("is choice %v of %d", v.Number, len(d.Choices))
	case slices.ContainsFunc(v.Curve, func(p catalog.CurvePoint) bool {
		return !finite(float64(p.Flow)) || !finite(float64(p.Pressure))
	}):
		return "has a point that is no pair of numbers"
	case slices.ContainsFunc(v.Bands, func(l quantity.BandLevel) bool {
		return !finite(float64(l.Frequency)) || !finite(float64(l.Level))
	}):
		return "has a band that is no pair of numbers"
	}
	return ""
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

func appendValue(b []byte, d *catalog.Field, v catalog.Value) []byte {
	switch d.Form {
	case catalog.Text:
		return appendText(b, v.Text)
	case catalog.Choice:
		return append(b, byte(v.Number))
	case catalog.Points:
		b = binary.AppendUvarint(b, uint64(len(v.Curve)))
		for _, p := range v.Curve {
			b = appendFloat(appendFloat(b, float64(p.Flow)), float64(p.Pressure))
		}
		return b
	case catalog.Bands:
		return appendBands(b, v.Bands)
	default:
		return appendFloat(b, v.Number)
	}
}

// decode reads a record. Bytes that encode does not write are an error.
func (s schema) decode(record []byte) (*catalog.Fan, error) {
	f := &catalog.Fan{}
	c := cursor{b: record}
	head := cursor{b: c.bytes(c.count(1))}
	f.Source.Line = int(head.int())
	for range head.count(1) {
		f.Remarks = append(f.Remarks, head.text())
	}
	if err := head.done(); err != nil {
		return nil, err
	}
	s.decodeValues(&c, f)
	if n := c.count(2); n > 0 {
		f.Extra = make([]catalog.Extra, n)
	}
	for i := range f.Extra {
		f.Extra[i] = catalog.Extra{Header: c.text(), Text: c.text()}
	}
	if strings.TrimSpace(f.Part) == "" {
		c.fail()
	}
	return f, c.done()
}

func (s schema) decodeValues(c *cursor, f *catalog.Fan) {
	next := uint64(0)
	for range c.count(2) {
		tag := c.uint()
		i, origin := tag>>2, quantity.Origin(tag&3)
		if i < next || i >= uint64(len(s)) || origin == quantity.Unknown {
			c.fail()
			return
		}
		next = i + 1
		v := decodeValue(c, s[i])
		if c.bad || unstorable(s[i], v, origin) != "" {
			c.fail()
			return
		}
		s[i].Put(f, v, origin)
	}
}

func decodeValue(c *cursor, d *catalog.Field) (v catalog.Value) {
	switch d.Form {
	case catalog.Text:
		v.Text = c.text()
		if v.Text == "" {
			c.fail()
		}
	case catalog.Choice:
		v.Number = float64(c.byte())
	case catalog.Points:
		n := c.count(16)
		if n == 0 {
			c.fail()
		}
		v.Curve = make([]catalog.CurvePoint, n)
		for i := range v.Curve {
			v.Curve[i] = catalog.CurvePoint{Flow: quantity.Flow(c.float()), Pressure: quantity.Pressure(c.float())}
		}
	case catalog.Bands:
		v.Bands = c.bands(nil)
	default:
		v.Number = c.float()
	}
	return v
}

// fingerprint stands for the values of a record, wherever its row stood.
type fingerprint [8]byte

func fingerprintOf(record []byte) fingerprint {
	c := cursor{b: record}
	c.bytes(c.count(1))
	sum := sha256.Sum256(c.b)
	return fingerprint(sum[:8])
}

// keyHash stands for a fan's key. Sixteen bytes of SHA-256 do not meet by
// accident, nor by intent.
type keyHash [16]byte

func keyHashOf(f *catalog.Fan) keyHash {
	sum := sha256.Sum256([]byte(f.Key()))
	return keyHash(sum[:16])
}
