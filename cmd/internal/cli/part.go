package cli

import (
	"context"
	"fmt"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/store"
)

// onePart finds the one fan of the catalogue that a flag or argument names as
// PART or MAKER/PART.
func onePart(ctx context.Context, cat *store.Catalogue, flag, name string) (int, *catalog.Fan, error) {
	rows, err := cat.Lookup(name)
	if err != nil {
		return 0, nil, err
	}
	if len(rows) == 0 {
		return 0, nil, noPart(ctx, cat, flag, name)
	}
	fans, err := cat.Fans(ctx, rows)
	if err != nil {
		return 0, nil, err
	}
	if len(rows) > 1 {
		return 0, nil, usagef("write one of "+strings.Join(partNames(fans), ", "), "%s %q stands for %d fans", flag, name, len(rows))
	}
	return rows[0], fans[0], nil
}

// partNames writes fans as onePart reads them.
func partNames(fans []*catalog.Fan) []string {
	var names []string
	for _, f := range fans {
		names = append(names, partName(f))
	}
	return names
}

func partName(f *catalog.Fan) string {
	if f.Maker == "" {
		return f.Part
	}
	return f.Maker + "/" + f.Part
}

// mostNearest is how many similar parts are named.
const mostNearest = 3

// nearestParts names the fans that a search for a wrong part finds first.
func nearestParts(ctx context.Context, cat *store.Catalogue, name string) ([]string, error) {
	hits, err := cat.Search(ctx, name, mostNearest)
	if err != nil {
		return nil, err
	}
	rows := make([]int, len(hits))
	for i, h := range hits {
		rows[i] = h.Row
	}
	fans, err := cat.Fans(ctx, rows)
	return partNames(fans), err
}

func noPart(ctx context.Context, cat *store.Catalogue, flag, name string) error {
	return noPartIn(ctx, cat, "a fan that is not there can be described with --fitted FIELD=VALUE", flag+": no fan %q in the catalogue", name)
}

// noPartIn says that a fan is not there, which come near, and what else can be
// done.
func noPartIn(ctx context.Context, cat *store.Catalogue, otherwise, format, name string) error {
	hint := "lowsone search finds parts; " + otherwise
	nearest, err := nearestParts(ctx, cat, name)
	if err != nil {
		return err
	}
	if len(nearest) > 0 {
		hint = fmt.Sprintf("did you mean %s? %s", strings.Join(nearest, " or "), hint)
	}
	return failf(hint, format, name)
}
