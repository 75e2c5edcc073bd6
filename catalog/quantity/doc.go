// Package quantity holds the physical quantities of fans and the devices they
// cool: their types, their units, and how one clean quantity is read and
// written.
//
// A quantity is a defined float64 named for what it measures and stored in SI,
// so that a pressure cannot be passed where a flow is wanted. Constants are
// units: 20*CubicMetrePerHour is a Flow, and float64(f/CFM) is a number of
// CFM. Levels and absolute temperatures are structs, since adding two of them
// with + is never right; sound pressure and sound power are two types.
//
// An unknown value is never zero: it is the zero value of Known. NaN and
// infinities are refused where text is read, and nowhere else arise.
//
// Messy catalogue cells (ranges, products, two units in one cell) are read in
// catalog/partscsv, with the units of this package.
//
// # References
//
//   - [SI] BIPM, The International System of Units, 9th edition, 2019.
//   - [NIST811] NIST Special Publication 811, 2008 edition, appendix B.8.
package quantity
