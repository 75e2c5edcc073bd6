// Package partscsv reads the rows of a parts CSV that nobody prepared into
// fans, and writes fans as the tool's own CSV.
package partscsv
