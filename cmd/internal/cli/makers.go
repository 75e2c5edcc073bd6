package cli

import (
	"slices"
	"strings"

	"lowsone/catalog"
)

// makersNamed is how many makers a wrong one is answered with.
const makersNamed = 20

// strangeMaker names the makers of a catalogue that does not have the given
// one; empty where it has.
func strangeMaker(columns *catalog.Columns, maker string) string {
	spelling := map[string]string{}
	for i := range columns.Rows {
		if name := columns.Text(catalog.FieldMaker, i); name != "" {
			if key := catalog.FoldKey(name); spelling[key] == "" {
				spelling[key] = name
			}
		}
	}
	if spelling[catalog.FoldKey(maker)] != "" || len(spelling) == 0 {
		return ""
	}
	var names []string
	for _, name := range spelling {
		names = append(names, name)
	}
	slices.Sort(names)
	text := "no maker is called that: makers are " + strings.Join(names[:min(len(names), makersNamed)], ", ")
	if len(names) > makersNamed {
		text += ", …"
	}
	if near := nearest(maker, names); near != "" {
		return near + " " + text
	}
	return text
}
