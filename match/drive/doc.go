// Package drive computes how a fan is slowed: what speed it has at another
// voltage, how slow it may be planned to run, and what a linear regulator
// leaves of its supply.
//
// Speeds are shares of the speed at nominal voltage, voltages shares of nominal
// voltage where they are called so. The law of speed against voltage was
// measured on one 80 mm fan with three samples; other brushless DC fans follow
// it to about 5 % (common practice). Fans that regulate their own speed do not
// follow it at all. Arguments are plain SI values; those that are unknown are
// NaN. Everything here is a pure function without allocation.
//
// # References
//
//   - [SPCR] silentpcreview.com, article 689, page 4: speed and airflow of an
//     80×25 mm fan at 12, 9, 7 and 5 V.
//   - [Dropout] circuit-electronic-models.blogspot.com, 2012-09: a common
//     adjustable linear regulator needs 1.75 V at 0.3 A and 2 V at 1 A.
package drive
