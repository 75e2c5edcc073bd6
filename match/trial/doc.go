// Package trial reads what was measured at a device over time: temperature logs
// as loggers and spreadsheets write them, each probe ready for package thermal.
//
// A log is a CSV with a column of times and a column for each probe; how it is
// written is found as for parts lists (package tabular). What a column means is
// taken from its header, and from its cells where they tell; what neither tells
// is asked for, never guessed, but for one: a temperature without a unit is in
// °C.
//
// Assumptions:
//   - Times are those of one clock that is not set during the log. A clock
//     without a date may pass midnight once between two readings.
//   - A cell without a number is no reading: a probe that fell off, an overload.
package trial
