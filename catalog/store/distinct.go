package store

import "hash/maphash"

// A distincts tells the different values of a column apart and gives each a
// code, in the order they come. It is used again from column to column; codes
// are kept below 65 536.
type distincts struct {
	seed   maphash.Seed
	places []uint32 // code + 1; 0: free
	bits   []uint64 // of the values, by code, where they are numbers
	texts  []string // where they are texts
}

func newDistincts() *distincts {
	return &distincts{seed: maphash.MakeSeed()} // only of where a value is looked for
}

// reset begins a column of at most so many values.
func (d *distincts) reset(most int) {
	size := 16
	for size < 2*most {
		size *= 2
	}
	if cap(d.places) < size {
		d.places = make([]uint32, size)
	}
	d.places = d.places[:size]
	clear(d.places)
	d.bits, d.texts = d.bits[:0], d.texts[:0]
}

// mostCodes is how many values codes can tell apart.
const mostCodes = 1 << 16

// number gives the code of a number by its bits; not ok where there are too
// many.
func (d *distincts) number(bits uint64) (code uint16, ok bool) {
	mask := uint32(len(d.places) - 1)
	// The middle bits of a product depend on all bits of its factors.
	for at := uint32(bits * 0x9E3779B97F4A7C15 >> 32); ; at++ {
		p := &d.places[at&mask]
		switch {
		case *p == 0:
			if len(d.bits) == mostCodes {
				return 0, false
			}
			d.bits = append(d.bits, bits)
			*p = uint32(len(d.bits))
			return uint16(*p - 1), true
		case d.bits[*p-1] == bits:
			return uint16(*p - 1), true
		}
	}
}

// text gives the code of a text, of which there must not be too many.
func (d *distincts) text(s string) uint16 {
	mask := uint32(len(d.places) - 1)
	for at := uint32(maphash.String(d.seed, s)); ; at++ {
		p := &d.places[at&mask]
		switch {
		case *p == 0:
			d.texts = append(d.texts, s)
			*p = uint32(len(d.texts))
			return uint16(*p - 1)
		case d.texts[*p-1] == s:
			return uint16(*p - 1)
		}
	}
}
