package partscsv

import "lowsone/catalog/tabular"

// parsePlain reads a number of a header; a comma may be its decimal mark.
func parsePlain(text string) (float64, error) {
	mark := tabular.Point
	for i := range len(text) {
		if text[i] == ',' {
			mark = tabular.Comma
		}
	}
	return tabular.ParseNumber(text, mark)
}
