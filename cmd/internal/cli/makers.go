package cli

import (
	"context"
	"slices"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/store"
)

// makersNamed is how many makers a wrong one is answered with.
const makersNamed = 20

// strangeMaker names the makers of a catalogue that does not have the given
// one; empty where it has.
func strangeMaker(ctx context.Context, c *store.Catalogue, maker string) (string, error) {
	columns, err := c.Columns(ctx, catalog.FieldMaker)
	if err != nil {
		return "", err
	}
	spelling := map[string]string{}
	for i := range columns.Rows {
		if name := columns.Text(catalog.FieldMaker, i); name != "" {
			if key := catalog.FoldKey(name); spelling[key] == "" {
				spelling[key] = name
			}
		}
	}
	if spelling[catalog.FoldKey(maker)] != "" || len(spelling) == 0 {
		return "", nil
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
		return near + " " + text, nil
	}
	return text, nil
}
