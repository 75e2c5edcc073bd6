package partscsv

import (
	"slices"

	"lowsone/catalog"
)

// Extras puts the headers of the columns that no field stands for into an order
// in which each fan has its own: that of their file. Where the files of several
// sources contradict each other, what came first stands first.
type Extras struct {
	names []string
	at    map[string]int // place in names
	next  []map[int]bool // by name: those that stand right behind it in some fan
	last  []catalog.Extra
}

// Add takes in the extras of a fan.
func (x *Extras) Add(f *catalog.Fan) {
	same := func(a, b catalog.Extra) bool { return a.Header == b.Header }
	if slices.EqualFunc(f.Extra, x.last, same) {
		return
	}
	x.last = f.Extra
	before := -1
	for _, e := range f.Extra {
		n := x.place(e.Header)
		if before >= 0 {
			x.next[before][n] = true
		}
		before = n
	}
}

func (x *Extras) place(header string) int {
	if n, ok := x.at[header]; ok {
		return n
	}
	if x.at == nil {
		x.at = map[string]int{}
	}
	n := len(x.names)
	x.at[header] = n
	x.names, x.next = append(x.names, header), append(x.next, map[int]bool{})
	return n
}

// List gives the headers in their order.
func (x *Extras) List() []string {
	before := make([]int, len(x.names)) // how many not yet listed stand before each
	for _, next := range x.next {
		for n := range next {
			before[n]++
		}
	}
	var list []string
	listed := make([]bool, len(x.names))
	for range x.names {
		n := firstFree(before, listed)
		list = append(list, x.names[n])
		listed[n] = true
		for m := range x.next[n] {
			before[m]--
		}
	}
	return list
}

// firstFree gives the first that none stands before; the first of all, where each
// has one before.
func firstFree(before []int, listed []bool) int {
	first := -1
	for n := range before {
		switch {
		case listed[n]:
		case before[n] <= 0:
			return n
		case first < 0:
			first = n
		}
	}
	return first
}
