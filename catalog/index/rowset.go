package index

import "math/bits"

// rowSet is a set of the documents of one shard.
type rowSet []uint64

func newRowSet(documents uint64) rowSet { return make(rowSet, (documents+63)/64) }

func (s rowSet) add(doc uint64) { s[doc/64] |= 1 << (doc % 64) }

func (s rowSet) or(t rowSet) {
	for i := range s {
		s[i] |= t[i]
	}
}

func (s rowSet) and(t rowSet) {
	for i := range s {
		s[i] &= t[i]
	}
}

func (s rowSet) without(t rowSet) {
	for i := range s {
		s[i] &^= t[i]
	}
}

// each passes the documents in rising order, until visit refuses one.
func (s rowSet) each(visit func(doc uint64) error) error {
	for i, w := range s {
		for ; w != 0; w &= w - 1 {
			if err := visit(uint64(i*64 + bits.TrailingZeros64(w))); err != nil {
				return err
			}
		}
	}
	return nil
}
