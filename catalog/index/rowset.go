package index

import "math/bits"

// rowSet is a set of the rows of one chunk, or of the texts of an index.
type rowSet []uint64

func newRowSet(size int) rowSet { return make(rowSet, (size+63)/64) }

func (s rowSet) add(n int) { s[n/64] |= 1 << (n % 64) }

func (s rowSet) has(n int) bool { return n/64 < len(s) && s[n/64]>>(n%64)&1 == 1 }

func (s rowSet) empty() bool {
	for _, w := range s {
		if w != 0 {
			return false
		}
	}
	return true
}

func (s rowSet) len() (n int) {
	for _, w := range s {
		n += bits.OnesCount64(w)
	}
	return n
}

func (s rowSet) or(t rowSet) {
	for i := range t {
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

// each passes the members in rising order.
func (s rowSet) each(visit func(n int)) {
	for i, w := range s {
		for ; w != 0; w &= w - 1 {
			visit(i*64 + bits.TrailingZeros64(w))
		}
	}
}
