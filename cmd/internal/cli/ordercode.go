package cli

import (
	"context"
	"slices"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/store"
)

// byOrderCode finds the one fan of the catalogue that has an order code, whatever
// its case; nil where none has it, or several have.
func byOrderCode(ctx context.Context, cat *store.Catalogue, code string) (*catalog.Fan, error) {
	code = strings.TrimSpace(code)
	if code == "" {
		return nil, nil
	}
	columns, err := cat.Columns(ctx, catalog.FieldOrderCode)
	if err != nil {
		return nil, err
	}
	var rows []int
	for i := range columns.Rows {
		if strings.EqualFold(columns.Text(catalog.FieldOrderCode, i), code) {
			rows = append(rows, i)
		}
	}
	fans, err := cat.Fans(ctx, rows)
	if err != nil || len(namesakes(cat, rows, fans)) != 1 {
		return nil, err
	}
	return fans[0], nil
}

// lookupOrderCode looks the fan up whose order code the name is, as if its name had
// been given; none where there is no such fan.
func (o *showOptions) lookupOrderCode(ctx context.Context, c *store.Catalogue) (found, elsewhere []namesake, err error) {
	fan, err := byOrderCode(ctx, c, o.name)
	if fan == nil || err != nil {
		return nil, nil, err
	}
	of := *o
	of.name = partName(fan)
	found, elsewhere, err = of.lookup(ctx, c)
	other := func(n namesake) bool { return n.fan.Key() != fan.Key() } // of the same part number
	found, elsewhere = slices.DeleteFunc(found, other), slices.DeleteFunc(elsewhere, other)
	if len(found) == 1 {
		o.session.say("%q is the order code of %s (%s)", o.name, fan.Name(), fan.Source.Name)
	}
	return found, elsewhere, err
}
