// Package catalog defines what is known of a fan: the record, the table of its
// fields with their names, units and trade words, the key that identifies it,
// the checks its values must pass, and the columns and filters by which many
// fans are searched and ranked. It does no input or output.
//
// The field table (Fields) is the one place that names a column: reading and
// writing CSV, describing a fitted fan by FIELD=VALUE, sorting, JSON records
// and the columns for ranking all go through it.
package catalog
