package intake

import (
	"errors"
	"fmt"
	"strings"

	"lowsone/catalog/partscsv"
)

// OtherSheetsError says that a sheet is no parts table, and that its workbook has
// others: the first may be a cover.
type OtherSheetsError struct {
	*partscsv.NotPartsError
	Sheets []string
}

// Unwrap gives the error of the sheet that was read.
func (e *OtherSheetsError) Unwrap() error { return e.NotPartsError }

// Hint names the other sheets, and what the sheet lacks.
func (e *OtherSheetsError) Hint() string {
	const most = 10
	var names []string
	for _, s := range e.Sheets[:min(most, len(e.Sheets))] {
		names = append(names, fmt.Sprintf("%q", s))
	}
	if more := len(e.Sheets) - most; more > 0 {
		names = append(names, fmt.Sprintf("and %d more", more))
	}
	return fmt.Sprintf("read another sheet with --sheet NAME: %s; or %s", strings.Join(names, ", "), e.NotPartsError.Hint())
}

// otherSheets adds the other sheets of a workbook to what is wrong with one.
func (r *run) otherSheets(err error) error {
	var not *partscsv.NotPartsError
	if others := r.file.Dialect().OtherSheets; errors.As(err, &not) && len(others) > 0 {
		return &OtherSheetsError{not, others}
	}
	return err
}
