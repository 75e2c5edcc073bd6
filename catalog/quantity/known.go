package quantity

// Origin says where a value comes from. Its zero value is Unknown.
type Origin uint8

// The origins, weakest claim last.
const (
	Unknown  Origin = iota
	Cell            // stated: by a catalogue cell, or by the person who asks
	Estimate        // computed from similar fans or a trade rule, because no sheet gave it
	Default         // the trade's silent convention (1 m, 1.2 kg/m³), said once under a table; or said at the import for all rows
)

var originNames = [...]string{"unknown", "cell", "estimate", "default"}

// String gives the origin's name as it stands in JSON.
func (o Origin) String() string {
	if int(o) < len(originNames) {
		return originNames[o]
	}
	return originNames[Unknown]
}

// Known is a value with its origin; the zero value is unknown.
type Known[T any] struct {
	value  T
	origin Origin
}

// From gives v as known from origin o. With Unknown it gives the zero Known.
func From[T any](v T, o Origin) Known[T] {
	if o == Unknown {
		return Known[T]{}
	}
	return Known[T]{v, o}
}

// Stated gives v as stated by a cell or a person.
func Stated[T any](v T) Known[T] { return Known[T]{v, Cell} }

// Get gives the value, and whether there is one.
func (k Known[T]) Get() (T, bool) { return k.value, k.origin != Unknown }

// Or gives the value, or other where it is unknown.
func (k Known[T]) Or(other T) T {
	if k.origin == Unknown {
		return other
	}
	return k.value
}

// Known says whether there is a value.
func (k Known[T]) Known() bool { return k.origin != Unknown }

// Origin says where the value comes from.
func (k Known[T]) Origin() Origin { return k.origin }
