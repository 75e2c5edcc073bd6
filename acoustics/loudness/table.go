package loudness

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
)

// Range and mesh of a Table.
const (
	tableLow     = -10.0 // dB(A): no sound is heard at less, whatever its spectrum
	tableHigh    = 100.0 // dB(A): above it is computed afresh
	cellsPerDB   = 4
	tableCells   = int(tableHigh-tableLow) * cellsPerDB
	finest       = 1e-6 // dB, width of a piece that may hold a step
	meshRelative = 5e-4 // what a piece may be off by in the middle
	meshAbsolute = 5e-5 // sone
)

// ErrSilent is why a spectrum without sound has no Table.
var ErrSilent = errors.New("tabulate loudness: a spectrum without sound has no shape")

// A Table knows the loudness of sounds of one spectral shape by their A-weighted
// level, fast. It is only read, and may be used from many goroutines.
//
// From -10 to 100 dB(A) it is within 0.5 % or 0.001 sone of the loudness itself;
// a step that loudness takes, see the package, becomes a ramp a millionth of a dB
// wide. Above it is the loudness itself, at the cost of Sone.
type Table struct {
	shape  acoustics.Thirds // at 0 dB(A)
	field  Field
	pieces []piece               // by their level; the last ends the table and has no slope
	first  [tableCells + 1]int32 // of each cell its first piece
}

// A piece is a straight line of loudness over level, up to the next piece.
type piece struct {
	from  float64 // dB(A)
	sone  float64 // there
	slope float64 // sone/dB
}

// NewTable tabulates the loudness of sounds with this shape; at what level the
// shape is given plays no part. It gives a *LevelError for a band that is NaN or
// +Inf, and ErrSilent where there is no sound. It takes as long as some thousand
// calls of Sone.
func NewTable(shape *acoustics.Thirds, f Field) (*Table, error) {
	if f > Diffuse {
		return nil, fmt.Errorf("tabulate loudness: %q is no sound field", f)
	}
	for i, level := range shape {
		if !(level <= math.MaxFloat64) {
			return nil, &LevelError{Band: i, Level: level}
		}
	}
	a := shape.A()
	if math.IsInf(a.DB(), -1) {
		return nil, ErrSilent
	}
	t := &Table{shape: shape.Plus(quantity.Decibel(-a.DB())), field: f}
	for cell := range tableCells {
		t.first[cell] = int32(len(t.pieces))
		from, to := levelOfCell(cell), levelOfCell(cell+1)
		t.mesh(from, to, t.compute(from), t.compute(to))
	}
	t.first[tableCells] = int32(len(t.pieces))
	t.pieces = append(t.pieces, piece{from: tableHigh, sone: t.compute(tableHigh)})
	t.pieces = slices.Clip(t.pieces)
	return t, nil
}

func levelOfCell(cell int) float64 { return tableLow + float64(cell)/cellsPerDB }

// mesh covers the levels between two with pieces, cut in halves until straight
// lines will do.
func (t *Table) mesh(from, to, soneFrom, soneTo float64) {
	width := to - from
	if width <= finest || t.straight(from, width, soneFrom, soneTo) {
		t.pieces = append(t.pieces, piece{from, soneFrom, (soneTo - soneFrom) / width})
		return
	}
	middle := from + width/2
	sone := t.compute(middle)
	t.mesh(from, middle, soneFrom, sone)
	t.mesh(middle, to, sone, soneTo)
}

// straight tells whether loudness at three levels between lies near enough to
// the line.
func (t *Table) straight(from, width, soneFrom, soneTo float64) bool {
	for _, share := range [...]float64{0.5, 0.25, 0.75} {
		sone := t.compute(from + share*width)
		line := soneFrom + share*(soneTo-soneFrom)
		if math.Abs(sone-line) > meshRelative*sone+meshAbsolute {
			return false
		}
	}
	return true
}

// compute gives the loudness itself at a level in dB(A).
func (t *Table) compute(dbA float64) float64 {
	l := t.shape.Plus(quantity.Decibel(dbA))
	return Sone(&l, t.field)
}

// Sone gives the loudness in sone at an A-weighted level in dB: 0 below the
// threshold, never falling with the level; NaN for NaN.
func (t *Table) Sone(dbA float64) float64 {
	switch {
	case dbA < tableLow:
		return 0
	case math.IsInf(dbA, 1):
		return dbA
	case !(dbA < tableHigh):
		return t.compute(dbA)
	}
	cell := int((dbA - tableLow) * cellsPerDB)
	i, end := int(t.first[cell]), int(t.first[cell+1])
	for end-i > 1 {
		if middle := (i + end) / 2; t.pieces[middle].from <= dbA {
			i = middle
		} else {
			end = middle
		}
	}
	p := &t.pieces[i]
	// Rounding must not lift the line over the next piece.
	return min(p.sone+(dbA-p.from)*p.slope, t.pieces[i+1].sone)
}

// Level gives the least A-weighted level in dB at which the loudness is sone, the
// inverse of Sone: -Inf for 0, NaN below 0 and for NaN.
func (t *Table) Level(sone float64) float64 {
	last := len(t.pieces) - 1
	switch {
	case !(sone >= 0):
		return math.NaN()
	case sone == 0:
		return math.Inf(-1)
	case math.IsInf(sone, 1):
		return sone
	case sone > t.pieces[last].sone:
		return t.above(sone)
	}
	i, _ := slices.BinarySearchFunc(t.pieces, sone, func(p piece, sone float64) int {
		if p.sone < sone {
			return -1
		}
		return 1
	})
	p := &t.pieces[i-1] // the first piece is silent
	return min(p.from+(sone-p.sone)/p.slope, t.pieces[i].from)
}

// above gives the level of a loudness beyond the table.
func (t *Table) above(sone float64) float64 {
	low, high := tableHigh, 2*tableHigh
	for t.compute(high) < sone {
		low, high = high, 2*high
	}
	for {
		middle := low + (high-low)/2
		if middle <= low || middle >= high {
			return high
		}
		if t.compute(middle) < sone {
			low = middle
		} else {
			high = middle
		}
	}
}

// Halving gives by how many dB a sound of that A-weighted level must fall to be
// half as loud: near 10 dB at 60 dB(A), much less at the levels of quiet fans.
// It is NaN for a sound that is not heard.
func (t *Table) Halving(dbA float64) float64 {
	sone := t.Sone(dbA)
	if !(sone > 0) {
		return math.NaN()
	}
	return dbA - t.Level(sone/2)
}
