package intake

import (
	"os"
	"path/filepath"
	"strings"
)

// sweep removes the half-written lists of rejected rows that killed imports left
// in the catalogue's folder. The import lock must be held.
func sweep(catalog string) {
	entries, _ := os.ReadDir(catalog) // what is not seen stays for the next import
	for _, e := range entries {
		if leftBehind(e.Name()) {
			_ = os.Remove(filepath.Join(catalog, e.Name()))
		}
	}
}

// leftBehind says whether a name is the temporary one of a list of rejected rows:
// a dot, its name, and a number.
func leftBehind(name string) bool {
	list, ok := strings.CutPrefix(name, ".rejects-")
	i := strings.LastIndex(list, ".csv")
	if !ok || i < 0 {
		return false
	}
	number := list[i+len(".csv"):]
	return number != "" && strings.Trim(number, "0123456789") == ""
}
