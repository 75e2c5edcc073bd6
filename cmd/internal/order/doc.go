// Package order holds the lines of an order list: which fan, how many, at what
// price, and why. It totals them by currency, and reads and writes the list as
// CSV.
//
// Assumptions: a price is per piece, without tax and shipping, in the currency
// its catalogue row names; amounts of different currencies are never added. A
// price that no row gave stays unknown and is counted, not taken for 0.
//
// Texts come from catalogues that others wrote. A cell that a spreadsheet would
// run as a formula is written with a leading apostrophe, which reading takes
// off again.
package order
