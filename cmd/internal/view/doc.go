// Package view puts results before people and programs: tables for the
// terminal, JSON objects, CSV lists. It decides on digits, units, marks and
// colours, and computes nothing else.
//
// Every result is a [Document]. [Write] gives it in the [Format] asked for.
// The JSON shapes are structs of this package; library types carry no tags.
//
// Assumptions:
//   - A terminal understands UTF-8 and, where colours are allowed, the SGR
//     sequences for bold and faint. Nothing else is ever sent to it: what comes
//     from a catalogue goes through [Clean] first.
//   - An unknown number is NaN here as in catalog.Columns; people see it as a
//     dash, JSON does not have the key.
package view
